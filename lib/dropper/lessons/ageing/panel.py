"""Ageing panel: temperatures by part, and what years do."""

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view


class Ageing(LampPanel):
    """How warm the parts get, and what years do; see `LampPanel`."""

    picture, lesson = figure, view
    decisive = ("loss",)

    def setting_for(self, lamp: Lamp) -> view.Ageing:
        return view.Ageing(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"After some years the {self.initial.lamp.name} is dim, and its dropper looks as new. Can it have lost a"
            " third of its capacitance without a mark on it?",
            {
                "no": "no: a capacitor is good or it is short",
                "yes": "yes, and the light has gone down with it",
                "little": "yes, but the light would hardly change",
            },
        )

    def verdict(self) -> tuple[str, str]:
        lamp = self.question_setting.lamp
        before, after = view.string_current_with(lamp, 1.0), view.string_current_with(lamp, 2 / 3)
        return "yes" if after < 0.95 * before else "little", (
            f"It can: its metal is burnt away in specks or eaten by damp, and the insulation stays perfect. With two"
            f" thirds of the capacitance the string gets {show_reading(after, 'A')} instead of"
            f" {show_reading(before, 'A')}, both at 25 °C. A capacitance meter proves it."
        )

    def make_sliders(self, setting: view.Ageing) -> dict[str, widgets.Widget]:
        return {
            "room": sliders.linear("room", setting.room, "°C", -20.0, 60.0, 1.0),
            "enclosure": sliders.linear("enclosure", setting.enclosure, "K/W", 0.0, 40.0, 1.0),
            "hours": sliders.linear("in use a day", setting.hours, "h", 1.0, 24.0, 1.0),
            "loss": sliders.linear("dropper's loss a year", setting.loss, "%", 0.0, 20.0, 1.0),
            "years": sliders.linear("years", setting.years, "", 0.0, 20.0, 1.0),
            **sliders.of_lamp(setting.lamp, "inrush_resistor", within="lamp."),
        }
