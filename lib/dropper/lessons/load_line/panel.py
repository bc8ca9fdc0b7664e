"""Load-line panel: what sets the current: load line, string and power."""

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view


class LoadLine(LampPanel):
    """What sets the current: load line, string and power."""

    picture, lesson = figure, view
    decisive = ("string.in_series",)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            "Unplugged and proved empty, half of the LEDs are bridged; then the lamp runs again. What happens to the"
            " current through the others?",
            {
                "same": "it stays: this is a constant-current supply",
                "some": "it rises somewhat",
                "double": "it doubles: half the resistance",
            },
        )

    def verdict(self) -> tuple[str, str]:
        before, after = view.bridging_currents(self.question_setting)
        if view.view_of(self.question_setting).dark:
            return "", f"This lamp stays dark; with half its LEDs {show_reading(after, 'A')} would flow."
        right = "same" if after < 1.02 * before else "some" if after < 1.7 * before else "double"
        return right, (
            f"With half the LEDs the string current goes from {show_reading(before, 'A')} to"
            f" {show_reading(after, 'A')},"
            f" {100 * (after / before - 1):+.0f} %: the operating point slides along a straight load line."
        )

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.string.in_series <= max(
            1, self.question_setting.string.in_series // 2
        )

    def make_sliders(self, setting: Lamp) -> dict[str, widgets.Widget]:
        return sliders.of_lamp(
            setting, "mains.voltage", "mains.frequency", "dropper", "string.in_series", "string.led.forward_voltage"
        )
