"""A task on the page: the prompt with the learner's own values, an answer, hints, and what is said of it."""

from dataclasses import replace
from html import escape
from pathlib import Path

import ipywidgets as widgets

from ..results.explain import markdown_in_html
from . import catalogue
from .kit.css import STYLE
from .kit.deferred import Deferred
from .kit.sliders import button, words
from .tasks.progress import FILE, Progress, progress_at
from .tasks.question import Choice
from .tasks.reply import EXAMPLES, LONGEST
from .tasks.summary import after_try, summary

_STYLE = """<style>
.dropper-task { border-left: 4px solid var(--jp-border-color1, #999); padding-left: 12px; margin: 8px 0; }
.dropper-words.feedback { padding: 4px 10px; border-left: 4px solid var(--jp-border-color1, #999); }
.dropper-words.feedback.right { border-left: 4px double #009e73; }
.dropper-words.feedback.slip { border-left: 4px dashed #d55e00; }
</style>"""
_WIDE = "690px"
ARRIVES = 0.1  # s: after Enter, until what was typed last is here


class Task(widgets.VBox):
    """One of the workbook's tasks, with values of the learner's own.

    Enter in the field checks the answer, as the button does. Hints come one by one; the
    answer can be shown after a try or a hint, and then the task counts as shown.

    Parameters
    ----------
    key
        One of `dropper.lessons.QUESTIONS`.
    progress
        The progress file; `my_progress.json` beside the notebook if not given.

    Raises
    ------
    KeyError
        For a key that no task has, naming those there are.
    """

    def __init__(self, key: str, progress: str | Path | Progress = FILE):
        self.question = catalogue.question(key)
        self._progress = progress if hasattr(progress, "save") else progress_at(progress)
        self._later = Deferred()
        self._prompt, self._feedback, self._standing = widgets.HTML(), widgets.HTML(), widgets.HTML()
        self._hints, self._worked = widgets.HTMLMath(), widgets.HTMLMath()
        for text in (self._prompt, self._feedback, self._hints, self._worked):
            text.layout = widgets.Layout(max_width=_WIDE)
        self._check_button = button("Check", "Says whether it is right, and what may have gone wrong", self.check)
        self._hint_button = button("Hint", "Shows the next hint", self.hint)
        self._show_button = button("Show the answer", "Works it out; the task then counts as shown", self.show_answer)
        self._again_button = button("Other values", "Starts this task again with other values", self.again)
        self._entry = self._progress.entry(key)
        self._buttons = widgets.HBox([self._check_button, self._hint_button, self._show_button, self._again_button])
        self._place = widgets.Box()
        super().__init__(
            [
                widgets.HTML(STYLE + _STYLE),
                self._prompt,
                self._place,
                self._buttons,
                self._feedback,
                self._hints,
                self._worked,
                self._standing,
            ]
        )
        self.add_class("dropper-task")
        self._put()

    # what a learner does

    def check(self) -> None:
        """Judge what is in the field."""
        if self._over:
            self._say("This one is done: see below.")
            return
        verdict = self.instance.judge(self.field.value)
        if verdict.counts:
            self._note(after_try(self._entry, verdict.right))
        self._say(verdict.sentence, "right" if verdict.right else "slip" if verdict.slips else "")
        if verdict.right:
            self._work_out()
        self._update()

    def hint(self) -> None:
        """Show the next hint."""
        if not self._over and self._entry.hints < self.instance.hint_count:
            self._note(replace(self._entry, hints=self._entry.hints + 1))
            self._tell_hints()
            self._update()

    def show_answer(self) -> None:
        """Work the answer out, after a try or a hint."""
        if self._over or not (self._entry.tries or self._entry.hints):
            return
        self._note(replace(self._entry, shown=True))
        self._say("The answer is shown below. Take other values when you want to solve it yourself.")
        self._work_out()
        self._update()

    def again(self) -> None:
        """Take other values, once the answer was shown."""
        if self._entry.shown and not self._entry.solved:
            self._entry = self._progress.restart(self.question.key)
            self._put()

    # what is shown

    @property
    def _over(self):
        return self._entry.solved or self._entry.shown

    def _put(self):
        """Put the task on the page as its entry has it."""
        self.instance = self.question.ask(self._entry.seed)
        number, title = catalogue.number(self.question.key), escape(self.question.title)
        self._prompt.value = (
            f'<div class="dropper-words question">Task {number}: {title}</div>'
            f'<div class="dropper-words">{escape(self.instance.prompt)}</div>'
        )
        self.field = self._made()
        self._place.children = [self.field]
        self._worked.value = ""
        self._tell_hints()
        if self._over:
            self._say(*(("Solved.", "right") if self._entry.solved else ("The answer was shown.",)))
            self._work_out()
        else:
            self._feedback.value = ""
        self._update()

    def _made(self):
        if isinstance(self.question, Choice):
            return widgets.RadioButtons(
                options=[(text, key) for key, text in self.instance.options.items()],
                value=None,
                description="I choose:",
                style={"description_width": "auto"},
                layout=widgets.Layout(width="auto"),
            )
        unit = self.question.unit
        field = widgets.Text(
            description=f"Answer, in {unit}:" if unit else "Answer:",
            placeholder=f"such as {EXAMPLES[unit]}",
            continuous_update=False,
            style={"description_width": "auto"},
            layout=widgets.Layout(width="340px"),
        )
        field.on_msg(self._entered)
        return field

    def _entered(self, _, content, __):
        """Enter was pressed; what was typed last arrives a moment later."""
        if content.get("event") == "submit":
            self._later.soon("check", ARRIVES, self.check)

    def _note(self, entry):
        asked = self._entry.seed
        self._entry = self._progress.save(self.question.key, entry)
        if self._entry.seed != asked:  # begun again with other values on another page
            self._put()

    def _say(self, text, kind=""):
        sign = {"right": "✓ ", "slip": "✗ "}.get(kind, "")
        self._feedback.value = (
            f'<div class="dropper-words feedback {kind}" role="status">{sign}{escape(text[: 20 * LONGEST])}</div>'
        )

    def _tell_hints(self):
        if not self._entry.hints:
            self._hints.value = ""
            return
        seen = self.instance.hints[: self._entry.hints]
        listed = "".join(f"<li>{markdown_in_html(hint)}</li>" for hint in seen)
        self._hints.value = f'<div class="dropper-words" role="status">Hints:<ol>{listed}</ol></div>'

    def _work_out(self):
        worked = markdown_in_html(self.instance.solution())
        self._worked.value = f'<div class="dropper-words"><b>Worked out with your values</b>{worked}</div>'

    def _update(self):
        entry, left = self._entry, self.instance.hint_count - self._entry.hints
        self._hint_button.disabled = self._over or left <= 0
        self._hint_button.description = f"Hint ({left} left)" if left > 0 else "No more hints"
        self._show_button.disabled = self._over or not (entry.tries or entry.hints)
        self._again_button.layout.display = "" if entry.shown and not entry.solved else "none"
        told = [_counted(entry.tries, "try", "tries"), _counted(entry.hints, "hint", "hints")]
        state = "Solved" if entry.solved else "Shown" if entry.shown else "Open"
        line = f"{state}: {', '.join(told)}."
        if self._progress.trouble:
            line += f" {self._progress.trouble}"
        self._standing.value = f'<div class="dropper-words">{escape(line)}</div>'


