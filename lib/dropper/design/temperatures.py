"""Temperatures: the lamp in its bright corner, as warm as it makes itself, against what the air inside may reach."""

from __future__ import annotations

import dataclasses

from ..circuit.values import show
from ..solver import heat
from ..solver.heat import WarmLamp
from .infeasible import Infeasible, round_down
from .sizing import Sizing


def warm_up(sizing: Sizing) -> WarmLamp:
    """The lamp in its bright corner as warm as it makes itself.

    Raises
    ------
    Infeasible
        If the air inside gets warmer than the brief allows, or the LEDs hotter than the formulas hold for.
    """
    brief, kind = sizing.brief, sizing.brief.led_kind
    surroundings = brief.surroundings
    pieces = {part: surroundings.to_air[part] / count for part, (count, _) in sizing.pieces.items()}
    surroundings = dataclasses.replace(surroundings, to_air=surroundings.to_air | pieces)
    try:
        warm = heat.warm_up(sizing.bright, surroundings, kind.coefficient, kind.junctions, points=256)
    except ValueError as error:
        less = float(f"{0.7 * brief.current:.2g}")
        why = f"With {show(brief.current, 'A')} the lamp gets hotter than can be told: {error}."
        raise Infeasible("current", why, brief.but(current=less)) from None
    air = warm.temperatures.air
    if air > brief.warmest:
        share = (brief.warmest - brief.room) / (air - brief.room)
        raise Infeasible(
            "current",
            f"With mains and dropper at their upper ends the air inside comes to {air:.3g} °C, of"
            f" {show(warm.result.real_power, 'W')}; {brief.warmest:.3g} °C is the wish.",
            brief.but(current=round_down(0.97 * share * brief.current)),
        )
    return warm
