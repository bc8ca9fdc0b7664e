"""The panel on plugging in and pulling out: the first rush, and what is left on the pins."""

from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure, view


class Plugging(LampPanel):
    """The first rush of current, and what is left on the pins; see `LampPanel`."""

    picture, lesson = figure, view
    decisive = ("pulled",)

    def seen(self, lamp: Lamp) -> view.Plugging:
        return view.Plugging(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The {self.own.lamp.name} is unplugged. At which moment does most stay between the pins of its plug?",
            {
                "crest": "at a crest of the mains",
                "zero": "where the mains passes zero",
                "never": "never much: the LEDs empty it",
            },
        )

    def verdict(self) -> tuple[str, ...]:
        lamp = self.asked.lamp
        crest, zero = (view.left_on_the_pins(lamp, angle) for angle in (90.0, 0.0))
        return "crest" if crest > zero else "zero", (
            f"Pulled out at a crest, {show_reading(crest, 'V')} stand between the pins; at zero, {show_reading(zero, 'V')}. The"
            " bridge blocks the way to the LEDs: only the bleeder empties the dropper."
        )

    def make_sliders(self, own: view.Plugging):
        lamp, peak = own.lamp, round(own.lamp.mains.peak)
        parts = sliders.of_lamp(lamp, "inrush_resistor", "dropper", "bleeder", within="lamp.")
        return {
            "angle": sliders.linear("plugged in at", own.angle, "°", 0.0, 360.0, 5.0),
            "precharge": sliders.linear("left on the dropper", own.precharge, "V", -float(peak), float(peak), 5.0),
            "pulled": sliders.linear("pulled out at", own.pulled, "°", 0.0, 360.0, 5.0),
            **parts,
        }
