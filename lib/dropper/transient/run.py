"""A circuit followed in time: the state it is in, and stretches of time one after another."""

import math

import numpy as np

from ..kernel import journey, network
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

    def connect(self, in_line):
        """Put a resistance outside the lamp, ohms; `math.inf` opens the line."""
        self.row = self.circuit.row(in_line)
        self.orders = self.circuit.orders()
        self.period = 1 / self.row[network.FREQUENCY]
        self.longest = self.period / max(_FOLLOW_STRIDES, 10 * self.orders[:, 0].max())
        if self.tangents is None:
            self.tangents = network.tangents(self.row)
        self.on = np.zeros(4)

    def clear(self):
        """Forget the waves and sums so far."""
        self.pieces = []
        self.sums = np.zeros(journey.SUMS)
        self.sums[[journey.BUS_MIN, journey.STRING_MIN]] = math.inf
        self.began = self.time

    def place(self, time, dropper, bus):
        """Put the circuit into a state."""
        self.time, self.dropper, self.bus = time, dropper, bus

    def follow(self, seconds, factor=1.0, longest=None, jump=True):
        """Follow it for some seconds, the mains at `factor` times its voltage.

        Returns how the two states at the end answer to those at the start, an array (2, 2).
        `jump`: what drives the circuit may have jumped, so strides start short.
        """
        state = np.zeros(journey.STATE)
        state[journey.NOW], state[journey.END] = self.time, self.time + seconds
        state[journey.DROPPER_STATE], state[journey.STORE_STATE] = self.dropper, self.bus
        state[journey.STEP] = 0.0 if jump else self.longest / 10
        state[journey.BY_00] = state[journey.BY_11] = 1.0
        longest = longest or self.longest
        start, outcome = True, journey.FULL
        while outcome == journey.FULL:
            waves = np.empty((journey.WAVES, _ROOM))
            outcome, count = journey.follow(
                self.row, self.orders, float(factor), state, self.tangents, self.on, longest, start, waves, self.sums
            )
            self.pieces.append(waves[:, :count])
            start = False
        if outcome == journey.FAILED:
            raise ArithmeticError(
                f"no answer was found {state[journey.NOW] - self.began:.3g} s after the start; the circuit's values"
                " may be too far apart"
            )
        self.time = state[journey.END]
        self.dropper, self.bus = state[journey.DROPPER_STATE], state[journey.STORE_STATE]
        return state[journey.BY_00 :].reshape(2, 2)

    def waves(self):
        """What has been recorded, an array (`journey.WAVES`, points)."""
        return np.concatenate(self.pieces, axis=1)

    def energies(self, parts_outside=0.0):
        """Joules turned to heat since `clear`, by part; `parts_outside`: ohms of the line outside the lamp."""
        circuit, sums = self.circuit, self.sums
        leak, bleeder = 1 / circuit.smoothing_leak, 1 / circuit.smoothing_bleeder
        series = circuit.series_resistor * sums[journey.STRING_SQUARE]
        dropper = sums[journey.DROPPER_SQUARE]
        heat = {
            "line": parts_outside * sums[journey.SQUARE],
            "inrush_resistor": circuit.inrush_resistor * sums[journey.SQUARE],
            "dropper": 0.0,
            "bleeder": dropper / circuit.bleeder,
            **{f"D{k + 1}": sums[journey.DIODE_1 + k] for k in range(4)},
            "smoothing": leak * sums[journey.BUS_SQUARE] + circuit.smoothing_series * sums[journey.STORE_SQUARE],
            "smoothing_bleeder": bleeder * sums[journey.BUS_SQUARE],
            "series_resistor": series,
            "leds": sums[journey.STRING_ENERGY] - series,
        }
        return {part: float(joules) for part, joules in heat.items()}

    def stored(self):
        """Joules in the two capacitors now."""
        dropper = 0.0 if self.circuit.dropper_short else self.circuit.dropper * self.dropper**2
        return 0.5 * (dropper + self.circuit.smoothing * self.bus**2)
