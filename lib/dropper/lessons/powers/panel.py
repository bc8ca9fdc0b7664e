"""Powers panel: watts, volt-amperes and what lies between them."""

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view


class Powers(LampPanel):
    """Watts, volt-amperes and what lies between them."""

    picture, lesson = figure, view
    decisive = ("string.in_series",)

    def question(self) -> tuple[str, dict[str, str]]:
        first = view.view_of(self.initial)
        of = (
            f"of the {self.initial.name} is {first.result.power_factor:.2f}"
            if first.parts
            else "of such a lamp is near 0.3"
        )
        return (
            f"The power factor {of}. What does that mean?",
            {
                "waste": "most of the power is wasted as heat",
                "lag": "the current lags behind the voltage, as a motor's does",
                "lead": "the current runs ahead of the voltage, and flows in pieces",
            },
        )

    def verdict(self) -> tuple[str, str]:
        first = view.view_of(self.question_setting)
        if first.parts is None:
            return "", "This lamp stays dark: there is no lamp's power to take apart."
        led = first.result.heat["leds"] / first.result.real_power
        right, more = ("lead", ": little is wasted") if led > 0.5 else ("waste", "")
        return right, (
            f"{100 * led:.0f} % of the {show_reading(first.parts.real, 'W')} that it takes reach the LEDs{more}."
            f" Beside them, at right angles, stand {show_reading(abs(first.parts.reactive), 'var')} of a current that"
            f" leads and {show_reading(first.parts.current_distortion, 'var')} of its harmonics; together they make"
            f" {show_reading(first.result.apparent_power, 'VA')}."
        )

    def make_sliders(self, setting: Lamp) -> dict[str, widgets.Widget]:
        return sliders.of_lamp(setting, "mains.voltage", "dropper", "string.in_series", "smoothing", "inrush_resistor")
