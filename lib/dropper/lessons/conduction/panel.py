"""Conduction panel: which diodes conduct: the path of a moment, lit in the circuit."""

from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders as controls
from ..kit.lamp_panel import LampPanel
from ..kit.markup import Html
from . import figure
from . import view as conduction
from .view import Moment


class Conduction(LampPanel):
    """Which diodes conduct now: the path of a moment, lit in the circuit; see `LampPanel`.

    Attributes
    ----------
    drawing : Html
        The circuit.
    """

    picture, lesson = figure, conduction
    decisive = ("phase",)

    def __init__(self, path: str | Path | Lamp, ask: bool = True):
        self.drawing = Html()
        super().__init__(path, ask)

    def setting_for(self, lamp: Lamp) -> Moment:
        return conduction.Moment(lamp)

    def circuit(self) -> widgets.VBox:
        """The circuit with the path of the moment, to show by itself."""
        return widgets.VBox([self.drawing])

    def picture_column(self) -> list[widgets.Widget]:
        return [self.drawing, self.picture_box, self.sentence]

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The mains rises through zero at 0°. When do D1 and D4 begin to conduct in the {self.initial.lamp.name}?",
            {
                "with": "at 0°, with the mains",
                "later": "after 0°, once the mains is above the string's voltage",
                "before": "before 0°, while the mains is still negative",
            },
        )

    def verdict(self) -> tuple[str, str]:
        first = conduction.view_of(self.question_setting)
        if first.result.dark:
            return "", "In this lamp they never do: it stays dark."
        right, when = (
            ("before", "before") if first.start < -1 else ("later", "after") if first.start > 1 else ("with", "just at")
        )
        return right, (
            f"They begin at {show_reading(first.start, '°')}, {when} the rise through zero, and stop at"
            f" {show_reading(first.end, '°')}: the charged dropper stands in series with the mains and adds its volts."
        )

    def make_sliders(self, setting: Moment) -> dict[str, widgets.Widget]:
        sliders = controls.of_lamp(
            setting.lamp, "mains.voltage", "dropper", "smoothing", "string.in_series", within="lamp."
        )
        return {"phase": controls.linear("moment in the cycle", setting.phase, "°", 0.0, 360.0, 1.0), **sliders}

    def show(self, view: Any) -> None:
        super().show(view)
        self.drawing.value = figure.circuit(view)
