"""Predict first: the question, the learner's answer noted, and only then the sliders."""

from collections.abc import Callable
from html import escape

import ipywidgets as widgets

from .sliders import button, words


class Prediction(widgets.VBox):
    """A question with a few answers to choose from; `then` is called once it is answered or skipped.

    `answer` holds the learner's choice, None until then or when skipped.
    """

    def __init__(self, question: str, answers: dict[str, str], then: Callable):
        self.answer = None
        self._then = then
        self._choice = widgets.RadioButtons(
            options=[(text, key) for key, text in answers.items()],
            value=None,
            description="I predict:",
            orientation="horizontal" if sum(map(len, answers.values())) < 70 else "vertical",
            style={"description_width": "auto"},
            layout=widgets.Layout(width="auto", margin="2px 16px 2px 2px"),
        )
        self._answers = answers
        self._note = button("Note my prediction", "Records your answer and wakes the sliders", self._noted)
        self._skip = button("Skip", "Wakes the sliders without a prediction", self._skipped)
        self._said = words()
        super().__init__(
            [
                words(question, "dropper-words question"),
                widgets.HBox([self._choice, self._note, self._skip]),
                self._said,
            ]
        )

    def _noted(self):
        if self._choice.value is None:
            self._said.value = '<div class="dropper-words">Choose an answer first, or skip.</div>'
            return
        self.answer = self._choice.value
        self._finish(f"You predicted: {self._answers[self.answer]}.")

    def _skipped(self):
        self._finish("No prediction made.")

    def _finish(self, text):
        for control in (self._choice, self._note, self._skip):
            control.disabled = True
        self._text = text
        self.tell("Read on; the panel is awake now. Change one thing at a time, and put it back before the next.")
        self._then()

    def leave(self, why: str) -> None:
        """Give the question up, for what is on the panel is no longer what it was about."""
        if not self._note.disabled:
            self._skipped()
        self.tell(why)

    def judge(self, right: str, found: str) -> None:
        """Say whether the prediction was right, and what was found.

        Parameters
        ----------
        right
            The key of the answer that holds; "" where none is called so.
        """
        judged = "" if not right or self.answer is None else "Right. " if self.answer == right else "Not so. "
        self.tell(judged + found)

    def tell(self, more: str) -> None:
        """Show what was predicted and what has been found since."""
        self._said.value = f'<div class="dropper-words"><b>{escape(self._text)}</b> {escape(more)}</div>'
