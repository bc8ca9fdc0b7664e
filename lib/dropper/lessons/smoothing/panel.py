"""Smoothing panel: how many microfarads are enough against flicker."""

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show, show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view


class Smoothing(LampPanel):
    """How much the light wavers, and how many microfarads are enough."""

    picture, lesson = figure, view
    decisive = ("smoothing",)

    def question(self) -> tuple[str, dict[str, str]]:
        lamp = self.initial
        return (
            f"{show(lamp.smoothing, 'F')} smooth the light of the {lamp.name}. How many would bring its flicker down to"
            f" the low-risk line of IEEE 1789, {view.view_of(lamp).low_risk:.3g} %?",
            {"enough": "these are enough", "twice": "about twice as many", "many": "several times as many"},
        )

    def verdict(self) -> tuple[str, str]:
        first = view.view_of(self.question_setting)
        if first.result.dark:
            return "", "This lamp stays dark: there is nothing to smooth."
        if first.sufficient[0] != first.sufficient[0]:
            return "many", "Not even a millifarad does it in this lamp."
        times = first.sufficient[0] / self.question_setting.smoothing if self.question_setting.smoothing else None
        comparison = f", {times:.1f} times what is fitted" if times else ""
        right = "" if times is None else "enough" if times <= 1 else "twice" if times < 3 else "many"
        return (
            right,
            f"It takes {show_reading(first.sufficient[0], 'F')}{comparison}: the string's dynamic resistance is small.",
        )

    def lamp_of_readings(self) -> Lamp:
        return self.view.lamp

    def can_judge(self) -> bool:
        return super().can_judge() and not self.view.result.percent_flicker > self.view.low_risk

    def make_sliders(self, setting: Lamp) -> dict[str, widgets.Widget]:
        return sliders.of_lamp(
            setting,
            "smoothing",
            "string.in_series",
            "string.led.series_resistance",
            "series_resistor",
            "dropper",
            "mains.frequency",
        )
