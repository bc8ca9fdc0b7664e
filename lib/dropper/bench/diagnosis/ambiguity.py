"""Which two causes a set of measurements cannot tell apart, and which measurement would: computed, not listed."""

import functools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from .cause_table import Table, table_of
from .evidence import WORDS, Observed
from .information import digit_of
from .likelihood import assembled
from .measurements import LIVE, Act, act_named, acts_for
from .observations import chances
from .prediction import Meters, predicted
from .wording import NAMES, cause_words, expected_words

ALIKE = 0.6  # overlap from which two causes count as not told apart
_APART = 0.2  # overlap below which a measurement tells them apart


@documented
@dataclass(frozen=True)
class Pair:
    """Two causes that some measurements do not tell apart."""

    first: tuple | None = about("Names as in `prior.WEIGHTS`.")
    second: tuple | None = about("Names as in `prior.WEIGHTS`.")
    amounts: tuple = about("At which amounts they look most alike, None where a cause has none.")
    overlap: float = about("Bhattacharyya coefficient of what both predict: 1 for the same, 0 for nothing in common.")
    splits: Act | None = about(
        "The safest measurement that tells them apart; the best one where none does well; None where none helps."
    )
    words: str


def indistinguishable(
    lamp: Lamp, measurements: Sequence[str], meters: Meters | None = None, live: bool = True
) -> tuple[Pair, ...]:
    """Pairs of causes that measurements cannot tell apart, the most alike first.

    Every cause at every amount predicts a Gaussian for the readings, with mains, tolerances, meter
    errors and digits in it; two causes are alike where these overlap (Bhattacharyya 1943, from memory).

    Parameters
    ----------
    measurements
        Keys of `acts.ACTS`: ("plug-in",), ("plug-in", "bus") …
    live
        False: no probes on live parts, neither here nor to split a pair.

    Raises
    ------
    ValueError
        For an unknown measurement.
    """
    meters, table = meters or Meters(), table_of(lamp)
    acts = [act for act in map(act_named, measurements) if live or act.hazard < LIVE]
    readings = [name for act in acts for name in act.readings if not act.why_not(lamp)]
    overlap = overlaps(table, tuple(readings), meters)
    others = [act for act in acts_for(lamp, live) if act.key not in measurements]
    pairs, kinds = [], table.causes
    for place, first in enumerate(kinds):
        for second in kinds[place + 1 :]:
            rows, columns = table.points_of(first), table.points_of(second)
            block = overlap[np.ix_(rows, columns)]
            best = np.unravel_index(int(block.argmax()), block.shape)
            if block[best] >= ALIKE:
                points = int(rows[best[0]]), int(columns[best[1]])
                pairs.append(_pair(table, meters, (first, second), points, float(block[best]), readings, others))
    return tuple(sorted(pairs, key=lambda pair: -pair.overlap))


@functools.lru_cache(maxsize=64)
def overlaps(table: Table, readings: tuple[str, ...], meters: Meters) -> np.ndarray:
    """Bhattacharyya coefficients of what any two points predict for readings."""
    total = np.ones((len(table.cause),) * 2)
    for name in readings:
        if name in WORDS:
            roots = np.sqrt(chances(table, name))
            total *= roots @ roots.T
    numbers = [name for name in readings if name not in WORDS]
    if not numbers:
        return total
    mean, covariance = assembled([predicted(table, name, meters, Observed()) for name in numbers])
    covariance = covariance.copy()
    for place, name in enumerate(numbers):
        covariance[:, place, place] += digit_of(name, meters) ** 2 / 12
    half = np.linalg.slogdet(covariance)[1] / 2
    for point in range(len(mean)):
        both = (covariance[point] + covariance) / 2
        off = mean - mean[point]
        distance = np.einsum("pi,pi->p", off, np.linalg.solve(both, off[..., None])[..., 0]) / 8
        distance += (np.linalg.slogdet(both)[1] - half - half[point]) / 2
        total[point] *= np.exp(-np.maximum(distance, 0.0))
    return total


def _pair(table, meters, kinds, points, overlap, readings, others):
    amounts = tuple(None if np.isnan(table.amount[point]) else float(table.amount[point]) for point in points)
    left = {act: float(overlaps(table, act.readings, meters)[points]) for act in others}
    useful = [act for act in others if left[act] < _APART]
    splits = min(useful, key=lambda act: (act.hazard, act.cost, left[act])) if useful else None
    if splits is None and left and min(left.values()) < 0.8:
        splits = min(left, key=left.get)
    return Pair(*kinds, amounts, overlap, splits, _words(table, meters, kinds, points, amounts, readings, splits, left))


def _words(table, meters, kinds, points, amounts, readings, splits, left):
    first, second = (cause_words(kind, amount) for kind, amount in zip(kinds, amounts, strict=True))
    numbers = [name for name in readings if name not in WORDS and name != "voltage"]
    seen = ", ".join(f"{NAMES[name]} {expected_words(table, name, points[0], meters, Observed())}" for name in numbers)
    text = f"{first} and {second} look alike" + (f": both give {seen}." if seen else ".")
    text = text[0].upper() + text[1:]
    if splits is None:
        return f"{text} No measurement kept here tells them apart."
    name = next(one for one in splits.readings if one != "voltage")
    told = ""
    if name not in WORDS:
        told = " against ".join(expected_words(table, name, point, meters, Observed()) for point in points)
        told = f" ({told})"
    how = "tells them apart" if left[splits] < _APART else "helps somewhat"
    return f"{text} What {how}: {splits.words}{told}."
