"""Panel: a picture that sliders change, with its readings, their explanations, a ghost and a prediction."""

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
from .markup import Html, HtmlMath
from .picture_panel import PicturePanel
from .prediction import Prediction

GLANCE = 0.04  # s: when the words follow the curves, which are on the screen by then
REST = 0.25  # s: when the ± of the readings follow


class Panel(PicturePanel):
    """A setting that sliders change, and what is seen of it.

    A panel that derives from it names its `lesson` and its `picture` (which has a `ghost` too), and says
    `make_sliders`; and, to have a prediction asked, `question`, `verdict` and `decisive`. Its views hold `readings`.

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
        The setting that the question is about.
    kept_view
        The view that is compared with, None for none.
    sliders : dict of str to widget
        By the path of what each changes.
    table, explanation : Html
        The readings; and how the one that is chosen in `reading_choice` comes about.
    prediction : Prediction or None
    buttons, slider_box : widgets.Box
    deferred : Deferred
    error_bars : dict of str to ErrorBar, or None
        The ± by the key of the reading; empty while it is worked out, None on panels that show none.
    """

    width = "680px"  # so wide that nothing scrolls sideways at 1280 pixels, scroll bars of 17 pixels counted
    decisive = ()  # the paths of sliders that have to be moved before the prediction is judged
    meter: PlugInMeter | None = None  # whose errors count in the ±; a usual one where none is named

    def __init__(self, setting: Any, ask: bool = True):
        super().__init__()
        self._busy, self._moved, self._judged = True, set(), False
        self.kept_view = self._ghost_drawn = self.error_bars = None
        self.deferred = Deferred()
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
        self.prediction = Prediction(*question, self._wake) if question else None
        self.children = self._rows()
        self.add_class("dropper-panel")
        self.start_from(setting)
        if self.prediction:
            self._disable(True)

    def _rows(self):
        by_hand = widgets.VBox([self.slider_box, self.buttons])
        left = widgets.VBox([by_hand, self.table], layout=widgets.Layout(width="416px"))
        right = [*self.picture_column(), self.save_box]
        columns = widgets.HBox([left, widgets.VBox(right, layout=widgets.Layout(width=self.width))])
        named = {"columns": columns, "by-hand": by_hand, "stack": self.picture_box, "read": self.table}
        for name, box in named.items():
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
        """What has come of the prediction: the key of the answer that holds, "" for none, and a sentence."""
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
        self.initial = self.setting = setting
        self._busy = True
        self.sliders = self.make_sliders(setting)
        for path, slider in self.sliders.items():
            slider.disabled = asleep
            slider.observe(lambda change, path=path: self.move(path, change.new), "value")
        self.slider_box.children = list(self.sliders.values())
        self.kept_view = None
        self._busy = False
        self.show(view)

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

    # what is shown

    def draw(self) -> None:
        reference = self.kept_view
        scale = self.picture.scales(*([self.view, reference] if reference else [self.view]))
        self.curves.value = self.picture.overlay(self.view, scale, self.words)
        if reference is None:
            self.ghost.value = ""
        elif (reference, scale) != self._ghost_drawn:
            self.ghost.value = self.picture.ghost(reference, scale)
        self._ghost_drawn = (reference, scale)

    def show(self, view: Any) -> None:
        super().show(view)
        if self.prediction and not self._judged and self.can_judge():
            self._judged = True
            self.prediction.judge(*self.verdict())

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
