"""Quantities: numbers with unit and SI prefix, in text and in formulas."""

from __future__ import annotations

import math
import unicodedata

from ...circuit.numerals import power_of_ten
from ...circuit.units import UNITS
from ...circuit.values import show, show_plain

DIGITS = 4  # significant digits shown; a worked example needs no more, and a plug-in meter gives fewer
_LEAST = 1e-12  # below it a result is rounding, and the trade has no prefix
_LATEX_UNITS = {"Ω": r"\Omega", "µ": r"\mu{}", "°": r"{}^{\circ}", "%": r"\%", "²": "^2"}


def quantity_text(value: float, unit: str, given: bool = False) -> str:
    """A value with its unit: 9.646 kΩ.

    Plain numbers, per cent, angles, temperatures, hours and kilowatt-hours take no SI prefix.

    Parameters
    ----------
    given
        A value that is put into a formula: however small, it is written out.

    Examples
    --------
    >>> quantity_text(9645.8, "Ω"), quantity_text(1.3421e-26, "A"), quantity_text(1.3421e-26, "A", given=True)
    ('9.646 kΩ', '0 A', '1.342·10⁻²⁶ A')
    """
    value = float(value)
    if given and 0 < abs(value) < _LEAST and not UNITS[unit].plain and unit != "F":
        return f"{power_of_ten(value, DIGITS)} {unit}"
    if UNITS[unit].plain and math.isfinite(value):
        return show_plain(value, unit, DIGITS)
    return show(value, unit, DIGITS)


def quantity_latex(value: float, unit: str, given: bool = False) -> str:
    """The same for a formula: number, thin space, upright unit.

    Parameters
    ----------
    given
        As for `quantity_text`.
    """
    number, _, tail = quantity_text(value, unit, given).partition(" ")
    digits, raised, power = number.partition("·10")
    if raised:
        number = f"{digits}e{unicodedata.normalize('NFKC', power).replace('−', '-')}"
    for plain, latex in _LATEX_UNITS.items():
        tail = tail.replace(plain, latex)
    if "e" in number:
        digits, _, power = number.partition("e")
        number = rf"{digits} \cdot 10^{{{int(power)}}}"
    return rf"{number}\,\mathrm{{{tail}}}" if tail else number
