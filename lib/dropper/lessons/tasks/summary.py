"""How far a learner is with a task, and with a lesson."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ...circuit.fields import about, documented
from .progress import MOST, Entry, Progress

if TYPE_CHECKING:
    from .question import Choice, Question


@documented
@dataclass(frozen=True)
class Standing:
    """How far a learner is with a lesson."""

    total: int = about("Tasks in all, solved by the learner, solved with hints, and shown before they were solved.")
    solved: int = about("Tasks in all, solved by the learner, solved with hints, and shown before they were solved.")
    with_hints: int = about(
        "Tasks in all, solved by the learner, solved with hints, and shown before they were solved."
    )
    shown: int = about("Tasks in all, solved by the learner, solved with hints, and shown before they were solved.")

    def __str__(self):
        words = f"{self.solved} of {self.total} solved"
        if self.with_hints:
            words += f", {self.with_hints} with hints"
        if self.shown:
            words += f"; {self.shown} shown before being solved"
        return words + "."


def standing(tasks: Iterable[Question | Choice], progress: Progress) -> Standing:
    """How far a learner is with some tasks."""
    known = progress.known()
    tasks = list(tasks)
    entries = [known[task.key] for task in tasks if task.key in known]
    solved = [entry for entry in entries if entry.solved]
    shown = sum(entry.shown and not entry.solved for entry in entries)
    return Standing(len(tasks), len(solved), sum(entry.hints > 0 for entry in solved), shown)


def tried(entry: Entry, right: bool) -> Entry:
    """An entry after one more try."""
    return replace(entry, tries=min(entry.tries + 1, MOST), solved=entry.solved or right)
