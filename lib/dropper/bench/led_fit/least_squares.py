"""Least squares of the junction law, V = n·Vt·ln(1 + i/Is) + R·i, that a few bad points do not move."""

import itertools
import math
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import spec_of
from ...circuit.lamp import THERMAL_VOLTAGE, Led

_LED = Led.__dataclass_fields__
MOST_OHMS = spec_of(_LED["series_resistance"]).high
MOST_IDEALITY = 50.0  # as in the glossary of the theory
STEEPEST = 200 * THERMAL_VOLTAGE  # V for each ideality: beyond it an Led refuses
SHARE = 0.01  # of the volts: what is off by less is no bad point
SCATTERS, DOUBT = 4.0, 0.02  # times the scatter of the others; chance that a good point looks so bad
ENOUGH = 200  # points to start from
ONE_IN = 5  # of the points may be bad, and the start is a good one all the same
MOST_LAWS = 1500  # of each kind tried for a start
FINEST = 1e-4  # V: no bench meter scatters less


@dataclass(frozen=True)
class Solution:
    """What least squares found: forward voltage, ideality, series resistance; which points; and how surely."""

    numbers: tuple
    kept: np.ndarray
    apart: np.ndarray  # far off, whether left out or too many for that
    covariance: np.ndarray


def law(numbers, amps: np.ndarray, at_current: float):
    """Volts by the junction law.

    Parameters
    ----------
    numbers : sequence
        Forward voltage at `at_current` in V, ideality, series resistance in Ω.
    amps
        A.
    at_current
        A.
    """
    volts, ideality, ohms = numbers
    slope, saturation = Led.law(forward_voltage=volts, at_current=at_current, series_resistance=ohms, ideality=ideality)
    return slope * np.log1p(amps / saturation) + ohms * amps


def solve(volts: np.ndarray, amps: np.ndarray, at_current: float, junctions: int) -> Solution:
    """Fit the law, leaving out what stands far apart from the rest.

    Parameters
    ----------
    volts, amps
        V and A, looked over already.
    at_current
        A, the current at which the forward voltage is wanted.
    junctions
        In series: each has an ideality of 1 at least.
    """
    every = np.ones(len(volts), bool)
    start = _start(volts, amps, at_current, junctions)
    for _ in range(2):
        scatter = _scatter(volts - law(start, amps, at_current))
        start, _ = _fitted(volts, amps, at_current, junctions, start, scatter)
    off = np.abs(volts - law(start, amps, at_current))
    apart, kept = (off > SCATTERS * _scatter(off)) & (off > SHARE * volts), every
    if apart.sum() <= len(volts) // 3:
        kept = every if (~apart).sum() < 4 else _put_back(volts, amps, at_current, junctions, start, ~apart)
        apart = ~kept
    numbers, jacobian = _fitted(volts[kept], amps[kept], at_current, junctions, start)
    left = volts[kept] - law(numbers, amps[kept], at_current)
    return Solution(tuple(map(float, numbers)), kept, apart, _covariance(jacobian, left))


def _bounds(volts, at_current, junctions, near):
    """Least and greatest of the three numbers; `near` is the forward voltage, roughly."""
    most = min(MOST_OHMS, 0.9 * near / at_current)
    least = max(float(junctions), 1.1 * near / STEEPEST)
    return np.array([0.95 * near, least, 0.0]), np.array([1.05 * near, MOST_IDEALITY, most])


def _start(volts, amps, at_current, junctions):
    """Where to start: of the laws through three points the one that meets all but one in five of the points best.

    Far above saturation the law is linear in its numbers; what a bound forbids goes through two points on the bound.
    """
    few = slice(None, None, -(-len(volts) // ENOUGH))
    volts, amps = volts[few], amps[few]
    columns = np.column_stack([np.ones(len(volts)), THERMAL_VOLTAGE * np.log(amps / at_current), amps - at_current])
    near = float(np.median(volts))
    least = max(float(junctions), 1.1 * near / STEEPEST)
    inside = _through(columns, volts, (np.nan, np.nan, np.nan))
    no_ohms = _through(columns, volts, (np.nan, np.nan, 0.0))
    no_more = _through(columns, volts, (np.nan, least, np.nan))
    laws = np.vstack([inside, no_ohms, no_more, (near, least, 0.0)])
    volt, ideality, ohms = laws.T
    laws = laws[(volt > 0) & (ideality >= least) & (ideality <= MOST_IDEALITY) & (ohms >= 0) & (ohms <= MOST_OHMS)]
    off = np.sort(np.abs(laws @ columns.T - volts), axis=1)[:, : len(volts) - len(volts) // ONE_IN]
    return laws[off.sum(axis=1).argmin()]


def _through(columns, volts, held):
    """Laws through as many points as there are numbers not `held` (nan): all such groups, or many drawn at random."""
    held = np.array(held)
    free = np.isnan(held)
    size = int(free.sum())
    if math.comb(len(volts), size) <= MOST_LAWS:
        points = np.array(list(itertools.combinations(range(len(volts)), size)))
    else:
        points = np.random.default_rng(0).random((MOST_LAWS, len(volts))).argsort(axis=1)[:, :size]
    matrices = columns[points][:, :, free]
    right = volts[points] - columns[points][:, :, ~free] @ held[~free]
    sound = np.linalg.cond(matrices) < 1e12
    laws = np.tile(held, (int(sound.sum()), 1))
    laws[:, free] = np.linalg.solve(matrices[sound], right[sound][..., None])[..., 0]
    return laws


def _fitted(volts, amps, at_current, junctions, start, scatter=None):
    """The three numbers by least squares on the full law, and its Jacobian; with `scatter` bad points hardly count."""
    from scipy.optimize import least_squares

    low, high = _bounds(volts, at_current, junctions, start[0])
    scale = np.array([0.1, 1.0, 0.1 / at_current])
    loss = {"loss": "cauchy", "f_scale": scatter} if scatter else {}
    found = least_squares(
        lambda numbers: law(numbers, amps, at_current) - volts,
        np.clip(start, low, high), bounds=(low, high), x_scale=scale, jac="3-point",
        xtol=1e-12, ftol=1e-12, gtol=1e-12, **loss,
    )  # fmt: skip
    near = 1e-9 * scale  # the search comes as near to a bound as this, and no nearer
    numbers = np.where(found.x - low < near, low, np.where(high - found.x < near, high, found.x))
    return numbers, found.jac


def _scatter(off):
    """Scatter of the good points, V: by the median of what the three fitted numbers leave free."""
    free = np.sort(np.abs(off))[3:]
    return max(1.4826 * float(np.median(free)), FINEST)


def _put_back(volts, amps, at_current, junctions, start, kept):
    """Points that the fit to the others does not exclude are taken back."""
    from scipy.special import stdtrit

    if kept.all():
        return kept
    numbers, _ = _fitted(volts[kept], amps[kept], at_current, junctions, start)
    off = volts - law(numbers, amps, at_current)
    free = kept.sum() - 3
    spread = max(float(np.sqrt((off[kept] ** 2).sum() / free)), FINEST)
    allowed = np.maximum(stdtrit(free, 1 - DOUBT / 2) * spread, SHARE * volts)
    return kept | (np.abs(off) <= allowed)


def _covariance(jacobian, left):
    """Covariance of the three numbers from what is left of the points."""
    free = max(len(left) - 3, 1)
    return float((left**2).sum()) / free * np.linalg.pinv(jacobian.T @ jacobian)
