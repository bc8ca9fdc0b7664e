"""Circuit of the network solver: each diode on its own, parts that may be open or short."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.lamp import Diode, Lamp, Led, Mains
from ..kernel import network as net
from ..kernel.network import HEALTHY, OPEN, SHORT, SHORT_RESISTANCE  # noqa: F401
from .body import Body

# Ohms and henries of the mains itself up to the socket, line and neutral together: the reference impedance of 0.4 Ω +
# j0.25 Ω at 50 Hz in IEC TR 60725 (seen in the abstract of its edition of 1981). Most sockets have less of both.
LINE_RESISTANCE = 0.4
LINE_INDUCTANCE = 0.25 / (2 * math.pi * 50)
# The same of a stiff mains, some fifteen metres of cable behind a large transformer. Typical practice, no source.
STIFF_RESISTANCE, STIFF_INDUCTANCE = 0.1, 20e-6


@dataclass(frozen=True)
class Circuit:
    """What is between the plug's pins. SI units; `math.inf` ohms where nothing is fitted."""

    mains: Mains
    diode: Diode
    led: Led
    inrush_resistor: float
    dropper: float  # 0: open
    bleeder: float
    smoothing: float  # 0: none, or open
    smoothing_bleeder: float
    series_resistor: float
    groups: int  # healthy ones, each of `in_parallel` LEDs
    in_parallel: int
    odd_parallel: int = 0  # LEDs left in one further group; 0: there is no such group
    line_open: bool = False
    dropper_short: bool = False
    string_open: bool = False
    bridge: tuple = (HEALTHY,) * 4
    smoothing_series: float = 0.0  # within the smoothing capacitor
    smoothing_leak: float = math.inf  # across it
    body: Body | None = None  # a person in the circuit

    @classmethod
    def of(cls, lamp: Lamp) -> Circuit:
        """The circuit of a healthy lamp."""
        return cls(
            mains=lamp.mains,
            diode=lamp.diode,
            led=lamp.string.led,
            inrush_resistor=lamp.inrush_resistor,
            dropper=lamp.dropper,
            bleeder=lamp.bleeder or math.inf,
            smoothing=lamp.smoothing,
            smoothing_bleeder=lamp.smoothing_bleeder or math.inf,
            series_resistor=lamp.series_resistor,
            groups=lamp.string.in_series,
            in_parallel=lamp.string.in_parallel,
        )

    def replace(self, **changes) -> Circuit:
        """The same with some fields changed."""
        return dataclasses.replace(self, **changes)

    @property
    def fewest_parallel(self) -> int:
        """LEDs in the group that has fewest of them."""
        return self.odd_parallel or self.in_parallel

    def row(self, in_line: float, inductance: float = 0.0) -> np.ndarray:
        """The numbers that the kernel takes.

        Parameters
        ----------
        in_line
            Ohms outside the lamp: the mains' own, or what stands across the pins of a plug that
            is out. `math.inf`: the pins are open.
        inductance
            Of the mains, H.
        """
        p = np.zeros(net.COLUMNS)
        mains, diode, led = self.mains, self.diode, self.led
        p[net.PEAK], p[net.FREQUENCY] = math.sqrt(2) * mains.voltage, mains.frequency
        p[net.LINE_OPEN] = float(self.line_open or math.isinf(in_line))
        p[net.R] = self.inrush_resistor + (0.0 if math.isinf(in_line) else in_line)
        p[net.L] = inductance
        p[net.C], p[net.G_C], p[net.DROPPER_SHORT] = self.dropper, 1 / self.bleeder, float(self.dropper_short)
        p[net.STATE_1 : net.STATE_4 + 1] = self.bridge
        p[net.A_D], p[net.B_D], p[net.R_D] = diode.slope_voltage, diode.saturation_current, diode.series_resistance
        p[net.CS], p[net.ESR] = self.smoothing, self.smoothing_series
        p[net.G_S] = 1 / self.smoothing_bleeder + 1 / self.smoothing_leak
        p[net.STRING_OPEN] = float(self.string_open)
        p[net.A_S], p[net.B_S] = self.groups * led.slope_voltage, self.in_parallel * led.saturation_current
        p[net.B_O], resistance = 1.0, self.groups * led.series_resistance / self.in_parallel
        if self.odd_parallel:
            p[net.A_O], p[net.B_O] = led.slope_voltage, self.odd_parallel * led.saturation_current
            resistance += led.series_resistance / self.odd_parallel
        p[net.R_S] = resistance + self.series_resistor
        whole = p[net.A_S] + p[net.A_O]
        logarithms = p[net.A_S] * math.log(p[net.B_S]) + p[net.A_O] * math.log(p[net.B_O])
        p[net.B_GUESS] = math.exp(logarithms / whole)
        if self.body:
            self.body.enter(p)
        p[net.SCALE] = 2 * math.pi * mains.frequency * (self.dropper or 1e-9) * mains.peak
        return p

    def orders(self) -> np.ndarray:
        """The mains as the kernel takes it: its harmonics, or the pieces of its shape (`sdirk_step.mains_at`)."""
        if self.mains.cycle.shape is not None:
            return self.mains.cycle.pieces
        rows = [(1.0, 1.0, 0.0)]
        rows += [(n, fraction, math.radians(phase)) for n, (fraction, phase) in self.mains.harmonics.items()]
        return np.array(rows, float)


def check_number(name: str | float, value: str | float, unit: str, low: float, high: float) -> float:
    """A number of a call, or a `ValueError` that names it and what is allowed."""
    try:
        number = float(value)
    except (TypeError, ValueError):
        number = math.nan
    if isinstance(value, bool | str) or not low <= number <= high:
        raise ValueError(
            f"{name}: {excerpt(value)} is not allowed; it must be from {low:g} to {high:g} {unit}".rstrip()
        )
    return number


def check_line_resistance(circuit: Circuit, line_resistance: float) -> float:
    """The mains' own resistance, checked: something must limit the inrush.

    Parameters
    ----------
    line_resistance
        Ohms.

    Raises
    ------
    ValueError
        If it is negative, or if it and the inrush resistor together are below 1 mΩ.
    """
    line = check_number("line_resistance", line_resistance, "Ω", 0, 1e4)
    if circuit.inrush_resistor + line < 1e-3 and not circuit.line_open:
        raise ValueError(
            f"line_resistance: {line:g} Ω and an inrush resistor of {circuit.inrush_resistor:g} Ω leave nothing to"
            " limit the inrush; together they must be at least 0.001 Ω"
            f" (the mains itself has about {LINE_RESISTANCE} Ω)"
        )
    return line


def check_line_inductance(line_inductance: float) -> float:
    """The mains' own inductance, checked.

    Parameters
    ----------
    line_inductance
        H.

    Raises
    ------
    ValueError
        If it is negative or above 1 H.
    """
    return check_number("line_inductance", line_inductance, "H", 0, 1)
