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
    "An earth-leakage breaker sees nothing of a current from line to neutral. No earthed oscilloscope probe belongs on"
    " here.",
    "Unplugged is not discharged, and 0 V between the pins does not prove the dropper empty.",
    "Only people trained and allowed to do so measure (pins first, case closed; then each capacitor's own leads; meter"
    " proved before and after) and discharge (insulated device, no screwdriver, no resistor held in the hand).",
    "Never near water, outdoors, or where LEDs or leads can be touched: these need an isolated supply.",
    "Computed, not tested: local codes and people licensed to do mains work decide what may be done.",
)
NEAR_UV = "Near-UV light is hardly seen and harms eyes and skin: cover the LEDs, and never look into them."


def near_uv(kind: LedKind | None) -> bool:
    """Whether an LED's light harms unseen."""
    return kind is not None and "uv" in kind.name.lower()


def low_voltage(lamp: Lamp) -> bool:
    """Whether a lamp is for extra-low volts behind a transformer, and not for the mains."""
    return lamp.mains.voltage <= LOW_VOLTAGE


def caution_texts(lamp: Lamp) -> tuple[str, ...]:
    """What is said before anybody reaches for a lamp: `CAUTIONS`, or what holds for one on extra-low volts."""
    if not low_voltage(lamp):
        return CAUTIONS
    node = "the transformer's end of R1" if lamp.inrush_resistor else "one terminal of the transformer"
    return (
        f"{show(lamp.mains.voltage, 'V')} ac, isolated: only behind a safety isolating transformer (IEC 61558-2-6, from"
        " memory), with a fuse. Never connect this lamp to the mains; never open the transformer.",
        "Behind it a class may measure what its sheet lists, by the rules of the school. No hand on parts while it is"
        " plugged in: they get hot, and a fault in the transformer puts the mains on all of them.",
        "Unplug the transformer before a part is changed or a clip moved. Capacitors keep a small charge: measure"
        " each one across its own leads first.",
        f"The clips of an oscilloscope are one node: put both on {node}.",
        "Computed, not tested: local codes and whoever answers for the room decide.",
    )
