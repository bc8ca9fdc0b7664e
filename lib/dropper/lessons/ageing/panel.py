"""Ageing panel: temperatures by part, and what years do."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, goals, view


class Ageing(LampPanel):
    """How warm the parts get, and what years do; see `LampPanel`."""

    picture, lesson = figure, view
    glows = True
    decisive = ("loss",)
    observed = "current"
    goals = goals.GOALS
    causes: Mapping[str, str] = {
        "no": "A film capacitor that breaks through heals: a speck of its metal burns away, and it is whole again, only"
        " a little smaller. An ohmmeter sees nothing of it.",
        "little": "The dropper moves a charge in each half cycle, in proportion to its farads. A third less is a third"
        " less light.",
    }

    def setting_for(self, lamp: Lamp) -> view.Ageing:
        return view.Ageing(lamp, loss=0.0)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The dropper of the {self.initial.lamp.name} looks as new, and an ohmmeter shows its insulation perfect."
            " Can it have lost a third of its capacitance?",
            {
                "no": "no: a capacitor is good or it is short",
                "yes": "yes, and the light has gone down with it",
                "little": "yes, but the light would hardly change",
            },
        )

    def verdict(self) -> tuple[str, str]:
        return view.looks_verdict(self.question_setting)

    def make_sliders(self, setting: view.Ageing) -> dict[str, widgets.Widget]:
        return {
            "loss": sliders.linear("dropper's loss a year", setting.loss, "%", 0.0, 20.0, 1.0),
            "years": sliders.linear("years", setting.years, "", 0.0, 20.0, 1.0),
            "room": sliders.linear("room", setting.room, "°C", -20.0, 60.0, 1.0),
            "enclosure": sliders.linear("enclosure", setting.enclosure, "K/W", 0.0, 40.0, 1.0),
            **sliders.of_lamp(setting.lamp, "inrush_resistor", within="lamp."),
            "hours": sliders.linear("in use a day", setting.hours, "h", 1.0, 24.0, 1.0),
        }
