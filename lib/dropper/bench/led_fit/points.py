"""Points: measured on an LED's curve, checked before anything is fitted to them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented, spec_of
from ...circuit.lamp import Led
from ...circuit.values import show

FEWEST = 4  # three numbers are fitted: with a fourth point something is left to tell how well
SPREAD = 1.5  # the greatest current over the least, at least
ENOUGH = 200  # points to see by which way the curve goes: pairs that rise against pairs that fall
DIP = 0.01  # of the volts: a fall by less may be the meter's
_LED = Led.__dataclass_fields__
MOST_VOLTS, MOST_AMPS = spec_of(_LED["forward_voltage"]).high, spec_of(_LED["at_current"]).high
LEAST_VOLTS, LEAST_AMPS = spec_of(_LED["forward_voltage"]).low, spec_of(_LED["at_current"]).low


@documented
@dataclass(frozen=True)
class MeasuredPoints:
    """Points that a curve can be fitted to."""

    volts: tuple = about("in the order in which they were given", "V")
    amps: tuple = about("in the order in which they were given", "A")
    rows: tuple = about("Where each stands in the learner's table.")
    skipped_rows: tuple = about("Rows without a point, and why.", default=())
    row_word: str = about('What `rows` count: "row" or "line".', default="row")


def check_points(
    volts: Sequence[float], amps: Sequence[float], rows: Sequence[int] | None = None, row_word: str = "row"
) -> MeasuredPoints:
    """Check measured points, and leave out the rows that have none.

    Parameters
    ----------
    volts, amps
        V and A, one of each to a row. A gap is nan. A row without current says nothing of the curve and is left out.
    rows
        Their numbers in the learner's table; 1, 2, 3 … if not given.
    row_word
        What those numbers count: "row" or "line".

    Raises
    ------
    ValueError
        Names the row, the value, and what is wrong with it.

    Examples
    --------
    >>> points = check_points([2.629, 2.703, 2.830, 2.971, 0.1], [0.001, 0.003, 0.008, 0.014, 0.0])
    >>> len(points.volts), points.skipped_rows
    (4, ((5, 'no current'),))
    """
    v, i = _column("volts", volts), _column("amps", amps)
    if len(v) != len(i):
        raise ValueError(f"amps: {len(i)} currents do not go with {len(v)} voltages; give one of each to a row")
    rows = tuple(range(1, len(v) + 1)) if rows is None else tuple(int(row) for row in rows)
    if len(rows) != len(v):
        raise ValueError(f"rows: {len(rows)} numbers do not go with {len(v)} rows")
    skipped_rows = {}
    for row, volt, amp in zip(rows, v, i, strict=True):
        _check(f"{row_word} {row}", volt, amp)
        if volt != volt or amp != amp:
            skipped_rows[row] = "a value is missing"
        elif amp == 0:
            skipped_rows[row] = "no current"
    complete = [(volt, amp, row) for volt, amp, row in zip(v, i, rows, strict=True) if row not in skipped_rows]
    if len(complete) < FEWEST:
        raise ValueError(
            f"points: {len(complete)} with a current are too few; three numbers are fitted, so give {FEWEST} at least,"
            " and better a dozen"
        )
    columns = [tuple(column) for column in zip(*complete, strict=True)]
    points = MeasuredPoints(*columns, tuple(skipped_rows.items()), row_word)
    _check_together(points)
    return points


def _column(name, given):
    try:
        column = np.asarray(given, dtype=float)
    except (TypeError, ValueError):
        raise ValueError(f"{name}: {excerpt(given)} are not all numbers") from None
    if column.ndim != 1:
        raise ValueError(f"{name}: give one column of numbers, a number to a row")
    return [float(value) for value in column]


def _check(where, volt, amp):
    """Complain of a value that no row can have."""
    if abs(volt) == np.inf or abs(amp) == np.inf:
        raise ValueError(f"{where}: {volt:g} V and {amp:g} A are not finite numbers")
    if volt < 0 or amp < 0:
        what = f"{show(volt, 'V')}" if volt < 0 else f"{show(amp, 'A')}"
        raise ValueError(
            f"{where}: {what} is negative; give forward volts and amperes without a sign, and if the leads were"
            " reversed, turn them round"
        )
    if amp > MOST_AMPS:
        raise ValueError(
            f"{where}: {amp:g} A is more than {MOST_AMPS:g} A; if that column is in mA, say so in its heading, or"
            " divide it by 1000"
        )
    if volt > MOST_VOLTS:
        raise ValueError(
            f"{where}: {volt:g} V is more than {MOST_VOLTS:g} V; if that column is in mV, say so in its heading, or"
            " divide it by 1000"
        )


def _check_together(points):
    """Complain of points that are together no LED's curve."""
    volts, amps = np.array(points.volts), np.array(points.amps)
    order = np.lexsort((volts, amps))
    volts, amps, rows = volts[order], amps[order], np.array(points.rows)[order]
    low, high = show(amps[0], "A"), show(amps[-1], "A")
    if amps[-1] < LEAST_AMPS or volts.max() < LEAST_VOLTS:
        raise ValueError(
            f"points: at most {show(volts.max(), 'V')} and {high}; an LED's curve starts at {show(LEAST_VOLTS, 'V')}"
            f" and {show(LEAST_AMPS, 'A')}"
        )
    steps = len(np.unique(amps))
    if amps[-1] < SPREAD * amps[0] or steps < 3:
        raise ValueError(
            f"points: all lie at nearly one current, {low} to {high} in {steps} step{'s' * (steps > 1)}; a curve needs"
            " three currents at least, better from a hundredth of the greatest up"
        )
    falls = np.flatnonzero(np.diff(volts) < -DIP * volts[:-1])
    few = slice(None, None, -(-len(volts) // ENOUGH))
    up = np.sign(np.subtract.outer(volts[few], volts[few]))[np.subtract.outer(amps[few], amps[few]) > 0]
    if up.sum() <= 0 or len(falls) > max(1, len(volts) // 4):
        k = falls[0] if len(falls) else 0
        raise ValueError(
            f"{points.row_word} {rows[k + 1]}: {volts[k + 1]:g} V at {show(amps[k + 1], 'A')}, but {points.row_word}"
            f" {rows[k]} has {volts[k]:g} V at less, {show(amps[k], 'A')}. Volts rise with the current; here they fall"
            f" {_times(len(falls))}. Are the columns the right way round, and was it one LED, as warm all the time?"
        )


def _times(count):
    return {0: "or stay", 1: "there"}.get(count, f"{count} times")
