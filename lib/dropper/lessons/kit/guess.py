"""Guess: a question in the middle of the text; once it is noted or skipped, the lamp's own answer is shown."""

from collections.abc import Mapping

from .css import STYLE
from .markup import Html
from .prediction import Prediction
from .record import record


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
    causes
        Why an answer that does not hold does not, by its key.
    key
        What the guess is called in the progress file; "" to keep nothing of it.

    Attributes
    ----------
    question, answers, outcome, right, causes
        As they were given.
    """

    def __init__(
        self,
        question: str,
        answers: Mapping[str, str],
        outcome: str,
        right: str = "",
        causes: Mapping[str, str] | None = None,
        key: str = "",
    ):
        self.question, self.answers, self.outcome, self.right = question, answers, outcome, right
        self.causes, self._key = causes or {}, key
        super().__init__(question, answers, self._judge, causes)
        self.skip_button.tooltip = "Tells what was found without a guess"
        self.children = (Html(STYLE), *self.children)

    def _judge(self):
        self.judge(self.right, self.outcome)
        record(self._key, self, self.right)
