"""Branches side by side: how a given current splits among them, and how unequal LEDs make it.

    from dropper.solver.sharing import Branch, share, spread

    share([Branch.of(red), Branch.of(white)], 0.020).currents
    spread(white, sigma=0.05, in_parallel=3, total=0.030).words

The current is given, as behind a dropper it nearly is; the branches find a voltage that all have in common.
"""

from .branch import COLD, Branch, CurrentShares, Warmth, share
from .scatter import ARRANGEMENTS, Spread, spread

__all__ = ["ARRANGEMENTS", "COLD", "Branch", "CurrentShares", "Spread", "Warmth", "share", "spread"]
