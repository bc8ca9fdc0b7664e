"""Mains: its voltage and frequency, and what one period of it looks like."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from . import mains_shapes
from .excerpt import excerpt
from .fields import check, documented, quantity
from .mains_shapes import Generator, Shape
from .part import Part
from .values import show

HIGHEST_ORDER = 40
_FOURIER = 4096  # instants of a period in which a shape's fundamental is looked for


def _checked_harmonics(harmonics):
    if not isinstance(harmonics, dict):
        raise ValueError(f"Mains.harmonics: {excerpt(harmonics)} is not {{order: (fraction, phase in degrees)}}")
    checked = {}
    for order, pair in harmonics.items():
        if isinstance(order, bool) or not isinstance(order, int) or not 2 <= order <= HIGHEST_ORDER:
            raise ValueError(
                f"Mains.harmonics: order {excerpt(order)} must be a whole number from 2 to {HIGHEST_ORDER}"
            )
        try:
            fraction, phase = (float(part) for part in pair)
        except (TypeError, ValueError):
            raise ValueError(
                f"Mains.harmonics: {excerpt(pair)} at order {order} is not (fraction, phase in degrees)"
            ) from None
        if not 0 <= fraction <= 1 or not abs(phase) <= 360:
            raise ValueError(
                f"Mains.harmonics: order {order} has {fraction:g} at {phase:g}°; the fraction of the"
                " fundamental must be from 0 to 1, the phase from -360° to 360°"
            )
        checked[order] = (fraction, phase)
    return dict(sorted(checked.items()))


@dataclass(frozen=True)
class Cycle:
    """One period of a mains over √2 times its voltage; lamps whose mains have equal ones share it.

    Parameters
    ----------
    harmonics
        Each (order, (fraction, phase in degrees)), on a sine.
    shape
        None: a sine with these harmonics.
    frequency
        Hz, where there is a shape, for its edges take their time; else 0.
    """

    harmonics: tuple
    shape: Shape | None = None
    frequency: float = 0.0

    @property
    def pieces(self) -> np.ndarray | None:
        """The pieces of the shape (`mains_shapes`); None for a sine with harmonics."""
        return None if self.shape is None else self.shape.pieces(self.frequency)

    @property
    def corners(self) -> tuple[float, ...]:
        """Shares of the period at which the voltage has a corner; none on a sine."""
        return () if self.shape is None else tuple(float(start) for start in self.pieces[:, mains_shapes.START])

    @property
    def mirrored(self) -> bool:
        """Whether the second half of the period is the first one, negative."""
        if self.shape is not None:
            return self.shape.mirrored
        return all(order % 2 for order, _ in self.harmonics)

    @property
    def mean_square(self) -> float:
        """Mean of the square: 1/2 for a sine."""
        if self.shape is not None:
            return mains_shapes.mean_square(self.pieces)
        return 0.5 * (1 + sum(fraction**2 for _, (fraction, _) in self.harmonics))

    @property
    def phase(self) -> float:
        """Angle of the fundamental, that of sin(ωt + angle), rad: 0 for a sine."""
        if self.shape is None:
            return 0.0
        share = (np.arange(_FOURIER) + 0.5) / _FOURIER
        turn = 2 * np.pi * share
        value = self.at(share)
        return math.atan2(float(value @ np.cos(turn)), float(value @ np.sin(turn)))

    def at(self, share: np.ndarray) -> np.ndarray:
        """The voltage at shares of the period."""
        if self.shape is not None:
            return mains_shapes.value_at(self.pieces, share)
        angle = 2 * np.pi * np.asarray(share, float)
        cycle = np.sin(angle)
        for order, (fraction, phase) in self.harmonics:
            cycle = cycle + fraction * np.sin(order * angle + np.radians(phase))
        return cycle


@documented
@dataclass(frozen=True)
class Mains(Part):
    """The mains: a sine and, where wanted, its harmonics; or another shape.

    A sine: v(t) = √2·voltage·[sin ωt + Σ fraction·sin(n·ωt + phase)], phases in degrees.
    """

    voltage: float = quantity("V", 1, 1000, meaning="rms voltage of the fundamental; of a shape what the shape says")
    frequency: float = quantity("Hz", 10, 1000, meaning="frequency of the fundamental")
    harmonics: dict = field(default_factory=dict, hash=False)
    shape: Shape | None = None

    def __post_init__(self):
        check(self)
        object.__setattr__(self, "harmonics", _checked_harmonics(self.harmonics))
        if self.shape is None:
            return
        if not isinstance(self.shape, Shape):
            kinds = ", ".join(shape.__name__ for shape in mains_shapes.KINDS.values())
            raise TypeError(f"Mains.shape: {excerpt(self.shape)} is no shape of a mains; there are {kinds}")
        if self.harmonics and not isinstance(self.shape, Generator):
            raise ValueError(
                f"Mains.harmonics: they go with a sine, not with a {self.shape.kind}; leave one of them out"
            )
        self.shape.pieces(self.frequency)  # says why where its edges do not fit

    @property
    def cycle(self) -> Cycle:
        """One period of it over √2 times its voltage."""
        harmonics = tuple(self.harmonics.items())
        if self.shape is None or isinstance(self.shape, Generator):
            return Cycle(harmonics)
        return Cycle(harmonics, self.shape, self.frequency)

    @property
    def is_sine(self) -> bool:
        """Whether it is a sine without harmonics, as the formulas have it."""
        return not self.harmonics and self.cycle.shape is None

    @property
    def sine(self) -> Mains:
        """A sine of the same voltage and frequency."""
        return Mains(self.voltage, self.frequency)

    @property
    def half_wave_symmetric(self) -> bool:
        """Whether the second half cycle mirrors the first (no even harmonics)."""
        return self.cycle.mirrored

    @property
    def rms(self) -> float:
        """Rms voltage of all of it, V."""
        return self.voltage * math.sqrt(2 * self.cycle.mean_square)

    @property
    def peak(self) -> float:
        """Peak voltage of the fundamental, V; of a shape its greatest voltage."""
        if self.cycle.shape is None:
            return math.sqrt(2) * self.voltage
        share = np.concatenate([np.linspace(0, 1, 2049), self.cycle.corners])
        return math.sqrt(2) * self.voltage * float(np.abs(self.cycle.at(share)).max())

    @property
    def instants(self) -> tuple[float, ...]:
        """Where in a period it has corners, s; none on a sine."""
        return tuple(share / self.frequency for share in self.cycle.corners)

    def at(self, time: np.ndarray) -> np.ndarray:
        """Its voltage at times, V; time counts from where its fundamental or its shape rises through zero.

        Parameters
        ----------
        time
            s, a number or an array.
        """
        return math.sqrt(2) * self.voltage * self.cycle.at(np.asarray(time, float) * self.frequency)

    def extremes(self) -> tuple[Mains, ...]:
        """Where a generator drifts to: both voltages at both frequencies; of any other mains itself alone."""
        if not isinstance(self.shape, Generator):
            return (self,)
        drifts = [
            (1 + volts * self.shape.voltage_drift, 1 + hertz * self.shape.frequency_drift)
            for volts in (-1, 1)
            for hertz in (-1, 1)
        ]
        return tuple(Mains(self.voltage * volts, self.frequency * hertz, self.harmonics) for volts, hertz in drifts)

    @property
    def words(self) -> str:
        """What it is, in words."""
        said = f"{show(self.voltage, 'V')} {show(self.frequency, 'Hz')}"
        if self.shape is not None:
            said += f", {self.shape.words}"
        return f"{said}, with harmonics" if self.harmonics else said
