"""Tolerance check: within the marked tolerance, outside, or not to be told with this meter."""

import math
from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.parsing import ValueTextError, parse, plainly
from ...circuit.values import show

FAR = 200.0  # per cent above the mark, from which one says how many times
MOST_OHMS = 1e10  # beyond it no ohmmeter of a bench reads
WITHIN, OUTSIDE, UNDECIDED = "within", "outside", "cannot tell"


@documented
@dataclass(frozen=True)
class ToleranceCheck:
    """A verdict and the two intervals that it compares, all in the part's unit."""

    word: str = about('"within", "outside" or "cannot tell".')
    low: float = about("least that the mark allows")
    high: float = about("most that the mark allows")
    least: float = about("least that the true value may be, as the meter read it")
    most: float = about("most that the true value may be, as the meter read it")
    deviation: float = about("of the reading from the marked value", "%")
    sentence: str = about("The reason.")

    def __repr__(self) -> str:
        return f"<{self.word}, {self.deviation:+.1f} % from the mark>"


def check_tolerance(
    measured: float,
    value: float,
    minus: float,
    plus: float,
    *,
    unit: str,
    percent: float = 0.0,
    counts: float = 0,
    digit: float = 0.0,
) -> ToleranceCheck:
    """Whether a measured part keeps its marked tolerance, the meter's own uncertainty counted.

    The meter says m; the true value lies within m ± (percent of m + counts × digit), as data sheets of multimeters
    state their accuracy. The mark allows value − minus % to value + plus %. One interval inside the other is within,
    two apart are outside, and where they only overlap the meter cannot tell.

    Parameters
    ----------
    measured, value
        In `unit`, both 0 or more; the value more than 0.
    minus, plus
        Marked tolerance downward and upward, per cent.
    unit
        For the sentence: "F", "Ω" or "V".
    percent
        The meter's accuracy in per cent of the reading.
    counts
        And in steps of the last digit.
    digit
        What one step of the last digit is, in `unit`; see `last_digit`.

    Raises
    ------
    ValueError
        For a number that is not finite or below 0.

    Examples
    --------
    >>> check_tolerance(455e-9, 470e-9, 10, 10, unit="F", percent=4, counts=5, digit=1e-9).word
    'within'
    >>> check_tolerance(430e-9, 470e-9, 10, 10, unit="F", percent=4, counts=5, digit=1e-9).word
    'cannot tell'
    """
    numbers = {
        "measured": measured,
        "value": value,
        "minus": minus,
        "plus": plus,
        "percent": percent,
        "counts": counts,
        "digit": digit,
    }
    for name, number in numbers.items():
        if not (math.isfinite(number) and number >= 0):
            raise ValueError(f"{name}: {number} is not a finite number of 0 or more")
    if value == 0:
        raise ValueError("value: 0 has no tolerance in per cent")
    low, high = value * (1 - minus / 100), value * (1 + plus / 100)
    least, most = true_interval(measured, percent, counts, digit)
    slack = 1e-9 * value
    if least >= low - slack and most <= high + slack:
        word, why = WITHIN, "all of it lies inside"
    elif most < low - slack or least > high + slack:
        word, why = OUTSIDE, "all of it lies outside, " + ("below" if most < low else "above")
    else:
        sides = [side for side, over in (("below", least < low - slack), ("above", most > high + slack)) if over]
        word, why = UNDECIDED, f"a part of it lies inside, a part {' and '.join(sides)}; a better meter would tell"
    deviation = 100 * (measured / value - 1)
    away = f"{deviation:+.1f} % from the mark" if deviation < FAR else f"{measured / value:.3g} times the mark"
    sentence = (
        f"The mark allows {show(low, unit, 4)} to {show(high, unit, 4)}. The meter reads {show(measured, unit, 4)}"
        f" ({away}), and with its own accuracy that is {show(least, unit, 4)} to"
        f" {show(most, unit, 4)}: {why}."
    )
    return ToleranceCheck(word, low, high, least, most, deviation, sentence.replace("(-", "(−"))


def true_interval(measured: float, percent: float, counts: float, digit: float) -> tuple[float, ...]:
    """Between what a true value lies that a meter has read.

    Parameters
    ----------
    measured, percent, counts, digit
        As for `check_tolerance`.

    Returns
    -------
    tuple of float
        The least and the most, in the unit of the reading.

    Examples
    --------
    >>> [round(end, 1) for end in true_interval(430.0, 4.0, 5, 1.0)]
    [407.8, 452.2]
    """
    spread = measured * percent / 100 + counts * digit
    return max(measured - spread, 0.0), measured + spread


def last_digit(text: str, unit: str) -> float:
    """What one step of the last digit is of a reading as it was typed.

    Parameters
    ----------
    text
        "462 nF", "0.462 µF", "46.8k".

    Returns
    -------
    float
        In `unit`.

    Raises
    ------
    ValueTextError
        Where `parsing.parse` cannot read it, or it is next to nothing.

    Examples
    --------
    >>> last_digit("462 nF", "F"), last_digit("0.46 µF", "F"), last_digit("4.68E4", "Ω")
    (1e-09, 1e-08, 100.0)
    """
    text = plainly(str(text))
    value = parse(text, unit, "measured")
    whole = "".join(char for char in text.lower().partition("e")[0].replace(",", ".") if char.isdigit() or char == ".")
    places = len(whole.partition(".")[2])
    number = float(whole or 0)
    if not number:
        return parse("1" + text.lstrip(" +-0.,"), unit, "measured") * 10.0**-places
    if not value:
        raise ValueTextError(f"measured: {excerpt(text)} is smaller than any number here; write it like 462 nF")
    return float(f"{abs(value) / number * 10.0**-places:.6g}")
