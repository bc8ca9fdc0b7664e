"""Separation: which other causes explain the readings about as well as one does, however often each is met."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .posterior import Posterior

# One likelihood over another's, at most, where readings do not tell two causes apart. Our own rule.
ALIKE = math.log(6)


def best_likelihood(posterior: Posterior, kind: tuple | None) -> float:
    """Logarithm of the readings' probability with one cause, at the amount that suits them best."""
    return float(posterior.likelihood[posterior.table.points_of(kind)].max())


def rivals_of(posterior: Posterior, kind: tuple | None) -> tuple:
    """Other causes that the readings fit about as well, or better, each at the amount that suits them best.

    How common a cause or an amount is does not count; a cause whose prior is nought is left out.

    Returns
    -------
    tuple
        Names as in `prior.WEIGHTS`, the most probable first.

    Examples
    --------
    >>> from dropper.bench.diagnosis import Evidence, posterior_of
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> read = Evidence(voltage=230, current=0.023, power=0.8, power_factor=0.16)
    >>> rivals_of(posterior_of(lamp, read), ("short", "D1"))
    (('short', 'groups'), ('leaky', 'smoothing'))
    >>> rivals_of(posterior_of(lamp, read.replace(leds_dark=0)), ("short", "D1"))
    ()
    """
    least = best_likelihood(posterior, kind) - ALIKE
    return tuple(
        other
        for other in posterior.causes()
        if other != kind and posterior.prior[other] > 0 and best_likelihood(posterior, other) > least
    )
