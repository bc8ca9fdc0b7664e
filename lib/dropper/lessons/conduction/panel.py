"""Conduction panel: which diodes conduct: the path of a moment, lit in the circuit."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ..kit import sliders as controls
from ..kit.lamp_panel import LampPanel
from ..kit.markup import Html
from . import figure
from . import view as conduction
from .goals import GOALS
from .view import Moment

_FIRST = 70.0  # °: D1 and D4 conduct there, whichever answer is right


class Conduction(LampPanel):
    """Which diodes conduct now: the path of a moment, lit in the circuit; see `LampPanel`.

    Attributes
    ----------
    drawing : Html
        The circuit.
    """

    picture, lesson = figure, conduction
    glows = True
    decisive = ("phase",)
    covered = True
    goals = GOALS
    causes: Mapping[str, str] = {
        "crest": "Behind a transformer nothing stands in series. Here a charged capacitor does.",
        "string": "So it would be with an empty dropper. But it has kept the charge of the half cycle before.",
        "with": "The diodes do not look at the mains alone, but at mains and dropper together.",
    }

    def __init__(self, path: str | Path | Lamp, ask: bool = True):
        self.drawing = Html()
        super().__init__(path, ask)

    def setting_for(self, lamp: Lamp) -> Moment:
        return conduction.Moment(lamp, _FIRST)

    def circuit(self) -> widgets.VBox:
        """The circuit with the path of the moment, to show by itself."""
        return widgets.VBox([self.drawing])

    def picture_column(self) -> list[widgets.Widget]:
        return [self.drawing, self.picture_box, self.sentence]

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"When do D1 and D4 begin to conduct in the {self.initial.lamp.name}? The mains rises through zero at 0°,"
            " and its crest is at 90°.",
            {
                "crest": "shortly before the crest, as behind a transformer",
                "string": "as soon as the mains is above the string's voltage",
                "with": "at 0°, with the mains",
                "before": "before 0°, while the mains is still negative",
            },
        )

    def verdict(self) -> tuple[str, str]:
        first = conduction.view_of(self.question_setting)
        if first.result.dark:
            return "", "In this lamp they never do: it stays dark."
        right = "before" if first.start < -1 else "with" if first.start < 1 else ""
        return right, (
            f"They begin at {first.start:.0f}° and stop at {first.end:.0f}°: the charged dropper stands in series with"
            " the mains and adds its volts.".replace("-", "−")
        )

    def make_sliders(self, setting: Moment) -> dict[str, widgets.Widget]:
        sliders = controls.of_lamp(
            setting.lamp, "mains.voltage", "dropper", "smoothing", "string.in_series", within="lamp."
        )
        return {"phase": controls.linear("moment in the cycle", setting.phase, "°", 0.0, 360.0, 1.0), **sliders}

    def show(self, view: Any) -> None:
        super().show(view)
        self.drawing.value = figure.circuit(view, self.waits)

    def wake(self) -> None:
        super().wake()
        self.drawing.value = figure.circuit(self.view, self.waits)
