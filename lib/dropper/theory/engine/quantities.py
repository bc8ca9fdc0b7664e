"""Quantities: numbers with unit and SI prefix, in text and in formulas."""

from __future__ import annotations

import math

from ...circuit.units import UNITS
from ...circuit.values import show, show_plain

DIGITS = 4  # significant digits shown; a worked example needs no more, and a plug-in meter gives fewer
_LATEX_UNITS = {"Ω": r"\Omega", "µ": r"\mu{}", "°": r"{}^{\circ}", "%": r"\%", "²": "^2"}


def quantity_text(value: float, unit: str) -> str:
    """A value with its unit: `shown(9645.8, "Ω")` gives '9.646 kΩ'.

    Plain numbers, per cent, angles, temperatures, hours and kilowatt-hours take no SI prefix.
    """
    value = float(value)
    if UNITS[unit].plain and math.isfinite(value):
        return show_plain(value, unit, DIGITS)
    return show(value, unit, DIGITS)


def quantity_latex(value: float, unit: str) -> str:
    """The same for a formula: number, thin space, upright unit."""
    number, _, tail = quantity_text(value, unit).partition(" ")
    for plain, latex in _LATEX_UNITS.items():
        tail = tail.replace(plain, latex)
    if "e" in number:
        digits, _, power = number.partition("e")
        number = rf"{digits} \cdot 10^{{{int(power)}}}"
    return rf"{number}\,\mathrm{{{tail}}}" if tail else number
