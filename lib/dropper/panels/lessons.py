"""The lessons' panels: one for each of the first five questions of the course."""

from pathlib import Path

import ipywidgets as widgets

from ..figures import conduction as conduction_picture
from ..figures import load_line as load_line_picture
from ..figures import powers as powers_picture
from ..figures import smoothing as smoothing_picture
from ..figures import two_ways as two_ways_picture
from ..lamp import Lamp
from ..lessons import conduction, load_line, powers, smoothing, two_ways
from ..reading import written
from ..values import show
from . import controls
from .lampbox import LampBox
from .stand import Stand


class ResistorOrCapacitor(Stand):
    """One load fed through a resistor and through a capacitor, side by side.

    Parameters
    ----------
    setting : TwoWays, optional
        The load to start with.
    ask : bool
        Ask for a prediction before the sliders wake.
    """

    picture = two_ways_picture
    decisive = ("load_voltage",)

    def __init__(self, setting=None, ask=True):
        super().__init__(setting or two_ways.TwoWays(), ask)

    def question(self):
        own = two_ways.look(self.own)
        mains, load = self.own.voltage, self.own.load_voltage
        return (
            f"The mains is {show(mains, 'V')} and the load keeps {show(load, 'V')} of it. How many volts stand across"
            " the capacitor?",
            {
                "difference": f"{mains - load:.0f} V, the rest",
                "right": f"{own.dropper_voltage:.0f} V",
                "mains": f"{mains:.0f} V, all of it",
            },
        )

    def verdict(self):
        own = two_ways.look(self.own)
        return (
            f"Across the capacitor stand {written(own.dropper_voltage, 'V')}: volts a quarter of a period apart add as"
            f" the sides of a right-angled triangle. Only the resistor drops the plain difference, and it pays with"
            f" {written(own.heat[0], 'W')} of heat."
        )

    def knobs(self, own):
        return {
            "voltage": controls.linear("mains voltage", own.voltage, "V", 90.0, 264.0, 1.0),
            "frequency": controls.linear("mains frequency", own.frequency, "Hz", 45.0, 65.0, 1.0),
            "load_voltage": controls.linear("load voltage", own.load_voltage, "V", 5.0, 85.0, 1.0),
            "current": controls.stepped("load current", own.current, "A", 2e-3, 0.1),
            "dissipation_factor": controls.linear(
                "dissipation factor", own.dissipation_factor, "", 0.0, 0.02, 0.0005, ".4f"
            ),
            "phase": controls.linear("moment", own.phase, "°", 0.0, 360.0, 5.0),
        }

    def look(self, setting):
        return two_ways.look(setting)

    def readings(self, view):
        return view.readings


class OfALamp(Stand):
    """A panel that starts from a lamp file and offers the files beside it.

    Parameters
    ----------
    path : str or Path
        The lamp file.
    ask : bool
        Ask for a prediction before the sliders wake.
    """

    lesson = None

    def __init__(self, path, ask=True):
        self._path = Path(path)
        super().__init__(self.seen(Lamp.from_toml(path)), ask)

    def seen(self, lamp):
        """The setting in which a lamp is looked at."""
        return lamp

    def head(self):
        return [LampBox(self._path.parent, self._path.name, lambda lamp: self.put(self.seen(lamp)), self.complain)]

    def look(self, setting):
        return self.lesson.look(setting)

    def readings(self, view):
        return view.readings


class LoadLine(OfALamp):
    """What sets the current: load line, string and power."""

    picture, lesson = load_line_picture, load_line
    decisive = ("string.in_series",)

    def question(self):
        return (
            "Half of the LEDs are bridged with a wire. What happens to the current through the others?",
            {
                "same": "it stays: this is a constant-current supply",
                "some": "it rises somewhat",
                "double": "it doubles: half the resistance",
            },
        )

    def verdict(self):
        before, after = load_line.half_bridged(self.own)
        if load_line.look(self.own).dark:
            return f"This lamp stays dark; with half its LEDs {written(after, 'A')} would flow."
        return (
            f"With half the LEDs the string current goes from {written(before, 'A')} to {written(after, 'A')},"
            f" {100 * (after / before - 1):+.0f} %: the operating point slides along a straight load line."
        )

    def knobs(self, own):
        led = own.string.led
        return {
            "mains.voltage": controls.linear("mains voltage", own.mains.voltage, "V", 90.0, 264.0, 1.0),
            "mains.frequency": controls.linear("mains frequency", own.mains.frequency, "Hz", 45.0, 65.0, 1.0),
            "dropper": controls.stepped("dropper C1", own.dropper, "F", 68e-9, 4.7e-6),
            "string.in_series": controls.linear("LEDs in series", own.string.in_series, "", 1, 100, 1),
            "string.led.forward_voltage": controls.linear(
                "LED forward voltage", led.forward_voltage, "V", 1.6, 3.6, 0.1, ".1f"
            ),
        }


