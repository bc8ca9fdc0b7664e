"""Rush panel: the first rush of current, and what the inrush resistor is for."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import goals, rush_figure, rush_view


class Rush(LampPanel):
    """The first rush of current at plugging in; see `LampPanel`."""

    picture, lesson = rush_figure, rush_view
    decisive = ("lamp.inrush_resistor",)
    observed = "inrush_peak"
    goals = goals.RUSH_GOALS
    causes: Mapping[str, str] = {
        "less": "The current is less, but it flows for longer. The same charge has to pass, over the same volts: the"
        " ohms cancel.",
        "more": "I²R holds while the current stays as it is. In the rush it falls as the ohms rise.",
    }

    def setting_for(self, lamp: Lamp) -> rush_view.PluggingIn:
        return rush_view.PluggingIn(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        lamp = self.initial.lamp
        ohms = show(lamp.inrush_resistor, "Ω")
        return (
            f"The inrush resistor R1 of the {lamp.name} has {ohms}. One with ten times the ohms is put in. What"
            " becomes of the heat that one rush puts into it?",
            {
                "less": "much less: the rush is ten times smaller",
                "same": "about the same",
                "more": "ten times more, by I²R",
            },
        )

    def verdict(self) -> tuple[str, str]:
        return rush_view.heat_verdict(self.question_setting.lamp)

    def make_sliders(self, setting: rush_view.PluggingIn) -> dict[str, widgets.Widget]:
        peak = round(setting.lamp.mains.peak)
        return {
            **sliders.of_lamp(setting.lamp, "inrush_resistor", "dropper", within="lamp."),
            "angle": sliders.linear("plugged in at", setting.angle, "°", 0.0, 360.0, 5.0),
            "precharge": sliders.linear("left on the dropper", setting.precharge, "V", -float(peak), float(peak), 5.0),
        }
