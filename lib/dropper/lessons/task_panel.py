"""Task panel: a task on the page: the prompt with the learner's own values, an answer, hints, and its judgement."""

from dataclasses import replace
from pathlib import Path

import ipywidgets as widgets

from ..circuit.html import Markup, from_markdown, items, joined, tag
from . import catalogue
from .answer_field import answer_field
from .kit.css import STYLE
from .kit.deferred import Deferred
from .kit.markup import Html, HtmlMath
from .kit.sliders import button
from .scorecard_panel import counted
from .tasks.progress import FILE, Progress, progress_at
from .tasks.reply import LONGEST
from .tasks.summary import after_try

TASK_STYLE = Markup("""<style>
.dropper-task { border-left: 4px solid var(--jp-border-color1, #999); padding-left: 12px; margin: 8px 0; }
.dropper-words.feedback { padding: 4px 10px; border-left: 4px solid var(--jp-border-color1, #999); }
.dropper-words.feedback.right { border-left: 4px double #009e73; }
.dropper-words.feedback.slip { border-left: 4px dashed #d55e00; }
</style>""")
WIDE = "690px"


class Task(widgets.VBox):
    """One of the workbook's tasks, with values of the learner's own.

    Enter in the field judges the answer, as the button does. Steps of the way come one by one; all of it
    can be shown after a try or a step, and then the task counts as shown.

    Parameters
    ----------
    key
        One of `dropper.lessons.QUESTIONS`.
    progress
        The progress file; `my_progress.json` beside the notebook if not given.

    Attributes
    ----------
    question, instance
        The task, and the task with the learner's values.
    entry : Entry
        What is noted of it in the progress file.
    field : widgets.Text or widgets.RadioButtons
        For the answer.
    prompt, feedback, hints, solution, status : Html or HtmlMath
    judge_button, step_button, show_button, again_button : widgets.Button
    buttons : widgets.HBox
        All of them.

    Raises
    ------
    KeyError
        For a key that no task has, naming those there are.
    """

    def __init__(self, key: str, progress: str | Path | Progress = FILE):
        self.question = catalogue.question(key)
        self._progress = progress if hasattr(progress, "save") else progress_at(progress)
        self.deferred = Deferred()
        self.prompt, self.feedback, self.status = Html(), Html(), Html()
        self.hints, self.solution = HtmlMath(), HtmlMath()
        for text in (self.prompt, self.feedback, self.hints, self.solution):
            text.layout = widgets.Layout(max_width=WIDE)
        self.judge_button = button("Judge my answer", "Says whether it is right, and what may be wrong", self.judge)
        self.step_button = button("One step on", "Shows one step more of the way", self.step_on)
        self.show_button = button("Work it out for me", "The task then counts as shown", self.show_answer)
        self.again_button = button("Other numbers", "Starts this task again with other numbers", self.again)
        self.entry = self._progress.entry(key)
        self.buttons = widgets.HBox([self.judge_button, self.step_button, self.show_button, self.again_button])
        self._place = widgets.Box()
        super().__init__(
            [
                Html(joined(STYLE, TASK_STYLE)),
                self.prompt,
                self._place,
                self.buttons,
                self.feedback,
                self.hints,
                self.solution,
                self.status,
            ]
        )
        self.add_class("dropper-task")
        self._show_task()

    # what a learner does

    def judge(self) -> None:
        """Judge what is in the field."""
        if self._over:
            self._say("This one is done: see below.")
            return
        verdict = self.instance.judge(self.field.value)
        if verdict.counts:
            self._save(after_try(self.entry, verdict.right))
        self._say(verdict.sentence, "right" if verdict.right else "slip" if verdict.slips else "")
        if verdict.right:
            self._write_solution()
        self._update()

    def step_on(self) -> None:
        """Show one step more of the way."""
        if not self._over and self.entry.hints < self.instance.hint_count:
            self._save(replace(self.entry, hints=self.entry.hints + 1))
            self._write_hints()
            self._update()

    def show_answer(self) -> None:
        """Work the answer out, after a try or a step."""
        if self._over or not (self.entry.tries or self.entry.hints):
            return
        self._save(replace(self.entry, shown=True))
        self._say("The answer is shown below. Take other numbers when you want to solve it yourself.")
        self._write_solution()
        self._update()

    def again(self) -> None:
        """Take other numbers, once the answer was shown."""
        if self.entry.shown and not self.entry.solved:
            self.entry = self._progress.restart(self.question.key)
            self._show_task()

    # what is shown

    @property
    def _over(self):
        return self.entry.solved or self.entry.shown

    def _show_task(self):
        """Put the task on the page as its entry has it."""
        self.instance = self.question.ask(self.entry.seed)
        title = f"Task {catalogue.number(self.question.key)}: {self.question.title}"
        self.prompt.value = joined(
            tag("div", title, css="dropper-words question"), tag("div", self.instance.prompt, css="dropper-words")
        )
        self.field = answer_field(self.instance, self.judge, self.deferred)
        self._place.children = [self.field]
        self.solution.value = ""
        self._write_hints()
        if self._over:
            self._say(*(("Solved.", "right") if self.entry.solved else ("The answer was shown.",)))
            self._write_solution()
        else:
            self.feedback.value = ""
        self._update()

    def _save(self, entry):
        seed = self.entry.seed
        self.entry = self._progress.save(self.question.key, entry)
        if self.entry.seed != seed:  # begun again with other values on another page
            self._show_task()

    def _say(self, text, kind=""):
        self.feedback.value = feedback(text, kind)

    def _write_hints(self):
        if not self.entry.hints:
            self.hints.value = ""
            return
        hints = tag("ol", items(map(from_markdown, self.instance.hints[: self.entry.hints])))
        self.hints.value = tag("div", "The way, step by step:", hints, css="dropper-words", role="status")

    def _write_solution(self):
        solution = from_markdown(self.instance.solution())
        self.solution.value = tag("div", tag("b", "Worked out with your values"), solution, css="dropper-words")

    def _update(self):
        entry, left = self.entry, self.instance.hint_count - self.entry.hints
        self.step_button.disabled = self._over or left <= 0
        self.step_button.description = f"One step on ({left} left)" if left > 0 else "No more steps"
        self.show_button.disabled = self._over or not (entry.tries or entry.hints)
        self.again_button.layout.display = "" if entry.shown and not entry.solved else "none"
        counts = [counted(entry.tries, "try", "tries"), counted(entry.hints, "step", "steps") + " shown"]
        state = "Solved" if entry.solved else "Shown" if entry.shown else "Open"
        line = f"{state}: {', '.join(counts)}."
        if self._progress.trouble:
            line += f" {self._progress.trouble}"
        self.status.value = tag("div", line, css="dropper-words")


def feedback(text: str, kind: str = "") -> Markup:
    """What is said of an answer.

    Parameters
    ----------
    kind
        "right", "slip", or empty for neither.
    """
    sign = {"right": "✓ ", "slip": "✗ "}.get(kind, "")
    return tag("div", sign, text[: 20 * LONGEST], css=f"dropper-words feedback {kind}".rstrip(), role="status")
