"""Values: numbers written with their units, for a panel, a page, an axis, a meter's display or a file.

All text that has a number with a unit is written here. `show` and `show_exactly` write what `parsing.parse` reads back,
with a hyphen for minus; what only people read (`show_reading`, `show_estimate`, `show_steps`) has a true minus
sign. Numbers without a unit are written in `numerals`.
"""

import math
import re

import quantiphy

from .numerals import counted, grouped, places_of, short, significant, trimmed, true_minus
from .parsing import parse
from .units import PREFIXES, UNITS

_NOTHING = 1e-12  # in any unit of this trade but one: what is less is rounding
_NOTHING_OF = {"F": 1e-15}
# Below these a reading is told by the floor alone: less than a multimeter of the bench shows (practice, no source).
_FLOORS = {
    "V": (1e-3, "1 mV"),
    "A": (1e-6, "1 µA"),
    "W": (1e-4, "0.1 mW"),
    "VA": (1e-4, "0.1 mVA"),
    "var": (1e-4, "0.1 mvar"),
    "C": (1e-8, "10 nC"),
    "J": (1e-6, "1 µJ"),
    "Ω": (1e-3, "1 mΩ"),
    "s": (1e-6, "1 µs"),
    "%": (0.01, "0.01 %"),
}
# Above these the rules of thumb that lives come from are not trusted (practice, no source).
_CEILINGS = {"h": 1e5, "years": 15}
_MEASURED = ("V", "A", "W", "VA", "var")
_ON_METERS = {"A": (1e3, "mA")}  # what a plug-in meter and a multimeter write in thousandths
_WITHOUT_PREFIX = {unit.symbol for unit in UNITS.values() if not unit.prefixed}
_TIGHT = {unit.symbol for unit in UNITS.values() if unit.tight}
_SYMBOLS = "|".join(re.escape(symbol) for symbol in sorted(UNITS, key=len, reverse=True) if symbol)
_PARTED = re.compile(rf"(?<=\d) (?=(?:[{''.join(PREFIXES)}]?(?:{_SYMBOLS})(?![\w²/])|\d{{3}}(?!\d)))|(?<=[±×<]) (?=\d)")


class _Shown(quantiphy.Quantity):
    """Prefixes as the trade prints them: µ, not u."""

    map_sf = {"u": "µ"}  # noqa: RUF012 (a preference of quantiphy)


