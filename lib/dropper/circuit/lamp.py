"""The circuit as data: what is on the board, in SI units, every field checked.

Mains, inrush resistor and dropper in series (a bleeder across the dropper), a bridge of
four diodes, a smoothing capacitor (with a bleeder of its own), a series resistor and a
string of LEDs. `dataclasses.replace` changes one thing at a time.
"""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from . import lampfile
from .fields import check, check_part, check_text, documented, quantity
from .html import table
from .mains import Mains
from .part import Part, replace_at, value_at
from .parts import fitted_parts, value_of
from .values import show

__all__ = ["THERMAL_VOLTAGE", "Diode", "Lamp", "Led", "LedString", "Mains", "Readings", "replace_at", "value_at"]

THERMAL_VOLTAGE = 0.025852  # V at 300 K: Boltzmann's constant times 300 K over the charge


@dataclass(frozen=True)
class _Junction(Part):
    """A junction as its data sheet states it: v = n·Vt·ln(1 + i/Is) + R·i."""

    forward_voltage: float
    at_current: float
    series_resistance: float
    ideality: float

    def __post_init__(self):
        check(self)
        if self.forward_voltage <= self.series_resistance * self.at_current:
            part = type(self).__name__
            dropped = self.series_resistance * self.at_current
            raise ValueError(
                f"{part}.series_resistance: {self.series_resistance:g} Ω alone drops {dropped:.3g} V"
                f" at {self.at_current:g} A, no less than the forward voltage"
                f" of {self.forward_voltage:g} V; use a smaller one"
            )

    @staticmethod
    def law(*, forward_voltage, at_current, series_resistance, ideality):
        """Slope voltage n·Vt and saturation current Is through the data sheet's point; arrays work."""
        slope = ideality * THERMAL_VOLTAGE
        return slope, at_current / np.expm1((forward_voltage - series_resistance * at_current) / slope)

    def _law(self):
        names = ("forward_voltage", "at_current", "series_resistance", "ideality")
        return self.law(**{name: getattr(self, name) for name in names})

    @functools.cached_property
    def slope_voltage(self):
        """Ideality times the thermal voltage at 300 K, V."""
        return float(self._law()[0])

    @functools.cached_property
    def saturation_current(self):
        """Is such that the law passes through the data sheet's point, A."""
        return float(self._law()[1])

    def voltage_at(self, current):
        """Forward voltage in V at a current in A."""
        junction = self.slope_voltage * math.log1p(current / self.saturation_current)
        return junction + self.series_resistance * current


@documented
@dataclass(frozen=True)
class Diode(_Junction):
    """Each of the bridge's four diodes."""

    forward_voltage: float = quantity("V", 0.1, 2, 0.8, meaning="forward voltage at the stated current")
    at_current: float = quantity("A", 1e-6, 10, 0.010, meaning="the current it is stated at")
    series_resistance: float = quantity("Ω", 0, 10, 0.05, meaning="resistance in series with the junction")
    ideality: float = quantity("", 1, 3, 1.8, meaning="ideality of the junction")


@documented
@dataclass(frozen=True)
class Led(_Junction):
    """One LED, or one package with several junctions in series."""

    forward_voltage: float = quantity("V", 0.5, 100, meaning="forward voltage at the stated current")
    at_current: float = quantity("A", 1e-5, 10, meaning="the current it is stated at")
    series_resistance: float = quantity("Ω", 0, 1000, 10.0, meaning="resistance in series with the junction")
    ideality: float = quantity("", 1, 60, 2.0, meaning="ideality, all junctions of a package together")

    def __post_init__(self):
        super().__post_init__()
        # Beyond this the saturation current underflows and the law loses its meaning.
        if (self.forward_voltage - self.series_resistance * self.at_current) / self.slope_voltage > 200:
            raise ValueError(
                f"Led.ideality: {self.ideality:g} is too small for {self.forward_voltage:g} V;"
                " a package of several junctions in series has their idealities added"
            )


@documented
@dataclass(frozen=True)
class LedString(Part):
    """Groups of LEDs in series, each group made of LEDs in parallel."""

    led: Led
    in_series: int = quantity("", 1, 1000, meaning="groups in series", whole=True)
    in_parallel: int = quantity("", 1, 1000, 1, meaning="LEDs in parallel in each group", whole=True)

    def __post_init__(self):
        check(self)
        check_part(self, "led", Led)

    def voltage_at(self, current: float) -> float:
        """Voltage in V of the whole string at a current in A through it."""
        return self.in_series * self.led.voltage_at(current / self.in_parallel)


