"""Tasks panel: a lesson's tasks on the page, one at a time, with what has been solved so far."""

from pathlib import Path

import ipywidgets as widgets

from . import catalogue
from .kit.sliders import button
from .scorecard_panel import Scorecard
from .task_panel import Task
from .tasks.progress import FILE, Progress, progress_at


class Tasks(widgets.VBox):
    """The tasks of a lesson: three of the core, the rest behind a button. It opens at the first that is not done.

    Parameters
    ----------
    progress
        As for `Task`.

    Attributes
    ----------
    choice : widgets.Dropdown
    previous_button, next_button, more_button : widgets.Button

    Raises
    ------
    ValueError
        For a lesson without tasks, naming those that have some.
    """

    def __init__(self, lesson: int, progress: str | Path | Progress = FILE):
        self._progress = progress if hasattr(progress, "save") else progress_at(progress)
        card = Scorecard(lesson, self._progress)
        self._tasks, core = catalogue.of_lesson(lesson), catalogue.CORE[lesson]
        entries = self._progress.entries()
        begun = {key for key, entry in entries.items() if entry.tries or entry.hints}
        done = {key for key, entry in entries.items() if entry.solved or entry.shown}
        rest = [task.key for task in self._tasks if task.key not in core]
        listed = [task.key for task in self._tasks] if begun & set(rest) else list(core)
        self._panels = {}
        self.choice = widgets.Dropdown(
            options=self._named(listed),
            value=next((key for key in listed if key not in done), listed[0]),
            description="Task",
            style={"description_width": "60px"},
            layout=widgets.Layout(width="420px"),
        )
        self.choice.observe(lambda _: self._show_task(), "value")
        self.previous_button = button("Task before", "Goes to the task before this one", lambda: self._step(-1))
        self.next_button = button("Next task", "Goes to the task after this one", lambda: self._step(1))
        self.more_button = button(f"More questions ({len(rest)})", "Adds the other tasks of this lesson", self.show_all)
        self._place = widgets.VBox()
        self._steps = widgets.HBox([self.choice, self.previous_button, self.next_button, self.more_button])
        super().__init__([self._steps, self._place, card])
        self._show_task()

    @property
    def task(self) -> Task:
        """The task that is shown."""
        return self._panels[self.choice.value]

    def show_all(self) -> None:
        """Offer the lesson's other tasks too, and go to the first of them that is not done."""
        shown, done = len(self.choice.options), self._progress.entries()
        with self.choice.hold_trait_notifications():
            key = self.choice.value
            self.choice.options = self._named([task.key for task in self._tasks])
            self.choice.value = key
        fresh = [task.key for task in self._tasks[shown:]]
        self.choice.value = next((key for key in fresh if key not in done or not done[key].solved), key)
        self._show_task()

    def _named(self, keys):
        return [(f"{catalogue.number(key)} {catalogue.question(key).title}", key) for key in keys]

    def _step(self, by):
        self.choice.index += by

    def _show_task(self):
        key = self.choice.value
        if key not in self._panels:
            self._panels[key] = Task(key, self._progress)
        self._place.children = [self._panels[key]]
        self.previous_button.disabled = self.choice.index == 0
        self.next_button.disabled = self.choice.index == len(self.choice.options) - 1
        self.more_button.layout.display = "none" if len(self.choice.options) == len(self._tasks) else ""