def show(value: float | None, unit: str = "", digits: int = 3) -> str:
    """A value with its SI prefix and unit, as the trade writes it.

    Parameters
    ----------
    value
        In SI units; None reads as "none".
    digits
        Significant digits.

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
    if unit in _WITHOUT_PREFIX or (unit == "Hz" and abs(value) < 1000):
        return with_unit(f"{value:.{digits}g}", unit)
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
    text = show(value, unit, digits=6)
    return text if parse(text, unit) == value else f"{value!r} {unit}".strip()


def show_plain(value: float, unit: str, digits: int = 4) -> str:
    """A value in the unit itself, without a prefix, and without a power of ten where zeros are few.

    Examples
    --------
    >>> show_plain(0.00123456, "K"), show_plain(16000, "h"), show_plain(2.5e-7, "")
    ('0.001235 K', '16000 h', '2.5e-07')
    """
    rounded = float(f"{value:.{digits}g}")
    if rounded == 0 or 1e-4 <= abs(rounded) < 1e7:
        return f"{trimmed(rounded, 10)} {unit}".rstrip()
    return f"{rounded:g} {unit}".rstrip()


def show_reading(value: float, unit: str, full: bool = False) -> str:
    """A value as a panel writes its readings, "–" for none: no more of it than can be known.

    What is less than an instrument of the bench shows is told by that floor, a life longer than its rule is trusted for
    by that ceiling; a time without end is "never". Per cent, degrees and hours stand as people say them.

    Parameters
    ----------
    full
        Zeros at the end of volts, amperes and watts stay, so that a column has the same digits all down.

    Examples
    --------
    >>> show_reading(0.0123, "A"), show_reading(54.12, "%"), show_reading(-12.345, "°C"), show_reading(math.nan, "V")
    ('12.3 mA', '54.1 %', '−12.3 °C', '–')
    >>> show_reading(15980, "h"), show_reading(298.4, "K"), show_reading(18.1e-12, "V"), show_reading(0.0, "V")
    ('16 000 h', '298 K', 'under 1 mV', '0 V')
    >>> show_reading(0.013, "A", full=True), show_reading(3.0, "V", full=True), show_reading(0.013, "A")
    ('13.0 mA', '3.00 V', '13 mA')
    >>> show_reading(-0.04, "°C"), show_reading(-0.1, "°C")
    ('0.0 °C', '−0.1 °C')
    >>> show_reading(2.91e6, "h"), show_reading(995.0, "years"), show_reading(math.inf, "s")
    ('over 100 000 h', 'over 15 years', 'never')
    """
    if value != value:
        return "–"
    if math.isinf(value) and unit in ("s", "h", "years"):
        return "never"
    floor, least = _FLOORS.get(unit, (0.0, ""))
    if _NOTHING < abs(value) < floor:
        return f"under {least}"
    ceiling = _CEILINGS.get(unit, math.inf)
    if value > ceiling:
        return f"over {grouped(ceiling)} {unit}"
    if unit == "°C":
        text = f"{value:z.1f} °C"
    elif unit == "K" and value >= 200:  # a temperature, no difference of two
        text = f"{value:.0f} K"
    elif unit in ("%", "°"):
        text = with_unit(significant(value), unit)
    elif unit == "years":
        text = counted(float(f"{value:.2g}"), "year")
    elif unit == "h":
        text = f"{short(float(f'{value:.3g}'))} h"
    elif full and abs(value) > _NOTHING and unit in _MEASURED:
        text = _Shown(value, unit).render(prec=2, strip_zeros=False)
    else:
        text = show(value, unit)
    return f"−{text[1:]}" if text.startswith("-") else text


def unbroken(text: str) -> str:
    """A text in which no line ends between a number and its unit, nor between thousands.

    Examples
    --------
    >>> unbroken("6.45 mA at 50 Hz, 16 000 h, 22 LEDs").split(" ")
    ['6.45\\xa0mA', 'at', '50\\xa0Hz,', '16\\xa0000\\xa0h,', '22', 'LEDs']
    """
    return _PARTED.sub("\u00a0", text)


def show_estimate(value: float, half_width: float, unit: str, digit: float = 0.0) -> str:
    """A measured value with half the width of its interval: that with two digits, the value to the same place.

    Parameters
    ----------
    half_width
        In the unit of the value; 0 writes the value alone.
    digit
        The last digit of a display, in the unit: neither is written finer, and the half-width is no less.

    Examples
    --------
    >>> show_estimate(0.021834, 0.0004, "A"), show_estimate(-53.12, 1.04, "°")
    ('21.83 ± 0.40 mA', '−53.1 ± 1.0°')
    >>> show_estimate(0.0216, 0.0024, "A", digit=1e-3), show_estimate(0.2653, 0.0138, "", digit=0.01)
    ('22 ± 2 mA', '0.27 ± 0.01')
    >>> show_estimate(1234.0, 128.0, "h")
    '1230 ± 130 h'
    """
    if not math.isfinite(value):
        return "–"
    if half_width <= 0:
        return show_reading(value, unit)
    half_width = float(f"{max(half_width, digit):.1e}")
    prefix, scale = "", 1.0
    if unit != "Hz" and unit not in _WITHOUT_PREFIX:
        power = 3 * math.floor(math.log10(max(abs(value), half_width)) / 3 + 1e-12)
        scale = 10.0 ** min(max(power, -9), 6)
        prefix = next(sign for sign, size in PREFIXES.items() if math.isclose(size, scale))
    places = min(1 - math.floor(math.log10(half_width / scale) + 1e-12), 6)
    if digit:
        places = min(places, places_of(digit / scale))
    texts = [f"{round(number / scale, places):.{max(places, 0)}f}" for number in (value, half_width)]
    return true_minus(with_unit(" ± ".join(texts), f"{prefix}{unit}"))


def show_percent(part: float, whole: float) -> str:
    """A part in per cent of a whole, two digits; "–" for none.

    Examples
    --------
    >>> show_percent(0.0019, 0.0167), show_percent(0.00055, 1.0), show_percent(1e-6, 1.0), show_percent(1.0, 0.0)
    ('11 %', '0.055 %', '< 0.01 %', '–')
    """
    if not math.isfinite(part) or part == 0 or abs(whole) < _NOTHING:
        return "–"
    percent = 100 * abs(part / whole)
    return with_unit(f"{float(f'{percent:.1e}'):g}", "%") if percent >= 0.01 else "< 0.01 %"


def show_to_digit(value: float, unit: str, digit: float) -> str:
    """A value as a display with a fixed last digit writes it, amperes in thousandths.

    Parameters
    ----------
    digit
        Size of the last digit, in the unit.

    Examples
    --------
    >>> show_to_digit(230.04, "V", 0.1), show_to_digit(0.0216, "A", 1e-3), show_to_digit(0.27, "", 0.01)
    ('230.0 V', '22 mA', '0.27')
    """
    times, unit = _ON_METERS.get(unit, (1, unit))
    return with_unit(f"{value * times:.{places_of(digit * times)}f}", unit)


def show_steps(value: float, unit: str, places: int) -> str:
    """A value on a slider: with so many decimals, or with as many as an odd value needs.

    Examples
    --------
    >>> show_steps(3.0, "V", 1), show_steps(3.05, "V", 1), show_steps(-20, "°C", 0)
    ('3.0 V', '3.05 V', '−20 °C')
    """
    text = f"{value:.{places}f}"
    if abs(float(text) - value) >= 1e-9 * max(abs(value), 1):
        text = f"{value:.6g}"
    return true_minus(with_unit(text, unit))


def with_unit(number: str, unit: str) -> str:
    """A number already written, and its unit behind a space, or without one where none is put."""
    return f"{number}{unit}" if unit in _TIGHT else f"{number} {unit}"
