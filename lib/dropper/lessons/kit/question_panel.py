"""Question panel: a picture panel that asks for a prediction, has the learner say what was seen, and judges it."""

from collections.abc import Mapping
from contextlib import suppress
from typing import Any

from ...circuit.lamp import replace_at, value_at
from .deferred import Deferred
from .goals import Goal, GoalList
from .observation import Observation
from .picture_panel import PicturePanel
from .prediction import Prediction
from .record import key_of, record

GLANCE = 0.04  # s: when the words follow the curves, which are on the screen by then


class QuestionPanel(PicturePanel):
    """A panel with a question, to be answered before anything moves, and goals to try for afterwards.

    A panel that derives from it says its `question`, its `verdict` and what is `decisive`, with `causes` and what is
    `observed`; and its `goals`. It begins with `begin`.

    Parameters
    ----------
    setting : Lamp or another frozen dataclass
        What the question is about at first.

    Attributes
    ----------
    initial
        The setting that a reset comes back to.
    question_setting
        The setting that the question is about: that of the lamp which is on the panel.
    first_view
        The view of it.
    kept_view
        The view that is compared with, None for none.
    sliders : dict of str to widget
        By the path of what each changes.
    prediction : Prediction or None
    goal_list : GoalList
    deferred : Deferred
    """

    decisive = ()  # the paths of sliders that have to be moved before the prediction is judged
    causes: Mapping[str, str] = {}  # why an answer that does not hold does not, by its key
    observed = ""  # the key of the reading whose change is to be seen before the verdict; "" for none
    goals: tuple[Goal, ...] = ()  # what to try
    question_key = ""  # what the question is called in the progress file; "" for the class's name
    _keeps_question = False  # whether another setting is still the one that the question is about

    def __init__(self, setting: Any):
        super().__init__()
        self.initial = self.setting = self.question_setting = setting
        self.kept_view = self.first_view = self.prediction = None
        self.sliders, self._moved, self._judged = {}, set(), False
        self.deferred = Deferred()
        self.goal_list = GoalList(self.goals, lambda: self.deferred.waits)

    def ask(self) -> None:
        """Have the question asked, where there is one."""
        question = self.question()
        if question:
            self.prediction = Prediction(*question, self._go_on, self.causes, self.name())

    def question(self) -> tuple[str, dict[str, str]] | None:
        """The question and its answers by key, or None."""

    def verdict(self) -> tuple[str, str]:
        """What has come of the prediction: the key of the answer that holds, "" for none, and a sentence.

        It is asked with `question_setting` as the sliders have it, all but those that are `decisive`.
        """
        raise NotImplementedError

    def can_judge(self) -> bool:
        """Whether a learner has moved what the question is about, so that the prediction can be judged."""
        return bool(self.decisive) and set(self.decisive) <= self._moved

    def wake(self) -> None:
        """Let the learner move things: the question is answered or skipped."""
        raise NotImplementedError

    def accept(self, path: str, setting: Any) -> None:
        self._moved.add(path)
        super().accept(path, setting)

    def is_another(self, setting: Any) -> bool:
        """Whether the question is not about this setting as yet."""
        return not self._keeps_question and (self.first_view is None or setting != self.question_setting)

    def ask_about(self, setting: Any, view: Any) -> None:
        """Have the question and the goals be about a setting that was put on the panel, and its view.

        An answer that is there is kept as one about it.
        """
        self.question_setting, self.first_view = setting, view
        self._moved.clear()
        self._judged = False
        self.goal_list.clear()
        question = self.question() if self.prediction else None
        if question:
            self.prediction.ask(*question, self.name())
            if self.prediction.answered:
                self._say_what_to_move()

    def _go_on(self):
        self.wake()
        self._say_what_to_move()
        self._record()

    def _record(self, right=None):
        record(self.question_key or key_of(type(self)), self.prediction, right)

    def _say_what_to_move(self):
        names = [self.sliders[path].description for path in self.decisive if path in self.sliders]
        self.prediction.tell(f"Now see for yourself. To move: {', '.join(names)}." if names else "")

    def show(self, view: Any) -> None:
        super().show(view)
        if self.prediction and not self._judged:
            self.deferred.call_later("verdict", GLANCE, self._look_at_prediction)

    def _look_at_prediction(self):
        """Once the learner has moved what the question is about: ask what was seen, or say what has come of it."""
        if self._judged:
            return
        if not (self.prediction.answered and self.can_judge()):
            self.prediction.drop_seen()
            return
        seen = self.observation()
        if seen is None or self.prediction.answer is None:
            self._judge()
        else:
            self.prediction.ask_seen(seen.question, self.note_seen)

    def observation(self) -> Observation | None:
        """What the sliders that are `decisive` have done to the reading that is observed, or None."""
        if not self.observed:
            return None
        before, first = self._as_moved(), self.first_view
        if before != self.question_setting:
            with suppress(ValueError, ArithmeticError):
                first = self.view_of(before)
        return Observation.of(self.observed, first.readings, self.view.readings)

    def note_seen(self, key: str) -> None:
        """Say what was seen of the reading that is observed; the verdict follows.

        Parameters
        ----------
        key
            "up", "same" or "down".
        """
        if not self._judged:
            seen = self.observation()
            self._judge(seen.answer(key) if seen else "")

    def withdraw(self, why: str) -> None:
        """Give the question up, where there is one; nothing is judged any more."""
        if self.prediction:
            self._judged = True
            self.prediction.withdraw(why)

    def _judge(self, seen=""):
        self._judged = True
        right, outcome = self._verdict_as_moved()
        self.prediction.judge(right, outcome, seen)
        self._record(right)

    def _verdict_as_moved(self):
        """The verdict on the lamp as the sliders have it; of the lamp as it came, where another answer would hold."""
        first = self.question_setting
        right, outcome = self.verdict()
        try:
            self.question_setting = self._as_moved()
            now, words = self.verdict()
        except (ValueError, ArithmeticError):
            now, words = None, ""
        finally:
            self.question_setting = first
        return (now, words) if now == right else (right, outcome)

    def _as_moved(self):
        """The setting as the sliders have it, with those that are decisive back where the question has them.

        The question's own, where that cannot be.
        """
        setting = self.setting
        try:
            for path in self.decisive:
                setting = replace_at(setting, path, value_at(self.question_setting, path))
        except (ValueError, ArithmeticError):
            return self.question_setting
        return setting
