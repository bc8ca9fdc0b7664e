"""Summary: how far a learner is with the tasks of a lesson."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from ...circuit.fields import about, documented
from .entries import MOST, Entry
from .progress import Progress
from .question import Task


@documented
@dataclass(frozen=True)
class Summary:
    """How far a learner is with a lesson."""

    total: int = about("tasks in all")
    solved: int = about("tasks that the learner solved")
    with_hints: int = about("of these, how many with hints")
    shown: int = about("tasks whose answer was shown before they were solved")

    def __str__(self):
        words = f"{self.solved} of {self.total} solved"
        if self.with_hints:
            words += f", {self.with_hints} with steps shown"
        if self.shown:
            words += f"; {self.shown} shown before being solved"
        return words + "."


def summary(tasks: Iterable[Task], progress: Progress) -> Summary:
    """How far a learner is with some tasks."""
    entries, tasks = progress.entries(), list(tasks)
    begun = [entries[task.key] for task in tasks if task.key in entries]
    solved = [entry for entry in begun if entry.solved]
    shown = sum(entry.shown and not entry.solved for entry in begun)
    return Summary(len(tasks), len(solved), sum(entry.hints > 0 for entry in solved), shown)


def after_try(entry: Entry, right: bool) -> Entry:
    """An entry after one more try."""
    return replace(entry, tries=min(entry.tries + 1, MOST), solved=entry.solved or right)