@documented
@dataclass(frozen=True)
class Readings(Part):
    """What meters showed on the bench; every one may be missing."""

    voltage: float | None = quantity("V", 1, 1000, None, none=True, meaning="mains volts read")
    current: float | None = quantity("A", 0, 10, None, none=True, meaning="line current read")
    power: float | None = quantity("W", 0, 1000, None, none=True, meaning="watts read")
    apparent_power: float | None = quantity("VA", 0, 1000, None, none=True, meaning="volt-amperes read")
    power_factor: float | None = quantity("", 0, 1, None, none=True, meaning="power factor read")
    bus_voltage: float | None = quantity("V", 0, 2000, None, none=True, meaning="dc volts read on the string")
    note: str = ""

    def __post_init__(self):
        check(self)
        check_text(self, "note", 500)


@documented
@dataclass(frozen=True)
class Lamp(Part):
    """One lamp on the bench; values are numbers in SI units, or text as a lamp file has it.

    >>> Lamp(Mains(230, 50), LedString(Led(3.1, "20 mA"), 22), dropper="330 nF", smoothing="10 µF", bleeder="1M")
    <Lamp 'lamp': 230 V 50 Hz, dropper 330 nF, 22 LEDs of 3.1 V at 20 mA, smoothing 10 µF>
    """

    mains: Mains
    string: LedString
    dropper: float = quantity("F", 1e-10, 1e-4, meaning="dropper capacitor")
    smoothing: float = quantity("F", 1e-9, 1e-2, 0.0, zero=True, meaning="smoothing capacitor, 0: none")
    bleeder: float | None = quantity("Ω", 1e3, 1e9, None, none=True, meaning="bleeder across the dropper")
    inrush_resistor: float = quantity("Ω", 0, 1e5, 0.0, meaning="inrush resistor in the ac line")
    diode: Diode = Diode()
    smoothing_bleeder: float | None = quantity(
        "Ω", 1e2, 1e9, None, none=True, meaning="bleeder across the smoothing capacitor"
    )
    series_resistor: float = quantity("Ω", 0, 1e6, 0.0, meaning="resistor between smoothing and string")
    readings: Readings = Readings()
    name: str = "lamp"

    def __post_init__(self):
        check(self)
        for part, kind in (("mains", Mains), ("string", LedString), ("diode", Diode), ("readings", Readings)):
            check_part(self, part, kind)
        check_text(self, "name", 80)

    def __repr__(self):
        string, led = self.string, self.string.led
        leds = f"{string.in_series} × {string.in_parallel}" if string.in_parallel > 1 else f"{string.in_series}"
        return (
            f"<Lamp {self.name!r}: {show(self.mains.voltage, 'V')} {show(self.mains.frequency, 'Hz')},"
            f" dropper {show(self.dropper, 'F')}, {leds} LEDs of {show(led.forward_voltage, 'V')} at"
            f" {show(led.at_current, 'A')}, smoothing {show(self.smoothing, 'F') if self.smoothing else 'none'}>"
        )

    def _repr_html_(self) -> str:
        """The parts as a table, for a notebook."""
        rows = [(part.name, part.symbol, value_of(self, part.key)) for part in fitted_parts(self)]
        return table(self.name, ("part", "symbol", "value"), rows)

    def clamped_voltage(self, current: float) -> float:
        """Voltage in V that the bridge's ac side is clamped to at a current in A.

        The string, its series resistor and the two diodes that conduct.
        """
        string = self.string.voltage_at(current) + self.series_resistor * current
        return string + 2 * self.diode.voltage_at(current)

    @classmethod
    def from_toml(cls, path: Path | str) -> Lamp:
        """Read a lamp file; a wrong one raises `LampFileError` with the line."""
        return cls.from_toml_text(lampfile.read_text(path), Path(path).name)

    @classmethod
    def from_toml_text(cls, text: str, source: str = "lamp file") -> Lamp:
        """The same from text that has been read already."""
        return lampfile.build(cls, text, source)

    def to_toml_text(self) -> str:
        """The lamp file as text; reading it back gives an equal lamp."""
        return lampfile.write(self)

    def to_toml(self, path: Path) -> None:
        """Write a lamp file."""
        Path(path).write_text(self.to_toml_text(), encoding="utf-8")
