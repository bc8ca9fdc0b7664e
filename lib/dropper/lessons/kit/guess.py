"""A guess in the middle of the text: once it is noted or skipped, what was found is told."""

import ipywidgets as widgets

from .css import STYLE
from .prediction import Prediction


class Guess(Prediction):
    """A question that stands by itself, without sliders.

    Parameters
    ----------
    answers
        What can be chosen, by key.
    found
        What the lamp does, told once the guess is noted or skipped.
    right
        The key of the answer that is right; "" where none is called so.
    """

    def __init__(self, question: str, answers: dict[str, str], found: str, right: str = ""):
        super().__init__(question, answers, lambda: self.judge(right, found))
        self._note.tooltip = "Records your answer and tells what was found"
        self._skip.tooltip = "Tells what was found without a guess"
        self.children = (widgets.HTML(STYLE), *self.children)
