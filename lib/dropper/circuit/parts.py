"""Parts of the lamp by name: symbol on the drawing, field, and what each is there for."""

from dataclasses import dataclass
from typing import Any

from .values import show


@dataclass(frozen=True)
class Part:
    """One part of the circuit."""

    key: str
    symbol: str
    name: str
    job: str
    care: str = ""


PARTS = (
    Part("mains", "V1", "mains", "pushes the current: a sine, its peak √2 times the rms volts"),
    Part(
        "inrush_resistor",
        "R1",
        "inrush resistor",
        "limits the first rush of current when the lamp is plugged in at a bad instant",
        "It takes that pulse every time, so its kind matters more than its watts.",
    ),
    Part(
        "dropper",
        "C1",
        "dropper",
        "a capacitor in series with the mains: all of the lamp's current goes through it, to and fro",
        "It stays charged after unplugging unless a bleeder empties it.",
    ),
    Part(
        "bleeder",
        "R2",
        "bleeder",
        "empties the dropper after unplugging",
        "If it is open or missing, the dropper keeps up to the mains' peak for hours, and the pins show much of it.",
    ),
    Part("diodes", "D1–D4", "bridge", "turns both half cycles the same way round"),
    Part(
        "smoothing",
        "C2",
        "smoothing capacitor",
        "carries the LEDs between the pulses of current, so that the light flickers less",
        "It stays charged after unplugging unless its own bleeder empties it.",
    ),
    Part("smoothing_bleeder", "R3", "smoothing bleeder", "empties the smoothing capacitor after unplugging"),
    Part(
        "series_resistor", "R4", "series resistor", "in series with the string: the current of the LEDs goes through it"
    ),
    Part("leds", "LEDs", "string", "makes the light, and clamps the voltage behind the bridge"),
)
BY_KEY = {part.key: part for part in PARTS}


def value_of(lamp: Any, key: str) -> str:
    """A part's value as it stands on the drawing, or "" where none is fitted."""
    string = lamp.string
    if key == "mains":
        return f"{show(lamp.mains.voltage, 'V')}, {show(lamp.mains.frequency, 'Hz')}"
    if key == "diodes":
        return f"4 × {show(lamp.diode.forward_voltage, 'V')} at {show(lamp.diode.at_current, 'A')}"
    if key == "leds":
        led = f"{show(string.led.forward_voltage, 'V')} at {show(string.led.at_current, 'A')}"
        groups = f"{string.in_series} in series"
        if string.in_parallel > 1:
            groups += f", each {string.in_parallel} in parallel"
        return f"{groups}; {led}"
    value = getattr(lamp, key)
    if value in (None, 0):
        return ""
    return show(value, "F" if key in ("dropper", "smoothing") else "Ω")


def is_fitted(lamp: Any, key: str) -> bool:
    """Whether the lamp has a part; mains, diodes and LEDs it always has."""
    return getattr(lamp, key, True) not in (None, 0)


def fitted_parts(lamp: Any) -> list[Part]:
    """The parts that this lamp has, in the order of the current."""
    return [part for part in PARTS if is_fitted(lamp, part.key)]
