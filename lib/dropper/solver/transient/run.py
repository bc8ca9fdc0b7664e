"""A circuit followed in time: the state it is in, and stretches of time one after another."""

import math

import numpy as np

from ..kernel import network, transient
from .circuit import Circuit

_ROOM = 2048  # points at a time
_FOLLOW_STRIDES = 200  # at least so many a mains period, and ten a period of its highest harmonic


class Run:
    """Walks a circuit through time; keeps the waves and sums of what it has walked since `clear`.

    Time counts from where the mains' fundamental passes zero upwards, in seconds.
    """

    def __init__(self, circuit: Circuit, in_line: float, time: float = 0.0, dropper: float = 0.0, bus: float = 0.0):
        self.circuit = circuit
        self.time, self.dropper, self.bus = time, dropper, bus
        self.tangents = None
        self.connect(in_line)
        self.clear()

    def connect(self, in_line: float) -> None:
        """Put a resistance outside the lamp, ohms; `math.inf` opens the line."""
        self.row = self.circuit.row(in_line)
        self.orders = self.circuit.orders()
        self.period = 1 / self.row[network.FREQUENCY]
        self.longest = self.period / max(_FOLLOW_STRIDES, 10 * self.orders[:, 0].max())
        if self.tangents is None:
            self.tangents = network.tangents(self.row)
        self.on = np.zeros(4)

    def clear(self) -> None:
        """Forget the waves and sums so far."""
        self.pieces = []
        self.sums = np.zeros(transient.SUMS)
        self.sums[[transient.BUS_MIN, transient.STRING_MIN]] = math.inf
        self.began = self.time

    def place(self, time: float, dropper: float, bus: float) -> None:
        """Put the circuit into a state."""
        self.time, self.dropper, self.bus = time, dropper, bus

    def follow(self, seconds: float, factor: float = 1.0, longest=None, jump: bool = True) -> np.ndarray:
        """Follow it for some seconds, the mains at `factor` times its voltage.

        Returns how the two states at the end answer to those at the start, an array (2, 2).
        `jump`: what drives the circuit may have jumped, so strides start short.
        """
        state = np.zeros(transient.STATE)
        state[transient.NOW], state[transient.END] = self.time, self.time + seconds
        state[transient.DROPPER_STATE], state[transient.STORE_STATE] = self.dropper, self.bus
        state[transient.STEP] = 0.0 if jump else self.longest / 10
        state[transient.BY_00] = state[transient.BY_11] = 1.0
        longest = longest or self.longest
        start, outcome = True, transient.FULL
        while outcome == transient.FULL:
            waves = np.empty((transient.WAVES, _ROOM))
            outcome, count = transient.follow(
                self.row, self.orders, float(factor), state, self.tangents, self.on, longest, start, waves, self.sums
            )
            self.pieces.append(waves[:, :count])
            start = False
        if outcome == transient.FAILED:
            raise ArithmeticError(
                f"no answer was found {state[transient.NOW] - self.began:.3g} s after the start; the circuit's values"
                " may be too far apart"
            )
        self.time = state[transient.END]
        self.dropper, self.bus = state[transient.DROPPER_STATE], state[transient.STORE_STATE]
        return state[transient.BY_00 :].reshape(2, 2)

    def waves(self) -> np.ndarray:
        """What has been recorded, an array (`journey.WAVES`, points)."""
        return np.concatenate(self.pieces, axis=1)

    def energies(self, parts_outside: float = 0.0) -> dict[str, float]:
        """Joules turned to heat since `clear`, by part; `parts_outside`: ohms of the line outside the lamp."""
        circuit, sums = self.circuit, self.sums
        leak, bleeder = 1 / circuit.smoothing_leak, 1 / circuit.smoothing_bleeder
        series = circuit.series_resistor * sums[transient.STRING_SQUARE]
        dropper = sums[transient.DROPPER_SQUARE]
        heat = {
            "line": parts_outside * sums[transient.SQUARE],
            "inrush_resistor": circuit.inrush_resistor * sums[transient.SQUARE],
            "dropper": 0.0,
            "bleeder": dropper / circuit.bleeder,
            **{f"D{k + 1}": sums[transient.DIODE_1 + k] for k in range(4)},
            "smoothing": leak * sums[transient.BUS_SQUARE] + circuit.smoothing_series * sums[transient.STORE_SQUARE],
            "smoothing_bleeder": bleeder * sums[transient.BUS_SQUARE],
            "series_resistor": series,
            "leds": sums[transient.STRING_ENERGY] - series,
        }
        return {part: float(joules) for part, joules in heat.items()}

    def stored(self) -> float:
        """Joules in the two capacitors now."""
        dropper = 0.0 if self.circuit.dropper_short else self.circuit.dropper * self.dropper**2
        return 0.5 * (dropper + self.circuit.smoothing * self.bus**2)
