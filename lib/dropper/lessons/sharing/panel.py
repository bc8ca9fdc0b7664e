"""Sharing panel: LEDs side by side: who gets how much of the current."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view
from .goals import GOALS

_ASKED = 30.0  # mV


class Sharing(LampPanel):
    """LEDs side by side, with their scatter, their resistors and their warmth; see `LampPanel`."""

    picture, lesson, goals = figure, view, GOALS
    decisive, observed = ("scatter",), "hottest"
    causes: Mapping[str, str] = {
        "same": "Side by side they share a voltage. At one voltage, two LEDs that are not quite alike carry two"
        " currents.",
        "one": "One per cent of the volts is many per cent of the current, for an LED's curve is steep. And in so many"
        " groups one has drawn the worst LEDs.",
        "third": "These LEDs have enough resistance of their own to share well.",
    }

    def setting_for(self, lamp: Lamp) -> view.Sharing:
        return view.setting_for(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        lamp, side = self.question_setting.lamp, self.question_setting.in_parallel
        percent = f"{_ASKED / 10 / lamp.string.led.forward_voltage:.2g} %"
        whose = "has" if lamp.string.in_parallel == side else "might have"
        return (
            f"The {lamp.name} {whose} {lamp.string.in_series} groups of {side} LEDs side by side. They are of one bag,"
            f" and their forward voltages scatter by {_ASKED:.0f} mV, {percent}. What does the LED of the lamp that"
            " carries most, the hottest, have against an even share?",
            {
                "same": "just its share: in parallel they share equally",
                "one": "one or two per cent more: they scatter by no more",
                "third": "a fifth more, or a good deal beyond that",
            },
        )

    def verdict(self) -> tuple[str, str]:
        setting = self.question_setting
        groups = view.hottest_in_lamp(setting.lamp, setting.in_parallel, _ASKED)
        strings = view.hottest_in_lamp(setting.lamp, setting.in_parallel, _ASKED, "strings")
        dark = "The lamp itself stays dark. " if view.view_of(setting).dark else ""
        times = groups.hottest.mean()
        return "same" if times < 1.005 else "one" if times < 1.1 else "third", (
            f"{dark}Of 200 lamps drawn at random, with {show_reading(setting.total, 'A')} for {setting.in_parallel}"
            f" side by side, the hottest LED carries {times:.2f} times its share on average: a few hundredths of a"
            " volt over the few ohms of an LED's slope are milliamperes. The same LEDs as whole strings side by side:"
            f" {strings.hottest.mean():.2f} times."
        )

    def make_sliders(self, setting: view.Sharing) -> dict[str, widgets.Widget]:
        odd = widgets.Dropdown(
            options=[
                ("as the others", sliders.on_slider("odd", None)),
                ("open", "open"),
                ("one LED of it short", "short"),
                (f"one LED of it {view.other_colour(setting.lamp.string.led)[0]}", "colour"),
            ],
            value=sliders.on_slider("odd", setting.odd),
            description="the last branch",
            style={"description_width": "150px"},
        )
        return {
            "in_parallel": sliders.linear("side by side", setting.in_parallel, "", 2, 8, 1),
            "in_branch": sliders.linear("LEDs in each branch", setting.in_branch, "", 1, 20, 1),
            "scatter": sliders.linear("scatter of their volts", setting.scatter, "mV", 0.0, 100.0, 5.0),
            "resistor": sliders.stepped("resistor in each", setting.resistor, "Ω", 1, 470, 6, zero=True),
            "total": sliders.stepped("current together", setting.total, "A", 2e-3, 0.15),
            "warmth": sliders.linear("warmth of an LED", setting.warmth, "K/W", 0.0, 250.0, 10.0),
            "odd": odd,
        }
