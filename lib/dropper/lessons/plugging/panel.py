"""Plugging panel: the first rush of current, and what is left after pulling out."""

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view


class Plugging(LampPanel):
    """The first rush of current, what the dropper keeps and what of it the pins show; see `LampPanel`."""

    picture, lesson = figure, view
    decisive = ("pulled",)

    def setting_for(self, lamp: Lamp) -> view.Plugging:
        return view.Plugging(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The {self.initial.lamp.name} is unplugged. At which moment does its dropper keep most?",
            {
                "crest": "at a crest of the mains",
                "zero": "where the mains passes zero",
                "never": "never much: the LEDs empty it",
            },
        )

    def verdict(self) -> tuple[str, str]:
        lamp = self.question_setting.lamp
        crest, zero = (view.held_voltage(lamp, angle) for angle in (90.0, 0.0))
        return "crest" if crest > zero else "zero", (
            f"Pulled out at a crest, the dropper holds {show_reading(crest, 'V')}; at zero, {show_reading(zero, 'V')}."
            " The bridge blocks the way to the LEDs: only the bleeder empties the dropper."
        )

    def make_sliders(self, setting: view.Plugging) -> dict[str, widgets.Widget]:
        lamp, peak = setting.lamp, round(setting.lamp.mains.peak)
        parts = sliders.of_lamp(lamp, "inrush_resistor", "dropper", "bleeder", within="lamp.")
        return {
            "angle": sliders.linear("plugged in at", setting.angle, "°", 0.0, 360.0, 5.0),
            "precharge": sliders.linear("left on the dropper", setting.precharge, "V", -float(peak), float(peak), 5.0),
            "pulled": sliders.linear("pulled out at", setting.pulled, "°", 0.0, 360.0, 5.0),
            **parts,
        }
