"""Cycles: whole periods of a recording, cut into even intervals: every start, every sampling, gaps bridged."""

import functools
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented

MOST, LEAST = 1024, 128
WIDEST_GAP = 0.05  # of a period; a period with a wider one is left out


@documented
@dataclass(frozen=True, eq=False)
class Cycles:
    """Periods of one channel, as means over even intervals of a period."""

    rows: np.ndarray = about(
        "Each begins where the fundamental of the voltage passes zero upwards, turned there if need be.", repr=False
    )
    samples_per_interval: float = about("How many samples fall into an interval, in the mean.")
    digit: float = about(
        "The smallest step between unlike values: what the instrument's converter or the file rounds to."
    )

    @property
    def mean(self) -> np.ndarray:
        """The mean period."""
        return self.rows.mean(axis=0)

    @property
    def noise(self) -> float:
        """Variance of the mean period's intervals by what the periods do not share, or one alone has of white noise."""
        count = len(self.rows)
        return (self.rows.var(axis=0, ddof=1).mean() if count > 1 else white_noise_variance(self.rows[0])) / count

    @property
    def variance(self) -> float:
        """The same with the rounding of the samples."""
        return self.noise + self._rounding(self.noise * len(self.rows))

    def _rounding(self, noise):
        """Variance that rounding adds to an interval's mean; noise above half a step makes it average out."""
        samples_per_interval = max(self.samples_per_interval, 1.0)
        alone = self.digit**2 / 12
        if not alone or noise * samples_per_interval > self.digit**2 / 4:
            return alone / samples_per_interval
        # A quiet wave is rounded alike as long as it stays within one step: so many errors only are each other's own.
        mean = self.mean
        crossed = np.abs(np.diff(mean, append=mean[0])).sum() / self.digit
        return alone * min(max(mean.size / max(crossed, 1.0), 1 / samples_per_interval), 4.0)


@functools.cache
def noise_share(samples_per_interval: float) -> float:
    """How much of white noise's power per interval is left by straight lines between samples.

    Parameters
    ----------
    samples_per_interval
        Samples an interval, 1 or more.

    Returns
    -------
    float
        Below 1, and near it for many samples: what neighbouring intervals then share stands in no interval's own
        variance, but does in that of a sum over them.
    """
    x = np.linspace(-samples_per_interval / 2 - 1, samples_per_interval / 2 + 1, 4001)
    whole = [
        np.where(y < -1, 0, np.where(y < 0, (1 + y) ** 2 / 2, np.where(y < 1, 1 - (1 - y) ** 2 / 2, 1)))
        for y in (x + samples_per_interval / 2, x - samples_per_interval / 2)
    ]
    weight = whole[0] - whole[1]
    return float(np.trapezoid(weight**2, x) / samples_per_interval)


def white_noise_variance(wave: np.ndarray) -> float:
    """Variance of the noise on a single period: half the mean square of a fifth difference, over its sum of squares.

    A smooth wave's fifth difference is next to nothing, white noise's is 252 times its variance. The median of the
    squares is taken, so that the few kinks of a lamp's current do not count.
    """
    five = np.diff(np.concatenate([wave, wave[:5]]), 5)
    return float(np.median(five**2) / 0.4549 / 252)  # 0.4549: median of the square of a standard normal variable


def intervals_for(samples_a_period: float) -> int:
    """How many intervals a period is cut into: no more than it has samples, 128 to 1024."""
    count = MOST
    while count > samples_a_period and count > LEAST:
        count //= 2
    return count


def cut_into_periods(
    time: np.ndarray, values: np.ndarray, frequency: float, phase: float, count: int
) -> tuple[Cycles, list[int]]:
    """Cut a channel into whole periods.

    Parameters
    ----------
    time
        s, rising.
    values
        Gaps are nan; they are bridged by straight lines.
    frequency
        Hz.
    phase
        rad, of the fundamental at the first sample.
    count
        Intervals of a period.

    Returns
    -------
    (Cycles, list of int)
        And which periods, counted from 0, had too wide a gap: they are among the rows all the same.
    """
    turns = frequency * (time - time[0])
    whole = int(np.floor(turns[-1] + 1e-9 + 0.5 / count))
    whole = max(whole, 1)
    good = ~np.isnan(values)
    wide = _wide_gaps(turns, good, whole)
    digit = digit_of(values[good])
    t, x = (turns, values) if good.all() else (turns[good], values[good])
    # The straight lines between samples, summed up from the start, give the mean over any interval.
    total = np.concatenate([[0.0], np.cumsum(np.diff(t) * (x[1:] + x[:-1]) / 2)])
    edges = np.arange(whole * count + 1) / count
    place = np.clip(np.searchsorted(t, edges, side="right") - 1, 0, t.size - 2)
    part = edges - t[place]
    slope = (x[place + 1] - x[place]) / (t[place + 1] - t[place])
    summed = total[place] + part * (x[place] + slope * part / 2)
    rows = (np.diff(summed) * count).reshape(whole, count)
    # Turned so that each row begins at the zero of the voltage's fundamental, to a whole interval; the rest by phase.
    return Cycles(_shifted(rows, phase), t.size / max(t[-1] - t[0], 1e-300) / count, digit), wide


def _shifted(rows, phase):
    """Rows that begin at phase 0 of the fundamental instead of at `phase`: exact for all that they hold."""
    count = rows.shape[1]
    shift = -phase / (2 * np.pi) * count  # intervals by which the zero lies behind the start
    whole = int(np.round(shift))
    rows = np.roll(rows, -whole, axis=1)
    rest = shift - whole
    if abs(rest) < 1e-9:
        return rows
    order = np.arange(count // 2 + 1)
    spectrum = np.fft.rfft(rows, axis=1) * np.exp(2j * np.pi * order * rest / count)
    return np.fft.irfft(spectrum, count, axis=1)


def _wide_gaps(turns, good, whole):
    """Which periods have a gap wider than can be bridged."""
    if good.all():
        return []
    present = turns[good]
    gaps = np.diff(present, prepend=0.0, append=max(turns[-1], whole))
    bad = set()
    for k in np.flatnonzero(gaps > WIDEST_GAP):
        start = present[k - 1] if k else 0.0
        bad |= set(range(int(start), min(int(start + gaps[k]) + 1, whole)))
    return sorted(bad)


def digit_of(values: np.ndarray) -> float:
    """The smallest step between unlike values of the first hundred thousand; 0 where hardly any value repeats."""
    some = np.unique(values[:100_000])
    if some.size < 2 or some.size > 0.5 * min(values.size, 100_000):
        return 0.0  # hardly a value comes twice: the steps are far below the noise
    steps = np.diff(some)
    return float(steps[steps > 1e-9 * (some[-1] - some[0])].min())
