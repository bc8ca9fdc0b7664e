"""Strings panel: power and current over the number of LEDs."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view
from .goals import GOALS


class Strings(LampPanel):
    """How many LEDs: power, current and the LED's own curve; see `LampPanel`."""

    picture, lesson, goals = figure, view, GOALS
    decisive, observed = ("string.in_series",), "string_current_mean"
    causes: Mapping[str, str] = {
        "more": "Twice the LEDs take twice the volts. But the current does not stay: every LED more leaves fewer volts"
        " to drive it.",
        "same": "The dropper does not set the watts. It hands on charge, and what a charge brings are the volts of the"
        " string.",
        "hump": "Here the string is short, so that most of the volts are still left over.",
    }

    def question(self) -> tuple[str, dict[str, str]]:
        lamp = self.question_setting
        string = lamp.string
        what = "LEDs" if string.in_parallel == 1 else f"groups of {string.in_parallel} LEDs"
        return (
            f"The {lamp.name} has {string.in_series} {what} in series. It gets twice as many, and then four"
            " times as many, all else as it was. What do the watts of its LEDs do?",
            {
                "more": "twice the watts, then four times",
                "same": "they stay about the same: the dropper decides",
                "hump": "they do not double, and then they fall",
            },
        )

    def verdict(self) -> tuple[str, str]:
        now, twice, four = (view.with_more_leds(self.question_setting, times) for times in (1, 2, 4))
        powers = [
            f"{count} in series " + ("stay dark" if dark else f"take {show_reading(watts, 'W')}")
            for count, watts, dark in (now, twice, four)
        ]
        (_, watts, _), (_, more, _), (_, most, _) = now, twice, four
        right = "more" if most > 3 * watts else "same" if min(more, most) > 0.9 * max(more, most, watts) else "hump"
        return right, (
            f"{powers[0]}, {powers[1]}, {powers[2]}. Power is the string's volts times its current, and the current"
            " falls in a straight line with the volts: a hump, highest at half of the mains' peak."
        )

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.string.in_series >= min(
            2 * self.question_setting.string.in_series, 100
        )

    def make_sliders(self, setting: Lamp) -> dict[str, widgets.Widget]:
        string = setting.string
        return {
            "string.in_series": sliders.linear("LEDs in series", string.in_series, "", 1, 120, 1),
            "string.in_parallel": sliders.linear("LEDs in parallel", string.in_parallel, "", 1, 8, 1),
            **sliders.of_lamp(setting, "dropper", "string.led.forward_voltage", "mains.voltage"),
        }
