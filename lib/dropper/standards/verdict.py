"""Verdict on a published limit: a word, a sign of its own shape, and a sentence."""

import math
from dataclasses import dataclass

from ..circuit.excerpt import excerpt
from ..circuit.fields import about, documented

SIGNS = {
    "within": "✓",
    "no effect": "✓",
    "low risk": "△",
    "over": "✗",
    "below": "✗",
    "no limit": "–",
    "not judged": "?",
}


@documented
@dataclass(frozen=True)
class Verdict:
    """What a standard says of a value."""

    word: str = about("One of the keys of `SIGNS`.")
    words: str = about("A sentence with the value, the limit and what it comes from.")
    standard: str = about("The standard and its edition.")

    def __repr__(self) -> str:
        return f"<{self.word}, {self.standard}>"

    @property
    def sign(self) -> str:
        """A sign that is told from the others by its shape, not by a colour."""
        return SIGNS[self.word]


def number(field: str, value: float, unit: str, low: float, high: float = math.inf, above: bool = False) -> float:
    """A finite number within bounds as a float, or `ValueError` in words.

    Parameters
    ----------
    field
        What the value is for; named in the error.
    low, high
        Least and greatest value allowed.
    above
        The value must be above `low`, not at it.
    """
    try:
        amount = float(value)
    except (TypeError, ValueError):
        amount = math.nan
    if not (math.isfinite(amount) and low <= amount <= high and not (above and amount == low)):
        least = f"above {low:g}" if above else f"from {low:g}"
        most = "" if high == math.inf else f" to {high:g}"
        unit = f" {unit}" if unit else ""
        raise ValueError(f"{field}: {excerpt(value)}{unit} will not do; allowed is a number {least}{most}{unit}")
    return amount
