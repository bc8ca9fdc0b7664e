"""Observation: what a reading did between two settings, and what is answered to a learner who says what it did."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...results.reading import Reading

SAME = 0.02  # up to this share of it a reading is about the same …
SEEN = 0.005  # … and from this one on it has gone up or down, so that between the two either is right


@documented
@dataclass(frozen=True)
class Observation:
    """A reading before and now."""

    before: Reading = about("as the question has it.")
    now: Reading = about("as the sliders have it.")

    @classmethod
    def of(cls, key: str, before: Sequence[Reading], now: Sequence[Reading]) -> Observation | None:
        """The reading of a key in both; None where one of them is without it.

        Parameters
        ----------
        before, now
            The readings of two views.
        """
        pair = [
            next((row for row in rows if row.key == key and row.value == row.value), None) for rows in (before, now)
        ]
        return cls(*pair) if None not in pair else None

    @property
    def name(self) -> str:
        """The reading in a few words: what stands before the comma of its name."""
        return self.now.name.partition(",")[0]

    @property
    def question(self) -> str:
        """What a learner is asked."""
        return f"What did the {self.name} do?"

    @property
    def truths(self) -> set[str]:
        """What it did: "up", "same", "down"; two of them near the border.

        Examples
        --------
        >>> from dropper.results.reading import Reading
        >>> def current(amperes): return Reading("i", "string current, mean", amperes, "A", "")
        >>> sorted(Observation(current(0.0167), current(0.0190)).truths)
        ['up']
        >>> sorted(Observation(current(0.0167), current(0.0165)).truths)
        ['down', 'same']
        """
        change = self.now.value - self.before.value
        share = abs(change) / max(abs(self.before.value), abs(self.now.value), 1e-300)
        truths = {"same"} if share < SAME else set()
        return truths | ({"up" if change > 0 else "down"} if share > SEEN else set())

    def answer(self, key: str) -> str:
        """What is said to a learner who has seen it go up, down or stay.

        Parameters
        ----------
        key
            "up", "same" or "down".
        """
        numbers = f"{self.before.text} before, {self.now.text} now."
        return f"{'Seen' if key in self.truths else 'Look again'}: {self.name}, {numbers}"
