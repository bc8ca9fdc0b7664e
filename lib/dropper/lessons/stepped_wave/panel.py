"""Stepped-wave panel: a lamp on an inverter whose wave goes in steps."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view
from .goals import GOALS
from .view import HIGHEST, Supply


class SteppedWave(LampPanel):
    """A lamp on a wave of three levels, as steep as its first harmonics make it; see `LampPanel`."""

    picture, lesson = figure, view
    decisive = ("highest",)
    goals = GOALS
    causes: Mapping[str, str] = {
        "bright": "The light follows the charge of each half cycle, and that follows how far the voltage swings.",
        "nothing": "At each step the voltage changes fast, and a capacitor's current follows just that.",
    }

    def setting_for(self, lamp: Lamp) -> Supply:
        return Supply(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The {self.initial.lamp.name} runs on an inverter that makes three steps in place of a sine. What changes"
            " most?",
            {
                "bright": "the light: it gets clearly brighter",
                "nothing": "nothing much: the volts are the same",
                "heat": "the line current and the heat of R1",
            },
        )

    def verdict(self) -> tuple[str, str]:
        lamp = self.question_setting.lamp
        seen = view.view_of(Supply(lamp, HIGHEST))
        if seen.on_sine.dark or seen.result.dark:
            return "", "This lamp stays dark on the one or the other: nothing can be compared."
        hot = seen.heat == seen.heat
        most = max(seen.line, seen.heat) if hot else seen.line
        right = "heat" if most > max(1.5, seen.light) else "bright" if seen.light > 1.05 else "nothing"
        words = (
            f"With harmonics up to order {HIGHEST} the light is {100 * seen.light:.0f} % of a sine's, the line"
            f" current {seen.line:.2f} times a sine's, its peak {show_reading(seen.result.line_current_peak, 'A')}"
        )
        burnt = show_reading(seen.result.heat["inrush_resistor"], "W")
        return right, words + (f", and R1 burns {burnt}, {seen.heat:.1f} times as much." if hot else ".")

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.highest == HIGHEST

    def make_sliders(self, setting: Supply) -> dict[str, widgets.Widget]:
        parts = sliders.of_lamp(setting.lamp, "inrush_resistor", "dropper", within="lamp.")
        return {"highest": sliders.linear("highest harmonic", setting.highest, "", 1, HIGHEST, 2), **parts}
