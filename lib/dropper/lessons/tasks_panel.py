"""A lesson's tasks on the page, one at a time, with what has been solved so far."""

from pathlib import Path

import ipywidgets as widgets

from . import catalogue
from .kit.sliders import button
from .task_panel import Scorecard, Task
from .tasks.progress import FILE, Progress, progress_at


class Tasks(widgets.VBox):
    """The tasks of a lesson; it opens at the first that is not done.

    Parameters
    ----------
    progress
        As for `Task`.

    Raises
    ------
    ValueError
        For a lesson without tasks, naming those that have some.
    """

    def __init__(self, lesson: int, progress: str | Path | Progress = FILE):
        self._progress = progress if hasattr(progress, "save") else progress_at(progress)
        card = Scorecard(lesson, self._progress)
        known = self._progress.entries()
        tasks = catalogue.of_lesson(lesson)
        keys = [task.key for task in tasks]
        done = {key for key, entry in known.items() if entry.solved or entry.shown}
        self._made = {}
        self._choice = widgets.Dropdown(
            options=[(f"{catalogue.number(task.key)} {task.title}", task.key) for task in tasks],
            value=next((key for key in keys if key not in done), keys[0]),
            description="Task",
            style={"description_width": "60px"},
            layout=widgets.Layout(width="420px"),
        )
        self._choice.observe(lambda _: self._put(), "value")
        self._before = button("Task before", "Goes to the task before this one", lambda: self._step(-1))
        self._next = button("Next task", "Goes to the task after this one", lambda: self._step(1))
        self._place = widgets.VBox()
        super().__init__([widgets.HBox([self._choice, self._before, self._next]), self._place, card])
        self._put()

    @property
    def task(self):
        """The task that is shown."""
        return self._made[self._choice.value]

    def _step(self, by):
        self._choice.index += by

    def _put(self):
        key = self._choice.value
        if key not in self._made:
            self._made[key] = Task(key, self._progress)
        self._place.children = [self._made[key]]
        self._before.disabled = self._choice.index == 0
        self._next.disabled = self._choice.index == len(self._choice.options) - 1
