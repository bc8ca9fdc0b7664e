"""What stands behind the bridge: smoothing capacitor and clamp, the rest of the lamp as it is."""

from __future__ import annotations

import bisect
import math
from typing import TYPE_CHECKING

from ..circuit.lamp import Lamp, replace_at
from ..circuit.series import preferred
from ..circuit.values import show
from ..solver.steady import steady_state
from .corners import POINTS, flickers, greatest_flicker, tall
from .infeasible import Infeasible

if TYPE_CHECKING:
    from .brief import Brief

CLAMP_TOLERANCE = 0.05  # typical practice, no source
_SMALLEST_SMOOTHING = 10e-9


def smoothing(brief: Brief, lamp: Lamp, least: float = 0.0) -> float | None:
    """The least preferred value that keeps the flicker within the wish in the worst corner; 0 where none is needed.

    Parameters
    ----------
    least
        F, from which values are looked at.

    Raises
    ------
    Infeasible
        If the largest one does not, or one that is fixed.
    """
    limit = brief.flicker_limit
    if "smoothing" in brief.fixed:
        depth = greatest_flicker(brief, lamp)
        if depth > limit:
            raise Infeasible(
                "fixed",
                f"With a smoothing capacitor of {show(lamp.smoothing, 'F')} the light wavers by up to"
                f" {depth:.3g} %; {limit:.3g} % is the wish.",
                brief.freed("smoothing"),
            )
        return lamp.smoothing
    if limit >= 100 and least == 0:
        return 0.0
    low = max(_SMALLEST_SMOOTHING, least)
    values = preferred(brief.smoothing_series, low, brief.largest_smoothing) if low <= brief.largest_smoothing else []
    if not values:
        raise Infeasible("flicker", f"No smoothing capacitor up to {show(brief.largest_smoothing, 'F')} will do.")
    depth = {}

    def passes(place):
        if place not in depth:
            depth[place] = float(flickers(brief, lamp, [values[place]])[0])
        return depth[place] <= limit

    at = min(max(bisect.bisect_left(values, lamp.smoothing * (1 - 1e-9)), 0), len(values) - 1)
    while not passes(at):
        if at == len(values) - 1:
            near = min(100.0, math.ceil(10 * depth[at]) / 10)
            raise Infeasible(
                "flicker",
                f"At most {limit:.3g} % flicker is the wish; even {show(values[at], 'F')}, the largest"
                f" smoothing capacitor to be had, leaves {depth[at]:.3g} % in the worst corner.",
                brief.but(flicker=near),
            )
        at += 1
    while at > 0 and passes(at - 1):
        at -= 1
    return values[at]


def clamp(brief: Brief, lamp: Lamp) -> float:
    """The least preferred voltage of a clamp that never conducts in use, V."""
    bus = greatest_bus(brief, lamp)
    return preferred(24, bus / (1 - CLAMP_TOLERANCE), 2 * bus)[0]


def greatest_bus(brief: Brief, lamp: Lamp) -> float:
    """The greatest bus voltage in use, with everything at its worst end, V."""
    least = replace_at(tall(brief, lamp), "smoothing", (1 - brief.smoothing_tolerance) * lamp.smoothing)
    return float(steady_state(least, POINTS).bus_voltage.max())
