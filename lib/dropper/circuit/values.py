"""Values as people write them: "330 nF", "1 M", "4R7", "1k5"; and preferred values.

Reading a value never evaluates text as code: a value is a number, an SI prefix and a
unit, or a letter-and-digit code of IEC 60062, and anything else is a clear error.
"""

import math
import re
import unicodedata

import quantiphy
import rkm_codes

UNIT_NAMES = {
    "F": {"F", "farad", "farads"},
    "Ω": {"Ω", "ohm", "ohms", "Ohm", "Ohms", "R"},
    "V": {"V", "volt", "volts", "Vrms", "Vdc", "Vac"},
    "A": {"A", "amp", "amps"},
    "W": {"W", "watt", "watts"},
    "VA": {"VA"},
    "Hz": {"Hz", "hertz"},
    "°": {"°", "deg"},
    "": set(),
}

# IEC 60063:2015, values per decade. E48 to E192 are rounded geometric series; E3 to E24 are older than the formula and
# do not follow it, and E192 keeps one exception, 920 where the formula gives 919.
E_SERIES = {
    3: (10, 22, 47),
    6: (10, 15, 22, 33, 47, 68),
    12: (10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82),
    24: (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91),
    **{
        count: tuple(
            920 if (count, place) == (192, 185) else round(100 * 10 ** (place / count)) for place in range(count)
        )
        for count in (48, 96, 192)
    },
}

_LONGEST = 40


class _Shown(quantiphy.Quantity):
    """Prefixes as the trade prints them: µ, not u."""

    map_sf = {"u": "µ"}  # noqa: RUF012 (a preference of quantiphy)


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
    text : str or number
        "330 nF", "0.33 µF", "4R7", "1k5", "2,2 µF" (decimal comma); a bare number is
        taken to be in the SI unit itself.
    unit : str
        The unit it must have: one of the keys of `UNIT_NAMES`. Leaving the unit out
        of the text is allowed ("1 M"), a different one is not.
    field : str
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
    plain = _without_comma(plain, text, unit, field)
    number, _, rest = plain.partition(" ")
    plain = f"{number} {rest.replace(' ', '')}".strip()
    if unit and plain.endswith("%"):
        raise ValueTextError(_complaint(field, text, unit, "is a percentage"))
    if not unit and plain.endswith("%"):
        return parse(plain[:-1], unit, field) / 100
    try:
        read = quantiphy.Quantity(plain)
        number, found = float(read), read.units
    except quantiphy.QuantiPhyError:
        number, found = math.nan, plain
    if found and found not in UNIT_NAMES[unit]:
        number = _letter_code(plain, unit)
        if number is None:
            why = f"is not in {unit}" if unit else "has a unit where a plain number belongs"
            raise ValueTextError(_complaint(field, text, unit, why))
    return _finite(number, text, unit, field)


def plainly(text: str) -> str:
    """A typed text with signs that look alike written one way: minus signs, degrees, digits of any script, spaces.

    Parameters
    ----------
    text : str

    Examples
    --------
    >>> plainly("–１２\\u2009mA"), plainly("53º")
    ('-12 mA', '53°')
    """
    alike = text.translate(_LOOKALIKES | _UNSEEN)
    if not alike.isascii():
        alike = "".join(str(unicodedata.decimal(sign, sign)) for sign in alike)
    return " ".join(alike.split())


_NO_PREFIX = {"", "A²s"}  # mA²s would be read as (mA)²s, a thousand times less
_NOTHING = 1e-12  # in any unit of this trade but one: what is less is rounding
_NOTHING_OF = {"F": 1e-15}


def show(value: float | None, unit: str = "", digits: int = 3) -> str:
    """A value with its SI prefix and unit, as the trade writes it.

    Parameters
    ----------
    value : float or None
        In SI units; None reads as "none".
    unit : str
    digits : int
        Significant digits.

    Returns
    -------
    str

    Examples
    --------
    >>> show(3.3e-7, "F"), show(9645.9, "Ω", 4), show(None, "Ω")
    ('330 nF', '9.646 kΩ', 'none')
    >>> show(1.05e-3, "A²s")
    '0.00105 A²s'
    """
    if value is None:
        return "none"
    if not math.isfinite(value):
        return f"{value} {unit}".strip()
    if abs(value) < _NOTHING_OF.get(unit, _NOTHING):
        value = 0.0
    if unit in _NO_PREFIX or (unit == "Hz" and abs(value) < 1000):
        return f"{value:.{digits}g} {unit}".strip()
    if unit == "F" and 0 < abs(value) < 1e-12:  # the trade writes 0.47 pF
        return f"{1e12 * value:.{digits}g} pF"
    return _Shown(value, unit).render(prec=digits - 1)


def show_exactly(value: float, unit: str = "") -> str:
    """A value that `parse` reads back to the very same float.

    Examples
    --------
    >>> show_exactly(3.3e-7, "F"), parse(show_exactly(0.1 + 0.2, "V"), "V") == 0.1 + 0.2
    ('330 nF', True)
    """
    if value is None:
        return "none"
    short = show(value, unit, digits=6)
    if parse(short, unit) == value:
        return short
    return f"{value!r} {unit}".strip()


def preferred(series: int, low: float, high: float) -> list[float]:
    """Every preferred value of an E series between two bounds, both included.

    Parameters
    ----------
    series : int
        3, 6, 12, 24, 48, 96 or 192 (IEC 60063:2015).
    low, high : float
        SI units, 0 < low <= high.

    Returns
    -------
    list of float

    Raises
    ------
    ValueError
        For a series that is not kept here or bounds out of order.

    Examples
    --------
    >>> preferred(6, 1e-7, 4.7e-7)
    [1e-07, 1.5e-07, 2.2e-07, 3.3e-07, 4.7e-07]
    """
    if series not in E_SERIES:
        raise ValueError(f"series: E{series} is not kept here; choose from {sorted(E_SERIES)}")
    if not 0 < low <= high < math.inf:
        raise ValueError(f"low and high: {low} and {high}; need 0 < low <= high")
    first, last = math.floor(math.log10(low)) - 3, math.ceil(math.log10(high))
    decades = range(first, last + 1)
    every = (float(f"{step}e{decade}") for decade in decades for step in E_SERIES[series])
    return [value for value in every if low * (1 - 1e-9) <= value <= high * (1 + 1e-9)]


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
    if read is None or (read.units and read.units not in UNIT_NAMES[unit]):
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
    shown = text[:_LONGEST] + "…" if isinstance(text, str) and len(text) > _LONGEST else text
    return f"{field}: {shown!r:.60} {why}; {wanted}"
