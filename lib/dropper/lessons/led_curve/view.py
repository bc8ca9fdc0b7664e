"""LED-curve view: measured points with the curve through them, a kind to compare with, the volts when it is warm."""

import dataclasses
from dataclasses import dataclass

import numpy as np

from ... import theory
from ...bench.led_fit import LedFit, MeasuredPoints, fit_points
from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import THERMAL_VOLTAGE
from ...circuit.series import preferred
from ...circuit.values import show
from ...components.kinds import LedKind, led_kind
from ...results.reading import Reading

ROOM = 25.0  # °C, of the junction while it was measured, as on data sheets
LEAST = 1e-4  # A, the least current that is looked at
BEYOND = 1.25  # times the greatest current: so far the curve is drawn
USUAL = 0.020  # A
_FITTED = "Found by least squares on all points together, so no formula gives it alone."


@documented
@dataclass(frozen=True)
class OwnLed:
    """Measured points, and how they are looked at."""

    measured: MeasuredPoints = about("from `led_fit.read_csv` or `led_fit.check_points`")
    current: float = quantity("A", 1e-5, 20, USUAL, meaning="current at which the curve is read")
    junction_temperature: float = quantity("°C", -40, 150, ROOM, meaning="temperature of the junction")
    junctions: int = quantity("", 1, 40, 1, meaning="junctions in series", whole=True)
    kind: str = about("the name of a kind in `kinds.LEDS`", default="warm white, 5 mm")

    def __post_init__(self):
        check(self)
        check_part(self, "measured", MeasuredPoints)
        led_kind(self.kind)  # says which there are


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The fit and the kind it is compared with, as curves, and the point that is read."""

    setting: OwnLed
    fit: LedFit
    kind: LedKind
    amps: np.ndarray = about("currents of all curves", "A")
    fit_curve: np.ndarray = about("volts of the fitted LED at these currents", "V")
    warm_curve: np.ndarray = about("the same at the junction's temperature", "V")
    kind_curves: dict = about("volts of the kind's least, typical and greatest LED", "V")
    volts: float = about("forward voltage at the current that is read, at 25 °C", "V")
    uncertainty: float = about("standard uncertainty of that", "V")
    warm_volts: float = about("forward voltage there at the junction's temperature", "V")
    readings: tuple


def setting_for(measured: MeasuredPoints, before: OwnLed | None = None) -> OwnLed:
    """The setting in which points are first looked at.

    Parameters
    ----------
    before
        Whose temperature, junctions and kind are kept, and whose current if the points reach it.
    """
    most = greatest_current(measured)
    current = before.current if before else USUAL
    if not LEAST <= current <= most:
        current = preferred(12, most / 10, most)[-1]
    setting = before or OwnLed(measured)
    junctions = min(setting.junctions, most_junctions(measured))
    return dataclasses.replace(setting, measured=measured, current=current, junctions=junctions)


def greatest_current(measured: MeasuredPoints) -> float:
    """The greatest current at which the curve is read, A: a little more than was measured."""
    return max(BEYOND * max(measured.amps), 2 * LEAST)


def most_junctions(measured: MeasuredPoints) -> int:
    """As many junctions in series as the volts allow for, three at least."""
    return max(3, round(max(measured.volts) / 1.5))


def view_of(setting: OwnLed) -> View:
    """What a setting shows.

    Raises
    ------
    ValueError
        If the points, or so many junctions, are no LED's.
    """
    fit, kind = fit_points(setting.measured, None, setting.junctions), led_kind(setting.kind)
    low, high = min(setting.measured.amps), greatest_current(setting.measured)
    amps = np.geomspace(min(low, setting.current), max(high, setting.current), 160)
    fit_curve = _curve(fit.led, amps)
    known = _law(fit.led, setting.current)
    volts = theory.junction_voltage(**known)
    at = {
        "junctions": setting.junctions,
        "voltage_coefficient": kind.coefficient,
        "junction_temperature": setting.junction_temperature,
        "reference_temperature": ROOM,
    }
    warm = theory.warm_forward_voltage(forward_voltage=volts, **at)
    return View(
        setting=setting,
        fit=fit,
        kind=kind,
        amps=amps,
        fit_curve=fit_curve,
        warm_curve=fit_curve + (warm - volts),
        kind_curves={which: _curve(kind.led(which), amps) for which in ("least", "typical", "greatest")},
        volts=volts,
        uncertainty=fit.uncertainty_at(setting.current),
        warm_volts=warm,
        readings=_readings(setting, fit, kind, volts, warm, {"forward_voltage": volts} | at),
    )


def spread_clause(view: View) -> str:
    """Where the LED stands in the spread of the kind, in a clause."""
    least, typical, greatest = (
        view.kind.led(which).voltage_at(view.setting.current) for which in ("least", "typical", "greatest")
    )
    spread = f"{show(typical, 'V')} there at 25 °C, from {show(least, 'V')} to {show(greatest, 'V')}"
    if least <= view.volts <= greatest:
        return f"has {spread}: this one lies within"
    return f"has {spread}: this one lies {'below' if view.volts < least else 'above'}"


def decade_volts(setting: OwnLed) -> tuple[float, ...]:
    """The volts at the current that is read and at a tenth of it, and the volts that a tenfold step takes."""
    led = fit_points(setting.measured, None, setting.junctions).led
    return led.voltage_at(setting.current), led.voltage_at(setting.current / 10), led.slope_voltage * np.log(10)


def _curve(led, amps):
    """Volts of an LED along currents."""
    return led.slope_voltage * np.log1p(amps / led.saturation_current) + led.series_resistance * amps


def _law(led, current):
    """What the junction law takes for an LED at a current."""
    return {
        "ideality": led.ideality,
        "thermal_voltage": THERMAL_VOLTAGE,
        "junction_current": current,
        "saturation_current": led.saturation_current,
        "series_resistance": led.series_resistance,
    }


def _readings(setting, fit, kind, volts, warm, warmth):
    led, current, sure = fit.led, setting.current, fit.uncertainty
    slope = _law(led, current)
    del slope["saturation_current"]
    power = {"string_voltage": warm, "string_current_mean": current}
    typical = kind.led()
    per = theory.dynamic_resistance(**slope)
    return (
        Reading(
            "forward_voltage", "forward voltage at 25 °C", volts, "V", "junction_voltage", _law(led, current), True
        ),
        Reading("uncertainty", "… its standard uncertainty", fit.uncertainty_at(current), "V", "", note=_FITTED),
        Reading("warm_forward_voltage", "forward voltage, warm", warm, "V", "warm_forward_voltage", warmth, True),
        Reading("dynamic_resistance", "dynamic resistance", per, "Ω", "dynamic_resistance", slope, True),
        Reading("power", "power, warm", warm * current, "W", "leds_heat", power, True),
        Reading(
            "compared",
            "typical of the kind",
            typical.voltage_at(current),
            "V",
            "junction_voltage",
            _law(typical, current),
            True,
        ),
        Reading(
            "ideality",
            "ideality",
            led.ideality,
            "",
            "",
            note=f"{_FITTED} ± {sure['ideality']:.2g}; each junction has 1 at least, and near 2 is usual for LEDs.",
        ),
        Reading(
            "series_resistance",
            "series resistance",
            led.series_resistance,
            "Ω",
            "",
            note=f"{_FITTED} ± {show(sure['series_resistance'], 'Ω', 2)}.",
        ),
        Reading(
            "rms",
            "points off the curve, rms",
            fit.rms,
            "V",
            "",
            note=f"Root of the mean square of what the curve leaves of {len(fit.used_points)} points. {fit.sentence}",
        ),
    )
