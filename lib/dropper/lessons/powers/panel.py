"""The panel on watts, volt-amperes and what lies between them."""

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
        own = view.view_of(self.own)
        of = f"of the {self.own.name} is {own.result.power_factor:.2f}" if own.parts else "of such a lamp is near 0.3"
        return (
            f"The power factor {of}. What does that mean?",
            {
                "waste": "most of the power is wasted as heat",
                "lag": "the current lags behind the voltage, as a motor's does",
                "lead": "the current runs ahead of the voltage, and flows in pieces",
            },
        )

    def verdict(self) -> tuple[str, ...]:
        own = view.view_of(self.asked)
        if own.parts is None:
            return "", "This lamp stays dark: there is no lamp's power to take apart."
        led = own.result.heat["leds"] / own.result.real_power
        right, more = ("lead", ": little is wasted") if led > 0.5 else ("waste", "")
        return right, (
            f"{100 * led:.0f} % of the {show_reading(own.parts.real, 'W')} that it takes reach the LEDs{more}."
            f" Beside them, at right angles, stand {show_reading(abs(own.parts.reactive), 'var')} of a current that leads"
            f" and {show_reading(own.parts.current_distortion, 'var')} of its harmonics; together they make"
            f" {show_reading(own.result.apparent_power, 'VA')}."
        )

    def make_sliders(self, own: Lamp):
        return sliders.of_lamp(own, "mains.voltage", "dropper", "string.in_series", "smoothing", "inrush_resistor")
