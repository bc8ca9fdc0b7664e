"""Readings panel: the numbers beside a picture, their ±, how each comes about, and what is said of them."""

from typing import Any

from ...bench.meter import PlugInMeter
from ...circuit.html import Markup, joined, tag
from ...circuit.lamp import Lamp
from ...circuit.values import unbroken
from ...design.uncertainty import error_budget
from ...results import explain
from ...results.reading import Reading
from . import readout
from .glow import GlowBox
from .markup import Html, HtmlMath
from .question_panel import GLANCE, QuestionPanel
from .voice import MoveVoice
from .why_field import why_field

REST = 0.25  # s: when the ± of the readings follow
_STRING = "string_current_mean"
_WAITS = "The curves and the readings come once you have answered, or skipped."


class ReadingsPanel(QuestionPanel):
    """A question panel whose views hold `readings`, each of which is explained.

    Parameters
    ----------
    setting : Lamp or another frozen dataclass
        What the question is about at first.

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
    error_bars : dict of str to ErrorBar, or None
        The ± by the key of the reading; empty while it is worked out, None on panels that show none.
    glow_box : GlowBox or None
        The lamp that is drawn with its light.
    """

    covered = False  # whether curves and readings would answer the question, and wait until it is answered
    glows = False  # whether the views have a `glow`, a `Light` to draw
    main_reading = ""  # the key of what the voice names at each move; "" for what is observed, or the string current
    meter: PlugInMeter | None = None  # whose errors count in the ±; a usual one where none is named

    def __init__(self, setting: Any):
        super().__init__(setting)
        self.error_bars = None
        self._voice = MoveVoice(self.deferred)
        self.table, self.explanation, self.spoken = HtmlMath(), HtmlMath(), Html()
        self.explanation.add_class("dropper-explained")
        self.explained, self.derivations = "", {}
        self.why_field = why_field(self.explain_reading)
        self.glow_box = GlowBox() if self.glows else None

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

    # what is shown

    @property
    def waits(self) -> bool:
        """Whether what is shown would answer the question, and so waits for the learner's answer."""
        return bool(self.covered and self.prediction and not self.prediction.answered)

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
        said = tag("div", _WAITS, css="dropper-words") if self.waits else joined(self.sentence_html(), self.details())
        self.sentence.value = said
        self.goal_list.check(self.view, self.first_view, self.kept_view)
        if self.glow_box and not self.waits:
            self.glow_box.show(self.view.glow)

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
