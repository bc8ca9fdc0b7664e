"""Cautions before anybody reaches for a lamp, in our own words, the same everywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..circuit.values import show

if TYPE_CHECKING:
    from ..circuit.lamp import Lamp
    from ..components.kinds.leds import LedKind

LOW_VOLTAGE = 50.0  # V rms; OSHA 1910.333 counts parts from there on as live work

# The way of HSE GS38 and OSHA 1910.333: for the trained, with a device that is made for it.
DISCHARGE = (
    "Discharging is for people trained and allowed to do it, with an insulated device made and rated for it: never a"
    " screwdriver, never a resistor held in the hand."
)
CAUTIONS = (
    "All of this lamp is connected to the mains, the LEDs too. Touch nothing in it while it is plugged in, whatever a"
    " meter shows; live readings are for licensed practice only.",
    "Unplugged is not discharged: try the meter, measure pin to pin and across each capacitor, and again when"
    f" discharged. {DISCHARGE}",
    "An earth-leakage breaker sees nothing of a current from line to neutral. No earthed oscilloscope probe belongs on"
    " this circuit.",
    "Never near water, outdoors, or where LEDs or leads can be touched: these need an isolated supply.",
    "Computed, not tested: whether it may be built, opened or used, local codes and people licensed to do mains work"
    " decide.",
)
NEAR_UV = "Near-UV light is hardly seen and harms eyes and skin: cover the LEDs, and never look into them."


def near_uv(kind: LedKind | None) -> bool:
    """Whether an LED's light harms unseen."""
    return kind is not None and "uv" in kind.name.lower()


def low_voltage(lamp: Lamp) -> tuple[str, ...]:
    """What stands in the place of the first caution for a lamp on low volts; nothing for one on the mains."""
    if lamp.mains.voltage > LOW_VOLTAGE:
        return ()
    return (
        f"{show(lamp.mains.voltage, 'V')}: only behind a safety isolating transformer, with a fuse. Never connect this"
        " lamp to the mains.",
        "Touch nothing in it while it is plugged in: a mistake at the transformer puts the mains on every part; live"
        " readings are for licensed practice only.",
    )
