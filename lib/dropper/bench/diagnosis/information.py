"""Information: how much a measurement is expected to tell: bits of information on the cause, before it is taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.fields import about, documented
from .evidence import WORDS
from .likelihood import conditional_gaussian, joint_gaussian, lattice_points
from .measurements import Measurement, measurements_for
from .meters import Meters, scale_of
from .prediction import NUMBERS, interval_of, prediction_of, pulls_of
from .word_readings import word_probabilities

if TYPE_CHECKING:
    from .posterior import Posterior

_LEAST = 2e-4  # of the whole: points less probable are left out
_DRAWS = 400  # readings drawn for each measurement, spread over the points
_MOST_POINTS = 120
_FAR_MORE = 1.5  # times the bits: then the more dangerous one is named too
_ENOUGH = 0.5  # of what the best measurement tells for its cost: then the safer one is taken


@documented
@dataclass(frozen=True)
class InformationGain:
    """What a measurement is expected to tell."""

    measurement: Measurement
    bits: float = about("Expected gain of information on the cause.")

    def __repr__(self) -> str:
        return f"<InformationGain: {self.bits:.3g} bits by {self.measurement.key!r}, cost {self.measurement.cost:g}>"

    @property
    def bits_per_cost(self) -> float:
        """Bits for one unit of time and trouble."""
        return self.bits / self.measurement.cost


def information_gains(posterior: Posterior, live: bool = True) -> tuple[InformationGain, ...]:
    """What every measurement not yet taken is expected to tell.

    Parameters
    ----------
    live
        False: no probes on live parts.

    Returns
    -------
    tuple of Worth
        The most telling for its cost first.

    Examples
    --------
    >>> from dropper.bench.diagnosis import Evidence, posterior_of
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> information_gains(posterior_of(lamp, Evidence(light="none")), live=False)[:2]
    (<InformationGain: 0.982 bits by 'plug-in', cost 1>, <InformationGain: 0.92 bits by 'inrush', cost 2>)
    """
    points, weights = _probable_points(posterior)
    taken = posterior.evidence.reading_names()
    known = [name for name in taken if name in NUMBERS]
    gains = []
    for measurement in measurements_for(posterior.table.lamp, live):
        new = [name for name in measurement.readings if name not in taken]
        if new:
            gains.append(InformationGain(measurement, _bits_of(posterior, points, weights, known, new)))
    return tuple(sorted(gains, key=lambda gain: -gain.bits_per_cost))


def next_measurement(posterior: Posterior, live: bool = True) -> InformationGain | None:
    """What to measure next: the safest class in which something tells half as much for its cost as the best of all.

    Parameters
    ----------
    live
        False: no probes on live parts.

    Returns
    -------
    Worth or None
        None where nothing left tells a hundredth of a bit.

    Examples
    --------
    >>> from dropper.bench.diagnosis import Evidence, posterior_of
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> next_measurement(posterior_of(lamp, Evidence(light="none")))
    <InformationGain: 0.982 bits by 'plug-in', cost 1>
    """
    return recommendation(information_gains(posterior, live))


def recommendation(gains: Sequence[InformationGain]) -> InformationGain | None:
    """What to measure next, from what every measurement is expected to tell.

    Parameters
    ----------
    gains
        As `information_gains` gives them.
    """
    telling = [gain for gain in gains if gain.bits >= 0.01]
    good = [gain for gain in telling if gain.bits_per_cost >= _ENOUGH * telling[0].bits_per_cost]
    return min(good, key=lambda gain: (gain.measurement.hazard, -gain.bits_per_cost), default=None)


def riskier_alternative(gains: Sequence[InformationGain], proposal: InformationGain | None) -> InformationGain | None:
    """What would tell far more than the measurement that is proposed, and is more dangerous; None if nothing is."""
    if proposal is None:
        return None
    hazard, bits = max(proposal.measurement.hazard, 1), _FAR_MORE * proposal.bits
    more = [gain for gain in gains if gain.measurement.hazard > hazard and gain.bits > bits]
    return max(more, key=lambda gain: gain.bits, default=None)


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
    spread = ndtri(_shifted_lattice(draws, d, points))
    readings = (mean[:, None] + np.einsum("pij,pcj->pci", root, spread)).reshape(-1, d)
    offsets = np.einsum("pij,spj->spi", np.linalg.inv(root), readings[:, None] - mean[None])
    logs = -0.5 * (offsets**2).sum(-1) - np.log(np.diagonal(root, axis1=1, axis2=2)).sum(-1)
    joint = np.exp(logs - logs.max(axis=1, keepdims=True)) * weights
    same = cause[:, None] == cause[None]
    within = np.einsum("sp,sp->s", joint, np.repeat(same, draws, axis=0)) / np.repeat(same @ weights, draws)
    gain = np.log2(np.maximum(within, 1e-300) / joint.sum(1))
    return float(max(np.repeat(weights / draws, draws) @ gain, 0.0))


def bits_of_words(weights: np.ndarray, cause: np.ndarray, table: np.ndarray) -> float:
    """The same where the answer is one of a few words: summed over all of them, exactly."""
    joint = np.zeros((cause.max() + 1, table.shape[1]))
    np.add.at(joint, cause, weights[:, None] * table)
    apart = joint.sum(1, keepdims=True) * joint.sum(0, keepdims=True)
    where = joint > 0
    return float(max((joint[where] * np.log2(joint[where] / apart[where])).sum(), 0.0))


def _bits_of(posterior, points, weights, known, new):
    table, cause = posterior.table, posterior.table.cause[points]
    if new[0] in WORDS:
        return bits_of_words(weights, cause, word_probabilities(table, new[0])[points])
    names = [*known, *new]
    mean, covariance, weights, cause = _over_pulls(posterior, points, weights, names)
    values = []
    for place, name in enumerate(names):  # what rounding adds, as the variance of an even spread over a digit
        if name in known:
            low, high = interval_of(name, getattr(posterior.evidence, name), posterior.meters)
            width = high - low if np.isfinite(high - low) else 2 * (high if np.isfinite(high) else abs(low))
            values.append((low + high) / 2 if np.isfinite(high - low) else getattr(posterior.evidence, name))
        else:
            width = digit_of(name, posterior.meters)
        covariance[:, place, place] += width**2 / 12
    values = np.nan_to_num(np.array(values), posinf=9.0)
    return bits_between(weights, cause, *conditional_gaussian(mean, covariance, len(known), values))


def _over_pulls(posterior, points, weights, names):
    """Means and covariances of readings, weights and causes: every point once for each moment of pulling that counts.

    Where a reading taken leans on the moment, it has told of the moment too; else each counts alike.
    """
    table, pulls = posterior.table, pulls_of(names)
    shares = posterior.pull_shares[points]
    if shares.shape[1] != len(pulls):
        shares = np.full((len(points), len(pulls)), 1 / len(pulls))
    mean, covariance = zip(
        *(
            joint_gaussian([prediction_of(table, name, posterior.meters, posterior.evidence, pull) for name in names])
            for pull in pulls
        ),
        strict=True,
    )
    mean = np.concatenate([each[points] for each in mean])
    covariance = np.concatenate([each[points] for each in covariance])
    weights = (shares * weights[:, None]).T.ravel()
    return mean, covariance, weights, np.tile(table.cause[points], len(pulls))


def digit_of(name: str, meters: Meters) -> float:
    """The last digit of a reading where it is finest."""
    if name == "leds_dark":
        return 1.0
    if name.endswith("_resistance"):
        return 0.001
    return scale_of(name, meters).digit


def _probable_points(posterior):
    """Places and weights of the points that still count; the weights add up to 1."""
    order = np.argsort(-posterior.weights)[:_MOST_POINTS]
    order = order[posterior.weights[order] >= _LEAST * posterior.weights[order[0]]]
    weights = posterior.weights[order]
    return order, weights / weights.sum()


def _shifted_lattice(draws, d, points):
    """The even points, turned a little further for each of the table's points."""
    turn = lattice_points(points, d + 1)[:, None, 1:]
    return np.clip((lattice_points(draws, d)[None] + turn) % 1, 1e-9, 1 - 1e-9)
