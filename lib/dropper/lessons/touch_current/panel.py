"""Touch-current panel: where a hand is, which way the plug is in, and what flows through the person."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.html import tag
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ..kit.lamp_panel import LampPanel
from . import figure, goals, view

_OHMS = (500.0, 700.0, 1000.0, 1500.0, 2000.0, 3000.0, 4000.0, 5000.0, 7000.0, 10000.0)


class TouchCurrent(LampPanel):
    """A person in a lamp's circuit; see `LampPanel`."""

    picture, lesson = figure, view
    decisive = ("live",)
    observed = "current_rms"
    goals = goals.GOALS
    causes: Mapping[str, str] = {
        "string": "The string's volts stand between plus and minus. Earth is somewhere else: in one half cycle a diode"
        " ties minus to live itself.",
        "dropper": "The dropper is in one wire only. Nobody can see which way a plug is in.",
        "breaker": "The device compares the two wires and opens. It limits no current while it does, nor one that it"
        " need not see.",
    }

    def setting_for(self, lamp: Lamp) -> view.Contact:
        return view.Contact(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        start = self.initial
        return (
            f"The plug fits either way round. Somebody who stands on wet ground touches the minus of the"
            f" {start.lamp.name}'s string; hand, body and feet have {show(start.resistance, 'Ω')}. What sets the"
            " current at worst?",
            {
                "string": "the string: its few volts are all that can drive a current",
                "dropper": "the dropper: it limits a shock to a tingle, however the plug is put in",
                "breaker": "the residual-current device: no more than its 30 mA can flow",
                "mains": "the mains: nothing but the body is in its way",
            },
        )

    def verdict(self) -> tuple[str, str]:
        return view.worst_verdict(self.question_setting)

    def details(self) -> str:
        return tag("div", view.resistance_words(), css="dropper-words")

    def make_sliders(self, setting: view.Contact) -> dict[str, widgets.Widget]:
        return {
            "live": _choice("the plug puts", view.LIVE, setting.live),
            "hand": _choice("hand on", view.HANDS, setting.hand),
            "state": _choice("the lamp", view.states_of(setting.lamp), setting.state),
            "resistance": widgets.SelectionSlider(
                options=[(show(ohms, "Ω"), ohms) for ohms in sorted({*_OHMS, setting.resistance})],
                value=setting.resistance,
                description="the person",
                style={"description_width": "150px"},
            ),
        }


def _choice(name, options, value):
    return widgets.Dropdown(
        options=[(words, key) for key, words in options.items()],
        value=value,
        description=name,
        style={"description_width": "150px"},
    )
