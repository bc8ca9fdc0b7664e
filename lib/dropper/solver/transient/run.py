"""Simulation run: a circuit integrated over time, from the state it is in, a stretch after another."""

import math

import numpy as np

from ..kernel import network, transient
from .circuit import Circuit

_BLOCK = 2048  # points at a time
_LEAST_STEPS = 200  # at least so many a mains period, and ten a period of its highest harmonic


class Run:
    """Integrates a circuit over time; keeps the waves and sums since `clear`.

    Time counts from where the mains' fundamental passes zero upwards, in seconds.
    """

    def __init__(
        self,
        circuit: Circuit,
        in_line: float,
        time: float = 0.0,
        dropper: float = 0.0,
        bus: float = 0.0,
        inductance: float = 0.0,
    ):
        self.circuit = circuit
        self.time, self.dropper, self.bus, self.line_current = time, dropper, bus, 0.0
        self.tangents = None
        self.connect(in_line, inductance)
        self.clear()

    def connect(self, in_line: float, inductance: float = 0.0) -> None:
        """Connect a resistance outside the lamp, ohms, and an inductance, H; `math.inf` ohms open the line.

        The current at that moment goes on in the inductance; without one, or with the line open, it is gone.
        """
        self.row = self.circuit.row(in_line, inductance)
        if not inductance or math.isinf(in_line):
            self.line_current = 0.0
        self.orders = self.circuit.orders()
        self.period = 1 / self.row[network.FREQUENCY]
        highest = 1 if self.circuit.mains.cycle.shape else self.orders[:, 0].max()
        self.longest = self.period / max(_LEAST_STEPS, 10 * highest)
        if self.tangents is None:
            self.tangents = network.cold_tangents(self.row)
        self.on = np.zeros(4)

    def clear(self) -> None:
        """Forget the waves and sums so far."""
        self.blocks = []
        self.sums = np.zeros(transient.SUMS)
        self.sums[[transient.BUS_MIN, transient.STRING_MIN]] = math.inf
        self.start_time = self.time

    def set_state(self, time: float, dropper: float, bus: float) -> None:
        """Set the circuit's state: time in s, the two capacitors' voltages in V, no current in the line."""
        self.time, self.dropper, self.bus, self.line_current = time, dropper, bus, 0.0

    def advance(
        self, seconds: float, factor: float = 1.0, longest: float | None = None, jump: bool = True
    ) -> np.ndarray:
        """Integrate over some seconds, the mains at `factor` times its voltage.

        Returns how the capacitors' voltages at the end answer to those at the start, an array (2, 2); it holds
        without an inductance only.
        `jump`: what drives the circuit may have jumped, so the first steps are short.
        """
        state = np.zeros(transient.STATE)
        state[transient.NOW], state[transient.END] = self.time, self.time + seconds
        state[transient.DROPPER_STATE], state[transient.STORE_STATE] = self.dropper, self.bus
        state[transient.LINE_STATE] = self.line_current
        state[transient.STEP] = 0.0 if jump else self.longest / 10
        state[transient.BY_00] = state[transient.BY_11] = 1.0
        longest = longest or self.longest
        start, outcome = True, transient.FULL
        while outcome == transient.FULL:
            waves = np.empty((transient.WAVES, _BLOCK))
            outcome, count = transient.integrate(
                self.row, self.orders, float(factor), state, self.tangents, self.on, longest, start, waves, self.sums
            )
            self.blocks.append(waves[:, :count])
            start = False
        if outcome == transient.FAILED:
            raise ArithmeticError(
                f"no answer was found {state[transient.NOW] - self.start_time:.3g} s after the start; the circuit's"
                " values may be too far apart"
            )
        self.time = state[transient.END]
        self.dropper, self.bus = state[transient.DROPPER_STATE], state[transient.STORE_STATE]
        self.line_current = state[transient.LINE_STATE]
        return state[transient.BY_00 :].reshape(2, 2)

    def waves(self) -> np.ndarray:
        """The recorded waves, an array (`kernel.transient.WAVES`, points)."""
        return np.concatenate(self.blocks, axis=1)

    def heat_energies(self, outside_resistance: float = 0.0) -> dict[str, float]:
        """Joules turned to heat since `clear`, by part, the four diodes together.

        `outside_resistance`: ohms of the line outside the lamp, whose joules are those of "line".
        """
        circuit, sums = self.circuit, self.sums
        leak, bleeder = 1 / circuit.smoothing_leak, 1 / circuit.smoothing_bleeder
        series = circuit.series_resistor * sums[transient.STRING_SQUARE]
        dropper = sums[transient.DROPPER_SQUARE]
        heat = {
            "line": outside_resistance * sums[transient.SQUARE],
            "inrush_resistor": circuit.inrush_resistor * sums[transient.SQUARE],
            "dropper": 0.0,
            "bleeder": dropper / circuit.bleeder,
            "diodes": sum(self.diode_energies()),
            "smoothing": leak * sums[transient.BUS_SQUARE] + circuit.smoothing_series * sums[transient.STORE_SQUARE],
            "smoothing_bleeder": bleeder * sums[transient.BUS_SQUARE],
            "series_resistor": series,
            "leds": sums[transient.STRING_ENERGY] - series,
        }
        return {part: float(joules) for part, joules in heat.items()}

    def diode_energies(self) -> tuple[float, ...]:
        """Joules turned to heat in D1 to D4 since `clear`."""
        return tuple(float(self.sums[transient.DIODE_1 + k]) for k in range(4))

    def stored_energy(self) -> float:
        """Joules in the two capacitors and in the line's inductance now."""
        dropper = 0.0 if self.circuit.dropper_short else self.circuit.dropper * self.dropper**2
        line = self.row[network.L] * self.line_current**2
        return 0.5 * (dropper + self.circuit.smoothing * self.bus**2 + line)
