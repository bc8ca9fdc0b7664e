"""Surge: a lamp at the crest of the mains, a surge of a combination-wave generator on top, and what each part sees."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp

from ..circuit.fields import about, check, documented, quantity
from ..circuit.html import Markup, table
from ..circuit.lamp import Lamp
from ..circuit.values import show
from .steady import steady_state

# The elementary circuit of a generator of 1.2/50 µs open and 8/20 µs short-circuited, 2 Ω between lines (IEC
# 61000-4-5): a charged capacitor with a resistor across it, resistor and coil to the output, a resistor across that.
# From memory, after Carobbi and Bonci (2013); tests hold its waves to the standard's definitions.
_STORE, _ACROSS, _IN_LINE, _COIL, _OUT = 6.038e-6, 25.105, 0.941, 10.37e-6, 19.80
_CHARGE = 1.082  # volts of the capacitor for each volt of the open output
_CABLE = 1e-9  # F across the lamp's terminals: some cable and the disc itself; typical practice, no source
_LEAST = 0.5  # Ω of wires and diodes, where no resistor stands in the line; typical practice, no source
DURATION, SAMPLES = 200e-6, 4001


@documented
@dataclass(frozen=True)
class Varistor:
    """A varistor, as a power law through two points of its data sheet.

    The defaults are those of a disc of 7 mm for 275 V ac, from memory.

    >>> Varistor().exponent > 15
    True
    """

    voltage: float = quantity("V", 5, 2000, 430.0, meaning="voltage at 1 mA")
    clamping_voltage: float = quantity("V", 5, 5000, 710.0, meaning="voltage at the clamping current")
    clamping_current: float = quantity("A", 0.1, 1000, 10.0, meaning="the current it is stated at")
    energy: float = quantity("J", 0.01, 10000, 20.0, meaning="energy of one surge that it stands")

    def __post_init__(self):
        check(self)
        if self.clamping_voltage <= self.voltage:
            raise ValueError(
                f"Varistor.clamping_voltage: {show(self.clamping_voltage, 'V')} must be above the"
                f" {show(self.voltage, 'V')} at 1 mA"
            )

    @property
    def exponent(self) -> float:
        """How steep it is: the current goes with this power of the voltage."""
        return math.log(self.clamping_current / 1e-3) / math.log(self.clamping_voltage / self.voltage)

    def current(self, volts: np.ndarray) -> np.ndarray:
        """Current at so many volts, A.

        Parameters
        ----------
        volts
            V, of either sign; a number or an array.
        """
        return 1e-3 * np.sign(volts) * (np.abs(volts) / self.voltage) ** self.exponent


@documented
@dataclass(frozen=True, eq=False)
class Surge:
    """What a surge does to a lamp. A first-order model: the mains stands at its crest, diodes drop a fixed voltage."""

    lamp: Lamp
    varistor: Varistor | None = about("None: none is fitted")
    time: np.ndarray = about("from the start of the surge", "s")
    volts: np.ndarray = about("across the lamp's terminals", "V")
    line_current: np.ndarray = about("through R1, dropper and bridge", "A")
    varistor_current: np.ndarray = about("through the varistor", "A")
    dropper_voltage: np.ndarray = about("across the dropper", "V")
    bus_voltage: np.ndarray = about("across the smoothing capacitor", "V")
    string_current: np.ndarray = about("through the string", "A")

    @property
    def resistor_energy(self) -> float:
        """Energy that R1 takes, J."""
        return float(np.trapezoid(self.line_current**2, self.time)) * self.lamp.inrush_resistor

    @property
    def varistor_energy(self) -> float:
        """Energy that the varistor takes, J."""
        return float(np.trapezoid(self.varistor_current * self.volts, self.time))

    @property
    def rows(self) -> tuple[tuple[str, str], ...]:
        """Each part, and what it sees."""
        peak = float(np.abs(self.line_current).max())
        rows = [("across the lamp", f"{show(float(self.volts.max()), 'V')} at most")]
        if self.lamp.inrush_resistor:
            watts = peak**2 * self.lamp.inrush_resistor
            rows.append(("R1", f"{show(watts, 'W')} at the peak, {show(self.resistor_energy, 'J')} in all"))
        rows += [
            ("dropper", f"{show(float(np.abs(self.dropper_voltage).max()), 'V')} at most"),
            ("bridge", f"{show(peak, 'A')} at the peak"),
            ("smoothing", f"{show(float(self.bus_voltage.max()), 'V')} at most"),
            ("each LED", f"{show(float(self.string_current.max()) / self.lamp.string.in_parallel, 'A')} at the peak"),
        ]
        if self.varistor:
            share = self.varistor_energy / self.varistor.energy
            words = f"{show(float(self.varistor_current.max()), 'A')} at the peak, {show(self.varistor_energy, 'J')}"
            rows.append(("varistor", f"{words}: {100 * share:.2g} % of what it stands"))
        return tuple(rows)

    def __repr__(self) -> str:
        fitted = "with a varistor" if self.varistor else "without a varistor"
        return f"<Surge on {self.lamp.name!r} {fitted}: {show(float(self.volts.max()), 'V')} across it at most>"

    def _repr_html_(self) -> Markup:
        fitted = "with a varistor" if self.varistor else "without a varistor"
        caption = f"A surge at the crest of the mains on the {self.lamp.name}, {fitted}. Computed, not tested."
        return table(caption, ("part", "what it sees"), self.rows, css="dropper-table")


def generator_rate(state: np.ndarray, load_current: float) -> tuple[float, float, float]:
    """How the generator's three states change: store, V; coil, A; output, V.

    Parameters
    ----------
    state
        The three, in this order.
    load_current
        A, out of the output.
    """
    store, coil, out = state
    return (
        -(store / _ACROSS + coil) / _STORE,
        (store - _IN_LINE * coil - out) / _COIL,
        (coil - out / _OUT - load_current) / _CABLE,
    )


def combination_wave(voltage: float, load: float) -> tuple[np.ndarray, np.ndarray]:
    """Time, s, and the generator's output on a resistor, V.

    Parameters
    ----------
    voltage
        Peak of the open output, V.
    load
        Ω.
    """
    time = np.linspace(0, DURATION, SAMPLES)
    found = solve_ivp(
        lambda _, state: generator_rate(state, state[2] / load),
        (0, DURATION),
        (_CHARGE * voltage, 0.0, 0.0),
        "LSODA",
        time,
        rtol=1e-7,
        atol=1e-9 * voltage,
    )
    return time, found.y[2]


def surge(lamp: Lamp, voltage: float = 500.0, varistor: Varistor | None = None) -> Surge:
    """A surge between the lines, at the crest of the mains, with the lamp lit.

    Parameters
    ----------
    voltage
        Peak of the generator's open output, V. 500 V is what lamps up to 25 W are tested with between the lines.
    varistor
        Across the lamp's terminals.

    Raises
    ------
    ValueError
        If the lamp has no smoothing capacitor, stays dark, or the voltage is not from 1 V to 10 kV.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> round(surge(lamp).volts.max() / 10)
    82
    """
    if not 1 <= voltage <= 10e3:
        raise ValueError(f"surge: voltage is {voltage:g} V; it must be from 1 V to 10 kV")
    if not lamp.smoothing:
        raise ValueError("surge: Lamp.smoothing is 0 F, and this model needs a smoothing capacitor")
    before = steady_state(lamp)
    if before.dark:
        raise ValueError("surge: this lamp stays dark, so it has no state to start from")
    circuit = _Lit(lamp, varistor, float(before.bus_voltage_mean))
    start = (_CHARGE * voltage, 0.0, 0.0, circuit.crest - circuit.bus - circuit.drops, circuit.bus)
    time = np.linspace(0, DURATION, SAMPLES)
    found = solve_ivp(circuit.rate, (0, DURATION), start, "LSODA", time, rtol=1e-6, atol=1e-7, max_step=1e-6).y
    volts = circuit.crest + found[2]
    return Surge(
        lamp,
        varistor,
        time,
        volts,
        circuit.line_current(volts, found[3], found[4]),
        circuit.varistor_current(volts),
        found[3],
        found[4],
        circuit.string_current(found[4]),
    )


class _Lit:
    """The lamp at the crest: the dropper has what the bus leaves of it, and no current flows in the line."""

    def __init__(self, lamp, varistor, bus):
        self.lamp, self.varistor, self.bus = lamp, varistor, bus
        self.crest, self.drops = lamp.mains.peak, 2 * lamp.diode.forward_voltage
        self.currents = np.concatenate([[0.0], np.geomspace(1e-9, 1e3, 600)])
        law = [lamp.string.voltage_at(current) + lamp.series_resistor * current for current in self.currents[1:]]
        self.law = np.array([0.0, *law])

    def line_current(self, volts, dropper, bus):
        across = volts - dropper
        left = np.maximum(np.abs(across) - bus - self.drops, 0.0)
        return np.sign(across) * left / max(self.lamp.inrush_resistor, _LEAST)

    def varistor_current(self, volts):
        return self.varistor.current(volts) if self.varistor else np.zeros_like(volts)

    def string_current(self, bus):
        return np.interp(bus, self.law, self.currents)

    def rate(self, _, state):
        volts = self.crest + state[2]
        line = self.line_current(volts, state[3], state[4])
        # What the varistor takes of the mains alone is the mains' own to give.
        taken = line + self.varistor_current(volts) - self.varistor_current(self.crest)
        return (
            *generator_rate(state[:3], taken),
            line / self.lamp.dropper,
            (abs(line) - self.string_current(state[4])) / self.lamp.smoothing,
        )
