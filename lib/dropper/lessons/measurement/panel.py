"""Measurement panel: an oscilloscope's recording laid over the prediction, and readings typed by hand."""

from collections.abc import Mapping
from pathlib import Path

import ipywidgets as widgets

from ...bench import waveform
from ...bench.waveform.comparison import Comparison
from ...circuit.html import Markup, items, joined, table, tag
from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ...design.uncertainty import budget_table, error_budget
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from ..kit.markup import Html
from ..kit.question_panel import GLANCE
from . import figure
from . import view as measurement_view
from .by_hand import SAMPLE, SAMPLE_CHANNELS
from .goals import GOALS
from .record_box import RecordBox
from .typed_box import TypedBox
from .view import RecordedLamp


class Measurement(LampPanel):
    """A recording of a lamp, and the lamp that was predicted.

    Parameters
    ----------
    path
        The lamp file.
    ask
        Ask for a prediction before the sliders wake.
    recording
        The CSV file to begin with; the course's own, beside the lamp file, where it is not said.
    channels
        What its columns are, a `waveform.Channel` each; guessed from their names where it is not said.

    Attributes
    ----------
    record_box : RecordBox
    typed_box : TypedBox
    harmonics : widgets.Checkbox
        Whether the current's harmonics are listed too.
    left_out : widgets.Checkbox
        Whether the table of what may move the readings is shown.
    budget : Html
        That table, of the lamp on the sliders.
    """

    picture, lesson, goals = figure, measurement_view, GOALS
    covered = True
    causes: Mapping[str, str] = {
        "dropper": "A smaller capacitor makes the current smaller at every moment and leaves its start where it is.",
        "string": "A taller string makes the current start later, for the mains has to rise higher before any flows;"
        " and the bus would stand higher by the same volts.",
        "resistor": "The resistor in the line is a fiftieth of the dropper's reactance or less, and at right angles to"
        " it: its ohms hardly count.",
    }
    decisive = ("lamp.dropper", "lamp.string.led.forward_voltage")

    def __init__(
        self, path: str | Path, ask: bool = True, recording: str | Path | None = None, channels: dict | None = None
    ):
        folder = Path(path).parent
        path_to_csv = Path(recording) if recording else folder / SAMPLE
        loaded = waveform.load(path_to_csv, **(channels or ({} if recording else SAMPLE_CHANNELS)))
        self._measurement = waveform.measure(loaded)
        self.harmonics = widgets.Checkbox(description="the current's harmonics too", indent=False)
        self.harmonics.observe(lambda _: self.write_now(), "value")
        self.left_out = widgets.Checkbox(description="what the model leaves out, and how much", indent=False)
        self.left_out.observe(lambda _: self.deferred.call_later("budget", GLANCE, self.write_budget), "value")
        self.budget = Html()
        self.record_box = RecordBox(folder, path_to_csv, loaded.channels, self._take, self.complain)
        super().__init__(path, ask)
        self.typed_box = TypedBox(lambda: self.setting.lamp)
        self.children = [*self.children, self.left_out, self.budget, self.typed_box]
        self.typed_box.fill(self.setting.lamp)

    @property
    def comparison(self) -> Comparison:
        """The `waveform.Comparison` that is shown."""
        return self.view.comparison

    def header(self) -> list[widgets.Widget]:
        return [*super().header(), self.record_box]

    def picture_column(self) -> list[widgets.Widget]:
        return [*super().picture_column(), self.harmonics]

    def setting_for(self, lamp: Lamp) -> RecordedLamp:
        return measurement_view.setting_for(lamp, self._measurement)

    def _take(self, recording):
        """Put another recording on the panel; the sliders keep their lamp."""
        before, self._measurement = self._measurement, waveform.measure(recording)
        asked = self.question_setting.measurement.recording.source
        try:
            self.start_from(self.setting_for(self.setting.lamp))
        except ValueError:
            self._measurement = before
            raise
        if recording.source != asked:
            self.withdraw("Another recording is on the panel; the question was about the first one.")

    def set_lamp(self, lamp: Lamp) -> None:
        super().set_lamp(lamp)
        self.typed_box.fill(lamp)

    def question(self) -> tuple[str, dict[str, str]] | None:
        row = self._row("current")
        if row is None:
            return None
        return (
            self._difference(row),
            {
                "dropper": "the dropper's capacitance",
                "string": "the string's voltage",
                "resistor": "the resistor in the line",
            },
        )

    def _difference(self, row):
        factor = self._row("power_factor")
        more = "" if factor is None else f", its power factor by {factor.difference}"
        lamp = self.initial.lamp
        return (
            f"The recorded line current differs from that of the {lamp.name} by {row.difference}{more}. Which part"
            " explains it?"
        )

    def _row(self, key):
        rows = measurement_view.view_of(self.initial).comparison.rows
        return next((row for row in rows if row.key == key), None)

    def verdict(self) -> tuple[str, str]:
        view = measurement_view.view_of(self.question_setting)
        attribution = view.comparison.attribution
        if view.result.dark:
            return "", "There is nothing to lay over: the predicted lamp stays dark at 0 A."
        if attribution is None:
            return "", f"No part can be named yet. {' '.join(view.comparison.warnings[:1])}"
        return {"dropper": "dropper", "clamped": "string"}.get(attribution.part, ""), attribution.words

    def make_sliders(self, setting: RecordedLamp) -> dict[str, widgets.Widget]:
        return sliders.of_lamp(
            setting.lamp,
            "mains.voltage",
            "dropper",
            "string.in_series",
            "string.led.forward_voltage",
            "smoothing",
            within="lamp.",
        )

    def lamp_of_readings(self) -> Lamp:
        return self.view.result.lamp

    def write_error_bars(self) -> None:
        super().write_error_bars()
        self.write_budget()

    def write_budget(self) -> None:
        """Write what may move the readings, where it is asked for; of a mains whose volts alone are known."""
        self.budget.value = budget_table(error_budget(self.setting.lamp)) if self.left_out.value else ""

    def details(self) -> Markup:
        rows = [
            (row.name, row.estimate.text(row.unit), show_reading(row.prediction, row.unit), row.difference, row.verdict)
            for row in self.comparison.rows
            if self.harmonics.value or not row.key.startswith("harmonic")
        ]
        heads = ("quantity", "measured (± for 95 %)", "predicted", "apart", "verdict")
        doubts = items(self.comparison.warnings)
        return joined(
            table("Measured, and predicted", heads, rows, css="dropper-table", cells={4: 'class="now"'}),
            tag("ul", doubts, css="dropper-words dropper-parts", aria_label="doubts") if doubts else "",
        )
