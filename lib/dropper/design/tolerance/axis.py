"""Axis: one thing that may lie off its nominal value: between which ends, and how likely where."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, documented
from ...circuit.values import show

FLAT = "flat"  # the maker promises the bounds and nothing more
TRIANGLE = "triangle"  # a value is aimed at: there the tip, at the ends nothing


@documented
@dataclass(frozen=True)
class Axis:
    """A part, or the mains, between its ends."""

    key: str = about("what it is called in code")
    name: str = about("what it is called in words")
    unit: str = about('"" where it is written in per cent')
    low: float = about("lower end, over the nominal value")
    high: float = about("upper end, over the nominal value")
    shape: str = about("`FLAT` or `TRIANGLE`: how likely each value between the ends is")
    paths: tuple = about("fields of the lamp that go with it, and their nominal values in SI units")

    def changes(self, factors: np.ndarray) -> dict[str, np.ndarray]:
        """What `steady.spread` takes, for values over the nominal one."""
        return {path: nominal * factors for path, nominal in self.paths}

    def draw(self, chance: np.random.Generator, count: int) -> np.ndarray:
        """Values over the nominal one, drawn at random."""
        if self.low == self.high:
            return np.full(count, self.low)
        if self.shape == FLAT:
            return chance.uniform(self.low, self.high, count)
        return chance.triangular(self.low, 1.0, self.high, count)

    @property
    def deviation(self) -> float:
        """Standard deviation of the values over the nominal one."""
        below, above = 1 - self.low, self.high - 1
        if self.low == self.high:
            return 0.0
        if self.shape == FLAT:
            return theory.flat_deviation(tolerance=(below + above) / 2)
        least = 1e-9  # the formula wants something on both sides of the aim
        return theory.triangle_deviation(share_below=max(below, least), share_above=max(above, least))

    def at(self, factor: float) -> str:
        """The part at a value over the nominal one, in words."""
        if self.unit:
            return f"{self.name} {show(factor * self.paths[0][1], self.unit, 3 if self.unit == 'F' else 4)}"
        return f"{self.name} {100 * (factor - 1):+.3g} %".replace("-", "−")
