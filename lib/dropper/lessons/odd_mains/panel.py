"""Odd-mains panel: a lamp on an inverter or a dimmer, beside the same lamp on a sine."""

from collections.abc import Mapping
from typing import Any

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show, show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view
from .goals import GOALS
from .view import KINDS, Supply


class OddMains(LampPanel):
    """A lamp on a mains that is no sine: its light, its line current, and the heat of its resistor."""

    picture, lesson = figure, view
    glows = True
    decisive = ("kind",)
    goals = GOALS
    causes: Mapping[str, str] = {
        "bright": "The light follows the charge of each half period, and that follows how far the voltage swings.",
        "dim": "The light follows the charge of each half period. The swing is the same, so the charge is.",
        "nothing": "At each step the voltage changes fast, and a capacitor's current follows just that.",
    }

    def setting_for(self, lamp: Lamp) -> Supply:
        return Supply(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        lamp = self.initial.lamp
        return (
            f"The {lamp.name} runs on an inverter. It makes {show(lamp.mains.voltage, 'V')} in three steps, in place of"
            " a sine. What changes most?",
            {
                "bright": "the light: it gets clearly brighter",
                "dim": "the light: it gets clearly dimmer",
                "nothing": "nothing much: the volts are the same",
                "heat": "the line current and the heat of R1",
            },
        )

    def verdict(self) -> tuple[str, str]:
        seen = view.view_of(Supply(self.question_setting.lamp, "stepped"))
        if seen.on_sine.dark or seen.result.dark:
            return "", "This lamp stays dark on the one or the other: nothing can be compared."
        hot = seen.heat == seen.heat
        most = max(seen.line, seen.heat) if hot else seen.line
        by_light = "bright" if seen.light > 1.1 else "dim" if seen.light < 0.9 else "nothing"
        right = "heat" if most > max(1.5, seen.light) else by_light
        words = (
            f"The light is {100 * seen.light:.0f} % of a sine's. The line carries"
            f" {show_reading(seen.result.line_current_rms, 'A')} in place of"
            f" {show_reading(seen.on_sine.line_current_rms, 'A')}, with peaks of"
            f" {show_reading(seen.result.line_current_peak, 'A')}"
        )
        if not hot:
            return right, words + "."
        burnt, before = (show_reading(found.heat["inrush_resistor"], "W") for found in (seen.result, seen.on_sine))
        return right, f"{words}. R1 burns {burnt} in place of {before}."

    def move(self, path: str, value: Any) -> None:
        """Move a slider; one that the mains has no use for brings the mains that has."""
        super().move(path, value)
        wanted = {"angle": ("leading", "trailing"), "edge": ("stepped", "leading", "trailing")}.get(path)
        if wanted and not self._busy and self.setting.kind not in wanted:
            self.sliders["kind"].value = wanted[0]

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.kind == "stepped"

    def make_sliders(self, setting: Supply) -> dict[str, widgets.Widget]:
        kind = widgets.Dropdown(
            options=[(words, key) for key, words in KINDS.items()],
            value=setting.kind,
            description="mains",
            style={"description_width": "150px"},
        )
        return {
            "kind": kind,
            "angle": sliders.linear("dimmer cuts off", setting.angle, "°", 10.0, 160.0, 5.0),
            "edge": sliders.stepped("a step takes", setting.edge, "s", 1e-5, 1e-3, 6),
            **sliders.of_lamp(setting.lamp, "inrush_resistor", "dropper", "smoothing", within="lamp."),
        }
