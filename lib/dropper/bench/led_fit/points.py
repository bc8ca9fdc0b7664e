"""Measured points of an LED's curve, looked over before anything is fitted to them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

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
class Measured:
    """Points that a curve can be fitted to."""

    volts: tuple = about("V and A, in the order in which they were given.")
    amps: tuple = about("V and A, in the order in which they were given.")
    rows: tuple = about("Where each stands in the learner's table.")
    left_out: tuple = about("Rows without a point, and why.", default=())
    counted: str = about('What `rows` count: "row" or "line".', default="row")


def measured(
    volts: Sequence[float], amps: Sequence[float], rows: Sequence[int] | None = None, counted: str = "row"
) -> Measured:
    """Look measured points over, and leave out the rows that have none.

    Parameters
    ----------
    volts, amps
        V and A, one of each to a row. A gap is nan. A row without current says nothing of the curve and is left out.
    rows
        Their numbers in the learner's table; 1, 2, 3 … if not given.
    counted
        What those numbers count: "row" or "line".

    Raises
    ------
    ValueError
        Names the row, the value, and what is wrong with it.
    """
    v, i = _column("volts", volts), _column("amps", amps)
    if len(v) != len(i):
        raise ValueError(f"amps: {len(i)} currents do not go with {len(v)} voltages; give one of each to a row")
    rows = tuple(range(1, len(v) + 1)) if rows is None else tuple(int(row) for row in rows)
    if len(rows) != len(v):
        raise ValueError(f"rows: {len(rows)} numbers do not go with {len(v)} rows")
    left_out = {}
    for row, volt, amp in zip(rows, v, i, strict=True):
        _check(f"{counted} {row}", volt, amp)
        if volt != volt or amp != amp:
            left_out[row] = "a value is missing"
        elif amp == 0:
            left_out[row] = "no current"
    held = [(volt, amp, row) for volt, amp, row in zip(v, i, rows, strict=True) if row not in left_out]
    if len(held) < FEWEST:
        raise ValueError(
            f"points: {len(held)} with a current are too few; three numbers are fitted, so give {FEWEST} at least, and"
            " better a dozen"
        )
    found = Measured(*(tuple(column) for column in zip(*held, strict=True)), tuple(left_out.items()), counted)
    _check_together(found)
    return found


def _column(name, given):
    try:
        column = np.asarray(given, dtype=float)
    except (TypeError, ValueError):
        raise ValueError(f"{name}: {given!r:.60} are not all numbers") from None
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


def _check_together(found):
    """Complain of points that are together no LED's curve."""
    volts, amps = np.array(found.volts), np.array(found.amps)
    order = np.lexsort((volts, amps))
    volts, amps, rows = volts[order], amps[order], np.array(found.rows)[order]
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
            f"{found.counted} {rows[k + 1]}: {volts[k + 1]:g} V at {show(amps[k + 1], 'A')}, but {found.counted}"
            f" {rows[k]} has {volts[k]:g} V at less, {show(amps[k], 'A')}. Volts rise with the current; here they fall"
            f" {_times(len(falls))}. Are the columns the right way round, and was it one LED, as warm all the time?"
        )


def _times(count):
    return {0: "or stay", 1: "there"}.get(count, f"{count} times")
