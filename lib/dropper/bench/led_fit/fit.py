"""Fit: measured points in, an LED with all that is to be said of it out."""

import functools
from collections.abc import Sequence

import numpy as np

from ...circuit.fields import Spec, check_value
from ...circuit.lamp import Led
from ...circuit.values import show
from .least_squares import law, solve
from .points import MeasuredPoints, check_points
from .result import LedFit, Point

_JUNCTIONS = Spec("", 1, 40, whole=True)
BEYOND = 2.0  # times the greatest current: so far the forward voltage may be asked for


def fit(
    volts: Sequence[float],
    amps: Sequence[float],
    at_current: float | None = None,
    junctions: int = 1,
    rows: Sequence[int] | None = None,
) -> LedFit:
    """Fit V = n·Vt·ln(1 + i/Is) + R·i to points measured on an LED.

    Least squares of the volts; bad points are found, left out and named: of six points or more up to one in five,
    side by side or not, that are off by 40 times the scatter of the others and by 2.5 % of their volts at least. Fewer
    points tell none apart. The LED is taken to have had one temperature all the time: measure briefly at the greater
    currents.

    Parameters
    ----------
    volts, amps
        V and A, one of each to a row, in any order; 4 rows at least, of three currents at least. A gap is nan; a row
        without current is left out.
    at_current
        A, where the forward voltage is to be stated: from the least current to twice the greatest. The greatest
        measured current if not given.
    junctions
        In series inside the LED, 1 to 40: its ideality is no less than that.
    rows
        The numbers of the rows in the learner's table; 1, 2, 3 … if not given.

    Returns
    -------
    LedFit
        `.led` goes into a lamp; `print` it for the rest.

    Raises
    ------
    ValueError
        Names the row and the value that will not do, or says what the points lack together.

    Examples
    --------
    >>> led_fit = fit([2.629, 2.703, 2.830, 2.971, 3.100], [0.001, 0.003, 0.008, 0.014, 0.020], at_current=0.010)
    >>> round(led_fit.led.forward_voltage, 2), led_fit.outliers
    (2.88, ())
    """
    return fit_points(check_points(volts, amps, rows), at_current, junctions)


@functools.lru_cache(maxsize=16)
def fit_points(points: MeasuredPoints, at_current: float | None = None, junctions: int = 1) -> LedFit:
    """Fit an LED to points that have been checked; the last few answers are cached.

    Parameters
    ----------
    at_current
        A.

    Raises
    ------
    ValueError
        For a current that is out of the points' reach, or junctions out of range.

    Examples
    --------
    >>> from dropper.bench.led_fit import check_points
    >>> points = check_points([2.629, 2.703, 2.830, 2.971, 3.100], [0.001, 0.003, 0.008, 0.014, 0.020])
    >>> fit_points(points)
    <LedFit of 5 points: 3.101 V at 20 mA, ideality 1.15, 20.1 Ω in series, 1.2 mV rms>
    """
    junctions = check_value("junctions", junctions, _JUNCTIONS)
    volts, amps = np.array(points.volts), np.array(points.amps)
    at_current = _stated(at_current, amps)
    if volts.max() < 0.5 * junctions:
        most = show(volts.max(), "V")
        raise ValueError(f"junctions: {junctions} in series take more than {most}; are there so many?")
    solution = solve(volts, amps, at_current, junctions)
    forward_voltage, ideality, ohms = solution.parameters
    residuals = volts - law(solution.parameters, amps, at_current)
    rows = zip(points.rows, points.volts, points.amps, residuals, solution.used, strict=True)
    return LedFit(
        led=Led(forward_voltage, at_current, ohms, ideality),
        junctions=junctions,
        points=tuple(Point(row, volt, amp, float(residual), bool(used)) for row, volt, amp, residual, used in rows),
        skipped_rows=points.skipped_rows,
        distant_rows=tuple(row for row, far in zip(points.rows, solution.distant, strict=True) if far),
        covariance=tuple(tuple(map(float, row)) for row in solution.covariance),
        row_word=points.row_word,
    )


def _stated(at_current, amps):
    """The current at which the forward voltage is to be stated, A."""
    if at_current is None:
        return float(amps.max())
    low, high = float(amps.min()), BEYOND * float(amps.max())
    return check_value("at_current", at_current, Spec("A", low, high))
