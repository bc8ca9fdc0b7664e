"""The dc side of the bridge: smoothing capacitor and clamp."""

from __future__ import annotations

import bisect
import math

from ..circuit.series import preferred
from ..circuit.values import show
from . import stock
from .infeasible import Infeasible
from .sizing import CLAMP_TOLERANCE, Sizing

_SMALLEST_SMOOTHING = 10e-9


def choose_smoothing(sizing: Sizing) -> Sizing:
    """The least preferred value that keeps the flicker within the wish in the worst corner; 0 where none is needed.

    Raises
    ------
    Infeasible
        If the largest one does not, or one that is fixed.
    """
    brief, lamp, limit = sizing.brief, sizing.lamp, sizing.brief.flicker_limit
    if "smoothing" in brief.fixed:
        depth = sizing.flicker_with(lamp.smoothing)
        if limit < 100 and depth > limit:  # 100 % is no wish
            raise Infeasible(
                "fixed",
                f"With a smoothing capacitor of {show(lamp.smoothing, 'F')} the light wavers by up to"
                f" {depth:.3g} %; {limit:.3g} % is the wish.",
                brief.without_fixed("smoothing"),
            )
        return sizing
    floor = sizing.floors.get("smoothing", 0.0)
    if limit >= 100 and floor == 0:
        return sizing.with_value("smoothing", 0.0)
    low = max(_SMALLEST_SMOOTHING, floor)
    values = stock.values(brief, "smoothing", low, brief.largest_smoothing) if low <= brief.largest_smoothing else []
    if not values:
        raise Infeasible("flicker", f"No smoothing capacitor up to {show(brief.largest_smoothing, 'F')} will do.")
    return sizing.with_value("smoothing", _least_passing(sizing, values, limit))


def _least_passing(sizing, values, limit):
    """The least of the values that keeps the flicker to a limit, looked for from the one that is there."""
    depths = {}

    def passes(place):
        if place not in depths:
            depths[place] = sizing.flicker_with(values[place])
        return depths[place] <= limit

    start = bisect.bisect_left(values, sizing.lamp.smoothing * (1 - 1e-9))
    place = min(start, len(values) - 1)
    while not passes(place):
        if place == len(values) - 1:
            near = min(100.0, math.ceil(10 * depths[place]) / 10)
            raise Infeasible(
                "flicker",
                f"At most {limit:.3g} % flicker is the wish; even {show(values[place], 'F')}, the largest"
                f" smoothing capacitor to be had, leaves {depths[place]:.3g} % in the worst corner.",
                sizing.brief.but(flicker=near),
            )
        place += 1
    while place > 0 and passes(place - 1):
        place -= 1
    return values[place]


def choose_clamp(sizing: Sizing) -> Sizing:
    """The least preferred voltage of a clamp that never conducts in use; none where none is wished for."""
    if not sizing.brief.clamp:
        return sizing.with_clamp(None)
    bus = sizing.greatest_bus_voltage
    return sizing.with_clamp(preferred(24, bus / (1 - CLAMP_TOLERANCE), 2 * bus)[0])
