"""The panel on which diodes conduct: the path of a moment, lit in the circuit."""

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders as controls
from ..kit.lamp_panel import LampPanel
from . import figure
from . import view as conduction
from .view import Moment


class Conduction(LampPanel):
    """Which diodes conduct now: the path of a moment, lit in the circuit."""

    picture, lesson = figure, conduction
    decisive = ("phase",)

    def __init__(self, path: str, ask: bool = True):
        self._circuit = widgets.HTML()
        super().__init__(path, ask)

    def seen(self, lamp: Lamp) -> Moment:
        return conduction.Moment(lamp)

    def circuit(self):
        """The circuit with the path of the moment, to show by itself."""
        return widgets.VBox([self._circuit])

    def pictured(self) -> list:
        return [self._circuit, self._stack, self._said]

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The mains rises through zero at 0°. When do D1 and D4 begin to conduct in the {self.own.lamp.name}?",
            {
                "with": "at 0°, with the mains",
                "later": "after 0°, once the mains is above the string's voltage",
                "before": "before 0°, while the mains is still negative",
            },
        )

    def verdict(self) -> tuple[str, ...]:
        own = conduction.view_of(self.asked)
        if own.result.dark:
            return "", "In this lamp they never do: it stays dark."
        right, when = (
            ("before", "before") if own.start < -1 else ("later", "after") if own.start > 1 else ("with", "just at")
        )
        return right, (
            f"They begin at {show_reading(own.start, '°')}, {when} the rise through zero, and stop at"
            f" {show_reading(own.end, '°')}: the charged dropper stands in series with the mains and adds its volts."
        )

    def make_sliders(self, own: Moment):
        sliders = controls.of_lamp(
            own.lamp, "mains.voltage", "dropper", "smoothing", "string.in_series", within="lamp."
        )
        return {"phase": controls.linear("moment in the cycle", own.phase, "°", 0.0, 360.0, 1.0), **sliders}

    def _show(self, view):
        super()._show(view)
        self._circuit.value = figure.circuit(view)
