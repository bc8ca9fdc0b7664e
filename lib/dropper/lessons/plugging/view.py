"""Plugging view: what is left after pulling out: in the dropper, on the bus, between the pins."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...bench import residual
from ...bench.meter.multimeter import Multimeter
from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show
from ...results.reading import Reading
from ...solver.transient import Trace, unplug

HOUR, PINS_TIME = 3600.0, 1.5  # s after the pull, of the questions
SECONDS = 6.0  # how long the lamp is followed after unplugging
METER_OHMS = Multimeter().input_resistance
_HUM = 0.05  # V: what is less, a meter on a range of hundreds of volts shows as nothing
LIMIT = 34.0  # V, of the rules for household appliances
NO_PROOF = "0 V between the pins does not prove the dropper empty."
_AT_ONCE = "The dropper keeps the volts that it had when the plug came out. A crest leaves most."
_NO_BLEEDER = "No bleeder is fitted: nothing empties the dropper."
_BUS_NOTE = (
    "The LEDs take it down to where they hardly conduct; from there on the bleeder across the smoothing capacitor"
    " empties it, or nothing does."
)


@documented
@dataclass(frozen=True)
class Plugging:
    """A lamp, and when it is pulled out."""

    lamp: Lamp
    pulled: float = quantity("°", 0, 360, 90.0, meaning="angle of the mains at which it is pulled out")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The time after unplugging."""

    setting: Plugging
    fade: Trace = about("After unplugging, nothing between the pins: what dropper and bus hold.")
    metered: Trace = about("After unplugging, a meter of `METER_OHMS` between the pins.")
    residual: residual.Residual
    readings: tuple


def view_of(setting: Plugging) -> View:
    """What a setting shows."""
    lamp = setting.lamp
    fade, metered = (unplug(lamp, setting.pulled, SECONDS, across) for across in (None, METER_OHMS))
    left = volts_after(fade, "dropper", 0.0)
    return View(
        setting=setting,
        fade=fade,
        metered=metered,
        residual=residual.judge(lamp.dropper, lamp.bleeder, max(lamp.mains.peak, 1.0)),
        readings=_readings(setting, fade, metered, left),
    )


def _readings(setting, fade, metered, left):
    lamp = setting.lamp
    return (
        Reading("at_once", "the dropper holds at once", left, "V", "", note=_AT_ONCE),
        Reading(
            "charge",
            "charge on the dropper when pulled",
            fade.residual_charge(),
            "C",
            "stored_charge",
            {"dropper": lamp.dropper, "initial_voltage": max(left, 1e-9)},
        ),
        _held_reading(lamp, fade, left),
        _pins_reading(lamp, metered),
        Reading("bus", "on the bus after 1 s", volts_after(fade, "bus"), "V", "", note=_BUS_NOTE),
        _time_reading(lamp, left),
        _bleeder_reading(lamp),
    )


def _held_reading(lamp, fade, left):
    """What the dropper holds after a second, nothing on the pins: what a bleeder is chosen by."""
    which = "held", "dropper voltage after 1 s", volts_after(fade, "dropper"), "V"
    if lamp.bleeder is None or left < 1e-3:
        return Reading(*which, "", note=_NO_BLEEDER if lamp.bleeder is None else "It held nothing when pulled.")
    decay = {"bleeder": lamp.bleeder, "dropper": lamp.dropper, "initial_voltage": left, "time": 1.0}
    return Reading(*which, "residual_voltage", decay, note=f"Between the pins a meter shows less. {NO_PROOF}")


def _pins_reading(lamp, metered):
    pins, held, bus = (volts_after(metered, where) for where in ("pins", "dropper", "bus"))
    which = "pins", "between the pins after 1 s, by a meter", pins if pins >= _HUM else 0.0, "V"
    diode = lamp.diode.voltage_at(pins / METER_OHMS)
    if pins < 0.5 or held <= bus + 2 * diode:
        note = f"The bus, at {show(bus, 'V')}, stands against the dropper, which holds {show(held, 'V')}. {NO_PROOF}"
        return Reading(*which, "", note=note)
    loop = {"dropper_voltage": held, "bus_voltage": bus, "diode_voltage": diode}
    return Reading(*which, "pins_voltage", loop, from_readings=True, note=NO_PROOF)


