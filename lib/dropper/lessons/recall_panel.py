"""Recall panel: five questions from earlier lessons, one at a time, before today's; one line until they are wanted."""

from pathlib import Path

import ipywidgets as widgets

from ..circuit.html import from_markdown, joined, tag
from .answer_field import answer_field
from .kit.css import STYLE
from .kit.deferred import Deferred
from .kit.markup import Html, HtmlMath
from .kit.sliders import button, words
from .recall import questions_before
from .task_panel import TASK_STYLE, WIDE, feedback
from .tasks.progress import FILE, Progress, progress_at

_COUNTS = ("No questions", "One question", "Two questions", "Three questions", "Four questions", "Five questions")
_MINUTES = (0, 1, 1, 2, 2, 3)


class Recall(widgets.VBox):
    """Questions from before a lesson, with new numbers each time.

    Each is judged once and explained at once. What was wrong comes back before a later lesson.

    Parameters
    ----------
    lesson
        The lesson that begins, from 2 to 14.
    progress
        As for `Task`.

    Attributes
    ----------
    questions : list of PastQuestion
    instance
        The task that is asked, with its values; None until one is.
    field : widgets.Text or widgets.RadioButtons
        For the answer to it.
    line, prompt, said, solution : Html or HtmlMath
    begin_button, later_button, judge_button, next_button, skip_button : widgets.Button

    Raises
    ------
    ValueError
        For a lesson that has no questions from before.
    """

    def __init__(self, lesson: int, progress: str | Path | Progress = FILE):
        self._progress = progress if hasattr(progress, "save") else progress_at(progress)
        self.questions = questions_before(lesson, self._progress)
        self._right, self._place, self._answered = 0, -1, False
        self.deferred = Deferred()
        self.instance = self.field = None
        count = len(self.questions)
        self._title = f"{_COUNTS[count]} from before ({_minutes(_MINUTES[count])})"
        self.line, self.prompt, self.said, self.solution = words(), Html(), Html(), HtmlMath()
        for text in (self.prompt, self.said, self.solution):
            text.layout = widgets.Layout(max_width=WIDE)
        self.begin_button = button("Begin", "Asks the first question", self.begin)
        self.later_button = button("Not today", "Leaves the questions for another time", self.skip)
        self.judge_button = button("Judge my answer", "Says whether it is right, and explains it", self.judge)
        self.next_button = button("Next question", "Goes on", self.go_on)
        self.skip_button = button("Skip the rest", "Goes on to today's lesson at once", self.skip)
        super().__init__()
        self.add_class("dropper-recall")
        self._fold(self._title, self.begin_button, self.later_button)

    def begin(self) -> None:
        """Ask the first question."""
        self._right, self._place = 0, -1
        self.go_on()

    def go_on(self) -> None:
        """Ask the next question, or sum up after the last one."""
        self._place += 1
        if self._place >= len(self.questions):
            self._sum_up()
            return
        self._answered = False
        question = self.questions[self._place]
        self.instance = question.instance()
        self.field = answer_field(self.instance, self.judge, self.deferred)
        head = f"{self._place + 1} of {len(self.questions)} from before · lesson {self.instance.question.lesson}"
        self.prompt.value = joined(
            tag("div", head, css="dropper-words"),
            tag("div", self.instance.prompt, css="dropper-words question", role="status"),
        )
        self.said.value = self.solution.value = ""
        self._show_buttons(self.judge_button, self.skip_button)

    def judge(self) -> None:
        """Judge the answer, keep how it was, and explain it."""
        if self.instance is None or self._answered:
            return
        verdict = self.instance.judge(self.field.value)
        kind = "right" if verdict.right else "slip" if verdict.counts else ""
        self.said.value = feedback(verdict.sentence, kind)
        if not verdict.counts:
            return
        self._answered = True
        self._right += verdict.right
        self.field.disabled = True
        self._progress.note_recall(self.instance.question.key, verdict.right)
        solution = from_markdown(self.instance.solution())
        self.solution.value = tag("div", tag("b", "Worked out with these numbers"), solution, css="dropper-words")
        last = self._place == len(self.questions) - 1
        self.next_button.description = "To today's lesson" if last else "Next question"
        self._show_buttons(self.next_button, *([] if last else [self.skip_button]))

    def skip(self) -> None:
        """Go on to today's lesson at once."""
        if self._place < 0:
            self._fold(f"{self._title}: not today.", self.begin_button)
        else:
            self._sum_up()

    def _sum_up(self):
        asked = self._place + self._answered if self._place < len(self.questions) else self._place
        line = f"Questions from before: {self._right} of {asked} right." if asked else "Questions from before: skipped."
        if self._right < asked:
            line += " What was wrong comes back before a later lesson."
        if self._progress.trouble:
            line += f" {self._progress.trouble}"
        self._fold(line)

    def _fold(self, line, *buttons):
        """Be one line, with what may be pressed in it."""
        self.line.value = tag("div", line, css="dropper-words", role="status")
        self.children = [Html(joined(STYLE, TASK_STYLE)), widgets.HBox([self.line, *buttons])]

    def _show_buttons(self, *buttons):
        style = self.children[0]
        self.children = [style, self.prompt, self.field, self.said, self.solution, widgets.HBox(buttons)]


def _minutes(number):
    return f"{number} minute" if number == 1 else f"{number} minutes"
