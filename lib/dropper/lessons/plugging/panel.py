"""Plugging panel: what is left after pulling out, and what the bleeder is for."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, goals, view


class Plugging(LampPanel):
    """What the dropper keeps once the plug is out, and what of it the pins show; see `LampPanel`."""

    picture, lesson = figure, view
    decisive = ("lamp.bleeder",)
    observed = "held"
    goals = goals.PULL_GOALS
    causes: Mapping[str, str] = {
        "leds": "To empty the dropper a current would have to flow back through the mains, and the plug is out. Lit or"
        " dark, the LEDs stand behind the bridge.",
        "some": "A good capacitor keeps its charge: nothing in the lamp but the bleeder leads around it.",
    }

    def setting_for(self, lamp: Lamp) -> view.Plugging:
        return view.Plugging(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"In the {self.initial.lamp.name} the bleeder R2, across the dropper, has come off. The light is as before."
            " The plug is pulled out at a crest. What does the dropper hold an hour later?",
            {
                "leds": "next to nothing: the LEDs empty it",
                "some": "a few volts: it empties itself in minutes",
                "all": "as much as at the pull",
            },
        )

    def verdict(self) -> tuple[str, str]:
        return view.bleeder_verdict(self.question_setting.lamp)

    def make_sliders(self, setting: view.Plugging) -> dict[str, widgets.Widget]:
        return {
            **sliders.of_lamp(setting.lamp, "bleeder", "dropper", within="lamp."),
            "pulled": sliders.linear("pulled out at", setting.pulled, "°", 0.0, 360.0, 5.0),
        }