class Scorecard(widgets.VBox):
    """How far the learner is with a lesson; it follows the tasks on the same page.

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
        self._tasks = catalogue.of_lesson(lesson)
        if not self._tasks:
            known = ", ".join(str(number) for number in catalogue.LESSONS)
            raise ValueError(f"lesson {lesson!r} has no tasks; those with tasks are {known}")
        self._lesson = lesson
        self._progress = progress if hasattr(progress, "save") else progress_at(progress)
        self._said = words()
        super().__init__([widgets.HTML(STYLE), self._said])
        self._progress.watch(self.update)
        self.update()

    def update(self) -> None:
        """Count again."""
        known = self._progress.entries()
        rows = "".join(
            f"<tr><th scope='row'>{catalogue.number(task.key)} {escape(task.title)}</th>"
            f"<td>{_state(known.get(task.key))}</td></tr>"
            for task in self._tasks
        )
        said = f"Lesson {self._lesson}: {summary(self._tasks, self._progress)}"
        trouble = f" {escape(self._progress.trouble)}" if self._progress.trouble else ""
        self._said.value = (
            f'<div class="dropper-words" role="status">{escape(said)}{trouble}</div>'
            f'<table class="dropper-table"><caption>Task by task</caption><tbody>{rows}</tbody></table>'
        )


def _state(entry):
    if entry is None or not (entry.tries or entry.hints):
        return "○ not begun"
    if entry.solved:
        return "✓ solved" + (f", {_counted(entry.hints, 'hint', 'hints')}" if entry.hints else "")
    return "– shown" if entry.shown else "◐ begun"


def _counted(number, one, many):
    return f"{number} {one if number == 1 else many}"
