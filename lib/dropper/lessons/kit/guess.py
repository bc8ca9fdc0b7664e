"""Guess: a question in the middle of the text; once it is noted or skipped, the lamp's own answer is shown."""

from .css import STYLE
from .markup import Html
from .prediction import Prediction


class Guess(Prediction):
    """A question that stands by itself, without sliders.

    Parameters
    ----------
    answers
        What can be chosen, by key.
    outcome
        What the lamp does, shown once the guess is noted or skipped.
    right
        The key of the answer that is right; "" where none is called so.
    """

    def __init__(self, question: str, answers: dict[str, str], outcome: str, right: str = ""):
        super().__init__(question, answers, lambda: self.judge(right, outcome))
        self.note_button.tooltip = "Records your answer and tells what was found"
        self.skip_button.tooltip = "Tells what was found without a guess"
        self.children = (Html(STYLE), *self.children)
