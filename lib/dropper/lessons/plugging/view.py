"""Plugging view: the first rush of current, and what is left after pulling out: in the dropper, between the pins."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...bench import residual
from ...bench.meter.multimeter import Multimeter
from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...results.reading import Reading
from ...solver.transient import LINE_INDUCTANCE, LINE_RESISTANCE, Trace, plug_in, unplug

_ANGLES = np.arange(0.0, 361.0, 5.0)
SECONDS = 6.0  # how long the lamp is followed after unplugging
METER_OHMS = Multimeter().input_resistance
_HUM = 0.05  # V: what is less, a meter on a range of hundreds of volts shows as nothing
LIMIT = 34.0  # V, of the rules for household appliances
NO_PROOF = "0 V between the pins does not prove the dropper empty."
_NO_BLEEDER = "No bleeder is fitted: nothing empties the dropper."
_IMPEDANCE = (
    "The mains is taken to have the reference impedance, 0.4 Ω and 0.8 mH. One with less inductance lets more through,"
    " up to the step over the resistance."
)
_NO_STEP = "The mains stands just where the dropper does: no step, and no rush. What flows is the lamp's own current."
_BUS_NOTE = (
    "The LEDs take it down to where they hardly conduct; from there on the bleeder across the smoothing capacitor"
    " empties it, or nothing does."
)


@documented
@dataclass(frozen=True)
class Plugging:
    """A lamp, when it is plugged in and with what on its dropper, and when it is pulled out."""

    lamp: Lamp
    angle: float = quantity("°", 0, 360, 90.0, meaning="angle of the mains at which it is plugged in")
    precharge: float = quantity("V", -1500, 1500, 0.0, meaning="volts left on the dropper from before")
    pulled: float = quantity("°", 0, 360, 90.0, meaning="angle of the mains at which it is pulled out")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The first moments, the peak at every angle, and the time after unplugging."""

    setting: Plugging
    rush: Trace
    window: float = about("the part of the rush that is worth showing", "s")
    angles: np.ndarray
    peaks: np.ndarray = about("peak of the rush by the closed form, at each angle", "A")
    peak: float = about("peak of the rush by the solver", "A")
    fade: Trace = about("After unplugging, nothing between the pins: what dropper and bus hold.")
    metered: Trace = about("After unplugging, a meter of `METER_OHMS` between the pins.")
    residual: residual.Residual
    readings: tuple


def view_of(setting: Plugging) -> View:
    """What a setting shows.

    Raises
    ------
    ValueError
        If nothing is left to limit the inrush, or the precharge is out of reach.
    """
    lamp = setting.lamp
    limiting = {
        "inrush_resistor": lamp.inrush_resistor + LINE_RESISTANCE,
        "dropper": lamp.dropper,
        "line_inductance": LINE_INDUCTANCE,
    }
    turn = 2 * np.pi * np.sqrt(LINE_INDUCTANCE * lamp.dropper)
    rush = plug_in(lamp, setting.angle, setting.precharge, periods=0.5)
    fade, metered = (unplug(lamp, setting.pulled, SECONDS, across) for across in (None, METER_OHMS))
    steps = np.abs(lamp.mains.peak * np.sin(np.radians(_ANGLES)) - setting.precharge)
    left = volts_after(fade, "dropper", 0.0)
    return View(
        setting=setting,
        rush=rush,
        window=min(max(8 * limiting["inrush_resistor"] * lamp.dropper, 3 * turn), 0.01),
        angles=_ANGLES,
        peaks=steps * theory.ALL[theory.rush_law(**limiting)](step_voltage=1.0, **limiting),
        peak=rush.line_current_peak,
        fade=fade,
        metered=metered,
        residual=residual.judge(lamp.dropper, lamp.bleeder, max(lamp.mains.peak, 1.0)),
        readings=_readings(setting, rush, fade, metered, limiting, left),
    )


def _readings(setting, rush, fade, metered, limiting, left):
    lamp = setting.lamp
    law = theory.rush_law(**limiting)
    worst = limiting | {"step_voltage": theory.replug_step(peak_voltage=lamp.mains.peak)}
    return (
        *_rush_readings(setting, rush, limiting),
        Reading("replug", "worst re-plug, peak", theory.ALL[law](**worst), "A", law, worst, True, note=_IMPEDANCE),
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


def _rush_readings(setting, rush, limiting):
    lamp = setting.lamp
    step = abs(lamp.mains.peak * np.sin(np.radians(setting.angle)) - setting.precharge)
    peak = "inrush_peak", "peak of the rush", rush.line_current_peak, "A"
    heat = "inrush_energy", "heat of the rush in R1", rush.inrush_energy, "J"
    if step <= 1e-6 * lamp.mains.peak:
        return tuple(Reading(*which, "", note=_NO_STEP) for which in (peak, heat))
    driven = limiting | {"step_voltage": float(step)}
    in_time = Reading(*peak, theory.rush_law(**limiting), driven, note=_IMPEDANCE)
    if not lamp.inrush_resistor:
        return in_time, Reading(*heat, "", note="No inrush resistor is fitted, so none gets warm.")
    energy = {name: driven[name] for name in ("inrush_resistor", "dropper", "step_voltage")}
    return in_time, Reading(*heat, "inrush_energy", energy)


def _held_reading(lamp, fade, left):
    """What the dropper holds after a second, nothing on the pins: what a bleeder is chosen by."""
    which = "held", "the dropper holds after 1 s", volts_after(fade, "dropper"), "V"
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
