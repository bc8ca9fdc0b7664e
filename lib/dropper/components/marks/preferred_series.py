"""Preferred series, and where a value is in them: nearest, next above, next below, and which series holds it."""

import math

from ...circuit.series import E_SERIES, preferred

# The series that a tolerance goes with, per cent at least (IEC 60063:2015).
_OF_TOLERANCE = ((20.0, 6), (10.0, 12), (5.0, 24), (2.0, 48), (1.0, 96), (0.0, 192))


def of_tolerance(tolerance: float) -> int:
    """The E series that parts of a tolerance are made in, as a rule: 24 for 5 per cent, 96 for 1.

    Parameters
    ----------
    tolerance
        Per cent, the larger side.
    """
    return next(series for least, series in _OF_TOLERANCE if tolerance >= least)


def nearest(series: int, value: float) -> float:
    """The preferred value of an E series that a value is nearest to, by the plain difference.

    Parameters
    ----------
    series
        As for `preferred`.
    value
        SI units, more than 0.

    Returns
    -------
    float
        Of two that are as near, the lower one.

    Raises
    ------
    ValueError
        As for `preferred`.

    Examples
    --------
    >>> nearest(12, 4.4e-7), nearest(24, 5000.0)
    (4.7e-07, 5100.0)
    """
    return min(_around(series, value), key=lambda step: abs(step - value))


def above(series: int, value: float) -> float:
    """The next preferred value of an E series above a value; a value of the series itself is left behind.

    Parameters
    ----------
    value
        As for `nearest`.

    Examples
    --------
    >>> above(6, 3.3e-7), above(6, 4e-7)
    (4.7e-07, 4.7e-07)
    """
    return min(step for step in _around(series, value) if step > value * (1 + 1e-9))


def below(series: int, value: float) -> float:
    """The next preferred value of an E series below a value; see `above`.

    Examples
    --------
    >>> below(6, 3.3e-7), below(6, 4e-7)
    (2.2e-07, 3.3e-07)
    """
    return max(step for step in _around(series, value) if step < value * (1 - 1e-9))


def series_of(value: float) -> int | None:
    """The coarsest E series that holds a value: 3 for 470, 24 for 510, 96 for 499; None where none does.

    Parameters
    ----------
    value
        SI units.
    """
    if not 0 < value < math.inf:
        return None
    digits = f"{value:.8e}"
    shift = 2 - int(digits[digits.index("e") + 1 :])
    three = value * 10.0**shift
    whole = round(three)
    if abs(three - whole) > 1e-6 * three:
        return None
    return next((series for series, steps in E_SERIES.items() if whole in steps or whole in _hundreds(steps)), None)


def _hundreds(steps):
    """The steps of a series from 100 to 999."""
    return [10 * step for step in steps] if steps[0] == 10 else steps


def _around(series, value):
    """The steps of a series within a decade of a value."""
    if not 0 < value < math.inf:
        raise ValueError(f"value: {value} is not a finite number above 0")
    return preferred(series, value / 10, value * 10)
