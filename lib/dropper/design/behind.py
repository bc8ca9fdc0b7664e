"""What stands behind the bridge: smoothing capacitor and clamp, the rest of the lamp as it is."""

import bisect
import math

from ..lamp import replace_at
from ..steady import steady_state
from ..values import preferred, show
from .corners import POINTS, greatest_flicker, tall
from .infeasible import Infeasible

CLAMP_TOLERANCE = 0.05  # typical practice, no source
_SMALLEST_SMOOTHING = 10e-9


def smoothing(brief, lamp, least=0.0):
    """The least preferred value that keeps the flicker within the wish in the worst corner; 0 where none is needed.

    Parameters
    ----------
    brief : Brief
    lamp : Lamp
    least : float
        F, from which values are looked at.

    Raises
    ------
    Infeasible
        If the largest one does not, or one that is fixed.
    """
    limit = brief.flicker_limit

    def flicker(farads):
        return greatest_flicker(brief, replace_at(lamp, "smoothing", farads))

    if "smoothing" in brief.fixed:
        depth = flicker(lamp.smoothing)
        if depth > limit:
            raise Infeasible(
                "fixed", f"With a smoothing capacitor of {show(lamp.smoothing, 'F')} the light wavers by up to"
                f" {depth:.3g} %; {limit:.3g} % is the wish.", brief.freed("smoothing"),
            )  # fmt: skip
        return lamp.smoothing
    if limit >= 100 and least == 0:
        return 0.0
    values = preferred(brief.smoothing_series, max(_SMALLEST_SMOOTHING, least), brief.largest_smoothing)
    if not values or (deepest := flicker(values[-1])) > limit:
        had = values[-1] if values else 0.0
        deepest = deepest if values else 100.0
        near = min(100.0, math.ceil(10 * deepest) / 10)
        raise Infeasible(
            "flicker", f"At most {limit:.3g} % flicker is the wish; even {show(had, 'F')}, the largest smoothing"
            f" capacitor to be had, leaves {deepest:.3g} % in the worst corner.", brief.but(flicker=near),
        )  # fmt: skip
    return values[bisect.bisect_left(values, True, key=lambda farads: flicker(farads) <= limit)]


def clamp(brief, lamp):
    """The least preferred voltage of a clamp that never conducts in use, V.

    Parameters
    ----------
    brief : Brief
    lamp : Lamp
    """
    bus = greatest_bus(brief, lamp)
    return preferred(24, bus / (1 - CLAMP_TOLERANCE), 2 * bus)[0]


def greatest_bus(brief, lamp):
    """The greatest bus voltage in use, with everything at its worst end, V.

    Parameters
    ----------
    brief : Brief
    lamp : Lamp
    """
    least = replace_at(tall(brief, lamp), "smoothing", (1 - brief.smoothing_tolerance) * lamp.smoothing)
    return float(steady_state(least, POINTS).bus_voltage.max())
