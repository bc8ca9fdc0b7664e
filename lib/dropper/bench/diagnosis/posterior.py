"""Posterior: Bayes' rule over every point of a table: which causes are left, and how much of each."""

import math
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from .cause_table import CauseTable, table_of
from .evidence import WORDS, Evidence
from .likelihood import joint_gaussian, log_box_probability
from .meters import Meters
from .prediction import NUMBERS, interval_of, prediction_of, pulls_of
from .prior import weights_for
from .word_readings import word_probabilities

# What none of the causes explains: prior weight, and readings anywhere within so many factors of e.
_NOTHING_KNOWN, _DECADES = 0.02, math.log(1e4)


@documented
@dataclass(frozen=True, eq=False)
class Posterior:
    """Probabilities of causes and their amounts after some readings."""

    table: CauseTable
    evidence: Evidence
    meters: Meters
    prior: dict = about("By cause; adds up to 1.")
    weights: np.ndarray = about("Probability of every point of the table; adds up to 1 less `unknown`.")
    likelihood: np.ndarray = about("Logarithm of the readings' probability at every point.")
    pull_shares: np.ndarray = about(
        "By point and by `PULL_ANGLES`: how probable each moment of pulling is, as the readings have it; one column "
        "where none of them leans on it."
    )
    unknown: float = about("Probability that none of the causes is it, or that the readings contradict one another.")

    def __repr__(self) -> str:
        causes = "; ".join(f"{chance:.3g} {kind}" for kind, chance in list(self.causes().items())[:2])
        return f"<Posterior of {self.table.lamp.name!r}, by cause: {causes}>"

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
        cumulative = np.cumsum(weights) / weights.sum()
        return tuple(
            float(amounts[min(np.searchsorted(cumulative, part), len(points) - 1)]) for part in (0.5, 0.05, 0.95)
        )


def posterior_of(
    lamp: Lamp, evidence: Evidence | None = None, meters: Meters | None = None, priors: dict | None = None
) -> Posterior:
    """Probabilities of a lamp's causes and their amounts after some readings.

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

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> posterior_of(lamp, Evidence(light="none", bridge="good"))
    <Posterior of 'lamp', by cause: 0.369 ('open', 'inrush_resistor'); 0.369 ('open', 'string')>
    """
    evidence, meters = evidence or Evidence(), meters or Meters()
    table, prior = table_of(lamp), weights_for(lamp, priors)
    prior_weights = np.array([prior[kind] for kind in table.causes])[table.cause] * table.share * (1 - _NOTHING_KNOWN)
    by_pull = log_likelihood_by_pull(table, evidence, meters)
    likelihood = np.logaddexp.reduce(by_pull, axis=1) - math.log(by_pull.shape[1])
    with np.errstate(divide="ignore"):
        logs = np.log(prior_weights) + likelihood
    nothing = math.log(_NOTHING_KNOWN) + background(evidence, meters)
    top = max(logs.max(), nothing)
    weights, rest = np.exp(logs - top), math.exp(nothing - top)
    whole = weights.sum() + rest
    shares = np.exp(by_pull - np.logaddexp.reduce(by_pull, axis=1, keepdims=True))
    return Posterior(table, evidence, meters, prior, weights / whole, likelihood, shares, float(rest / whole))


def log_likelihood_by_pull(table: CauseTable, evidence: Evidence, meters: Meters) -> np.ndarray:
    """Logarithm of the probability of all readings, at every point of a table and for every moment of pulling.

    Returns
    -------
    array, shape (points, moments)
        One column where no reading leans on the moment.
    """
    names = evidence.reading_names()
    numbers, pulls = [name for name in names if name in NUMBERS], pulls_of(names)
    total = np.zeros((len(table.cause), len(pulls)))
    if numbers:
        boxes = np.array([interval_of(name, getattr(evidence, name), meters) for name in numbers])
        for pull in pulls:
            parts = [prediction_of(table, name, meters, evidence, pull) for name in numbers]
            total[:, pull] += log_box_probability(*joint_gaussian(parts), boxes[:, 0], boxes[:, 1])
    for name in names:
        if name in WORDS:
            chances = word_probabilities(table, name)[:, list(WORDS[name]).index(getattr(evidence, name))]
            total += np.log(chances)[:, None]
    return total


def background(evidence: Evidence, meters: Meters) -> float:
    """Logarithm of the probability of the readings where nothing is known: each for itself, of any size."""
    total = 0.0
    for name in evidence.reading_names():
        value = getattr(evidence, name)
        if name in WORDS:
            total -= math.log(len(WORDS[name]))
            continue
        low, high = interval_of(name, value, meters)
        if not math.isfinite(low) or not math.isfinite(high):
            total += math.log(0.2)
        elif name.endswith("_resistance"):  # already logarithms
            total += math.log(0.8 * min((high - low) * math.log(10) / _DECADES, 1.0))
        else:
            total += math.log(0.8 * min((high - low) / (max(value, high - low) * _DECADES), 1.0))
    return total
