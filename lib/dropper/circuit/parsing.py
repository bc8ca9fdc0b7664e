"""Parsing: a value as people type it, "330 nF", "1 M", "4R7", "1k5", read as a number in SI units.

Text is never evaluated as code: a value is a number, an SI prefix and a unit, or a letter-and-digit code of IEC 60062,
and anything else is a clear error.
"""

import math
import re
import unicodedata

import quantiphy
import rkm_codes

from . import slips
from .excerpt import excerpt
from .units import UNITS

_LONGEST = 40  # characters
_LOOKALIKES = {0x2126: "Ω", 0x03BC: "µ", 0xBA: "°"} | dict.fromkeys(map(ord, "−–‒﹣－"), "-")
_UNSEEN = dict.fromkeys((0x200B, 0x200E, 0x200F, 0x2060, 0xFEFF))  # come along with what is copied from a page
_NO_PART = re.compile(r'[_":=#]')  # of a value: quantiphy would take names and remarks for themselves
# 4R7, R47, 1k5, 4n7, 470R, and a tolerance letter behind: 4K7J (IEC 60062).
_CODE = re.compile(r"\d*[pnuµmRkKMG]\d*[BCDFGJKMZΩ]?")


class ValueTextError(ValueError):
    """A value that cannot be read; the message says which, why and what would do."""


def parse(text: str | float, unit: str, field: str = "value") -> float:
    """Read one value and return it in SI units.

    Parameters
    ----------
    text
        "330 nF", "0.33 µF", "4R7", "1k5", "2,2 µF" (decimal comma); a bare number is taken to be in the SI unit
        itself.
    unit
        The unit it must have: one of `units.UNITS`. Leaving the unit out of the text is allowed ("1 M"), a different
        one is not.
    field
        What the value is for; named in the error.

    Returns
    -------
    float
        Finite; the range is checked by whoever uses it.

    Raises
    ------
    ValueTextError
        If the text is no such value.

    Examples
    --------
    >>> parse("330 nF", "F"), parse("4R7", "Ω"), parse("1 M", "Ω"), parse("2,2 µF", "F")
    (3.3e-07, 4.7, 1000000.0, 2.2e-06)
    """
    if isinstance(text, bool) or not isinstance(text, str | int | float):
        raise ValueTextError(_complaint(field, text, unit, "is not a number with a unit"))
    if not isinstance(text, str):
        return _finite(text, text, unit, field)
    plain = plainly(text)
    if not plain or len(plain) > _LONGEST or _NO_PART.search(plain):
        raise ValueTextError(_complaint(field, text, unit, "cannot be read"))
    if why := slips.ambiguous(plain, unit) or slips.peak(plain, unit):
        raise ValueTextError(_complaint(field, text, unit, why))
    plain = _without_comma(plain, text, unit, field)
    number, _, rest = plain.partition(" ")
    plain = f"{number} {rest.replace(' ', '')}".strip()
    if unit not in ("", "%") and plain.endswith("%"):
        raise ValueTextError(_complaint(field, text, unit, "is a percentage"))
    if not unit and plain.endswith("%"):
        return parse(plain[:-1], unit, field) / 100
    number, other = _number(plain, unit)
    if other:
        number = _letter_code(plain, unit)
        if number is None:
            why = f"is not in {unit}" if unit else "has a unit where a plain number belongs"
            raise ValueTextError(_complaint(field, text, unit, why))
    return _finite(number, text, unit, field)


def plainly(text: str) -> str:
    """A typed text with signs that look alike written one way: minus signs, degrees, digits of any script, spaces.

    Examples
    --------
    >>> plainly("–１２\\u2009mA"), plainly("53º")
    ('-12 mA', '53°')
    """
    alike = text.translate(_LOOKALIKES | _UNSEEN)
    if not alike.isascii():
        alike = "".join(str(unicodedata.decimal(sign, sign)) for sign in alike)
    return " ".join(alike.split())


def _number(plain, unit):
    """The number of a text in a unit; and what is left of the text that is neither number, prefix nor that unit."""
    spellings = (spelling.replace(" ", "") for spelling in UNITS[unit].read_as)
    end = next((spelling for spelling in spellings if plain.endswith(spelling)), "")
    bare = plain.removesuffix(end).strip()
    if end and not UNITS[unit].prefixed and bare[-1:].isalpha():
        return math.nan, plain
    try:
        read = quantiphy.Quantity(bare)
    except quantiphy.QuantiPhyError:
        return math.nan, plain
    return float(read), read.units


def _without_comma(plain, text, unit, field):
    if "," not in plain:
        return plain
    if not re.match(r"[+-]?\d+,\d+(?![\d,.])", plain):
        raise ValueTextError(_complaint(field, text, unit, "has a comma that cannot be read"))
    if re.match(r"[+-]?\d+,\d{3}(?!\d)", plain) and not plain.lstrip("+-").startswith("0,"):
        why = "could mean thousands or a decimal comma; write it without the comma"
        raise ValueTextError(_complaint(field, text, unit, why))
    return plain.replace(",", ".", 1)


def _letter_code(plain, unit):
    if not _CODE.fullmatch(plain) or not any(letter.isdigit() for letter in plain):
        return None
    read = rkm_codes.from_rkm(plain)
    if read is None or (read.units and read.units not in UNITS[unit].read_as):
        return None
    if "R" in plain.upper() and unit != "Ω":
        return None
    return float(read)


def _finite(number, text, unit, field):
    try:
        number = float(number)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise ValueTextError(_complaint(field, text, unit, "is not a finite number"))
    return number


def _complaint(field, text, unit, why):
    examples = {"F": "330 nF", "Ω": "220 Ω or 4k7", "V": "230 V", "A": "22 mA", "W": "1.4 W"}
    wanted = f"write it like {examples[unit]}" if unit in examples else "write a plain number"
    if unit not in examples and unit:
        wanted = f"write a number in {unit}"
    return f"{field}: {excerpt(text)} {why}; {wanted}"
