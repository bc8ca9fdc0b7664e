"""Powers panel: watts, volt-amperes and what lies between them."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view
from .goals import GOALS


class Powers(LampPanel):
    """Watts, volt-amperes and what lies between them."""

    picture, lesson = figure, view
    decisive = ("inrush_resistor",)
    observed = "power_factor"
    covered = True
    goals = GOALS
    causes: Mapping[str, str] = {
        "waste": "What is not watts is no heat either: the dropper takes energy in and gives it back, twice a period.",
        "bill": "A house's meter counts watt-hours. The volt-amperes load wires, not the bill.",
        "lag": "A coil's current lags. A capacitor's is greatest while its voltage changes fastest, before the crest.",
        "fault": "Any sound lamp of this kind with a short string has such a power factor.",
    }

    def question(self) -> tuple[str, dict[str, str]]:
        first = view.view_of(self.initial)
        shown = first.meter_texts
        of = (
            f"A plug-in meter on the {self.initial.name} shows {shown['power']}, {shown['apparent_power']} and a power"
            f" factor of {shown['power_factor']}"
            if first.parts
            else "A plug-in meter on such a lamp shows a power factor near 0.3"
        )
        return (
            f"{of}. What does that mean?",
            {
                "waste": "most of the power is wasted as heat in the lamp",
                "bill": "the bill counts the volt-amperes, several times the watts",
                "lag": "the current lags behind the voltage, as a motor's does",
                "lead": "the current runs ahead of the voltage, and flows in pieces",
                "fault": "something is broken: a sound lamp has nearly 1",
            },
        )

    def verdict(self) -> tuple[str, str]:
        first = view.view_of(self.question_setting)
        if first.parts is None:
            return "", "This lamp stays dark: there is no lamp's power to take apart."
        right = "lead" if first.led_share > 50 else "waste"
        return right, (
            f"The current's fundamental is {first.lead:.0f}° ahead, and current flows for"
            f" {100 * first.result.conduction_fraction:.0f} % of the time. Of the"
            f" {show_reading(first.parts.real, 'W')} that the lamp takes, {first.led_share:.0f} % reach the LEDs."
        )

    def make_sliders(self, setting: Lamp) -> dict[str, widgets.Widget]:
        return sliders.of_lamp(setting, "inrush_resistor", "string.in_series", "dropper", "mains.voltage")
