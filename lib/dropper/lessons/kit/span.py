"""Span: what an axis of a picture covers, and where a value stands on it."""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Span:
    """What an axis covers, in the quantity's own unit."""

    low: float
    high: float
    log: bool = False

    def share(self, values: float | np.ndarray) -> float | np.ndarray:
        """Where values stand, from 0 at the low end to 1 at the high end; held at the ends."""
        low, high = self.low, self.high
        if self.log:
            values = np.log(np.maximum(values, low))
            low, high = np.log(low), np.log(high)
        return np.clip((np.asarray(values, float) - low) / (high - low), 0, 1)

    def at(self, share: float) -> float:
        """The value that stands at a share of the axis."""
        if self.log:
            return self.low * (self.high / self.low) ** share
        return self.low + (self.high - self.low) * share
