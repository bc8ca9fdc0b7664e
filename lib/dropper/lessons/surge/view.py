"""Surge view: which part takes the volts of a surge, and what a varistor changes."""

import numpy as np

from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...solver.surge import Surge, Varistor, surge


def shares(found: Surge) -> dict[str, float]:
    """How many volts more each takes at most, V: "resistor", "dropper", "leds"."""
    line = float(np.abs(found.line_current).max())
    return {
        "resistor": line * found.lamp.inrush_resistor,
        "dropper": float(np.ptp(found.dropper_voltage)),
        "leds": float(np.ptp(found.bus_voltage)),
    }


def outcome(lamp: Lamp, voltage: float = 500.0) -> tuple[str, str]:
    """Which part takes most of a surge's volts, by its key in `shares`, and a sentence with the figures."""
    more = shares(surge(lamp, voltage))
    words = (
        f"R1 takes up to {show(more['resistor'], 'V')} of it, the dropper {show(more['dropper'], 'V')}, the LEDs"
        f" {show(more['leds'], 'V')}."
    )
    return max(more, key=more.get), words


def varistor_words(lamp: Lamp, voltage: float, varistor: Varistor) -> str:
    """What a varistor changes for R1, and what it takes itself."""
    bare, saved = surge(lamp, voltage), surge(lamp, voltage, varistor)
    return (
        f"{show(voltage, 'V')}: across the lamp {show(bare.volts.max(), 'V')} without, {show(saved.volts.max(), 'V')}"
        f" with a varistor; R1 {show(bare.resistor_energy, 'J')}, then {show(saved.resistor_energy, 'J')}; the varistor"
        f" takes {show(saved.varistor_energy, 'J')}, {100 * saved.varistor_energy / varistor.energy:.2g} % of what it"
        " stands."
    )
