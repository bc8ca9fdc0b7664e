"""Mains shapes: what a mains may look like that is no sine, each as data and as the pieces that make one period of it.

A piece is a row (start, end, gate, level, slope): from a share of the period to another the voltage, over √2 times the
mains' voltage, is gate·sin(2π·share) + level + slope·(share - start). Pieces join without a jump: an edge takes time.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from .excerpt import excerpt
from .fields import check, check_text, documented, quantity
from .values import show

MOST_SAMPLES = 2000
START, END, GATE, LEVEL, SLOPE = range(5)  # columns of a piece


class Shape:
    """What all shapes can do; `Mains` asks them for their pieces."""

    kind: ClassVar[str] = ""
    mirrored: ClassVar[bool] = True  # the second half of a period is the first one, negative

    def __post_init__(self):
        check(self)

    @property
    def words(self) -> str:
        """What it is called."""
        return self.kind

    def pieces(self, frequency: float) -> np.ndarray:
        """The pieces of one period, from where the shape's sine rises through zero; shape (pieces, 5).

        Parameters
        ----------
        frequency
            Hz.

        Raises
        ------
        ValueError
            If the edges do not fit into a period of this frequency.
        """
        raise NotImplementedError


@documented
@dataclass(frozen=True)
class SteppedWave(Shape):
    """A stepped wave, as simple inverters make it. `Mains.voltage` is the rms value of the whole wave.

    With one level: zero, up, zero, down; the peak is the rms value over √dwell, but for the edges. With more levels the
    steps are even in time and in voltage, up to the top and down again.

    >>> from dropper import Mains
    >>> Mains(230, 50, shape=SteppedWave()).words
    '230 V 50 Hz, stepped wave'
    """

    kind: ClassVar[str] = "stepped wave"
    levels: int = quantity("", 1, 20, 1, meaning="levels above zero", whole=True)
    dwell: float = quantity("", 0.05, 0.95, 0.5, meaning="share of each half period at the top")
    edge: float = quantity("s", 1e-6, 2e-3, 50e-6, meaning="time that each step takes")

    def pieces(self, frequency: float) -> np.ndarray:
        edge, rise = self.edge * frequency, 0.25 * (1 - self.dwell) / (2 * self.levels - 1)
        if edge >= min(2 * rise, 0.5 * self.dwell) * (1 - 1e-9):
            raise ValueError(
                f"SteppedWave.edge: {show(self.edge, 's')} is longer than a step of {self.levels} levels at"
                f" {show(frequency, 'Hz')}; it must be below {show(min(2 * rise, 0.5 * self.dwell) / frequency, 's')}"
            )
        corners = [(0.0, 0.0)]  # share of the period, level
        for level in range(1, self.levels + 1):
            middle = rise * (2 * level - 1)
            corners += [(middle - edge / 2, (level - 1) / self.levels), (middle + edge / 2, level / self.levels)]
        half = corners + [(0.5 - share, height) for share, height in reversed(corners)]
        pieces = _lines(half + [(0.5 + share, -height) for share, height in half])
        pieces[:, LEVEL:] *= 1 / math.sqrt(2 * mean_square(pieces))
        return pieces


@documented
@dataclass(frozen=True)
class PhaseCut(Shape):
    """A sine of which a dimmer cuts a part off each half period. `Mains.voltage` is the rms value of the whole sine.

    >>> from dropper import Mains
    >>> mains = Mains(230, 50, shape=PhaseCut(angle=90))
    >>> mains.words, round(mains.rms)
    ('230 V 50 Hz, leading edge cut by 90°', 160)
    """

    kind: ClassVar[str] = "phase cut"
    angle: float = quantity("°", 1, 175, 90.0, meaning="angle of each half period that is cut off")
    cut: str = "leading"
    edge: float = quantity("s", 1e-6, 2e-3, 100e-6, meaning="time that the voltage takes to come or to go")

    def __post_init__(self):
        super().__post_init__()
        if self.cut not in ("leading", "trailing"):
            raise ValueError(f"PhaseCut.cut: {excerpt(self.cut)} is neither 'leading' nor 'trailing'")

    @property
    def words(self) -> str:
        return f"{self.cut} edge cut by {self.angle:g}°"

    def pieces(self, frequency: float) -> np.ndarray:
        edge, cut = self.edge * frequency, self.angle / 360
        if cut + edge >= 0.5:
            raise ValueError(
                f"PhaseCut.edge: {show(self.edge, 's')} after {self.angle:g}° leaves nothing of a half period at"
                f" {show(frequency, 'Hz')}; make it shorter than {show((0.5 - cut) / frequency, 's')}"
            )
        height = math.sin(2 * math.pi * (cut + edge))
        first = [
            (0.0, cut, 0.0, 0.0, 0.0),
            (cut, cut + edge, 0.0, 0.0, height / edge),
            (cut + edge, 0.5, 1.0, 0.0, 0.0),
        ]
        if self.cut == "trailing":
            first = [
                (0.5 - end, 0.5 - start, gate, slope * (end - start), -slope) for start, end, gate, _, slope in first
            ]
            first.reverse()
        return _mirrored(first)


@documented
@dataclass(frozen=True)
class FlatTop(Shape):
    """A sine with flat crests, as a mains with many rectifiers has it. `Mains.voltage` is that of the whole sine.

    >>> from dropper import Mains
    >>> round(Mains(230, 50, shape=FlatTop(0.95)).peak)
    309
    """

    kind: ClassVar[str] = "flat top"
    clip: float = quantity("", 0.3, 0.999, 0.95, meaning="share of the crest at which it is cut off")

    def pieces(self, frequency: float) -> np.ndarray:
        corner = math.asin(self.clip) / (2 * math.pi)
        return _mirrored(
            [
                (0.0, corner, 1.0, 0.0, 0.0),
                (corner, 0.5 - corner, 0.0, self.clip, 0.0),
                (0.5 - corner, 0.5, 1.0, 0.0, 0.0),
            ]
        )


@documented
@dataclass(frozen=True)
class Generator(Shape):
    """A small generator: a sine whose voltage and frequency drift slowly, so that each reading is one of a range.

    The solvers take it at its middle; `Mains.extremes` gives its corners.
    """

    kind: ClassVar[str] = "generator"
    voltage_drift: float = quantity("", 0, 0.3, 0.1, zero=True, meaning="drift of the voltage, up and down, a share")
    frequency_drift: float = quantity("", 0, 0.3, 0.05, zero=True, meaning="drift of the frequency, a share")

    @property
    def words(self) -> str:
        return f"generator, ±{100 * self.voltage_drift:g} % V, ±{100 * self.frequency_drift:g} % Hz"

    def pieces(self, frequency: float) -> np.ndarray:
        return np.array([(0.0, 1.0, 1.0, 0.0, 0.0)])


@documented
@dataclass(frozen=True)
class Recording(Shape):
    """One period as it was recorded: even samples from where it rises through zero, with straight lines between them.

    `Mains.voltage` is its rms value; only the samples' ratios count.
    """

    kind: ClassVar[str] = "recording"
    mirrored: ClassVar[bool] = False
    samples: tuple = ()
    source: str = "recording"

    def __post_init__(self):
        super().__post_init__()
        check_text(self, "source", 80)
        try:
            samples = tuple(float(sample) for sample in self.samples)
        except (TypeError, ValueError):
            raise ValueError(f"Recording.samples: {excerpt(self.samples)} is no list of numbers") from None
        if not 16 <= len(samples) <= MOST_SAMPLES or not all(map(math.isfinite, samples)):
            raise ValueError(
                f"Recording.samples: {len(samples)} of them; it takes 16 to {MOST_SAMPLES}, all of them finite"
            )
        if max(samples) - min(samples) < 1e-9 * max(map(abs, samples)) or not any(samples):
            raise ValueError("Recording.samples: they are all the same; a mains swings")
        object.__setattr__(self, "samples", samples)

    @property
    def words(self) -> str:
        return f"recording of {self.source}"

    def pieces(self, frequency: float) -> np.ndarray:
        count = len(self.samples)
        pieces = _lines([(place / count, sample) for place, sample in enumerate(self.samples)])
        pieces[:, LEVEL:] *= 1 / math.sqrt(2 * mean_square(pieces))
        return pieces


KINDS = {shape.kind: shape for shape in (SteppedWave, PhaseCut, FlatTop, Generator, Recording)}


def _lines(corners):
    """Straight pieces from corner to corner, (share, height), and from the last to the first; none without length."""
    rows = []
    for (start, low), (end, high) in zip(corners, [*corners[1:], (1.0, corners[0][1])], strict=True):
        if end - start > 1e-12:
            rows.append((start, end, 0.0, low, (high - low) / (end - start)))
    return np.array(rows)


def _mirrored(first):
    """Both halves of a period from the first one's pieces."""
    half = np.array(first)
    second = half * (1, 1, 1, -1, -1) + (0.5, 0.5, 0, 0, 0)
    return np.concatenate([half, second])


def value_at(pieces: np.ndarray, share: np.ndarray) -> np.ndarray:
    """The voltage at shares of the period, over √2 times the mains' voltage."""
    share = np.asarray(share, float) % 1.0
    row = pieces[np.searchsorted(pieces[:, START], share, side="right") - 1]
    return row[..., GATE] * np.sin(2 * np.pi * share) + row[..., LEVEL] + row[..., SLOPE] * (share - row[..., START])


def mean_square(pieces: np.ndarray) -> float:
    """The mean of the square over a period, by Gauss's rule in each piece."""
    nodes, weights = np.polynomial.legendre.leggauss(24)
    start, length = pieces[:, START, None], (pieces[:, END] - pieces[:, START])[:, None]
    share = start + length * (nodes + 1) / 2
    value = pieces[:, GATE, None] * np.sin(2 * np.pi * share) + pieces[:, LEVEL, None]
    value = value + pieces[:, SLOPE, None] * (share - start)
    return float((weights / 2 * value**2 * length).sum())
