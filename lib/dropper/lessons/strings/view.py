"""Strings view: current and power against the number of LEDs, and the LED's own curve."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, documented
from ...circuit.lamp import THERMAL_VOLTAGE, Lamp, replace_at
from ...results.compare import why_dark
from ...results.explain import clamped_voltage
from ...results.reading import Reading
from ...solver.steady import spread, steady_state, steady_states

POINTS = 1024  # as every other page, so that a reading is the same number on all of them
MOST = 120  # LEDs in series that a picture shows at the least
_CURVE = 40


@documented
@dataclass(frozen=True, eq=False)
class View:
    """Current and power over the number of LEDs in series, and where the lamp stands."""

    lamp: Lamp
    dark: bool
    why_dark: str = about("in a clause, '' where it is lit")
    counts: np.ndarray = about("LEDs in series")
    current: np.ndarray = about("mean current of the string", "A")
    power: np.ndarray = about("power of the LEDs", "W")
    best: float = about("LEDs of the greatest power by the formula, nan where the diodes alone take half of the peak")
    point: tuple = about("LEDs, A, W of the lamp as it is")
    double_point: tuple = about("the same with twice the LEDs")
    led_curve: tuple = about("volts and amperes of one LED")
    led_point: tuple = about("mean volts and amperes of one LED")
    led_swing: tuple = about("least and greatest current of an LED in the course of a cycle", "A")
    readings: tuple


def view_of(lamp: Lamp) -> View:
    """What a lamp shows."""
    string, led = lamp.string, lamp.string.led
    result = steady_state(lamp, POINTS)
    twice, less = min(2 * string.in_series, 1000), max(string.in_series - 1, 1)
    most = max(MOST, string.in_series)
    counts = np.unique(np.append(np.linspace(1, most, _CURVE).round(), [less, string.in_series, twice]))
    many = steady_states(spread(lamp, {"string.in_series": counts}))
    current, power = many.string_current_mean, many.heat["leds"]
    at_less, at_here, at_twice = np.searchsorted(counts, (less, string.in_series, twice))
    visible = counts <= most
    led_current = result.string_current_mean / string.in_parallel
    top = 1.25 * max(led.at_current, result.string_current_max / string.in_parallel)
    swing = result.string_current_min / string.in_parallel, result.string_current_max / string.in_parallel
    amperes = np.concatenate([np.geomspace(1e-6 * top, 0.02 * top, 12), np.linspace(0.03 * top, top, 40)])
    amperes = np.unique(np.append(amperes, [led_current for led_current in swing if led_current > 1e-6 * top]))
    volts = np.array([led.voltage_at(one) for one in amperes])
    return View(
        lamp=lamp,
        dark=result.dark,
        why_dark=why_dark(lamp, result) if result.dark else "",
        counts=counts[visible],
        current=current[visible],
        power=power[visible],
        best=_best(lamp),
        point=(string.in_series, result.string_current_mean, result.heat["leds"]),
        double_point=(twice, float(current[at_twice]), float(power[at_twice])),
        led_curve=(volts, amperes),
        led_point=(led.voltage_at(led_current), led_current),
        led_swing=swing,
        readings=_readings(
            lamp, result, float(power[at_twice]), at_less < at_here and current[at_less] / current[at_here]
        ),
    )


def with_more_leds(lamp: Lamp, times: int) -> tuple[int, float, bool]:
    """The LEDs' watts with so many times the LEDs in series.

    Returns
    -------
    (int, float, bool)
        LEDs, W, and whether the lamp stays dark.
    """
    more = replace_at(lamp, "string.in_series", min(times * lamp.string.in_series, 1000))
    result = steady_state(more, POINTS)
    return more.string.in_series, result.heat["leds"], result.dark


def _best(lamp):
    try:
        return theory.in_series_of_greatest_power(**_two(lamp))
    except ValueError:
        return float("nan")


def _two(lamp):
    """Peak, and what an LED and a diode drop at about the current in use."""
    return {
        "peak_voltage": lamp.mains.peak,
        "forward_voltage": lamp.string.led.forward_voltage,
        "diode_voltage": lamp.diode.forward_voltage,
    }


def _readings(lamp, result, watts_at_twice, times_at_bridge):
    peak, string, led = lamp.mains.peak, lamp.string, lamp.string.led
    source = {"frequency": lamp.mains.frequency, "dropper": lamp.dropper, "peak_voltage": peak}
    best = _best(lamp)
    most = [
        Reading("best", "LEDs for the greatest power", best, "", "in_series_of_greatest_power", _two(lamp), True)
        if best == best
        else Reading(
            "best",
            "LEDs for the greatest power",
            best,
            "",
            "",
            note="The two diodes alone take half of the mains' peak.",
        ),
        Reading(
            "greatest_power",
            "the most this dropper gives",
            theory.greatest_power(**source),
            "W",
            "greatest_power",
            source,
            True,
        ),
    ]
    if result.dark:
        return tuple(most)
    clamped = min(clamped_voltage(lamp, result), peak * (1 - 1e-9))
    clamp = source | {"clamped_voltage": clamped}
    mean = result.string_current_mean
    led_current = mean / string.in_parallel
    curve = {
        "junction_current": led_current,
        "saturation_current": led.saturation_current,
        "ideality": led.ideality,
        "series_resistance": led.series_resistance,
        "thermal_voltage": THERMAL_VOLTAGE,
    }
    slope = {name: curve[name] for name in ("junction_current", "ideality", "series_resistance", "thermal_voltage")}
    twice = {"peak_voltage": peak, "clamped_voltage": clamped, "times_leds": 2.0}
    rows = [
        Reading(
            "clamped_voltage",
            "clamped voltage D",
            clamped,
            "V",
            "clamped_voltage",
            {"string_voltage": result.bus_voltage_mean, "diode_voltage": (clamped - result.bus_voltage_mean) / 2},
            True,
        ),
        Reading("string_current_mean", "string current, mean", mean, "A", "mean_string_current", clamp),
        Reading(
            "each",
            "current of each LED",
            led_current,
            "A",
            "shared_current",
            {"string_current_mean": mean, "in_parallel": string.in_parallel, "opened": 0},
            True,
        ),
        Reading(
            "led_voltage", "voltage of an LED there", led.voltage_at(led_current), "V", "junction_voltage", curve, True
        ),
        Reading(
            "dynamic",
            "its dynamic resistance",
            theory.dynamic_resistance(**slope),
            "Ω",
            "dynamic_resistance",
            slope,
            True,
        ),
        Reading(
            "bus_voltage_max",
            "bus voltage, greatest",
            float(result.bus_voltage.max()),
            "V",
            "",
            note="The smoothing capacitor and its bleeder stand at this, and at the whole peak of the mains if the"
            " string comes off.",
        ),
        _into_the_bridge(lamp, result, clamp),
        *most,
        _twice(twice, watts_at_twice / result.heat["leds"]),
        _bridged(string, clamped, peak, mean, times_at_bridge),
    ]
    return tuple(rows)


def _into_the_bridge(lamp, result, clamp):
    """Power behind the inrush resistor; where the smoothing capacitor's bleeder takes most of it, that is said."""
    name, watts = "power into the bridge", result.real_power - result.heat["inrush_resistor"] - result.heat["bleeder"]
    if result.heat["smoothing_bleeder"] < 0.5 * watts:
        return Reading("real_power", name, watts, "W", "real_power", clamp)
    note = "Most of it warms the smoothing capacitor's bleeder; the formula knows no bleeder and would mislead."
    return Reading("real_power", name, watts, "W", "", note=note)


def _bridged(string, clamped, peak, mean, times):
    """By how much the current rises when one group is bridged, as the solver has it."""
    name = "one group bridged: current"
    if not times:
        return Reading("bridged", name, float("nan"), "%", "", note="No other group is left to carry a current.")
    values = {
        "peak_voltage": peak,
        "clamped_voltage": clamped,
        "lost_voltage": min(string.voltage_at(mean) / string.in_series, 0.999 * clamped),
    }
    return Reading("bridged", name, 100 * float(times - 1), "%", "current_rise_on_short", values, scale=100.0)


def _twice(values, times):
    """Power with twice the LEDs over the power now."""
    name = "twice the LEDs: power times"
    if 2 * values["clamped_voltage"] <= values["peak_voltage"]:
        return Reading("twice", name, times, "", "power_of_more_leds", values)
    near = times if times > 0.01 else float("nan")
    return Reading("twice", name, near, "", "", note="With twice the LEDs the lamp stays dark, or all but dark.")
