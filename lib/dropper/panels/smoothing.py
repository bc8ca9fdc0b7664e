"""The panel on smoothing and flicker: how many microfarads are enough."""

from ..figures import smoothing as smoothing_picture
from ..lessons import smoothing
from ..reading import written
from ..values import show
from . import controls
from .of_a_lamp import OfALamp


class Smoothing(OfALamp):
    """How much the light wavers, and how many microfarads are enough."""

    picture, lesson = smoothing_picture, smoothing
    decisive = ("smoothing",)

    def question(self):
        own = self.own
        return (
            f"{show(own.smoothing, 'F')} smooth the light of the {own.name}. How many would bring its flicker down to"
            f" the low-risk line of IEEE 1789, {smoothing.look(own).low_risk:.3g} %?",
            {
                "enough": "these are enough",
                "twice": "about twice as many",
                "many": "several times as many",
            },
        )

    def verdict(self):
        own = smoothing.look(self.asked)
        if own.result.dark:
            return "", "This lamp stays dark: there is nothing to smooth."
        if own.enough[0] != own.enough[0]:
            return "many", "Not even a millifarad does it in this lamp."
        times = own.enough[0] / self.asked.smoothing if self.asked.smoothing else None
        told = f", {times:.1f} times what is fitted" if times else ""
        right = "" if times is None else "enough" if times <= 1 else "twice" if times < 3 else "many"
        return right, f"It takes {written(own.enough[0], 'F')}{told}: the string's dynamic resistance is small."

    def seen_enough(self):
        return super().seen_enough() and not self.view.result.percent_flicker > self.view.low_risk

    def knobs(self, own):
        return controls.of_lamp(
            own, "smoothing", "string.in_series", "string.led.series_resistance", "series_resistor", "dropper",
            "mains.frequency",
        )  # fmt: skip
