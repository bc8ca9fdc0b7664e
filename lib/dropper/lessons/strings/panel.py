"""Strings panel: power and current over the number of LEDs."""

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view


class Strings(LampPanel):
    """How many LEDs: power, current and the LED's own curve; see `LampPanel`."""

    picture, lesson = figure, view
    decisive = ("string.in_series",)

    def question(self) -> tuple[str, dict[str, str]]:
        string = self.initial.string
        what = "LEDs" if string.in_parallel == 1 else f"groups of {string.in_parallel} LEDs"
        return (
            f"The {self.initial.name} has {string.in_series} {what} in series. It gets twice as many, and then four"
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
