"""Evidence: what was read, seen and measured on a lamp that may have a fault; every reading may be missing."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, check, documented, quantity, spec_of

if TYPE_CHECKING:
    from ...circuit.lamp import Readings

LIGHTS = {
    "none": "none",
    "dim": "dimmer than before",
    "same": "as before",
    "brighter": "brighter than before",
    "flickering": "flickering, as a pencil waved before it shows",
}
BRIDGES = {
    "good": "all four conduct one way only",
    "one open": "one diode conducts neither way",
    "one short": "one diode conducts both ways",
    "two short on a rail": "the two on one rail conduct both ways: plus, or minus",
    "two short on a leg": "the two on one leg conduct both ways: the dropper's, or neutral's",
}
STRINGS = {
    "good": "every group lights",
    "open": "a group that nothing passes",
    "one short": "one group short",
    "several short": "several groups short",
}
WORDS = {"light": LIGHTS, "bridge": BRIDGES, "string": STRINGS}
_OHMS = ("bleeder_resistance", "inrush_resistance", "smoothing_bleeder_resistance", "smoothing_resistance")


def _reading(unit, high, meaning):
    return quantity(unit, 0, high, None, none=True, meaning=meaning)


@documented
@dataclass(frozen=True)
class Evidence:
    """Readings of one lamp, in SI units; None is what was not read.

    Ohms over the meter's range are `math.inf`. `pins_residual` is read once, `pins_after` seconds after the plug was
    pulled at any moment, the meter on the pins all the while: 0 V as a rule where the lamp is sound, whatever its
    capacitors hold. `bus_residual` is the like across the smoothing capacitor. `leds_dark` counts LEDs without light
    while the lamp is on. `light` is one of none, dim, same, brighter, flickering; `bridge` one of good, one open, one
    short, two short on a rail, two short on a leg; `string` one of good, open, one short, several short.

    Raises
    ------
    ValueError
        For a value out of range or a word that is not one of these.
    """

    voltage: float | None = _reading("V", 1000, "mains volts at the plug-in meter")
    current: float | None = _reading("A", 100, "line current at the plug-in meter")
    power: float | None = _reading("W", 1e5, "watts at the plug-in meter")
    power_factor: float | None = _reading("", 1, "power factor at the plug-in meter")
    light: str | None = about("how the light looks, a key of `LIGHTS`", default=None)
    leds_dark: float | None = _reading("", 1e6, "LEDs that are dark while the lamp is on")
    bus_voltage: float | None = _reading("V", 2000, "dc volts across the smoothing capacitor, live")
    bus_ripple: float | None = _reading("V", 1000, "ac volts across the smoothing capacitor, live")
    pins_residual: float | None = _reading("V", 2000, "volts left between the plug's pins")
    pins_after: float = quantity("s", 0.1, 600, 1.0, meaning="time from pulling the plug to that reading")
    bus_residual: float | None = _reading("V", 2000, "volts left across the smoothing capacitor")
    bus_after: float = quantity("s", 0.1, 600, 10.0, meaning="time from pulling the plug to that reading")
    dropper_capacitance: float | None = _reading("F", 1e-3, "the dropper, one lead lifted; 0: the meter finds none")
    bleeder_resistance: float | None = about("the bleeder across the dropper", "Ω", default=None)
    inrush_resistance: float | None = about("the inrush resistor", "Ω", default=None)
    smoothing_capacitance: float | None = _reading("F", 1, "the smoothing capacitor, one lead lifted; 0: none found")
    smoothing_resistance: float | None = about("the smoothing capacitor, one lead lifted", "Ω", default=None)
    smoothing_bleeder_resistance: float | None = about("the smoothing bleeder", "Ω", default=None)
    bridge: str | None = about("the diode test, a key of `BRIDGES`", default=None)
    string: str | None = about("the test of the string, a key of `STRINGS`", default=None)

    def __post_init__(self):
        check(self)
        for name in _OHMS:
            value = getattr(self, name)
            number = not isinstance(value, bool) and isinstance(value, int | float)
            if value is not None and not (number and value >= 0):
                raise ValueError(
                    f"Evidence.{name}: {excerpt(value)} is not allowed; it must be none, or 0 Ω to infinity"
                )
        for name, known in WORDS.items():
            value = getattr(self, name)
            if value is not None and not (isinstance(value, str) and value in known):
                raise ValueError(
                    f"Evidence.{name}: {excerpt(value)} is not allowed; it must be one of {', '.join(known)}"
                )

    def __repr__(self) -> str:
        values = [(item.name, getattr(self, item.name)) for item in dataclasses.fields(self)]
        defaults = {item.name: item.default for item in dataclasses.fields(self)}
        return f"Evidence({', '.join(f'{name}={value!r}' for name, value in values if value != defaults[name])})"

    @classmethod
    def of(cls, readings: Readings) -> Evidence:
        """From the bench readings of a lamp file (`lamp.Readings`)."""
        names = ("voltage", "current", "power", "power_factor", "bus_voltage")
        return cls(**{name: getattr(readings, name) for name in names})

    def reading_names(self) -> tuple[str, ...]:
        """Names of what was read, in the order of the fields."""
        return tuple(
            item.name
            for item in dataclasses.fields(self)
            if item.name not in ("pins_after", "bus_after") and getattr(self, item.name) is not None
        )

    def replace(self, **changes) -> Evidence:
        """The same with some readings added or changed."""
        return dataclasses.replace(self, **changes)


def unit_of(name: str) -> str:
    """The unit of a reading; "" for words and counts."""
    if name in _OHMS:
        return "Ω"
    spec = spec_of(next(item for item in dataclasses.fields(Evidence) if item.name == name))
    return spec.unit if spec else ""


def is_over(value: float) -> bool:
    """Whether a reading is over the meter's range."""
    return math.isinf(value)
