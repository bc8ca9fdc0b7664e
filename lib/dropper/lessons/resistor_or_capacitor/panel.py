"""Resistor-or-capacitor panel: where the voltage goes: one load, fed through each of the two."""

import ipywidgets as widgets

from ...circuit.values import show, show_reading
from ..kit import sliders
from ..kit.panel import Panel
from . import figure
from . import view as two_ways
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

    picture, lesson = figure, two_ways
    decisive = ("load_voltage",)

    def __init__(self, setting: TwoWays | None = None, ask: bool = True):
        super().__init__(setting or two_ways.TwoWays(), ask)

    def question(self) -> tuple[str, dict[str, str]]:
        first = two_ways.view_of(self.initial)
        mains, load = self.initial.voltage, self.initial.load_voltage
        return (
            f"The mains is {show(mains, 'V')} and the load keeps {show(load, 'V')} of it. How many volts stand across"
            " the capacitor?",
            {
                "difference": f"{mains - load:.0f} V, the rest",
                "right": f"{first.dropper_voltage:.0f} V",
                "mains": f"{mains:.0f} V, all of it",
            },
        )

    def verdict(self) -> tuple[str, str]:
        first = two_ways.view_of(self.question_setting)
        return "right", (
            f"Across the capacitor stand {show_reading(first.dropper_voltage, 'V')}: volts a quarter of a period apart"
            " add as"
            f" the sides of a right-angled triangle. Only the resistor drops the plain difference, and it pays with"
            f" {show_reading(first.heat[0], 'W')} of heat."
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
