"""Ghost-light view: what passes a switch that is off, through the cable's capacitance or the switch's own."""

from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...results.explain import clamped_voltage
from ...results.light import Light, light_of
from ...results.reading import Reading
from ...solver.steady import SteadyState, spread, steady_state, steady_states

METRE = 100e-12  # F a metre between two wires of a cable; typical practice, no source
SEEN = 1e-5  # A through an LED: what people notice in a dark room; typical practice, no source
LEAST, MOST = 2.0, 200.0  # m
_LEAST_VOLTS = 1.0
_NOTE = "By the solver, with the open switch as a capacitor in series and the cure as a divider with it."


@documented
@dataclass(frozen=True)
class OffLamp:
    """A lamp that is switched off, and what lies across its switch."""

    lamp: Lamp
    length: float = quantity("m", LEAST, MOST, 20.0, meaning="cable on which a live wire runs beside the switched one")
    leakage: float = quantity("F", 1e-10, 1e-6, 0.0, zero=True, meaning="capacitor across an electronic switch")
    cure: float = quantity("F", 1e-9, 1e-5, 0.0, zero=True, meaning="capacitor across the lamp's terminals")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)

    @property
    def across(self) -> float:
        """Capacitance across the open switch, F."""
        return self.length * METRE + self.leakage

    def fed(self, across: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Volts and dropper, V and F, of the lamp on a plain mains that does the same as so many farads in series."""
        series = across + self.cure
        volts = self.lamp.mains.voltage * across / series
        return np.maximum(volts, _LEAST_VOLTS), series * self.lamp.dropper / (series + self.lamp.dropper)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The lamp that is off, and what a longer or shorter cable would do."""

    setting: OffLamp
    result: SteadyState
    whole: SteadyState = about("of the lamp that is on")
    led: float = about("mean current of an LED", "A")
    lengths: np.ndarray = about("of the curve", "m")
    currents: np.ndarray = about("mean current of an LED at each of them", "A")
    readings: tuple

    @property
    def seen(self) -> bool:
        """Whether people notice it in a dark room."""
        return self.led >= SEEN

    @property
    def glow(self) -> Light:
        """The light through a period."""
        return light_of(self.result.lamp, self.result)


def view_of(setting: OffLamp) -> View:
    """What passes while the switch is off."""
    bare = setting.lamp.replace(bleeder=None)  # a cable of nanofarads has megohms, beside which the bleeder is nothing
    volts, dropper = setting.fed(np.array([setting.across]))
    off = bare.replace(mains__voltage=float(volts[0]), dropper=float(dropper[0]))
    result, whole = steady_state(off), steady_state(setting.lamp)
    lengths = np.geomspace(LEAST, MOST, 25)
    curve_volts, curve_droppers = setting.fed(lengths * METRE + setting.leakage)
    curve = steady_states(spread(bare, {"mains.voltage": curve_volts, "dropper": curve_droppers}))
    return View(
        setting=setting,
        result=result,
        whole=whole,
        led=result.led_current_mean,
        lengths=lengths,
        currents=np.maximum(curve.led_current_mean, 1e-12),
        readings=_readings(setting, result, whole),
    )


def _readings(setting, result, whole):
    def of(key, name, value, unit):
        return Reading(key, name, value, unit, "", note=_NOTE)

    peak = float(np.sqrt(2)) * result.lamp.mains.voltage
    known = {
        "frequency": result.lamp.mains.frequency,
        "dropper": result.lamp.dropper,
        "peak_voltage": peak,
        "clamped_voltage": min(clamped_voltage(result.lamp, result), peak * (1 - 1e-9)),
    }
    charge = ("mean_string_current", known)
    return (
        Reading("string_current_mean", "string current, mean", result.string_current_mean, "A", *charge, note=_NOTE),
        of("led_current", "current of an LED, mean", result.led_current_mean, "A"),
        of("across", "capacitance across the open switch", setting.across, "F"),
        of("line_current_rms", "line current, rms", result.line_current_rms, "A"),
        of("bus_voltage_mean", "bus voltage, mean", result.bus_voltage_mean, "V"),
        of("led_whole", "current of an LED while the lamp is on", whole.led_current_mean, "A"),
    )


def outcome(setting: OffLamp) -> tuple[str, str]:
    """What the lamp does while it is off, "dark" or "glows", and a sentence with its figures."""
    found = view_of(setting)
    words = (
        f"{show(setting.across, 'F')} lie across the open switch, and {show(found.led, 'A', 2)} pass through each LED:"
        f" {100 * found.led / found.whole.led_current_mean:.2g} % of what flows when it is on."
    )
    return ("glows", f"{words} In a dark room that is seen.") if found.seen else ("dark", f"{words} It looks dark.")
