"""Rush: the greatest line current after plugging in, without keeping a wave of it."""

import math

import numpy as np

from . import network as net
from . import transient as tr
from .compilation import compiled

_STRIDE = 16  # steps after which it is looked whether the rush is over
_OVER = 0.5  # of its greatest: a current that has fallen so far was the rush
_RINGS = 0.5  # damping below which a current that has fallen may come back greater


@compiled
def rush_peak(p, orders, time, dropper, seconds, longest) -> float:
    """Greatest line current of a lamp plugged in at a time, its bus empty; nan if no answer was found.

    It is looked at until the current has fallen to half of its greatest, unless the line rings, and no longer than
    `seconds`.

    Parameters
    ----------
    p, orders : a circuit's row (`network`), the mains (`sdirk_step.mains_at`)
    time : where in the mains' cycle, s
    dropper : V it holds at that moment
    seconds, longest : how long it is looked at, and no step is longer
    """
    state, on, sums = np.zeros(tr.STATE), np.zeros(4), np.zeros(tr.SUMS)
    state[tr.NOW], state[tr.END], state[tr.DROPPER_STATE] = time, time + seconds, dropper
    points, waves = net.cold_tangents(p), np.empty((tr.WAVES, _STRIDE))
    rings = 0.5 * p[net.R] * math.sqrt(p[net.C]) < _RINGS * math.sqrt(p[net.L])
    start, outcome = True, tr.FULL
    while outcome == tr.FULL:
        outcome, count = tr.integrate(p, orders, 1.0, state, points, on, longest, start, waves, sums)
        start = False
        if not rings and count > 0 and abs(waves[tr.LINE, count - 1]) < _OVER * sums[tr.LINE_PEAK]:
            break
    return np.nan if outcome == tr.FAILED else sums[tr.LINE_PEAK]
