"""Resistor-or-capacitor panel: where the voltage goes: one load, fed through each of the two."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.values import show, show_reading
from ..kit import sliders
from ..kit.panel import Panel
from . import figure
from . import view as two_ways
from .goals import GOALS
from .view import TwoWays


class ResistorOrCapacitor(Panel):
    """One load fed through a resistor and through a capacitor, side by side.

    Parameters
    ----------
    setting
        The load to start with.
    ask
        Ask for a prediction before the sliders wake.
    """

    picture, lesson, goals = figure, two_ways, GOALS
    decisive = ("phase",)
    observed = "capacitor_heat"
    covered = True
    causes: Mapping[str, str] = {
        "all": "Volts times amperes is power only instant by instant. In the resistor both are greatest at the same"
        " moment; in the capacitor one is zero whenever the other is greatest.",
        "half": "It does not keep half. What it takes in one quarter of a period it gives back in the next.",
    }

    def __init__(self, setting: TwoWays | None = None, ask: bool = True):
        super().__init__(setting or two_ways.TwoWays(), ask)

    def question(self) -> tuple[str, dict[str, str]]:
        setting = self.question_setting
        burnt = show_reading(two_ways.view_of(setting).heat[0], "W")
        return (
            f"A load takes {show(setting.current, 'A')} at {show(setting.load_voltage, 'V')} from"
            f" {show(setting.voltage, 'V')}. The resistor before it turned {burnt} into heat. How much heat does a"
            " capacitor in its place make?",
            {
                "all": f"As much, {burnt}: the volts have to go somewhere.",
                "half": "About half of it.",
                "none": "Next to nothing.",
            },
        )

    def verdict(self) -> tuple[str, str]:
        resistor, capacitor = two_ways.view_of(self.question_setting).heat
        share = capacitor / resistor
        return "none" if share < 0.1 else "half" if share < 0.7 else "all", (
            f"The resistor makes {show_reading(resistor, 'W')} of heat, the capacitor {show_reading(capacitor, 'W')}:"
            " its power swings as far below zero as above."
        )

    def make_sliders(self, setting: TwoWays) -> dict[str, widgets.Widget]:
        return {
            "voltage": sliders.linear("mains voltage", setting.voltage, "V", 90.0, 264.0, 1.0),
            "frequency": sliders.linear("mains frequency", setting.frequency, "Hz", 45.0, 65.0, 1.0),
            "load_voltage": sliders.linear("load voltage", setting.load_voltage, "V", 5.0, 85.0, 1.0),
            "current": sliders.stepped("load current", setting.current, "A", 2e-3, 0.1),
            "dissipation_factor": sliders.linear(
                "dissipation factor", setting.dissipation_factor, "", 0.0, 0.02, 0.0005, 4
            ),
            "phase": sliders.linear("moment", setting.phase, "°", 0.0, 360.0, 5.0),
        }
