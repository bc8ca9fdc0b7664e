"""Measurement panel: an oscilloscope's recording laid over the prediction, and readings typed by hand."""

from html import escape
from pathlib import Path

import ipywidgets as widgets

from ...bench import waveform
from ...bench.waveform.comparison import Comparison
from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure
from . import view as measured
from .record_box import RecordBox
from .typed_box import TypedBox
from .view import RecordedLamp

SAMPLE = "stair_marker_scope.csv"
# What the columns of the course's own recording are.
SAMPLE_CHANNELS = {
    "mains_voltage": waveform.Channel("CH1", factor=100.0),
    "line_current": waveform.Channel("CH2", shunt=10.0),
    "bus_voltage": waveform.Channel("CH3", factor=10.0),
}


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
    channels : dict of str to waveform.Channel, optional
        What its columns are; guessed from their names where it is not said.
    """

    picture, lesson = figure, measured
    decisive = ("lamp.dropper", "lamp.string.led.forward_voltage")

    def __init__(self, path: str | Path, ask: bool = True, recording: str | Path | None = None, channels=None):
        folder = Path(path).parent
        self._recording = Path(recording) if recording else folder / SAMPLE
        self._channels = channels or ({} if recording else SAMPLE_CHANNELS)
        loaded = waveform.load(self._recording, **self._channels)
        self._measured = waveform.measure(loaded)
        self._box = RecordBox(folder, self._recording, loaded.channels, self._take, lambda text: self.complain(text))
        super().__init__(path, ask)
        self._typed = TypedBox(lambda: self.setting.lamp)
        self.children = [*self.children, self._typed]
        self._own_readings(Lamp.from_toml(path))

    @property
    def comparison(self) -> Comparison:
        """The `waveform.Comparison` that is shown."""
        return self.view.comparison

    def header(self) -> list:
        return [*super().header(), self._box]

    def picture_column(self) -> list:
        self._more = widgets.Checkbox(description="the current's harmonics too", indent=False)
        self._more.observe(lambda _: self.write_now(), "value")
        return [*super().picture_column(), self._more]

    def setting_for(self, lamp: Lamp) -> RecordedLamp:
        return measured.setting_for(lamp, self._measured)

    def _take(self, recording):
        """Put another recording on the panel; the sliders keep their lamp."""
        found = waveform.measure(recording)
        before, self._measured = self._measured, found
        try:
            self.start_from(self.setting_for(self.setting.lamp))
        except ValueError:
            self._measured = before
            raise
        if self.prediction and recording.source != self.question_setting.measured.recording.source:
            self._judged = True
            self.prediction.leave("Another recording is on the panel; the question was about the first one.")

    def set_lamp(self, lamp):
        super().set_lamp(lamp)
        self._own_readings(lamp)

    def _own_readings(self, lamp):
        self._typed.put(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        row = self._row("current")
        if row is None:
            return None
        return (
            self._asked(row),
            {
                "dropper": "the dropper's capacitance",
                "string": "the string's voltage",
                "resistor": "the resistor in the line",
            },
        )

    def _asked(self, row):
        factor = self._row("power_factor")
        more = "" if factor is None else f", its power factor by {factor.apart}"
        return (
            f"The recorded line current differs from that of the {self.initial.lamp.name} by {row.apart}{more}. Which part"
            " explains it?"
        )

    def _row(self, key):
        rows = measured.view_of(self.initial).comparison.rows
        return next((row for row in rows if row.key == key), None)

    def verdict(self) -> tuple[str, str]:
        view = measured.view_of(self.question_setting)
        blamed = view.comparison.blame
        if view.result.dark:
            return "", "There is nothing to lay over: the predicted lamp stays dark at 0 A."
        if blamed is None:
            return "", f"No part can be named yet. {' '.join(view.comparison.warnings[:1])}"
        return {"dropper": "dropper", "clamped": "string"}.get(blamed.part, ""), blamed.words

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

    def details(self) -> str:
        rows = "".join(
            f'<tr><th scope="row">{escape(row.name)}</th><td>{escape(row.measured.text(row.unit))}</td>'
            f"<td>{escape(show_reading(row.predicted, row.unit))}</td><td>{escape(row.apart)}</td>"
            f'<td class="now">{escape(row.verdict)}</td></tr>'
            for row in self.comparison.rows
            if self._more.value or not row.key.startswith("harmonic")
        )
        heads = "".join(
            f'<th scope="col">{text}</th>'
            for text in ("quantity", "measured (± for 95 %)", "predicted", "apart", "verdict")
        )
        doubts = "".join(f"<li>{escape(text)}</li>" for text in self.comparison.warnings)
        return (
            '<table class="dropper-table" style="width:640px"><caption>Measured, and predicted</caption>'
            f"<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"
            + (f'<ul class="dropper-words dropper-parts" aria-label="doubts">{doubts}</ul>' if doubts else "")
        )
