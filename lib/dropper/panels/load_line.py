"""The panel on what sets the current: load line, string and power."""

from ..figures import load_line as load_line_picture
from ..lessons import load_line
from ..reading import written
from . import controls
from .of_a_lamp import OfALamp


class LoadLine(OfALamp):
    """What sets the current: load line, string and power."""

    picture, lesson = load_line_picture, load_line
    decisive = ("string.in_series",)

    def question(self):
        return (
            "Unplugged and proved empty, half of the LEDs are bridged; then the lamp runs again. What happens to the"
            " current through the others?",
            {
                "same": "it stays: this is a constant-current supply",
                "some": "it rises somewhat",
                "double": "it doubles: half the resistance",
            },
        )

    def verdict(self):
        before, after = load_line.half_bridged(self.asked)
        if load_line.look(self.asked).dark:
            return "", f"This lamp stays dark; with half its LEDs {written(after, 'A')} would flow."
        right = "same" if after < 1.02 * before else "some" if after < 1.7 * before else "double"
        return right, (
            f"With half the LEDs the string current goes from {written(before, 'A')} to {written(after, 'A')},"
            f" {100 * (after / before - 1):+.0f} %: the operating point slides along a straight load line."
        )

    def seen_enough(self):
        return super().seen_enough() and self.setting.string.in_series <= max(1, self.asked.string.in_series // 2)

    def knobs(self, own):
        return controls.of_lamp(
            own, "mains.voltage", "mains.frequency", "dropper", "string.in_series", "string.led.forward_voltage"
        )
