"""Cycles that repeat: a batch of lamps handed to the kernel, on all cores, and again where one pass is not enough."""

from __future__ import annotations

import functools
import os
import threading
from collections.abc import Callable

import numpy as np

from . import power
from .batch import LampBatch
from .grid import mains_grid, to_even_intervals
from .kernel import columns
from .kernel.periodic import find_cycles
from .state import UNLIT

_CHUNK = 256  # lamps that a thread takes at a time
_LAG = 0.5  # of the square of the angle by which the dropper's voltage lags: what its crest lacks
_CONDUCTS = 1e-4  # of the current that the dropper alone would pass: what a bridge has that conducts
_SHARP = 2048  # even intervals in which the harmonics of a current with edges are counted
_FINE = 512  # points that show the short pulses of a dark lamp
_FINER, _FINEST = 4, 65536  # times as many points each time a lamp has not settled, and how many at most


class Cycles:
    """The cycle that each lamp of a batch repeats.

    Each lamp is solved by itself, so that nothing hangs on how many threads there are. A lamp that does not settle is
    solved again with more points, and so is one so dark that less flows than the first pass takes for a bridge that
    conducts: there the diodes' reverse current counts.

    Attributes
    ----------
    sums
        Shape (lamps, `columns.SUMS`).
    line_harmonics
        Of the line current, as `power.harmonics` gives them.
    waves
        Shape (4, lamps, points); None where they are not kept.
    dark
        Which lamps give no light.
    """

    def __init__(self, batch: LampBatch, points: int, waveforms: bool = False):
        count = len(batch)
        self._batch, self._points, self._rows = batch, points, _rows(batch)
        self._symmetric, self._guesses = batch.symmetric, _guesses(self._rows)
        self.sums = np.empty((count, columns.SUMS))
        self.line_harmonics = np.empty((count, power.HARMONICS + 1), complex)
        self.waves = np.empty((4, count, points)) if waveforms else None
        stated = batch.columns["string.led.at_current"] * batch.columns["string.in_parallel"]
        self._unlit = UNLIT * stated
        self._solve(np.arange(count))
        self._solve_again()

    @property
    def dark(self) -> np.ndarray:
        return self.sums[:, columns.STRING] < self._unlit

    def _solve_again(self):
        sums, rows = self.sums, self._rows
        load = sums[:, columns.STRING] + rows[:, columns.G_S] * sums[:, columns.BUS]
        idle = load < rows[:, columns.LEAST]
        places = np.flatnonzero(idle | (sums[:, columns.SETTLED] == 0))
        finer = -(-_FINE // self._points)
        while places.size and self._points * finer <= _FINEST:
            rows[places, columns.LEAK] = np.where(idle, 2 * rows[:, columns.B_D], 0.0)[places]
            self._solve(places, finer)
            places = places[sums[places, columns.SETTLED] == 0]
            finer *= _FINER
            idle = ~idle  # where the one view did not settle, the other may

    def _solve(self, places, finer=1):
        """Solve the lamps at some places with so many times the points, and bring their waves back to `points`."""
        batch, points = self._batch, self._points * finer
        shaped = np.array([cycle.shape is not None for cycle in batch.cycles], bool)[batch.cycle_of[places]]
        self._solve_on_one_grid(places[~shaped], points)
        for cycle in np.unique(batch.cycle_of[places[shaped]]):  # each has a grid of its own
            self._solve_on_one_grid(places[batch.cycle_of[places] == cycle], points)

    def _solve_on_one_grid(self, places, points):
        if not places.size:
            return
        batch = self._batch
        cycles, cycle_of = np.unique(batch.cycle_of[places], return_inverse=True)
        grids = [mains_grid(batch.cycles[cycle], points) for cycle in cycles]
        shares, tables = grids[0][0], np.array([table for _, table in grids])
        steps, even = shares.size - 1, batch.cycles[cycles[0]].shape is None
        lengths = np.ones(steps) if even else np.diff(shares) * steps

        def solve_part(part):
            here = places[part]
            waves, sums = np.empty((len(here), 4, steps)), np.empty((len(here), columns.SUMS))
            rows, guesses = self._rows[here], self._guesses[here]
            find_cycles(rows, tables, lengths, cycle_of[part], self._symmetric[here], guesses, waves, sums)
            self.sums[here] = sums
            if not even:
                fine = to_even_intervals(shares, waves[:, columns.LINE], max(points, _SHARP))
                self.line_harmonics[here] = power.harmonics(fine)
                waves = to_even_intervals(shares, waves, self._points)
            elif points > self._points:
                waves = waves.reshape(len(here), 4, self._points, -1).mean(axis=-1)
            if even:
                self.line_harmonics[here] = power.harmonics(waves[:, columns.LINE])
            if self.waves is not None:
                self.waves[:, here] = np.moveaxis(waves, 1, 0)

        on_all_cores(solve_part, len(places), max(1, _CHUNK * self._points // steps))


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def on_all_cores(
    act: Callable[[slice], None], count: int, chunk: int, report: Callable[[float], None] | None = None
) -> None:
    """Call `act` with slices that make `count` together, from as many threads as there are cores.

    Called from one of these threads, it does them one after the other there.

    Parameters
    ----------
    chunk
        How many a slice has.
    report
        Called from this thread with the share that is done.
    """
    parts = [slice(start, start + chunk) for start in range(0, count, chunk)]
    alone = min(cores(), len(parts)) < 2 or getattr(_thread, "of_the_pool", False)
    results = map(act, parts) if alone else _pool(os.getpid(), cores()).map(act, parts)
    for done, _ in enumerate(results, 1):
        if report:
            report(done / len(parts))


_thread = threading.local()


@functools.lru_cache(maxsize=1)
def _pool(process, threads):
    """The threads of this process; one that was forked off has none of its parent's."""
    from concurrent.futures import ThreadPoolExecutor

    return ThreadPoolExecutor(threads, initializer=lambda: setattr(_thread, "of_the_pool", True))


def _rows(batch):
    """What the kernel takes of each lamp."""
    get = batch.columns
    groups, parallel = get["string.in_series"], get["string.in_parallel"]
    rows = np.empty((len(groups), columns.ROW))
    rows[:, columns.PEAK] = np.sqrt(2) * get["mains.voltage"]
    rows[:, columns.FREQUENCY] = get["mains.frequency"]
    rows[:, columns.C] = get["dropper"]
    rows[:, columns.G_C] = np.nan_to_num(1 / get["bleeder"])
    rows[:, columns.R] = get["inrush_resistor"]
    rows[:, columns.CS] = get["smoothing"]
    rows[:, columns.G_S] = np.nan_to_num(1 / get["smoothing_bleeder"])
    rows[:, columns.A_D] = 2 * get["diode.slope_voltage"]
    rows[:, columns.B_D] = get["diode.saturation_current"]
    rows[:, columns.R_D] = 2 * get["diode.series_resistance"]
    rows[:, columns.A_S] = groups * get["string.led.slope_voltage"]
    rows[:, columns.B_S] = parallel * get["string.led.saturation_current"]
    rows[:, columns.R_S] = groups * get["string.led.series_resistance"] / parallel + get["series_resistor"]
    rows[:, columns.R_SERIES] = get["series_resistor"]
    rows[:, columns.LEAST] = _CONDUCTS * 2 * np.pi * get["mains.frequency"] * get["dropper"] * rows[:, columns.PEAK]
    rows[:, columns.LEAK] = 0.0
    return rows


def _voltage(rows, current):
    """Voltage of the string and its resistor, and of two diodes, at a current."""
    string = rows[:, columns.A_S] * np.log1p(current / rows[:, columns.B_S]) + rows[:, columns.R_S] * current
    diodes = rows[:, columns.A_D] * np.log1p(current / rows[:, columns.B_D]) + rows[:, columns.R_D] * current
    return string, diodes


def _guesses(rows):
    """Dropper and bus voltage at the crest, and string current, from the closed form."""
    peak = rows[:, columns.PEAK]
    charge = 4 * rows[:, columns.FREQUENCY] * rows[:, columns.C]
    current = 0.5 * charge * peak
    for _ in range(12):
        string, diodes = _voltage(rows, current)
        current = 0.5 * current + 0.5 * np.maximum(charge * (peak - string - diodes), 0.02 * current)
    string, diodes = _voltage(rows, current)
    clamp = np.minimum(string + diodes, peak)
    in_line = rows[:, columns.R] + rows[:, columns.R_D] + np.where(rows[:, columns.CS] > 0, 0.0, rows[:, columns.R_S])
    lag = 2 * np.pi * rows[:, columns.FREQUENCY] * rows[:, columns.C] * in_line
    dropper = (peak - clamp) * (1 - np.minimum(_LAG * lag**2, 0.5))
    return np.stack([dropper, np.minimum(string, clamp), current], axis=1)
