"""Limits that a lamp must keep, set by the learner, and how many of many lamps keep it."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from statistics import NormalDist

import numpy as np

from ...circuit.fields import about, check, documented, quantity, spec_of
from ...circuit.values import show_reading

CONFIDENCE = 0.95


def _limit(unit, low, high, meaning):
    return quantity(unit, low, high, None, meaning=meaning, none=True)


# field, reading, which way, in words
_RULES = (
    ("current_least", "string_current_mean", 1, "too little current"),
    ("current_greatest", "string_current_mean", -1, "too much current"),
    ("peak_greatest", "string_current_max", -1, "peak of the string current too high"),
    ("flicker_greatest", "percent_flicker", -1, "too much flicker"),
    ("power_greatest", "real_power", -1, "too much power"),
    ("factor_least", "power_factor", 1, "power factor too low"),
)


@documented
@dataclass(frozen=True)
class Limits:
    """Limits that a learner sets; each may be left out.

    Raises
    ------
    ValueError
        For a value out of range, or a least above its greatest.
    """

    current_least: float | None = _limit("A", 1e-6, 100, "least mean string current")
    current_greatest: float | None = _limit("A", 1e-6, 100, "greatest mean string current")
    peak_greatest: float | None = _limit("A", 1e-6, 100, "greatest string current at its peak")
    flicker_greatest: float | None = _limit("%", 0, 100, "greatest percent flicker")
    power_greatest: float | None = _limit("W", 1e-6, 1e6, "greatest power from the mains")
    factor_least: float | None = _limit("", 0, 1, "least power factor")

    def __post_init__(self):
        check(self)
        low, high = self.current_least, self.current_greatest
        if low is not None and high is not None and low > high:
            raise ValueError(
                f"Limits.current_least: {show_reading(low, 'A')} is more than current_greatest,"
                f" {show_reading(high, 'A')}"
            )

    @classmethod
    def around(cls, current: float, share: float, **others) -> Limits:
        """A mean string current, so much either way.

        Parameters
        ----------
        current
            A.
        share
            Fraction allowed either way, above 0 and below 1.
        others : float
            Any other limits by name.
        """
        return cls(current_least=(1 - share) * current, current_greatest=(1 + share) * current, **others)

    def passes(self, readings: dict[str, np.ndarray], dark: np.ndarray) -> dict[str, np.ndarray]:
        """Which lamps keep each of the limits that are set.

        Parameters
        ----------
        readings
            By the key of the reading.
        dark
            Dark lamps give too little light, whatever else they do.

        Returns
        -------
        dict of str to array of bool
            By what is wrong where a limit is broken.
        """
        verdicts = {}
        for name, key, way, wrong in _RULES:
            limit = getattr(self, name)
            if limit is not None:
                values = readings[key]
                good = values >= limit if way > 0 else values <= limit
                verdicts[wrong] = good & ~dark if name == "current_least" else good | dark
        return verdicts

    @property
    def words(self) -> str:
        """The limits that are set, in a sentence."""
        sentences = [
            f"{spec_of(field).meaning} {show_reading(value, spec_of(field).unit)}"
            for field in fields(self)
            if (value := getattr(self, field.name)) is not None
        ]
        return "; ".join(sentences) + "." if sentences else "No limit is set."


@documented
@dataclass(frozen=True)
class Yield:
    """How many lamps of a sample keep all limits."""

    passing: int = about("lamps that keep all limits")
    count: int = about("lamps of the sample")
    low: float = about("the true share lies above this, and below `high`, in 95 of 100 samples (Wilson's interval)")
    high: float = about("upper end of that interval")
    broken: dict = about("how many break each limit; a lamp may break several")

    def __repr__(self) -> str:
        return f"<Yield {self.percent} of {self.count} lamps, {self.between}>"

    @property
    def share(self) -> float:
        """The part of the sample that keeps them."""
        return self.passing / self.count

    @property
    def percent(self) -> str:
        """The share in words."""
        return f"{_rounded(100 * self.share)} %"

    @property
    def between(self) -> str:
        """The interval in words."""
        return f"{_rounded(100 * self.low)} to {_rounded(100 * self.high)} %"

    @property
    def words(self) -> str:
        """The yield in a sentence or two."""
        text = (
            f"{self.passing} of {self.count} lamps keep the limits, {self.percent}; with other lamps of the same kind"
            f" it could be {self.between}."
        )
        missed = [f"{count} have {wrong}" for wrong, count in self.broken.items() if count]
        return f"{text} {'; '.join(missed)}." if missed else text


def _rounded(percent):
    text = f"{percent:.1f}".removesuffix(".0")
    if text == "100" and percent < 100:
        return "over 99.9"
    return "under 0.1" if text == "0" and percent > 0 else text


def yield_of(readings: dict[str, np.ndarray], dark: np.ndarray, limits: Limits) -> Yield:
    """How many lamps keep limits.

    Raises
    ------
    ValueError
        For no lamps at all.

    """
    count = len(dark)
    if not count:
        raise ValueError("readings: there is no lamp yet to judge; let the count run on")
    checks = limits.passes(readings, dark)
    good = np.logical_and.reduce(list(checks.values())) if checks else np.ones(count, bool)
    low, high = _wilson(int(good.sum()), count)
    broken = {wrong: int((~passing).sum()) for wrong, passing in checks.items()}
    return Yield(int(good.sum()), count, low, high, broken)


def _wilson(good, count):
    """The interval for a share of which so many of a count were seen.

    Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927), p. 209 (from memory).
    """
    z = NormalDist().inv_cdf((1 + CONFIDENCE) / 2)
    middle = good + z**2 / 2
    half = z * math.sqrt(good * (count - good) / count + z**2 / 4)
    return max((middle - half) / (count + z**2), 0.0), min((middle + half) / (count + z**2), 1.0)