class Conduction(OfALamp):
    """Which diodes conduct now: the path of a moment, lit in the circuit."""

    picture, lesson = conduction_picture, conduction
    decisive = ("phase",)

    def __init__(self, path, ask=True):
        self._circuit = widgets.HTML()
        super().__init__(path, ask)

    def seen(self, lamp):
        return conduction.Moment(lamp)

    def pictured(self):
        return [self._circuit, self._stack, self._said]

    def question(self):
        return (
            "The mains rises through zero at 0°. When do D1 and D4 begin to conduct in this lamp?",
            {
                "with": "at 0°, with the mains",
                "later": "after 0°, once the mains is above the string's voltage",
                "before": "before 0°, while the mains is still negative",
            },
        )

    def verdict(self):
        own = conduction.look(self.own)
        if own.result.dark:
            return "In this lamp they never do: it stays dark."
        when = "before" if own.start < -1 else "after" if own.start > 1 else "just at"
        return (
            f"They begin at {written(own.start, '°')}, {when} the rise through zero, and stop at"
            f" {written(own.end, '°')}: the charged dropper stands in series with the mains and adds its volts."
        )

    def knobs(self, own):
        lamp = own.lamp
        return {
            "phase": controls.linear("moment in the cycle", own.phase, "°", 0.0, 360.0, 2.0),
            "lamp.mains.voltage": controls.linear("mains voltage", lamp.mains.voltage, "V", 90.0, 264.0, 1.0),
            "lamp.dropper": controls.stepped("dropper C1", lamp.dropper, "F", 68e-9, 4.7e-6),
            "lamp.smoothing": controls.stepped("smoothing C2", lamp.smoothing, "F", 1e-6, 100e-6, 6, zero=True),
            "lamp.string.in_series": controls.linear("LEDs in series", lamp.string.in_series, "", 1, 100, 1),
        }

    def _show(self, view):
        super()._show(view)
        self._circuit.value = conduction_picture.circuit(view)


class Smoothing(OfALamp):
    """How much the light wavers, and how many microfarads are enough."""

    picture, lesson = smoothing_picture, smoothing
    decisive = ("smoothing",)

    def question(self):
        own = self.own
        return (
            f"{show(own.smoothing, 'F')} smooth the light of this lamp. How many would bring its flicker down to the"
            f" low-risk line of IEEE 1789, {smoothing.look(own).low_risk:.3g} %?",
            {
                "enough": "these are enough",
                "twice": "about twice as many",
                "many": "several times as many",
            },
        )

    def verdict(self):
        own = smoothing.look(self.own)
        if own.result.dark:
            return "This lamp stays dark: there is nothing to smooth."
        if own.enough[0] != own.enough[0]:
            return "Not even a millifarad does it in this lamp."
        times = own.enough[0] / self.own.smoothing if self.own.smoothing else None
        told = f", {times:.1f} times what is fitted" if times else ""
        return f"It takes {written(own.enough[0], 'F')}{told}: the string's dynamic resistance is small."

    def knobs(self, own):
        led = own.string.led
        return {
            "smoothing": controls.stepped("smoothing C2", own.smoothing, "F", 1e-6, 1e-3, 6, zero=True),
            "string.in_series": controls.linear("LEDs in series", own.string.in_series, "", 1, 100, 1),
            "string.led.series_resistance": controls.linear(
                "series resistance of an LED", led.series_resistance, "Ω", 0.0, 60.0, 1.0
            ),
            "series_resistor": controls.stepped(
                "series resistor R4", own.series_resistor, "Ω", 10, 1000, 6, zero=True
            ),
            "dropper": controls.stepped("dropper C1", own.dropper, "F", 68e-9, 4.7e-6),
            "mains.frequency": controls.linear("mains frequency", own.mains.frequency, "Hz", 45.0, 65.0, 1.0),
        }


class Powers(OfALamp):
    """Watts, volt-amperes and what lies between them."""

    picture, lesson = powers_picture, powers
    decisive = ("string.in_series",)

    def question(self):
        factor = powers.look(self.own).result.power_factor
        return (
            f"The power factor of this lamp is {factor:.2f}. What does that mean?",
            {
                "waste": "most of the power is wasted as heat",
                "lag": "the current lags behind the voltage, as a motor's does",
                "lead": "the current runs ahead of the voltage, and flows in pieces",
            },
        )

    def verdict(self):
        own = powers.look(self.own)
        if own.parts is None:
            return "This lamp stays dark, and no current to speak of flows."
        led = own.result.heat["leds"] / own.result.real_power
        return (
            f"{100 * led:.0f} % of the {written(own.parts.real, 'W')} that it takes reach the LEDs: little is wasted."
            f" The rest of the {written(own.result.apparent_power, 'VA')} only swings to and fro:"
            f" {written(abs(own.parts.reactive), 'var')} with a current that leads, and"
            f" {written(own.parts.current_distortion, 'VA')} with its harmonics."
        )

    def knobs(self, own):
        return {
            "mains.voltage": controls.linear("mains voltage", own.mains.voltage, "V", 90.0, 264.0, 1.0),
            "dropper": controls.stepped("dropper C1", own.dropper, "F", 68e-9, 4.7e-6),
            "string.in_series": controls.linear("LEDs in series", own.string.in_series, "", 1, 100, 1),
            "smoothing": controls.stepped("smoothing C2", own.smoothing, "F", 1e-6, 100e-6, 6, zero=True),
            "inrush_resistor": controls.stepped("inrush resistor R1", own.inrush_resistor, "Ω", 10, 2200, 6, zero=True),
        }
