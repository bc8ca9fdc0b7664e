"""Shapes of the mains for the witness, written down anew: where each has its corners, and what it is between them."""

import bisect
import math

import numpy as np
from dropper.circuit.mains_shapes import FlatTop, PhaseCut, Recording, SteppedWave
from reference_laws import Circuit


class ShapedCircuit(Circuit):
    """The lamp on a mains that is no sine: straight lines between corners, or the sine itself."""

    def __init__(self, lamp):
        super().__init__(lamp)
        shape, period = lamp.mains.shape, self.period
        self.shaped, self.top = True, 2**0.5 * lamp.mains.voltage
        corners, on_sine = _CORNERS[type(shape)](shape, period, lamp.mains.voltage)
        self.corners = [time for time, _ in corners]
        self.heights = [height for _, height in corners]
        self.on_sine = on_sine  # whether the sine itself stands between a corner and the next
        self.half_wave_symmetry = not isinstance(shape, Recording)

    def stretches(self, start, end):
        every = [time + k * self.period for k in (-1, 0, 1, 2) for time in self.corners]
        inside = sorted({time for time in every if start + 1e-12 < time < end - 1e-12})
        return list(zip([start, *inside], [*inside, end], strict=True))

    def mains(self, t):
        if not isinstance(t, float):
            both = np.array([self.mains(float(each)) for each in np.ravel(t)]).reshape(*np.shape(t), 2)
            return both[..., 0], both[..., 1]
        within, w = t % self.period, 2 * math.pi / self.period
        place = max(bisect.bisect_right(self.corners, within * (1 + 1e-12)) - 1, 0)
        if self.on_sine[place]:
            return self.top * math.sin(w * within), self.top * w * math.cos(w * within)
        after = (place + 1) % len(self.corners)
        length = (self.corners[after] - self.corners[place]) % self.period
        slope = (self.heights[after] - self.heights[place]) / length
        return self.heights[place] + slope * (within - self.corners[place]), slope


def _both_halves(half, on_sine, period):
    return half + [(time + period / 2, -height) for time, height in half], on_sine * 2


def _stepped(shape, period, voltage):
    """One level: nothing, top, nothing; the top from the rms of two flats with four edges, ∫ of a ramp² = edge/3."""
    assert shape.levels == 1
    flat = shape.dwell * period / 2  # from the middle of an edge to the middle of the next
    square = 2 * ((flat - shape.edge) + 2 * shape.edge / 3) / period
    top, middle = voltage / square**0.5, period / 4
    rise, fall = middle - flat / 2, middle + flat / 2
    half = [(0.0, 0.0), (rise - shape.edge / 2, 0.0), (rise + shape.edge / 2, top)]
    half += [(fall - shape.edge / 2, top), (fall + shape.edge / 2, 0.0)]
    return _both_halves(half, [False] * 5, period)


def _cut(shape, period, voltage):
    off, top, w = shape.angle / 360 * period, 2**0.5 * voltage, 2 * math.pi / period
    if shape.cut == "leading":
        half = [(0.0, 0.0), (off, 0.0), (off + shape.edge, top * math.sin(w * (off + shape.edge)))]
        return _both_halves(half, [False, False, True], period)
    last = period / 2 - off
    half = [(0.0, 0.0), (last - shape.edge, top * math.sin(w * (last - shape.edge))), (last, 0.0)]
    return _both_halves(half, [True, False, False], period)


def _flat(shape, period, voltage):
    corner, top = math.asin(shape.clip) / (2 * math.pi) * period, 2**0.5 * voltage * shape.clip
    half = [(0.0, 0.0), (corner, top), (period / 2 - corner, top)]
    return _both_halves(half, [True, False, True], period)


def _recorded(shape, period, voltage):
    samples = np.array(shape.samples)
    after = np.roll(samples, -1)
    square = np.mean((samples**2 + samples * after + after**2) / 3)  # of straight lines
    heights = samples * voltage / square**0.5
    times = np.arange(samples.size) / samples.size * period
    return list(zip(times.tolist(), heights.tolist(), strict=True)), [False] * samples.size


_CORNERS = {SteppedWave: _stepped, PhaseCut: _cut, FlatTop: _flat, Recording: _recorded}
