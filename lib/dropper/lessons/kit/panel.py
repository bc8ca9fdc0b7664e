"""Panel: a picture that sliders change, with its readings, their explanations, a ghost and a prediction."""

from collections.abc import Mapping
from contextlib import suppress
from typing import Any

import ipywidgets as widgets

from ...bench.meter import PlugInMeter
from ...circuit.html import Markup, joined
from ...circuit.lamp import Lamp, replace_at, value_at
from ...design.uncertainty import error_budget
from ...results import explain
from ...results.reading import Reading
from . import readout, sliders
from .css import STYLE
from .deferred import Deferred
from .goals import Goal, GoalList
from .markup import Html, HtmlMath
from .observation import Observation
from .picture_panel import PicturePanel
from .prediction import Prediction
from .record import key_of, record
from .room import drawing_in

GLANCE = 0.04  # s: when the words follow the curves, which are on the screen by then
REST = 0.25  # s: when the ± of the readings follow


class Panel(PicturePanel):
    """A setting that sliders change, and what is seen of it.

    A panel that derives from it names its `lesson` and its `picture` (which has a `ghost` too), and says
    `make_sliders`; and, to have a prediction asked, `question`, `verdict` and `decisive`, with `causes` and what is
    `observed`; and what to try in `goals`. Its views hold `readings`.

    Parameters
    ----------
    setting : Lamp or another frozen dataclass
        What to start from and to come back to.
    ask
        Ask for a prediction before the sliders wake.

    Attributes
    ----------
    initial
        The setting that `reset` comes back to.
    question_setting
        The setting that the question is about: that of the lamp which is on the panel.
    first_view
        The view of it.
    kept_view
        The view that is compared with, None for none.
    sliders : dict of str to widget
        By the path of what each changes.
    table, explanation : Html
        The readings; and how the one that is chosen in `reading_choice` comes about.
    prediction : Prediction or None
    goal_list : GoalList
    buttons, slider_box : widgets.Box
    deferred : Deferred
    error_bars : dict of str to ErrorBar, or None
        The ± by the key of the reading; empty while it is worked out, None on panels that show none.
    """

    decisive = ()  # the paths of sliders that have to be moved before the prediction is judged
    causes: Mapping[str, str] = {}  # why an answer that does not hold does not, by its key
    observed = ""  # the key of the reading whose change is to be seen before the verdict; "" for none
    goals: tuple[Goal, ...] = ()  # what to try
    question_key = ""  # what the question is called in the progress file; "" for the class's name
    _keeps_question = False  # whether another setting is still the one that the question is about
    meter: PlugInMeter | None = None  # whose errors count in the ±; a usual one where none is named

    def __init__(self, setting: Any, ask: bool = True):
        super().__init__()
        self._busy, self._moved, self._judged = True, set(), False
        self.kept_view = self.first_view = self._ghost_drawn = self.error_bars = None
        self.deferred = Deferred()
        self.goal_list = GoalList(self.goals, lambda: self.deferred.waits)
        self.sliders = {}
        self.slider_box, self.table, self.explanation = widgets.VBox(), Html(), HtmlMath()
        self.explanation.add_class("dropper-explained")
        self.reading_choice = widgets.Dropdown(
            description="Why this number?", style={"description_width": "150px"}, layout=widgets.Layout(width="420px")
        )
        self.reading_choice.observe(lambda _: self._explain(), "value")
        self.buttons = widgets.HBox(
            [
                sliders.button("Keep this one", "Keeps these curves as a grey ghost to compare with", self.keep),
                sliders.button("Forget it", "Takes the ghost away", self.forget),
                sliders.button("Reset", "Puts every slider back to where it was", self.reset),
            ]
        )
        self.initial = self.setting = self.question_setting = setting
        question = self.question() if ask else None
        self.prediction = Prediction(*question, self._wake, self.causes, self.name()) if question else None
        self.children = self._rows()
        self.add_class("dropper-panel")
        self.start_from(setting)
        if self.prediction:
            self._disable(True)

    def _rows(self):
        by_hand = widgets.VBox([self.slider_box, self.buttons])
        goals = [self.goal_list] if self.goals else []
        seen = self.picture_column()
        place = seen.index(self.picture_box)
        before, after = widgets.VBox(seen[:place]), widgets.VBox([*seen[place + 1 :], *goals, self.save_box])
        left, right = widgets.VBox([by_hand, self.table]), widgets.VBox([before, self.picture_box, after])
        columns = widgets.Box([left, right])
        named = {"columns": columns, "left": left, "right": right, "by-hand": by_hand, "read": self.table}
        for name, box in (named | {"before": before, "after": after}).items():
            box.add_class(f"dropper-{name}")
        rows = [Html(STYLE), *self.header(), self.complaint, self.progress]
        rows += [self.prediction] if self.prediction else []
        return [*rows, *self.asides(), columns, self.reading_choice, self.explanation]

    # what a panel says of itself

    def make_sliders(self, setting: Any) -> dict[str, widgets.Widget]:
        """Sliders that stand where the setting has them, by the path of what each changes."""
        raise NotImplementedError

    def controls(self) -> list[widgets.Widget]:
        return list(self.sliders.values())

    def changed(self, path: str, value: Any) -> Any:
        """The setting with what a slider stands for put in; ValueError where it cannot be."""
        return replace_at(self.setting, path, sliders.in_lamp(path, value))

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

    def header(self) -> list[widgets.Widget]:
        """Widgets above the question."""
        return []

    def asides(self) -> list[widgets.Widget]:
        """Widgets between the question and the sliders."""
        return []

    def picture_column(self) -> list[widgets.Widget]:
        """Widgets of the right-hand side: the picture and its sentence."""
        return [self.picture_box, self.sentence]

    def readings_table(self) -> Markup:
        """The numbers beside the picture."""
        return readout.plain(self.view.readings, self.kept_view.readings if self.kept_view else None, self.error_bars)

    def lamp_of_readings(self) -> Lamp | None:
        """The lamp whose steady state the view's readings are, where their ± is to stand beside them."""

    def details(self) -> Markup:
        """What stands below the sentence."""
        return Markup()

    def explain(self, reading: Reading) -> Markup:
        """How a reading comes about."""
        return explain.in_html(reading)

    # what a learner does

    def start_from(self, setting: Any) -> None:
        """Put another setting on the panel; sliders and ghost start from it."""
        view = self.view_of(setting)  # a ValueError leaves everything as it was
        asleep = bool(self.slider_box.children) and self.slider_box.children[0].disabled
        another = self.first_view is None or setting != self.question_setting
        self.initial = self.setting = setting
        self._busy = True
        self.sliders = self.make_sliders(setting)
        for path, slider in self.sliders.items():
            slider.disabled = asleep
            slider.observe(lambda change, path=path: self.move(path, change.new), "value")
        self.slider_box.children = list(self.sliders.values())
        self.kept_view = None
        self._busy = False
        self.room.let_go()
        if another and not self._keeps_question:
            self._ask_about(setting, view)
        self.show(view)

    def _ask_about(self, setting, view):
        """Have the question and the goals be about a setting that was put on the panel."""
        self.question_setting, self.first_view = setting, view
        self._moved.clear()
        self._judged = False
        self.goal_list.clear()
        question = self.question() if self.prediction else None
        if question:
            self.prediction.ask(*question, self.name())
            if self.prediction.answered:
                self._say_what_to_move()

    def keep(self) -> None:
        """Keep the present curves as a ghost and compare with them from now on."""
        self.kept_view = self.view
        self.refresh()

    def forget(self) -> None:
        """Take the ghost away."""
        self.kept_view = None
        self.refresh()

    def reset(self) -> None:
        """Put every slider back to where it was."""
        self._set_sliders(self.initial)
        self.refresh()

    def move(self, path: str, value: Any) -> None:
        if not self._busy:
            super().move(path, value)

    def accept(self, path: str, setting: Any) -> None:
        self._moved.add(path)
        super().accept(path, setting)

    def _set_sliders(self, setting):
        """Take a setting over and let the sliders follow, without a move."""
        self._busy = True
        for path, slider in self.sliders.items():
            slider.value = sliders.on_slider(path, value_at(setting, path))
        self._busy = False
        self.setting = setting

    def _disable(self, asleep):
        for control in (*self.sliders.values(), *self.buttons.children):
            control.disabled = asleep

    def _wake(self):
        self._disable(False)
        self._say_what_to_move()
        record(self.question_key or key_of(type(self)), self.prediction)

    def _say_what_to_move(self):
        names = [self.sliders[path].description for path in self.decisive if path in self.sliders]
        self.prediction.tell(f"Now see for yourself. To move: {', '.join(names)}." if names else "")

    # what is shown

    def compared(self) -> list[Any]:
        return [self.view, self.kept_view] if self.kept_view else [self.view]

    def draw(self) -> None:
        super().draw()
        reference = self.kept_view
        drawn = reference, self.scale(), self.room.width, self.room.first
        if reference is None:
            self.ghost.value = ""
        elif drawn != self._ghost_drawn:
            with drawing_in(self.room):
                self.ghost.value = self.picture.ghost(reference, drawn[1])
        self._ghost_drawn = drawn

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

    def _judge(self, seen=""):
        self._judged = True
        right, outcome = self._verdict_as_moved()
        self.prediction.judge(right, outcome, seen)
        record(self.question_key or key_of(type(self)), self.prediction, right)

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

    def write(self) -> None:
        """Have the words follow the curves, and the ± follow the words."""
        self.error_bars = None if self.lamp_of_readings() is None else {}
        self.deferred.call_later("words", GLANCE, self.write_now)
        if self.error_bars is not None:
            self.deferred.call_later("error bars", REST, self.write_error_bars)

    def write_error_bars(self) -> None:
        """Put the ± beside the readings; none where a part's tolerance leads to no lamp."""
        try:
            self.error_bars = error_budget(self.lamp_of_readings(), self.meter).bars
        except (ValueError, ArithmeticError):
            return
        self.table.value = self.readings_table()

    def write_now(self) -> None:
        """Write the readings, the sentence, and the explanation that is asked for."""
        self.table.value = self.readings_table()
        self.sentence.value = joined(self.sentence_html(), self.details())
        self.goal_list.check(self.view, self.first_view, self.kept_view)
        self._offer(self.view.readings)
        if self.reading_choice.value:
            self._explain()

    def _offer(self, readings):
        """The readings that can be asked about; the choice stays where it still stands."""
        choices = (("nothing yet", ""), *((reading.name, reading.key) for reading in readings))
        if self.reading_choice.options != choices:
            key = self.reading_choice.value
            self.reading_choice.options = choices
            self.reading_choice.value = key if key in dict(choices).values() else ""

    def _explain(self):
        key = self.reading_choice.value
        reading = next((reading for reading in self.view.readings if reading.key == key), None)
        self.explanation.value = self.explain(reading) if reading else ""
