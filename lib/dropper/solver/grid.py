"""Grid: at which instants of a period the mains is looked at, and waves brought from there to even intervals.

A sine's grid is even. A shape with corners has each of them on the grid, some steps within every edge, and steps that
grow from there to the even grid's length: an edge of microseconds is seen, and nothing is sampled away.
"""

from __future__ import annotations

import functools
import itertools

import numpy as np

from ..circuit.mains import Cycle

_WITHIN = 24  # steps in a piece that is shorter than an even step, and the first step after it is as short
_GROWTH = 1.25


@functools.lru_cache(maxsize=64)
def mains_grid(cycle: Cycle, points: int) -> tuple[np.ndarray, np.ndarray]:
    """Shares of the period, both ends included, and the mains there over √2 times its voltage.

    Parameters
    ----------
    points
        Steps of an even grid; where there are corners it has more. An even number of them either way, and the second
        half as the first where the mains is `mirrored`.
    """
    if cycle.shape is None:
        shares = np.linspace(0, 1, points + 1)
        return shares, cycle.at(shares)
    corners = [*cycle.corners, 1.0]
    if cycle.mirrored:
        half = _between([corner for corner in corners if corner < 0.5 - 1e-12] + [0.5], 1 / points)
        shares = np.concatenate([half[:-1], half + 0.5])
    else:
        shares = _between(corners, 1 / points)
    return shares, cycle.at(shares)


def _between(corners, longest):
    """Shares from corner to corner, none further apart than `longest`, close together after a short piece."""
    shares, step = [corners[0]], longest
    for start, end in itertools.pairwise(corners):
        even = (end - start) / _WITHIN
        if even < longest:
            shares += list(np.linspace(start, end, _WITHIN + 1)[1:])
            step = even
            continue
        while end - shares[-1] > 1.5 * step:
            shares.append(shares[-1] + step)
            step = min(step * _GROWTH, longest)
        shares.append(end)
    return np.array(shares)


def to_even_intervals(shares: np.ndarray, waves: np.ndarray, points: int) -> np.ndarray:
    """Waves that are means over a grid's steps, as means over even intervals; what they add up to stays.

    Parameters
    ----------
    waves
        Shape (..., steps).
    points
        How many even intervals.
    """
    sums = np.zeros((*waves.shape[:-1], shares.size))
    np.cumsum(waves * np.diff(shares), axis=-1, out=sums[..., 1:])
    ends = np.linspace(0, 1, points + 1)
    place = np.clip(np.searchsorted(shares, ends, side="right") - 1, 0, shares.size - 2)
    part = (ends - shares[place]) / (shares[place + 1] - shares[place])
    at_ends = sums[..., place] + part * (sums[..., place + 1] - sums[..., place])
    return np.diff(at_ends, axis=-1) * points
