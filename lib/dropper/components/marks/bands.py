"""Bands of resistors, both ways: colours to a value and a value to colours (IEC 60062:2016).

One black band alone is a link (common practice, no source).

    bands.read(["yellow", "violet", "black", "gold"])        # 47 Ω ±5 %, from the left
    bands.write(4.7e3, tolerance=1.0, bands=5)               # yellow, violet, black, brown, brown
"""

import math
from collections.abc import Sequence

from ...circuit.excerpt import excerpt
from ...circuit.values import show
from .colours import COLOURS, UNMARKED, Colour, colour
from .meaning import MarkError, Meaning, by_likelihood

ROLES = {
    1: ("link",),
    3: ("first digit", "second digit", "multiplier"),
    4: ("first digit", "second digit", "multiplier", "tolerance"),
    5: ("first digit", "second digit", "third digit", "multiplier", "tolerance"),
    6: ("first digit", "second digit", "third digit", "multiplier", "tolerance", "temperature coefficient"),
}


def worth(digits: Sequence[float], power: int) -> float:
    """What digits and a multiplier come to.

    Parameters
    ----------
    power
        Of ten.

    Examples
    --------
    >>> worth((4, 7), 2), worth((4, 9, 9), -2)
    (4700.0, 4.99)
    """
    number = 0
    for digit in digits:
        number = 10 * number + digit
    return float(number * 10**power if power >= 0 else number / 10**-power)


def read(colours: Sequence[str]) -> tuple[Meaning, ...]:
    """All that a row of bands can mean, from either end.

    Parameters
    ----------
    colours
        From left to right as the part lies; see `colours.colour`.

    Returns
    -------
    tuple of Meaning
        The likeliest first, as `Meaning.usual` has it.

    Raises
    ------
    MarkError
        For what `as_colours` refuses, and where neither end can be the first, naming the band and the reason.

    Examples
    --------
    >>> [meaning.text for meaning in read(["red", "red", "brown", "gold"])]
    ['220 Ω ±5 %']
    >>> [meaning.text for meaning in read(["brown", "black", "black", "brown", "red"])]
    ['1 kΩ ±2 %', '210 Ω ±1 %']
    """
    row = as_colours(colours)
    found, reasons = [], []
    for end in ("left", "right"):
        try:
            found.append(from_end(row, end))
        except MarkError as error:
            reasons.append(str(error))
    if len(found) == 2 and (found[0].value, found[0].text) == (found[1].value, found[1].text):
        found.pop()
    if not found:
        raise MarkError(" ".join(dict.fromkeys(reasons)))
    return by_likelihood(found)


def as_colours(colours: Sequence[str]) -> tuple[Colour, ...]:
    """A row of bands as `Colour`.

    Raises
    ------
    MarkError
        For a colour or a number of bands that the code does not have.
    """
    row = tuple(colour(each, f"band {place}") for place, each in enumerate(colours, start=1))
    if len(row) not in ROLES:
        raise MarkError(f"{len(row)} bands: a resistor has 3, 4, 5 or 6, and a link one black band")
    return row


def from_end(row: tuple[Colour, ...], end: str) -> Meaning:
    """A row of bands read from one end.

    Parameters
    ----------
    row
        From left to right.
    end
        "left" or "right".

    Raises
    ------
    MarkError
        Saying which band cannot stand where it would.
    """
    count = len(row)
    ordered = row if end == "left" else row[::-1]
    if count == 1:
        if row[0].name != "black":
            raise MarkError(f"band 1, {row[0]}: one band alone is a link, and that is black.")
        return Meaning(0.0, "Ω", "link", "One black band alone: a wire link, 0 Ω.", end="left")
    places = {}
    for place, (band, role) in enumerate(zip(ordered, ROLES[count], strict=True), start=1):
        wrong = _cannot(band, role)
        if wrong:
            number = place if end == "left" else count + 1 - place
            raise MarkError(f"From the {end}: band {number}, {band}, cannot be the {role}{wrong}.")
        places[role] = band
    digits = [band for role, band in places.items() if role.endswith("digit")]
    multiplier, tolerance = places["multiplier"], places.get("tolerance")
    percent = UNMARKED if tolerance is None else tolerance.tolerance
    value = worth([band.digit for band in digits], multiplier.power)
    coefficient = places.get("temperature coefficient")
    notes = ()
    if tolerance is not None and tolerance.older is not None:
        notes = (f"Tables before 2016 give ±{tolerance.older:g} % for {tolerance}.",)
    return Meaning(
        value,
        "Ω",
        "resistor",
        _in_words(digits, multiplier, tolerance, coefficient, value),
        percent,
        percent,
        coefficient=coefficient.coefficient if coefficient else None,
        end=end,
        notes=notes,
    )


