"""Advice: what stands before a lamp and is chosen by data sheets: fuse and varistor, with the figures to take there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..circuit.values import show
from ..solver.steady import steady_state
from ..solver.transient import Fault
from ..standards import displacement_verdict, modulation_verdict
from ..standards.mains import Supply
from . import stock
from .wishes import METAL_CASE

if TYPE_CHECKING:
    from ..solver.heat import WarmLamp
    from ..solver.transient import Trace
    from .chosen_part import ChosenPart
    from .ratings import RatingsTable
    from .sizing import Sizing

_WARM_LED = 85.0  # °C; typical practice, no source
_MANY = 5e-6  # F, from which a dropper is made of several in parallel
_STEEP = 3.0  # per cent of current for one per cent of mains voltage, from which it is told
_MISS = 0.05
_PULSE = 8.3e-3  # s, over which the I²t of a rush is counted


def for_data_sheets(
    sizing: Sizing, ratings: RatingsTable, parts: tuple[ChosenPart, ...], replugging: Trace
) -> tuple[str, ...]:
    """What to take to the data sheets of fuse, varistor and clamp.

    Parameters
    ----------
    replugging
        The rush when it is plugged in again at once, in the bright corner.
    """
    supply, lamp = sizing.brief.supply, sizing.lamp
    line = steady_state(sizing.bright, 256).line_current_rms
    energy, i2t = replugging.inrush_energy, replugging.i2t(_PULSE)
    advice = (
        fuse(line, _bridge_short_current(sizing), _dropper_short_current(ratings), energy, i2t),
        varistor(supply, ratings.of("dropper").kind.ratings["ac_voltage"], lamp.inrush_resistor),
    )
    if sizing.clamp is None:
        return advice
    heat = next(part.reading.value for part in parts if part.part == "clamp")
    return (*advice, clamp(sizing.clamp, heat))


def _bridge_short_current(sizing):
    """A rms in the line with two diodes short: the dropper alone is across the mains."""
    farads, ends = (1 + sizing.brief.dropper_tolerance) * sizing.lamp.dropper, sizing.spread
    return 2 * math.pi * ends.frequency_high * farads * ends.voltage_high


def _dropper_short_current(ratings):
    """A rms in the line once the dropper has gone short, as far as the inrush resistor lets it."""
    return max(
        stress.value
        for stress in ratings.stresses_of("inrush_resistor")
        if stress.quantity == "rms_current" and stress.circumstance.fault == Fault("short", "dropper")
    )


def fuse(line: float, fault: float, gone: float, energy: float, i2t: float) -> str:
    """What to look for in a fuse's data sheet.

    Parameters
    ----------
    line
        A rms, the greatest in use.
    fault
        A rms with the diodes at the ac side short.
    gone
        A rms with the dropper short: the inrush resistor alone is left in the line.
    energy
        J, in the inrush resistor when it is plugged in again at once.
    i2t
        A²s of that rush.
    """
    return (
        f"Fuse: in series with the line, before everything else. It carries {show(line, 'A')} rms for years, up to"
        f" {show(fault, 'A')} with two diodes short, and has to pass an I²t of {show(i2t, 'A²s')} at every bad plug-in:"
        " its melting I²t is to be a good deal above that, by the number of pulses in its data sheet. It must open at"
        f" the {show(gone, 'A')} rms that the inrush resistor lets through once the dropper has gone short, and be able"
        " to break the full short-circuit current of the mains, which flows where a varistor or the wiring goes short:"
        f" its breaking capacity. The inrush resistor takes {show(energy, 'J')} in that rush, all parts sound; a"
        " fusible, flame-proof kind whose data sheet gives a pulse curve may open too, but local codes decide whether"
        " it may stand for a fuse."
    )


def varistor(supply: Supply, rating: float, resistor: float) -> str:
    """What to look for in a varistor's data sheet.

    Parameters
    ----------
    rating
        V rms, of the dropper.
    resistor
        Ω, of the inrush resistor.
    """
    return (
        f"Varistor: across the line behind the fuse, so that the fuse opens when it wears out and leaks. Its highest"
        f" continuous ac voltage is to be above the {show(supply.high, 'V', 4)} of the mains with something to spare;"
        f" the voltage it lets through at a surge, by its data sheet, meets the dropper ({show(rating, 'V')} ac rated)"
        f" and the inrush resistor of {show(resistor, 'Ω')}. Before that resistor it takes the whole surge,"
        " behind it less."
    )


def clamp(volts: float, watts: float) -> str:
    """What to look for in a clamp's data sheet.

    Parameters
    ----------
    volts
        Nominal.
    watts
        W, as long as the string is open.
    """
    return (
        f"Clamp: {show(volts, 'V')} nominal across the bus; with the string open it turns up to {show(watts, 'W')} to"
        " heat for as long as that lasts. One that is too small for it fails, as most do, by a short: then the lamp is"
        " dark, and nothing else is harmed. Its data sheet decides."
    )


def warnings(sizing: Sizing, warm: WarmLamp) -> tuple[str, ...]:
    """What a design keeps within its limits and is still worth a word."""
    texts, brief, result = [], sizing.brief, sizing.result
    if abs(sizing.miss) > _MISS:
        texts.append(
            f"The current is {abs(100 * sizing.miss):.2g} % {'over' if sizing.miss > 0 else 'short of'} the wish: no"
            f" value of {stock.words(brief, 'dropper')} that the LEDs stand comes nearer. A closer series, or two in"
            " parallel, may."
        )
    swing = (sizing.greatest_current - sizing.least_current) / sizing.current
    steep = sizing.lamp.mains.peak / max(sizing.lamp.mains.peak - sizing.lamp.clamped_voltage(sizing.current), 1e-9)
    if steep > _STEEP:
        texts.append(
            f"The string takes so much of the mains that one per cent of mains makes {steep:.2g} % of current; over all"
            f" corners it swings by {100 * swing:.3g} %."
        )
    if sizing.lamp.dropper > _MANY:
        texts.append(f"A dropper of {show(sizing.lamp.dropper, 'F')} is large: commonly several in parallel.")
    if brief.in_parallel > 1:
        texts.append("LEDs side by side do not share evenly: take them from one bin, or give each its own resistor.")
    if brief.leds_in_use_only:
        texts.append("The LEDs keep their limit in use; with a fault they may not.")
    if warm.temperatures.parts["leds"] > _WARM_LED:
        texts.append(
            f"The LEDs reach {warm.temperatures.parts['leds']:.3g} °C: see how far their data sheet lets the current go"
            " there."
        )
    if not sizing.lamp.smoothing:
        resistor, watts = sizing.lamp.inrush_resistor, result.heat["inrush_resistor"]
        texts.append(
            "Nothing smooths, so the rush at plug-in goes through the LEDs. The inrush resistor of"
            f" {show(resistor, 'Ω')} keeps it down, and burns {show(watts, 'W')} of the"
            f" {show(result.real_power, 'W')} for that. A smoothing capacitor of some microfarads would take the rush"
            " off them instead."
        )
    if brief.metal_case:
        texts.append(METAL_CASE)
    if "UV" in brief.led_kind.name:
        texts.append(
            "These LEDs give near-ultraviolet light, most of it unseen: it harms eyes and skin. Cover it, never look"
            " into it, and keep to what the LEDs' data sheet warns of."
        )
    light = modulation_verdict(min(sizing.flicker, 100.0), 2 * brief.supply.frequency)
    if light.word == "over":
        texts.append(light.words)
    factor = displacement_verdict(result.real_power, result.displacement_factor)
    if factor.word == "below":
        texts.append(factor.words)
    return tuple(texts)
