"""Entries of the progress file: what is kept of a task, of a prediction, of a question from before; as text and back.

Where two notebooks have written of the same thing, `merged` says what holds:

- a task: of the same values whatever has gone further; an entry of values that were drawn before the task was begun
  again is left out;
- a prediction: the one noted last, for people change their minds; but the same answer noted once more, as yet
  unjudged, does not undo how it was judged;
- a question from before: it was answered as often as both say together, and the last answer counts.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ...circuit.fields import about, documented

MOST = 1_000_000
SEEDS = 2**63
LONGEST = 80  # characters of an answer's key
SURE = ("guess", "fairly", "sure")


@documented
@dataclass(frozen=True)
class Entry:
    """How far a learner is with one task."""

    seed: int = about("what the task's values are drawn from")
    tries: int = about("how many answers were checked", default=0)
    hints: int = about("how many were shown", default=0)
    solved: bool = about("whether the learner solved it", default=False)
    shown: bool = about("whether the answer was shown first", default=False)

    def __post_init__(self):
        _need_count(self.seed, SEEDS)
        _need_count(self.tries, MOST)
        _need_count(self.hints, MOST)
        _need(isinstance(self.solved, bool) and isinstance(self.shown, bool), "neither true nor false")

    def merged(self, written: Entry | None) -> Entry:
        """What holds of this entry and the one that is in the file."""
        if written is None:
            return self
        if written.seed != self.seed:
            return written
        return Entry(
            self.seed,
            max(written.tries, self.tries),
            max(written.hints, self.hints),
            written.solved or self.solved,
            written.shown or self.shown,
        )


@documented
@dataclass(frozen=True)
class PredictionEntry:
    """What a learner predicted, how sure of it, and what came of it."""

    answer: str = about("the key of the answer that was chosen")
    sure: str = about("one of `SURE`; empty if that was not said", default="")
    right: bool | None = about("whether it held; None as long as it is not judged", default=None)

    def __post_init__(self):
        _need(isinstance(self.answer, str) and len(self.answer) <= LONGEST, f"no key of up to {LONGEST} characters")
        _need(self.sure in ("", *SURE), f"none of {', '.join(SURE)}")
        _need(self.right is None or isinstance(self.right, bool), "neither true nor false")

    def merged(self, written: PredictionEntry | None) -> PredictionEntry:
        """What holds of this entry and the one that is in the file."""
        if written is None or written.answer != self.answer:
            return self
        right = written.right if self.right is None else self.right
        return replace(self, sure=self.sure or written.sure, right=right)


@documented
@dataclass(frozen=True)
class RecallEntry:
    """How often a task was asked as one of the questions from before, and how the last answer was."""

    asked: int = about("how many times it was answered there")
    missed: bool = about("whether the last answer was wrong", default=False)

    def __post_init__(self):
        _need_count(self.asked, MOST)
        _need(isinstance(self.missed, bool), "neither true nor false")

    def merged(self, written: RecallEntry | None) -> RecallEntry:
        """What holds of these answers and those in the file."""
        return replace(self, asked=min(self.asked + (written.asked if written else 0), MOST))


KINDS: dict[str, Callable] = {"tasks": Entry, "predictions": PredictionEntry, "recalls": RecallEntry}


def entry_of(kind: str, values: object) -> Entry | PredictionEntry | RecallEntry:
    """An entry from what stands of it in a file.

    Parameters
    ----------
    kind
        One of `KINDS`.
    values
        As JSON has it.

    Raises
    ------
    ValueError
        For what is no such entry.
    """
    _need(isinstance(values, dict), "not an entry")
    fields = KINDS[kind].__dataclass_fields__
    _need(all(name in values for name in fields), "not all of it is there")
    return KINDS[kind](**{name: values[name] for name in fields})


def is_count(number: object, most: int) -> bool:
    """Whether something is a whole number from 0 up to a bound."""
    return isinstance(number, int) and not isinstance(number, bool) and 0 <= number <= most


def _need_count(number, most):
    _need(is_count(number, most), f"not a whole number from 0 to {most}")


def _need(holds, why):
    if not holds:
        raise ValueError(why)
