"""Ghost-light panel: a lamp whose switch is off, with its cable, its switch and a cure."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view
from .goals import GOALS
from .view import OffLamp


class GhostLight(LampPanel):
    """A lamp that is switched off: what passes through cable and switch, and whether it is seen."""

    picture, lesson = figure, view
    glows = True
    decisive = ("length",)
    covered = True
    goals = GOALS
    causes: Mapping[str, str] = {
        "dark": "Two wires side by side are a capacitor. On the mains it passes microamperes, and LEDs need no more.",
        "half": "A cable has nanofarads at most, the dropper hundreds: the current is far less than half.",
        "glows": "It is too little here: the cable is a capacitor, but a small one.",
    }

    def setting_for(self, lamp: Lamp) -> OffLamp:
        return OffLamp(lamp.replace(smoothing_bleeder=None))

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The {self.initial.lamp.name}, without a bleeder R3, hangs on {show(self.initial.length, 'm')} of cable. A"
            " live wire runs beside the switched one in it. The switch is off. What do you see at night?",
            {
                "dark": "nothing: without a closed circuit no current flows",
                "glows": "a faint glow",
                "half": "about half of the light",
            },
        )

    def verdict(self) -> tuple[str, str]:
        return view.outcome(self.question_setting)

    def make_sliders(self, setting: OffLamp) -> dict[str, widgets.Widget]:
        return {
            "length": sliders.stepped("cable", setting.length, "m", 2, 200, 6),
            "leakage": sliders.stepped("capacitor of the switch", setting.leakage, "F", 1e-9, 4.7e-7, 6, zero=True),
            "cure": sliders.stepped("capacitor across lamp", setting.cure, "F", 1e-8, 4.7e-6, 6, zero=True),
            **sliders.of_lamp(setting.lamp, "smoothing_bleeder", "string.in_series", within="lamp."),
        }
