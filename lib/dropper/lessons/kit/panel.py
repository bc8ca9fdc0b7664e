"""Panel: a picture that sliders change, with its readings, their explanations, a ghost and a prediction."""

from typing import Any

import ipywidgets as widgets

from ...bench.meter import PlugInMeter
from ...circuit.html import Markup, joined, tag
from ...circuit.lamp import Lamp, replace_at, value_at
from ...circuit.values import unbroken
from ...design.uncertainty import error_budget
from ...results import explain
from ...results.reading import Reading
from . import readout, sliders
from .css import STYLE
from .markup import Html, HtmlMath
from .question_panel import GLANCE, QuestionPanel
from .room import drawing_in
from .voice import MoveVoice
from .why_field import why_field

REST = 0.25  # s: when the ± of the readings follow
_STRING = "string_current_mean"
_WAITS = "The curves and the readings come once you have answered, or skipped."


class Panel(QuestionPanel):
    """A setting that sliders change, and what is seen of it.

    A panel that derives from it names its `lesson` and its `picture` (which has a `ghost` too), and says
    `make_sliders`; and, to have a prediction asked, what `QuestionPanel` asks for. Its views hold `readings`.

    Parameters
    ----------
    setting : Lamp or another frozen dataclass
        What to start from and to come back to.
    ask
        Ask for a prediction before the sliders wake.

    Attributes
    ----------
    table, explanation : HtmlMath
        The readings; and how one comes about that has no row among them.
    explained : str
        The key of the reading whose derivation is open; "" for none.
    derivations : dict of str to Markup
        That derivation, by that key.
    why_field : widgets.Text
        Where the page's script writes it.
    spoken : Html
        What is said and stands nowhere else.
    buttons, slider_box : widgets.Box
    error_bars : dict of str to ErrorBar, or None
        The ± by the key of the reading; empty while it is worked out, None on panels that show none.
    """

    covered = False  # whether curves and readings would answer the question, and wait until it is answered
    main_reading = ""  # the key of what the voice names at each move; "" for what is observed, or the string current
    meter: PlugInMeter | None = None  # whose errors count in the ±; a usual one where none is named

    def __init__(self, setting: Any, ask: bool = True):
        super().__init__(setting)
        self._busy = True
        self._ghost_drawn = self.error_bars = None
        self._voice = MoveVoice(self.deferred)
        self.slider_box, self.table, self.explanation, self.spoken = widgets.VBox(), HtmlMath(), HtmlMath(), Html()
        self.explanation.add_class("dropper-explained")
        self.explained, self.derivations = "", {}
        self.why_field = why_field(self.explain_reading)
        self.buttons = widgets.HBox(
            [
                sliders.button("Keep this one", "Keeps these curves as a grey ghost to compare with", self.keep),
                sliders.button("Forget it", "Takes the ghost away", self.forget),
                sliders.button("Reset", "Puts every slider back to where it was", self.reset),
            ]
        )
        if ask:
            self.ask()
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
        before, after = (
            widgets.VBox(seen[:place]),
            widgets.VBox([*seen[place + 1 :], self.explanation, *goals, self.save_box]),
        )
        left, right = widgets.VBox([by_hand, self.table]), widgets.VBox([before, self.picture_box, after])
        columns = widgets.Box([left, right])
        named = {"columns": columns, "left": left, "right": right, "by-hand": by_hand, "read": self.table}
        for name, box in (named | {"before": before, "after": after}).items():
            box.add_class(f"dropper-{name}")
        rows = [Html(STYLE), *self.header(), self.complaint, self.progress]
        rows += [self.prediction] if self.prediction else []
        return [*rows, *self.asides(), columns, self.why_field, self.spoken]

    # what a panel says of itself

    def make_sliders(self, setting: Any) -> dict[str, widgets.Widget]:
        """Sliders that stand where the setting has them, by the path of what each changes."""
        raise NotImplementedError

    def controls(self) -> list[widgets.Widget]:
        return list(self.sliders.values())

    def changed(self, path: str, value: Any) -> Any:
        """The setting with what a slider stands for put in; ValueError where it cannot be."""
        return replace_at(self.setting, path, sliders.in_lamp(path, value))

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
        kept = self.kept_view.readings if self.kept_view else None
        return readout.plain(self.view.readings, kept, self.error_bars, self.derivations)

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
        another = self.is_another(setting)
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
        if another:
            self.ask_about(setting, view)
        self.show(view)

    def keep(self) -> None:
        """Keep the present curves as a ghost and compare with them from now on."""
        self.kept_view = self.view
        self.refresh()
        self.say("Kept to compare.")

    def forget(self) -> None:
        """Take the ghost away."""
        self.kept_view = None
        self.refresh()
        self.say("Nothing is kept.")

    def explain_reading(self, key: str) -> None:
        """Open how a reading comes about, in place of the one that is open.

        Parameters
        ----------
        key
            The reading's; "" to close.
        """
        if key == self.explained:
            return
        self.explained = self.why_field.value = key
        self.write_now()
        reading = next((row for row in self.view.readings if row.key == key), None)
        self.say(f"How {reading.name}, {reading.text}, comes about: opened." if reading else "")

    def reset(self) -> None:
        """Put every slider back to where it was."""
        self._set_sliders(self.initial)
        self.refresh()

    def move(self, path: str, value: Any) -> None:
        if not self._busy:
            super().move(path, value)

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
        waiting = (self.goal_list, self.curves, self.ghost, self.table) if self.covered else (self.goal_list,)
        for box in waiting:
            box.layout.visibility = "hidden" if asleep else "visible"
        if self.covered:
            self.deferred.call_later("words", GLANCE, self.write_now)

    def wake(self) -> None:
        self._disable(False)

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

    def write(self) -> None:
        """Have the words follow the curves, and the ± follow the words."""
        self.say("")
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
        self._write_table()

    def write_now(self) -> None:
        """Write the readings, the sentence, and the explanation that is asked for."""
        self._write_table()
        waits = self.covered and self.prediction and not self.prediction.answered
        said = tag("div", _WAITS, css="dropper-words") if waits else joined(self.sentence_html(), self.details())
        self.sentence.value = said
        self.goal_list.check(self.view, self.first_view, self.kept_view)

    def _write_table(self):
        """Write the readings, with the derivation that is open: below its row, without one below the words."""
        self.derivations = {row.key: self.explain(row) for row in self.view.readings if row.key == self.explained}
        self.table.value = self.readings_table()
        without_row = [how for key, how in self.derivations.items() if f'data-explain="{key}"' not in self.table.value]
        self.explanation.value = joined(*without_row)

    # what is said

    def say(self, text: str) -> None:
        """Have the voice say something that stands nowhere on the panel."""
        self.spoken.value = tag("div", text, css="dropper-spoken", role="status")

    def sentence_html(self) -> Markup:
        first = (self.main_reading, self.observed, _STRING)
        line = self._voice.line(self.setting, self.view.readings, first, self.words)
        return tag("div", unbroken(self.words), css="dropper-words said", role="status", data_say=line)