def write(value: float, tolerance: float = 5.0, bands: int = 4, coefficient: float | None = None) -> tuple[str, ...]:
    """The bands of a value, from left to right.

    Parameters
    ----------
    value
        Ω.
    tolerance
        Per cent to either side; 20 is told by three bands alone.
    bands
        3, 4, 5 or 6; a value of 0 has one black band whatever this says.
    coefficient
        ppm/K, for six bands.

    Returns
    -------
    tuple of str
        Names of colours.

    Raises
    ------
    MarkError
        Where the code has no bands for it, saying why.

    Examples
    --------
    >>> write(220), write(499.0, 1.0, 5)
    (('red', 'red', 'brown', 'gold'), ('yellow', 'white', 'white', 'black', 'brown'))
    """
    if bands not in ROLES or bands == 1:
        raise MarkError(f"bands: {excerpt(bands)}; a resistor has 3, 4, 5 or 6")
    if value == 0:
        return ("black",)
    digits, power = _split(value, 3 if bands > 4 else 2)
    row = [_having("digit", int(digit), "digit") for digit in digits]
    row.append(_having("power", power, f"multiplier of 10^{power}, and so none for {value:g} Ω with {bands} bands"))
    if bands == 3:
        if tolerance != UNMARKED:
            raise MarkError(f"tolerance: ±{tolerance:g} % needs a band of its own; three bands alone mean ±20 %")
        return tuple(row)
    row.append(_having("tolerance", tolerance, f"tolerance of ±{tolerance:g} %"))
    if bands == 6:
        if coefficient is None:
            raise MarkError("coefficient: six bands have a temperature coefficient; give it in ppm/K")
        row.append(_having("coefficient", coefficient, f"temperature coefficient of {coefficient:g} ppm/K"))
    elif coefficient is not None:
        raise MarkError(f"coefficient: {bands} bands have no room for a temperature coefficient; six have")
    return tuple(row)


def _split(value, count):
    """The digits of a value as text, and the power of ten behind them."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not (0 < value < math.inf):
        raise MarkError(f"value: {excerpt(value)} is not a number of ohms above 0")
    text = f"{value:.{count - 1}e}"
    if abs(float(text) - value) > 1e-9 * value:
        raise MarkError(f"value: {show(value, 'Ω', 6)} has more than {count} digits, and there are bands for no more")
    digits, _, power = text.replace(".", "").partition("e")
    return digits, int(power) - count + 1


def _having(field, wanted, words):
    """The colour with which a field has a value."""
    for each in COLOURS.values():
        value = getattr(each, field)
        if value is not None and math.isclose(value, wanted, rel_tol=1e-9, abs_tol=1e-12):
            return each.name
    raise MarkError(f"there is no colour for a {words}")


def _cannot(band, role):
    """Why a colour cannot stand in a role; "" where it can."""
    if role == "first digit" and band.digit == 0:
        return ": no value begins with 0"
    if role.endswith("digit") and band.digit is None:
        return ": it stands for no digit"
    if role == "tolerance" and band.tolerance is None:
        return ": it stands for none"
    if role == "temperature coefficient" and band.coefficient is None:
        return ": it stands for none"
    return ""


def _in_words(digits, multiplier, tolerance, coefficient, value):
    """The reading step by step."""
    numerals = ", ".join(f"{band} {band.digit}" for band in digits)
    number = "".join(str(band.digit) for band in digits)
    numerals = f"{numerals[0].upper()}{numerals[1:]}"
    words = f"{numerals}: {number}. {str(multiplier).capitalize()} multiplies by {_factor(multiplier.power)}:"
    words += f" {number} × {_factor(multiplier.power)} Ω = {show(value, 'Ω')}."
    if tolerance is None:
        words += " No fourth band: ±20 %."
    else:
        words += f" {str(tolerance).capitalize()} behind: ±{tolerance.tolerance:g} %."
    if coefficient is not None:
        words += f" {str(coefficient).capitalize()} last: {coefficient.coefficient:g} ppm/K."
    return words + " (IEC 60062:2016)"


def _factor(power):
    """A power of ten as people write it."""
    return f"{10**power:,}".replace(",", " ") if power >= 0 else f"{10.0**power:g}"
