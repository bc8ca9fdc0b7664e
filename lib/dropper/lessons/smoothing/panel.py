"""The panel on smoothing and flicker: how many microfarads are enough."""

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
        own = self.own
        return (
            f"{show(own.smoothing, 'F')} smooth the light of the {own.name}. How many would bring its flicker down to"
            f" the low-risk line of IEEE 1789, {view.view_of(own).low_risk:.3g} %?",
            {"enough": "these are enough", "twice": "about twice as many", "many": "several times as many"},
        )

    def verdict(self) -> tuple[str, ...]:
        own = view.view_of(self.asked)
        if own.result.dark:
            return "", "This lamp stays dark: there is nothing to smooth."
        if own.enough[0] != own.enough[0]:
            return "many", "Not even a millifarad does it in this lamp."
        times = own.enough[0] / self.asked.smoothing if self.asked.smoothing else None
        told = f", {times:.1f} times what is fitted" if times else ""
        right = "" if times is None else "enough" if times <= 1 else "twice" if times < 3 else "many"
        return right, f"It takes {show_reading(own.enough[0], 'F')}{told}: the string's dynamic resistance is small."

    def can_judge(self) -> bool:
        return super().can_judge() and not self.view.result.percent_flicker > self.view.low_risk

    def make_sliders(self, own: Lamp):
        return sliders.of_lamp(
            own,
            "smoothing",
            "string.in_series",
            "string.led.series_resistance",
            "series_resistor",
            "dropper",
            "mains.frequency",
        )
