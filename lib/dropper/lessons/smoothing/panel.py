"""Smoothing panel: how many microfarads are enough against flicker."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show, show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view
from .goals import GOALS


class Smoothing(LampPanel):
    """How deep the light flickers, and how many microfarads are enough."""

    picture, lesson = figure, view
    glows = True
    decisive = ("smoothing",)
    observed = "percent_flicker"
    covered = True
    goals = GOALS
    causes: Mapping[str, str] = {
        "enough": "The LEDs do not feel the whole bus voltage. Above their knee a volt more drives many milliamperes.",
        "twice": "The pulses divide between LEDs and capacitor, and the LEDs have few ohms around their working point.",
        "none": "Light follows the LEDs' current, and a large enough capacitor holds that steady.",
    }

    def question(self) -> tuple[str, dict[str, str]]:
        lamp = self.initial
        fitted = f"the {show(lamp.smoothing, 'F')} that it has" if lamp.smoothing else "none at all"
        return (
            f"How much smoothing does the {lamp.name} need, so that its light flickers by {view.low_risk(lamp):.3g} %"
            " at most?",
            {
                "enough": f"{fitted}: its volts hardly ripple",
                "twice": "about twice as much",
                "many": "several times as much",
                "none": "no capacitor can do it: LEDs on the mains always flicker",
            },
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
        return right, (
            f"It takes {show_reading(first.sufficient[0], 'F')}{comparison}. With"
            f" {show(self.question_setting.smoothing, 'F') if self.question_setting.smoothing else 'none'} the bus"
            f" ripples by {100 * first.result.bus_ripple / first.result.bus_voltage_mean:.0f} %, and the light flickers"
            f" by {first.result.percent_flicker:.0f} %."
        )

    def lamp_of_readings(self) -> Lamp:
        return self.view.lamp

    def can_judge(self) -> bool:
        return super().can_judge() and not self.view.result.percent_flicker > self.view.low_risk

    def make_sliders(self, setting: Lamp) -> dict[str, widgets.Widget]:
        return sliders.of_lamp(
            setting, "smoothing", "string.in_series", "series_resistor", "dropper", "mains.frequency"
        )
