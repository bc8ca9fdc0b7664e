"""Load-line panel: what sets the current: load line, string and power."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ...results.compare import signed_percent
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view
from .goals import GOALS


class LoadLine(LampPanel):
    """What sets the current: load line, string and power."""

    picture, lesson, goals = figure, view, GOALS
    glows = True
    decisive = ("string.in_series",)
    covered = True
    observed = "string_current_mean"
    causes: Mapping[str, str] = {
        "same": "The rule reckons with a short circuit in place of the LEDs, so it cannot see them. But the volts that"
        " the bridged LEDs no longer take are left over, and push more charge through the dropper.",
        "double": "It is not the LEDs that hold the current back. What drives it is the mains' peak less the string's"
        " volts, and only the bridged LEDs' volts are added to that.",
        "burnt": "The dropper still stands in the way. Even a short circuit in place of all the LEDs gets no more than"
        " where the line begins, at the left.",
    }

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"{self.question_setting.name}: unplugged and proved empty, half of its LEDs are bridged with a wire. Then"
            " it runs again. What does the current through the other LEDs do?",
            {
                "same": "It stays: mains over reactance sets it.",
                "some": "It rises somewhat.",
                "double": "It doubles: half the LEDs, half the resistance.",
                "burnt": "It rises so much that the others burn out at once.",
            },
        )

    def verdict(self) -> tuple[str, str]:
        before, after = view.bridging_currents(self.question_setting)
        if view.view_of(self.question_setting).dark:
            return "", f"This lamp stays dark; with half its LEDs {show_reading(after, 'A', full=True)} would flow."
        rise = after / before
        right = "same" if rise < 1.02 else "some" if rise < 1.7 else "double" if rise < 3 else "burnt"
        return right, (
            f"With half of its LEDs bridged the string current goes from {show_reading(before, 'A', full=True)} to"
            f" {show_reading(after, 'A', full=True)}, {signed_percent(before, after)}: the lamp's dot slides along a"
            " straight line."
        )

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.string.in_series <= max(
            1, self.question_setting.string.in_series // 2
        )

    def make_sliders(self, setting: Lamp) -> dict[str, widgets.Widget]:
        return sliders.of_lamp(
            setting, "mains.voltage", "mains.frequency", "dropper", "string.in_series", "string.led.forward_voltage"
        )
