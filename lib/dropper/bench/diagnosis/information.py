"""How much a measurement is expected to tell: bits of information on the cause, before it is taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.fields import about, documented
from .evidence import WORDS
from .likelihood import assembled, conditioned, nodes
from .measurements import Act, acts_for
from .observations import chances
from .prediction import NUMBERS, Meters, box, predicted, scale_of

if TYPE_CHECKING:
    from .posterior import Belief

_LEAST = 2e-4  # of the whole: points less probable are left out
_DRAWS = 400  # readings drawn for each act, spread over the points
_MOST_POINTS = 120
_FAR_MORE = 1.5  # times the bits: then the more dangerous act is named too
_ENOUGH = 0.5  # of what the best act tells for its cost: then the safer one is taken


@documented
@dataclass(frozen=True)
class Worth:
    """What an act is worth."""

    act: Act
    bits: float = about("Expected gain of information on the cause.")

    @property
    def for_its_cost(self) -> float:
        """Bits for one unit of time and trouble."""
        return self.bits / self.act.cost


def worths(belief: Belief, live: bool = True) -> tuple[Worth, ...]:
    """What every act not yet done is expected to tell.

    Parameters
    ----------
    live
        False: no probes on live parts.

    Returns
    -------
    tuple of Worth
        The most telling for its cost first.
    """
    points, weights = _left(belief)
    taken = belief.observed.taken()
    known = [name for name in taken if name in NUMBERS]
    found = []
    for act in acts_for(belief.table.lamp, live):
        new = [name for name in act.readings if name not in taken]
        if new:
            found.append(Worth(act, _bits_of(belief, points, weights, known, new)))
    return tuple(sorted(found, key=lambda worth: -worth.for_its_cost))


def next_act(belief: Belief, live: bool = True) -> Worth | None:
    """The one act to do next: the safest class in which something tells half as much for its cost as the best of all.

    Parameters
    ----------
    live
        False: no probes on live parts.

    Returns
    -------
    Worth or None
        None where nothing left tells a hundredth of a bit.
    """
    return chosen(worths(belief, live))


def chosen(every: Sequence[Worth]) -> Worth:
    """The same from what every act is worth.

    Parameters
    ----------
    every
        As `worths` gives them.
    """
    telling = [worth for worth in every if worth.bits >= 0.01]
    good = [worth for worth in telling if worth.for_its_cost >= _ENOUGH * telling[0].for_its_cost]
    return min(good, key=lambda worth: (worth.act.hazard, -worth.for_its_cost), default=None)


def riskier(every: Sequence[Worth], taken: Worth | None) -> Worth | None:
    """What would tell far more than the act that is proposed, and is more dangerous; None if nothing is."""
    if taken is None:
        return None
    more = [w for w in every if w.act.hazard > max(taken.act.hazard, 1) and w.bits > _FAR_MORE * taken.bits]
    return max(more, key=lambda worth: worth.bits, default=None)


def bits_between(weights: np.ndarray, cause: np.ndarray, mean: np.ndarray, covariance: np.ndarray) -> float:
    """Mutual information of cause and reading, in bits, for mixtures of Gaussians.

    Readings are drawn from every point at a fixed set of places, the same each time.

    Parameters
    ----------
    weights
        Adds up to 1.

    Returns
    -------
    float
        No less than 0.
    """
    from scipy.special import ndtri

    points, d = mean.shape
    draws = max(3, _DRAWS // points)
    root = np.linalg.cholesky(covariance)
    spread = ndtri(_shifted(draws, d, points))
    drawn = (mean[:, None] + np.einsum("pij,pcj->pci", root, spread)).reshape(-1, d)
    off = np.einsum("pij,spj->spi", np.linalg.inv(root), drawn[:, None] - mean[None])
    logs = -0.5 * (off**2).sum(-1) - np.log(np.diagonal(root, axis1=1, axis2=2)).sum(-1)
    each = np.exp(logs - logs.max(axis=1, keepdims=True)) * weights
    same = cause[:, None] == cause[None]
    own = np.einsum("sp,sp->s", each, np.repeat(same, draws, axis=0)) / np.repeat(same @ weights, draws)
    gain = np.log2(np.maximum(own, 1e-300) / each.sum(1))
    return float(max(np.repeat(weights / draws, draws) @ gain, 0.0))


def bits_of_words(weights: np.ndarray, cause: np.ndarray, table: np.ndarray) -> float:
    """The same where the answer is one of a few words: summed over all of them, exactly."""
    joint = np.zeros((cause.max() + 1, table.shape[1]))
    np.add.at(joint, cause, weights[:, None] * table)
    apart = joint.sum(1, keepdims=True) * joint.sum(0, keepdims=True)
    where = joint > 0
    return float(max((joint[where] * np.log2(joint[where] / apart[where])).sum(), 0.0))


def _bits_of(belief, points, weights, known, new):
    table, cause = belief.table, belief.table.cause[points]
    if new[0] in WORDS:
        return bits_of_words(weights, cause, chances(table, new[0])[points])
    names = [*known, *new]
    mean, covariance = assembled([predicted(table, name, belief.meters, belief.observed) for name in names])
    mean, covariance = mean[points], covariance[points].copy()
    values = []
    for place, name in enumerate(names):  # what rounding adds, as the variance of an even spread over a digit
        if name in known:
            low, high = box(name, getattr(belief.observed, name), belief.meters)
            width = high - low if np.isfinite(high - low) else 2 * (high if np.isfinite(high) else abs(low))
            values.append((low + high) / 2 if np.isfinite(high - low) else getattr(belief.observed, name))
        else:
            width = digit_of(name, belief.meters)
        covariance[:, place, place] += width**2 / 12
    values = np.nan_to_num(np.array(values), posinf=9.0)
    return bits_between(weights, cause, *conditioned(mean, covariance, len(known), values))


def digit_of(name: str, meters: Meters) -> float:
    """The last digit of a reading where it is finest."""
    if name == "leds_dark":
        return 1.0
    if name.endswith("_resistance"):
        return 0.001
    return scale_of(name, meters).digit


def _left(belief):
    """Places and weights of the points that still count; the weights add up to 1."""
    order = np.argsort(-belief.weights)[:_MOST_POINTS]
    order = order[belief.weights[order] >= _LEAST * belief.weights[order[0]]]
    weights = belief.weights[order]
    return order, weights / weights.sum()


def _shifted(draws, d, points):
    """The even points, turned a little further for each of the table's points."""
    turn = nodes(points, d + 1)[:, None, 1:]
    return np.clip((nodes(draws, d)[None] + turn) % 1, 1e-9, 1 - 1e-9)
