"""What stands before a lamp and is chosen by data sheets: fuse and varistor, with the figures to take there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..circuit.values import show
from ..standards import displacement_verdict, modulation_verdict
from ..standards.mains import Supply
from .corners import spread_of

if TYPE_CHECKING:
    from ..solver.heat.warm_lamp import WarmLamp
    from .sizing import Draft

_WARM_LED = 85.0  # °C; typical practice, no source
_MANY = 5e-6  # F, from which a dropper is made of several in parallel
_STEEP = 3.0  # per cent of current for one per cent of mains voltage, from which it is told
_MISS = 0.05


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
        f" its breaking capacity. The inrush resistor takes {show(energy, 'J')} in that rush; a fusible, flame-proof"
        " kind whose data sheet gives a pulse curve may open too, but local codes decide whether it may stand for a"
        " fuse."
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


def warnings(draft: Draft, warm: WarmLamp) -> tuple[str, ...]:
    """What a design keeps within its limits and is still worth a word."""
    told, brief, result = [], draft.brief, draft.result
    if abs(draft.miss) > _MISS:
        told.append(
            f"The current is {abs(100 * draft.miss):.2g} % {'over' if draft.miss > 0 else 'short of'} the wish: no"
            f" value of E{brief.dropper_series} that the LEDs stand comes nearer. A closer series, or two in parallel,"
            " may."
        )
    swing = (draft.greatest - draft.least) / draft.current
    steep = draft.lamp.mains.peak / max(draft.lamp.mains.peak - draft.lamp.clamped_voltage(draft.current), 1e-9)
    if steep > _STEEP:
        told.append(
            f"The string takes so much of the mains that one per cent of mains makes {steep:.2g} % of current; over all"
            f" corners it swings by {100 * swing:.3g} %."
        )
    if draft.lamp.dropper > _MANY:
        told.append(f"A dropper of {show(draft.lamp.dropper, 'F')} is large: commonly several in parallel.")
    if brief.in_parallel > 1:
        told.append("LEDs side by side do not share evenly: take them from one bin, or give each its own resistor.")
    if brief.leds_in_use_only:
        told.append("The LEDs keep their limit in use; with a fault they may not.")
    if warm.temperatures.parts["leds"] > _WARM_LED:
        told.append(
            f"The LEDs reach {warm.temperatures.parts['leds']:.3g} °C: see how far their data sheet lets the current go"
            " there."
        )
    if "UV" in brief.led_kind.name:
        told.append(
            "These LEDs give near-ultraviolet light, most of it unseen: it harms eyes and skin. Cover it, never look"
            " into it, and keep to what the LEDs' data sheet warns of."
        )
    light = modulation_verdict(min(draft.flicker, 100.0), 2 * brief.supply.frequency)
    if light.word == "over":
        told.append(light.words)
    factor = displacement_verdict(result.real_power, result.displacement_factor)
    if factor.word == "below":
        told.append(factor.words)
    return tuple(told)


def worst_line(draft: Draft) -> float:
    """A rms: with two diodes short the dropper alone is across the mains."""
    farads = (1 + draft.brief.dropper_tolerance) * draft.lamp.dropper
    ends = spread_of(draft.brief, draft.lamp)
    return 2 * math.pi * ends.frequency_high * farads * ends.voltage_high
