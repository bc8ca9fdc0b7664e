"""Scorecard panel: how far the learner is with the tasks of a lesson."""

from pathlib import Path

import ipywidgets as widgets

from ..circuit.excerpt import excerpt
from ..circuit.html import joined, table, tag
from . import catalogue
from .kit.css import STYLE
from .kit.markup import Html
from .kit.sliders import words
from .tasks.progress import FILE, Progress, progress_at
from .tasks.summary import summary


class Scorecard(widgets.VBox):
    """How far the learner is with a lesson; it follows the tasks on the same page.

    Parameters
    ----------
    progress
        As for `Task`.

    Attributes
    ----------
    report : Html

    Raises
    ------
    ValueError
        For a lesson without tasks, naming those that have some.
    """

    def __init__(self, lesson: int, progress: str | Path | Progress = FILE):
        self._tasks = catalogue.of_lesson(lesson)
        if not self._tasks:
            known = ", ".join(str(number) for number in catalogue.LESSONS)
            raise ValueError(f"lesson {excerpt(lesson)} has no tasks; those with tasks are {known}")
        self._lesson = lesson
        self._progress = progress if hasattr(progress, "save") else progress_at(progress)
        self.report = words()
        super().__init__([Html(STYLE), self.report])
        self._progress.watch(self.update)
        self.update()

    def update(self) -> None:
        """Count again."""
        entries = self._progress.entries()
        rows = [(f"{catalogue.number(task.key)} {task.title}", _state(entries.get(task.key))) for task in self._tasks]
        sentence = f"Lesson {self._lesson}: {summary(self._tasks, self._progress)}"
        trouble = f" {self._progress.trouble}" if self._progress.trouble else ""
        each = table("Solved so far", (), rows, css="dropper-table")
        self.report.value = joined(
            tag("div", sentence, trouble, css="dropper-words", role="status"),
            tag("details", tag("summary", "Task by task"), each, css="dropper-words"),
        )


def _state(entry):
    if entry is None or not (entry.tries or entry.hints):
        return "○ not begun"
    if entry.solved:
        return "✓ solved" + (f", {counted(entry.hints, 'step', 'steps')} shown" if entry.hints else "")
    return "– shown" if entry.shown else "◐ begun"


def counted(number: int, one: str, many: str) -> str:
    """A number with its noun: "1 try", "2 tries"."""
    return f"{number} {one if number == 1 else many}"
