"""Bayes' rule over every point of a table: which causes are left, and how much of each."""

import math
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from .cause_table import Table, table_of
from .evidence import WORDS, Observed
from .likelihood import assembled, log_box
from .observations import chances
from .prediction import NUMBERS, Meters, box, predicted
from .prior import weights_for

# What none of the causes explains: prior weight, and readings anywhere within so many factors of e.
_NOTHING_KNOWN, _DECADES = 0.02, math.log(1e4)


@documented
@dataclass(frozen=True, eq=False)
class Belief:
    """What is left to believe after some readings."""

    table: Table
    observed: Observed
    meters: Meters
    prior: dict = about("By cause, adds up to 1.")
    weights: np.ndarray = about("Probability of every point of the table; adds up to 1 less `unknown`.")
    likelihood: np.ndarray = about("Logarithm of the readings' probability at every point.")
    unknown: float = about("Probability that none of the causes is it, or that the readings contradict one another.")

    def causes(self) -> dict[tuple, float]:
        """Probability of each cause, the most probable first."""
        sums = np.bincount(self.table.cause, self.weights, len(self.table.causes))
        return {self.table.causes[place]: float(sums[place]) for place in np.argsort(-sums, kind="stable")}

    def best_point(self, kind: tuple[str, ...] | None) -> int:
        """The most probable point of a cause."""
        points = self.table.points_of(kind)
        return int(points[np.argmax(self.weights[points] if self.weights[points].any() else self.likelihood[points])])

    def amount(self, kind: tuple[str, ...] | None) -> tuple[float, ...] | None:
        """Estimate of a cause's amount: median, and the ends of its middle nine tenths; None without an amount."""
        points = self.table.points_of(kind)
        amounts, weights = self.table.amount[points], self.weights[points]
        if np.isnan(amounts[0]) or weights.sum() <= 0:
            return None
        reached = np.cumsum(weights) / weights.sum()
        return tuple(float(amounts[min(np.searchsorted(reached, part), len(points) - 1)]) for part in (0.5, 0.05, 0.95))


def believe(
    lamp: Lamp, observed: Observed | None = None, meters: Meters | None = None, priors: dict | None = None
) -> Belief:
    """What is left to believe of a lamp after some readings.

    Parameters
    ----------
    lamp
        As it is when healthy.
    priors
        Other weights for some causes; see `weights_for`.

    Raises
    ------
    ValueError
        If a prior is not allowed, or the lamp stays dark when healthy.
    """
    observed, meters = observed or Observed(), meters or Meters()
    table, prior = table_of(lamp), weights_for(lamp, priors)
    before = np.array([prior[kind] for kind in table.causes])[table.cause] * table.share * (1 - _NOTHING_KNOWN)
    likelihood = log_likelihood(table, observed, meters)
    with np.errstate(divide="ignore"):
        logs = np.log(before) + likelihood
    nothing = math.log(_NOTHING_KNOWN) + background(observed, meters)
    top = max(logs.max(), nothing)
    weights, rest = np.exp(logs - top), math.exp(nothing - top)
    whole = weights.sum() + rest
    return Belief(table, observed, meters, prior, weights / whole, likelihood, rest / whole)


def log_likelihood(table: Table, observed: Observed, meters: Meters) -> np.ndarray:
    """Logarithm of the probability of all readings, at every point of a table."""
    taken = observed.taken()
    total = np.zeros(len(table.cause))
    numbers = [name for name in taken if name in NUMBERS]
    if numbers:
        mean, covariance = assembled([predicted(table, name, meters, observed) for name in numbers])
        boxes = np.array([box(name, getattr(observed, name), meters) for name in numbers])
        total += log_box(mean, covariance, boxes[:, 0], boxes[:, 1])
    for name in taken:
        if name in WORDS:
            total += np.log(chances(table, name)[:, list(WORDS[name]).index(getattr(observed, name))])
    return total


def background(observed: Observed, meters: Meters) -> float:
    """Logarithm of the probability of the readings where nothing is known: each for itself, of any size."""
    total = 0.0
    for name in observed.taken():
        value = getattr(observed, name)
        if name in WORDS:
            total -= math.log(len(WORDS[name]))
            continue
        low, high = box(name, value, meters)
        if not math.isfinite(low) or not math.isfinite(high):
            total += math.log(0.2)
        elif name.endswith("_resistance"):  # already logarithms
            total += math.log(0.8 * min((high - low) * math.log(10) / _DECADES, 1.0))
        else:
            total += math.log(0.8 * min((high - low) / (max(value, high - low) * _DECADES), 1.0))
    return total
