"""The panel on broken parts: pick a fault, predict the light, and see what the other parts must stand."""

import ipywidgets as widgets

from ..figures import broken as broken_picture
from ..lessons import broken
from ..transient import Fault
from . import controls
from .of_a_lamp import OfALamp

_ASKED = Fault("open", "D1")


class Broken(OfALamp):
    """A lamp with one part broken, beside the healthy one; see `OfALamp`."""

    picture, lesson = broken_picture, broken
    decisive = ("fault",)

    def seen(self, lamp):
        return broken.Broken(lamp)

    def question(self):
        return (
            f"One diode of the {self.own.lamp.name}'s bridge opens. What does the light do?",
            {
                "half": "half the brightness: every other half cycle is missing",
                "dark": "dark",
                "same": "nothing to be seen: the smoothing capacitor fills in",
            },
        )

    def verdict(self):
        return (
            f"{broken.verdict_of(self.asked.lamp, _ASKED)} The other diodes charge the dropper in one direction until"
            " nothing flows: a capacitor blocks dc."
        )

    def seen_enough(self):
        return super().seen_enough() and self.setting.fault == _ASKED

    def knobs(self, own):
        lamp = own.lamp
        fault = widgets.Dropdown(
            options=[(words, controls.on_slider("fault", fault)) for words, fault in broken.choices(lamp)],
            value=controls.on_slider("fault", own.fault), description="fault",
            style={"description_width": "150px"}, layout=widgets.Layout(width=controls.WIDTH),
        )  # fmt: skip
        sliders = controls.of_lamp(lamp, "mains.voltage", "dropper", "smoothing")
        groups = controls.linear("LEDs in series", lamp.string.in_series, "", min(2, lamp.string.in_series), 100, 1)
        return {
            "fault": fault,
            **{f"lamp.{path}": slider for path, slider in sliders.items()},
            "lamp.string.in_series": groups,
        }
