"""Ambiguity: which two causes a set of measurements cannot tell apart, and which measurement would; all computed."""

import functools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from .cause_table import CauseTable, table_of
from .evidence import WORDS, Evidence
from .information import digit_of
from .likelihood import joint_gaussian
from .measurements import LIVE, Measurement, measurement_named, measurements_for
from .meters import Meters
from .prediction import prediction_of, pulls_of
from .word_readings import word_probabilities
from .wording import NAMES, cause_words, expected_words

ALIKE = 0.6  # overlap from which two causes count as not told apart
_APART = 0.2  # overlap below which a measurement tells them apart


@documented
@dataclass(frozen=True)
class CausePair:
    """Two causes that some measurements do not tell apart."""

    first: tuple | None = about("Its name, as in `WEIGHTS`.")
    second: tuple | None = about("Its name, as in `WEIGHTS`.")
    amounts: tuple = about("At which amounts they look most alike, None where a cause has none.")
    overlap: float = about("Bhattacharyya coefficient of what both predict: 1 for the same, 0 for nothing in common.")
    separator: Measurement | None = about(
        "The safest measurement that tells them apart; the best one where none does well; None where none helps."
    )
    words: str

    def __repr__(self) -> str:
        first, second = map(cause_words, (self.first, self.second), self.amounts)
        return f"<CausePair: {first}; {second}; overlap {self.overlap:.2f}>"


def indistinguishable(
    lamp: Lamp, measurements: Sequence[str], meters: Meters | None = None, live: bool = True
) -> tuple[CausePair, ...]:
    """Pairs of causes that measurements cannot tell apart, the most alike first.

    Every cause at every amount predicts a Gaussian for the readings, with mains, tolerances, meter
    errors and digits in it; two causes are alike where these overlap (Bhattacharyya 1943, from memory).

    Parameters
    ----------
    measurements
        Keys of `MEASUREMENTS`: ("plug-in",), ("plug-in", "bus") …
    live
        False: no probes on live parts, neither here nor to split a pair.

    Raises
    ------
    ValueError
        For an unknown measurement.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> indistinguishable(lamp, ("light", "plug-in"))[0]
    <CausePair: a shorted dropper; a shorted bleeder across the dropper; overlap 1.00>
    """
    meters, table = meters or Meters(), table_of(lamp)
    allowed = [item for item in map(measurement_named, measurements) if live or item.hazard < LIVE]
    readings = [name for item in allowed for name in item.readings if not item.why_not(lamp)]
    overlap = overlaps(table, tuple(readings), meters)
    others = [measurement for measurement in measurements_for(lamp, live) if measurement.key not in measurements]
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
def overlaps(table: CauseTable, readings: tuple[str, ...], meters: Meters) -> np.ndarray:
    """Bhattacharyya coefficients of what any two points predict for readings."""
    total = np.ones((len(table.cause),) * 2)
    for name in readings:
        if name in WORDS:
            roots = np.sqrt(word_probabilities(table, name))
            total *= roots @ roots.T
    numbers = [name for name in readings if name not in WORDS]
    if not numbers:
        return total
    pulls = pulls_of(numbers)
    shared = [_gaussian_overlaps(table, numbers, meters, pull) for pull in pulls]
    return (
        total * sum(shared) / len(pulls)
    )  # of one pull at a time: nobody knows which, but both lamps are pulled alike


def _gaussian_overlaps(table, numbers, meters, pull):
    mean, covariance = joint_gaussian([prediction_of(table, name, meters, Evidence(), pull) for name in numbers])
    covariance = covariance.copy()
    for place, name in enumerate(numbers):
        covariance[:, place, place] += digit_of(name, meters) ** 2 / 12
    half = np.linalg.slogdet(covariance)[1] / 2
    total = np.ones((len(mean),) * 2)
    for point in range(len(mean)):
        average = (covariance[point] + covariance) / 2
        difference = mean - mean[point]
        distance = np.einsum("pi,pi->p", difference, np.linalg.solve(average, difference[..., None])[..., 0]) / 8
        distance += (np.linalg.slogdet(average)[1] - half - half[point]) / 2
        total[point] = np.exp(-np.maximum(distance, 0.0))
    return total


def _pair(table, meters, kinds, points, overlap, readings, others):
    amounts = tuple(None if np.isnan(table.amount[point]) else float(table.amount[point]) for point in points)
    left = {measurement: float(overlaps(table, measurement.readings, meters)[points]) for measurement in others}
    useful = [measurement for measurement in others if left[measurement] < _APART]
    separator = (
        min(useful, key=lambda measurement: (measurement.hazard, measurement.cost, left[measurement]))
        if useful
        else None
    )
    if separator is None and left and min(left.values()) < 0.8:
        separator = min(left, key=left.get)
    return CausePair(
        *kinds, amounts, overlap, separator, _words(table, meters, kinds, points, amounts, readings, separator, left)
    )


def _words(table, meters, kinds, points, amounts, readings, separator, left):
    first, second = (cause_words(kind, amount) for kind, amount in zip(kinds, amounts, strict=True))
    numbers = [name for name in readings if name not in WORDS and name != "voltage"]
    expected = [f"{NAMES[name]} {expected_words(table, name, points[0], meters, Evidence())}" for name in numbers]
    text = f"{first} and {second} look alike" + (f": both give {', '.join(expected)}." if expected else ".")
    text = text[0].upper() + text[1:]
    if separator is None:
        return f"{text} No measurement kept here tells them apart."
    name = next(reading for reading in separator.readings if reading != "voltage")
    range_words = ""
    if name not in WORDS:
        ranges = " against ".join(expected_words(table, name, point, meters, Evidence()) for point in points)
        range_words = f" ({ranges})"
    how = "tells them apart" if left[separator] < _APART else "helps somewhat"
    return f"{text} What {how}: {separator.words}{range_words}."
