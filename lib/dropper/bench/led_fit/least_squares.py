"""Least squares of the junction law, V = n·Vt·ln(1 + i/Is) + R·i, that a few bad points do not move."""

import itertools
import math
from collections.abc import Sequence
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

    parameters: tuple
    used: np.ndarray
    distant: np.ndarray  # far off, whether left out or too many for that
    covariance: np.ndarray


def law(parameters: Sequence[float], amps: np.ndarray, at_current: float) -> np.ndarray:
    """Volts by the junction law.

    Parameters
    ----------
    parameters
        Forward voltage at `at_current` in V, ideality, series resistance in Ω.
    amps
        A.
    at_current
        A.
    """
    volts, ideality, ohms = parameters
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
        start, _ = _fit(volts, amps, at_current, junctions, start, scatter)
    residuals = np.abs(volts - law(start, amps, at_current))
    distant, used = (residuals > SCATTERS * _scatter(residuals)) & (residuals > SHARE * volts), every
    if distant.sum() <= len(volts) // 3:
        used = every if (~distant).sum() < 4 else _restored(volts, amps, at_current, junctions, start, ~distant)
        distant = ~used
    numbers, jacobian = _fit(volts[used], amps[used], at_current, junctions, start)
    left = volts[used] - law(numbers, amps[used], at_current)
    return Solution(tuple(map(float, numbers)), used, distant, _covariance(jacobian, left))


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
    residuals = np.sort(np.abs(laws @ columns.T - volts), axis=1)[:, : len(volts) - len(volts) // ONE_IN]
    return laws[residuals.sum(axis=1).argmin()]


def _through(columns, volts, fixed):
    """Laws through as many points as there are numbers not `fixed` (nan): all such groups, or many drawn at random."""
    fixed = np.array(fixed)
    free = np.isnan(fixed)
    size = int(free.sum())
    if math.comb(len(volts), size) <= MOST_LAWS:
        points = np.array(list(itertools.combinations(range(len(volts)), size)))
    else:
        points = np.random.default_rng(0).random((MOST_LAWS, len(volts))).argsort(axis=1)[:, :size]
    matrices = columns[points][:, :, free]
    right = volts[points] - columns[points][:, :, ~free] @ fixed[~free]
    sound = np.linalg.cond(matrices) < 1e12
    laws = np.tile(fixed, (int(sound.sum()), 1))
    laws[:, free] = np.linalg.solve(matrices[sound], right[sound][..., None])[..., 0]
    return laws


def _fit(volts, amps, at_current, junctions, start, scatter=None):
    """The three numbers by least squares on the full law, and its Jacobian; with `scatter` bad points hardly count."""
    from scipy.optimize import least_squares

    low, high = _bounds(volts, at_current, junctions, start[0])
    scale = np.array([0.1, 1.0, 0.1 / at_current])
    loss = {"loss": "cauchy", "f_scale": scatter} if scatter else {}
    result = least_squares(
        lambda numbers: law(numbers, amps, at_current) - volts,
        np.clip(start, low, high),
        bounds=(low, high),
        x_scale=scale,
        jac="3-point",
        xtol=1e-12,
        ftol=1e-12,
        gtol=1e-12,
        **loss,
    )
    near = 1e-9 * scale  # the search comes as near to a bound as this, and no nearer
    numbers = np.where(result.x - low < near, low, np.where(high - result.x < near, high, result.x))
    return numbers, result.jac


def _scatter(residuals):
    """Scatter of the good points, V: by the median of what the three fitted numbers leave free."""
    free = np.sort(np.abs(residuals))[3:]
    return max(1.4826 * float(np.median(free)), FINEST)


def _restored(volts, amps, at_current, junctions, start, used):
    """Points that the fit to the others does not exclude are taken back."""
    from scipy.special import stdtrit

    if used.all():
        return used
    numbers, _ = _fit(volts[used], amps[used], at_current, junctions, start)
    residuals = volts - law(numbers, amps, at_current)
    free = used.sum() - 3
    spread = max(float(np.sqrt((residuals[used] ** 2).sum() / free)), FINEST)
    allowed = np.maximum(stdtrit(free, 1 - DOUBT / 2) * spread, SHARE * volts)
    return used | (np.abs(residuals) <= allowed)


def _covariance(jacobian, left):
    """Covariance of the three numbers from what is left of the points."""
    free = max(len(left) - 3, 1)
    return float((left**2).sum()) / free * np.linalg.pinv(jacobian.T @ jacobian)
