"""Temperatures: the lamp in its bright corner, as warm as it makes itself, against what the air inside may reach."""

from __future__ import annotations

import dataclasses

from ..circuit.values import show
from ..solver import heat
from ..solver.heat import WarmLamp
from . import wishes
from .infeasible import Infeasible, round_down
from .inrush import smoothing_for_rush
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
        fewer = wishes.fewer_leds(brief, 0.7)
        raise Infeasible("warmest", why, fewer or brief.but(current=less)) from None
    if warm.temperatures.air > brief.warmest:
        raise _too_warm(sizing, warm)
    return warm


def _too_warm(sizing, warm):
    """The refusal: where a large inrush resistor spares the LEDs, a smoothing capacitor is offered in its place."""
    brief, lamp, air = sizing.brief, sizing.lamp, warm.temperatures.air
    why = (
        f"With mains and dropper at their upper ends the air inside comes to {air:.3g} °C, of"
        f" {show(warm.result.real_power, 'W')}; {brief.warmest:.3g} °C is the wish."
    )
    smoothed = smoothing_for_rush(sizing)
    if smoothed is None:
        share = (brief.warmest - brief.room) / (air - brief.room)
        fewer = wishes.fewer_leds(brief, share)
        return Infeasible("warmest", why, fewer or brief.but(current=round_down(0.97 * share * brief.current)))
    why += (
        f" {show(warm.result.heat['inrush_resistor'], 'W')} of that burn in the inrush resistor:"
        f" {'little' if lamp.smoothing else 'nothing'} smooths, so it has to be {show(lamp.inrush_resistor, 'Ω')} to"
        f" spare the LEDs the rush at plug-in. With a smoothing capacitor of {show(smoothed.lamp.smoothing, 'F')},"
        f" {show(smoothed.lamp.inrush_resistor, 'Ω')} would do."
    )
    calmer = round_down(smoothed.flicker)
    return Infeasible("flicker", why, brief.without_fixed("smoothing", flicker=calmer))
