"""Numerals: numbers without a unit, written with the digits, the signs and the words that people read.

What has a unit is written in `values`.
"""

import math

_MOST_PLACES = 9
_LEAST_TIMES, _MOST_TIMES = 5e-3, 1e3
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def short(value: float) -> str:
    """A number on an axis: at most four digits, a true minus sign, thousands apart.

    Examples
    --------
    >>> short(-0.25), short(12345), short(0)
    ('−0.25', '12 345', '0')
    """
    if abs(value) >= 1e4:
        return true_minus(grouped(value))
    return true_minus(f"{value:.4g}") if abs(value) > 1e-12 else "0"


def significant(value: float, digits: int = 3) -> str:
    """A number with so many significant digits, all of them where there are more before the point.

    Examples
    --------
    >>> significant(0.12345), significant(12345)
    ('0.123', '12345')
    """
    return f"{value:.{digits}g}" if abs(value) < 10**digits else f"{value:.0f}"


def last_digit(value: float, digits: int = 3) -> float:
    """How much the last of so many significant digits of a value is worth.

    Examples
    --------
    >>> last_digit(16.7), last_digit(0.27, 2), last_digit(0)
    (0.1, 0.01, 0.0)
    """
    return 10.0 ** (math.floor(math.log10(abs(value))) + 1 - digits) if value else 0.0


def trimmed(value: float, places: int) -> str:
    """A number with so many decimals at most, and no zeros at their end.

    Examples
    --------
    >>> trimmed(0.25, 10), trimmed(3.0, 10)
    ('0.25', '3')
    """
    return f"{value:.{places}f}".rstrip("0").rstrip(".")


def signed(value: float, places: int = 1) -> str:
    """A change with its sign, none where it rounds to nothing.

    Examples
    --------
    >>> signed(12.34), signed(-4), signed(-0.01)
    ('+12.3', '−4.0', '0.0')
    """
    text = f"{value:+.{places}f}"
    return true_minus(text) if text.strip("+-.0") else text[1:]


def grouped(value: float) -> str:
    """A whole number with a space between thousands.

    Examples
    --------
    >>> grouped(10000000)
    '10 000 000'
    """
    return f"{value:,.0f}".replace(",", " ")


def counted(number: float, one: str, many: str = "") -> str:
    """A number of things, with the word for one or for many of them.

    Parameters
    ----------
    many
        Where it is not `one` with an s.

    Examples
    --------
    >>> counted(1, "LED"), counted(22, "LED"), counted(1.0, "hour"), counted(2.5, "year"), counted(2, "is", "are")
    ('1 LED', '22 LEDs', '1 hour', '2.5 years', '2 are')
    """
    return f"{number:g} {one if number == 1 else many or f'{one}s'}"


def show_times(ratio: float) -> str:
    """How many times as much, where less than a hundredth is next to nothing.

    Examples
    --------
    >>> show_times(0.8361), show_times(0.00494), show_times(0.0049), show_times(2.9e5), show_times(math.nan)
    ('× 0.836', 'next to none', 'next to none', 'more than × 1000', '–')
    """
    if ratio != ratio:
        return "–"
    if abs(ratio) < _LEAST_TIMES:
        return "next to none"
    return f"× {significant(ratio)}" if ratio < _MOST_TIMES else f"more than × {_MOST_TIMES:.0f}"


def power_of_ten(value: float, digits: int = 4) -> str:
    """A number too small for any prefix of the trade, with its power of ten.

    Examples
    --------
    >>> power_of_ten(1.3421e-26), power_of_ten(2e-13)
    ('1.342·10⁻²⁶', '2·10⁻¹³')
    """
    number, _, power = f"{value:.{digits - 1}e}".partition("e")
    return f"{number.rstrip('0').rstrip('.')}·10{str(int(power)).translate(_RAISED)}"


def true_minus(text: str) -> str:
    """A text about numbers with − where a hyphen stood for minus."""
    return text.replace("-", "−")


def places_of(digit: float) -> int:
    """Decimals of a display whose last digit is so large."""
    count = 0
    while digit < 0.999 and count < _MOST_PLACES:
        digit *= 10
        count += 1
    return count
