"""Infeasible: a wish that cannot be met, and the nearest that can."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .brief import Brief


class Infeasible(ValueError):
    """A brief that no lamp meets.

    Parameters
    ----------
    wish
        The field of the brief that asks too much.
    why
        Why, with numbers.
    nearest
        The nearest brief that does not ask this too much; None where no change of one field helps. Another wish of it
        may still fail: `nearest` goes on until none does.

    Examples
    --------
    >>> str(Infeasible("current", "30 mA is too much."))
    '30 mA is too much.'
    """

    def __init__(self, wish: str, why: str, nearest: Brief | None = None):
        super().__init__(why)
        self.wish, self.why, self.nearest = wish, why, nearest


def round_down(value: float) -> float:
    """A wish that is offered instead: two significant digits, downwards."""
    size = 10 ** (math.floor(math.log10(value)) - 1)
    return float(f"{math.floor(value / size) * size:.2g}")
