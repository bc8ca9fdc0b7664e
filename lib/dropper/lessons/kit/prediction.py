"""Prediction: a question is answered before the sliders move."""

from collections.abc import Callable

import ipywidgets as widgets

from ...circuit.html import tag
from .sliders import button, words


class Prediction(widgets.VBox):
    """A question with a few answers to choose from.

    Parameters
    ----------
    answers
        What can be chosen, by key.
    then
        Called once it is answered or skipped.

    Attributes
    ----------
    answer : str or None
        The key of the learner's choice; None until then, or when skipped.
    choice : widgets.RadioButtons
    note_button, skip_button : widgets.Button
    reply : Html
        What was predicted, and what has come of it.
    """

    def __init__(self, question: str, answers: dict[str, str], then: Callable[[], None]):
        self.answer = None
        self._then = then
        self.choice = widgets.RadioButtons(
            options=[(text, key) for key, text in answers.items()],
            value=None,
            description="I predict:",
            orientation="horizontal" if sum(map(len, answers.values())) < 70 else "vertical",
            style={"description_width": "auto"},
            layout=widgets.Layout(width="auto", margin="2px 16px 2px 2px"),
        )
        self._answers = answers
        self.note_button = button("Note my prediction", "Records your answer and wakes the sliders", self.note)
        self.skip_button = button("Skip", "Wakes the sliders without a prediction", self.skip)
        self.reply = words()
        super().__init__(
            [
                words(question, "dropper-words question"),
                widgets.HBox([self.choice, self.note_button, self.skip_button]),
                self.reply,
            ]
        )

    def note(self) -> None:
        """Note the answer that is chosen."""
        if self.choice.value is None:
            self.reply.value = tag("div", "Choose an answer first, or skip.", css="dropper-words", role="status")
            return
        self.answer = self.choice.value
        self._finish(f"You predicted: {self._answers[self.answer]}.")

    def skip(self) -> None:
        """Go on without an answer."""
        self._finish("No prediction made.")

    def _finish(self, text):
        for control in (self.choice, self.note_button, self.skip_button):
            control.disabled = True
        self._prediction = text
        self.tell("Read on; the panel is awake now. Change one thing at a time, and put it back before the next.")
        self._then()

    def withdraw(self, why: str) -> None:
        """Give the question up, for what is on the panel is no longer what it was about."""
        if not self.note_button.disabled:
            self.skip()
        self.tell(why)

    def judge(self, right: str, outcome: str) -> None:
        """Say whether the prediction was right, and what the lamp does.

        Parameters
        ----------
        right
            The key of the answer that holds; "" where none is called so.
        """
        judged = "" if not right or self.answer is None else "Right. " if self.answer == right else "Not so. "
        self.tell(judged + outcome)

    def tell(self, more: str) -> None:
        """Show what was predicted, and what has come of it."""
        self.reply.value = tag("div", tag("b", self._prediction), f" {more}", css="dropper-words", role="status")