def _time_reading(lamp, left):
    which = "to_limit", f"until the dropper is down to {LIMIT:.0f} V"
    if left <= LIMIT:
        return Reading(*which, 0.0, "s", "", note="It holds no more than that from the start.")
    if lamp.bleeder is None:
        return Reading(*which, float("inf"), "s", "", note=_NO_BLEEDER)
    decay = {"bleeder": lamp.bleeder, "dropper": lamp.dropper, "initial_voltage": left, "limit_voltage": LIMIT}
    return Reading(*which, theory.discharge_time(**decay), "s", "discharge_time", decay, True)


def _bleeder_reading(lamp):
    which = "bleeder", f"largest bleeder for {LIMIT:.0f} V in 1 s"
    if lamp.mains.peak <= LIMIT:
        return Reading(*which, float("nan"), "Ω", "", note="This mains never stands higher: no bleeder is asked for.")
    rule = {"time": 1.0, "dropper": lamp.dropper, "initial_voltage": lamp.mains.peak, "limit_voltage": LIMIT}
    return Reading(*which, theory.largest_bleeder(**rule), "Ω", "largest_bleeder", rule, True)


def volts_after(trace: Trace, where: str, seconds: float = 1.0) -> float:
    """Volts so long after unplugging, either way round.

    Parameters
    ----------
    where
        "pins", "dropper" or "bus".
    """
    waves = {"pins": trace.pins_voltage, "dropper": trace.dropper_voltage, "bus": trace.bus_voltage}
    since = trace.time >= 0
    return float(np.interp(seconds, trace.time[since], np.abs(waves[where][since])))


def held_voltage(lamp: Lamp, angle: float) -> float:
    """Volts that the dropper holds just after unplugging at an angle of the mains, in degrees."""
    return volts_after(unplug(lamp, angle, 0.01), "dropper", 0.0)


def bleeder_verdict(lamp: Lamp) -> tuple[str, str]:
    """What the dropper of a lamp without its bleeder holds an hour after a pull: an answer's key, and a sentence."""
    without = replace_at(lamp, "bleeder", None)
    first, held = (volts_after(unplug(without, 90.0, seconds), "dropper", seconds) for seconds in (0.01, HOUR))
    right = "all" if held > 0.9 * first else "some" if held > 0.1 * first else "leds"
    words = f"Without a bleeder the dropper holds {show(first, 'V')} at the pull, and {show(held, 'V')} an hour later."
    if lamp.bleeder:
        second = volts_after(unplug(lamp, 90.0, 1.0), "dropper", 1.0)
        words += f" With {show(lamp.bleeder, 'Ω')} it holds {show(second, 'V')} after one second."
    return right, f"{words} The light is the same with and without."


def pins_verdict(lamp: Lamp) -> tuple[str, str]:
    """What the dropper holds a second and a half after a pull, with a meter between the pins: a key, and a sentence."""
    pins, held, bus = _metered(lamp)
    places = {"same": pins, "diodes": pins + 2, "much": 20.0}
    return min(places, key=lambda key: abs(places[key] - held)), (
        f"The meter shows {show(pins, 'V', 2)}; the dropper holds {show(held, 'V', 2)}, and the bus, at"
        f" {show(bus, 'V', 2)}, stands against it. {NO_PROOF}"
    )


def pins_then(lamp: Lamp) -> str:
    """What a meter between the pins shows a second and a half after a pull, as people say it."""
    return f"{_metered(lamp)[0]:.0f} V"


def _metered(lamp):
    trace = unplug(lamp, 90.0, PINS_TIME, across=METER_OHMS)
    return [volts_after(trace, where, PINS_TIME) for where in ("pins", "dropper", "bus")]
