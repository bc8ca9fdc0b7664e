"""Tasks panel: a lesson's tasks on the page, one at a time, with what has been solved so far."""

from pathlib import Path

import ipywidgets as widgets

from . import catalogue
from .kit.sliders import button
from .scorecard_panel import Scorecard
from .task_panel import Task
from .tasks.progress import FILE, Progress, progress_at


class Tasks(widgets.VBox):
    """The tasks of a lesson; it opens at the first that is not done.

    Parameters
    ----------
    progress
        As for `Task`.

    Attributes
    ----------
    choice : widgets.Dropdown
    previous_button, next_button : widgets.Button

    Raises
    ------
    ValueError
        For a lesson without tasks, naming those that have some.
    """

    def __init__(self, lesson: int, progress: str | Path | Progress = FILE):
        self._progress = progress if hasattr(progress, "save") else progress_at(progress)
        card = Scorecard(lesson, self._progress)
        entries = self._progress.entries()
        tasks = catalogue.of_lesson(lesson)
        keys = [task.key for task in tasks]
        done = {key for key, entry in entries.items() if entry.solved or entry.shown}
        self._panels = {}
        self.choice = widgets.Dropdown(
            options=[(f"{catalogue.number(task.key)} {task.title}", task.key) for task in tasks],
            value=next((key for key in keys if key not in done), keys[0]),
            description="Task",
            style={"description_width": "60px"},
            layout=widgets.Layout(width="420px"),
        )
        self.choice.observe(lambda _: self._show_task(), "value")
        self.previous_button = button("Task before", "Goes to the task before this one", lambda: self._step(-1))
        self.next_button = button("Next task", "Goes to the task after this one", lambda: self._step(1))
        self._place = widgets.VBox()
        super().__init__([widgets.HBox([self.choice, self.previous_button, self.next_button]), self._place, card])
        self._show_task()

    @property
    def task(self) -> Task:
        """The task that is shown."""
        return self._panels[self.choice.value]

    def _step(self, by):
        self.choice.index += by

    def _show_task(self):
        key = self.choice.value
        if key not in self._panels:
            self._panels[key] = Task(key, self._progress)
        self._place.children = [self._panels[key]]
        self.previous_button.disabled = self.choice.index == 0
        self.next_button.disabled = self.choice.index == len(self.choice.options) - 1
