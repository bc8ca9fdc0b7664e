"""Readings: the numbers beside the picture of LEDs side by side."""

import math
from typing import Any

from ... import theory
from ...circuit.lamp import THERMAL_VOLTAGE
from ...results.reading import Reading

_IMBALANCE = 0.1


def readings(view: Any, draws: int) -> tuple[Reading, ...]:
    """What the branches do, each number ready to explain itself.

    Parameters
    ----------
    draws
        Sets that were drawn at random.
    """
    setting, shared, led = view.setting, view.shared, view.setting.lamp.string.led
    opened = int(setting.odd == "open")
    share_values = {"string_current_mean": setting.total, "in_parallel": setting.in_parallel, "opened": opened}
    alike = theory.shared_current(**share_values)
    curve = {
        "ideality": led.ideality,
        "thermal_voltage": THERMAL_VOLTAGE,
        "junction_current": alike,
        "series_resistance": led.series_resistance,
    }
    led_slope = theory.dynamic_resistance(**curve)
    slope = {
        "in_series": setting.in_branch,
        "dynamic_resistance": led_slope,
        "branch_resistor": setting.resistor,
        "junctions": 1,
        "forward_voltage": led.forward_voltage,
        "voltage_coefficient": view.warmth.coefficient,
        "thermal_resistance": setting.warmth,
    }
    steep = theory.branch_resistance(**slope)
    hottest = max(shared.currents)
    rows = [
        Reading("each", "share of each, if alike", alike, "A", "shared_current", share_values, True),
        Reading("slope", "slope of a branch there", steep, "Ω", "branch_resistance", slope, True),
        *_alike(view, steep, led_slope, alike, draws),
        Reading(
            "voltage",
            "voltage in common",
            shared.voltage,
            "V",
            "",
            note="Found so that the currents of all branches add up to the total: no formula is kept for it.",
        ),
        Reading(
            "hottest",
            "current of the hottest, as they fall",
            hottest,
            "A",
            "",
            note="Its curve, read at the voltage in common.",
        ),
        Reading(
            "mean_hottest",
            "hottest over share, mean",
            view.many.hottest.mean(),
            "",
            "",
            note=f"Of {draws} sets drawn at random, the same at each move of a slider.",
        ),
        Reading(
            "one_in_twenty",
            "… one set in twenty above",
            view.many.percentile(95),
            "",
            "",
            note=f"Of {draws} sets drawn at random, the same at each move of a slider.",
        ),
    ]
    burnt = {"string_current_rms": hottest, "series_resistor": setting.resistor}
    watts = theory.series_resistor_heat(**burnt)
    rows.append(Reading("heat", "heat of a resistor, at most", watts, "W", "series_resistor_heat", burnt, True))
    return tuple(rows)


def _alike(view, steep, led_slope, alike, draws):
    """Readings that hold where all branches are of one kind and whole."""
    setting, currents = view.setting, view.shared.currents
    names = "hottest less coolest", "scatter of the currents", f"resistor to hold it to {100 * _IMBALANCE:.0f} %"
    if setting.odd is not None:
        keys, units = ("difference", "deviation", "resistor"), ("A", "%", "Ω")
        why = "It is of branches that are all of one kind and whole."
        return tuple(
            Reading(key, name, math.nan, unit, "", note=why) for key, name, unit in zip(keys, names, units, strict=True)
        )
    apart = _rated(view.branches[-1]) - _rated(view.branches[0])
    deviation = 100 * view.many.deviation if setting.scatter else 0.0  # no rounding told as scatter
    scattered = {
        "in_series": setting.in_branch,
        "in_parallel": setting.in_parallel,
        "junction_current": alike,
        "forward_voltage_deviation": setting.scatter / 1e3,
        "branch_resistance": steep,
    }
    return (
        Reading(
            "difference",
            names[0],
            currents[0] - currents[-1],
            "A",
            "current_difference",
            {"forward_voltage_difference": apart, "dynamic_resistance": steep},
        ),
        Reading(
            "deviation",
            names[1],
            deviation,
            "%",
            "share_deviation",
            scattered,
            scale=100.0,
            note=f"The reading is that of {draws} sets drawn at random.",
        ),
        _resistor(names[2], apart, alike, setting.in_branch * led_slope),
    )


def _rated(branch):
    return sum(led.forward_voltage for led in branch.leds)


def _resistor(name, apart, alike, led_slope):
    """The resistor that would hold these branches within a tenth of a share of one another."""
    if led_slope * _IMBALANCE * alike >= apart:
        return Reading("resistor", name, 0.0, "Ω", "", note="The LEDs' own slope is enough.")
    values = {
        "forward_voltage_difference": apart,
        "imbalance": _IMBALANCE,
        "junction_current": alike,
        "dynamic_resistance": led_slope,
    }
    ohms = theory.branch_resistor_for_imbalance(**values)
    return Reading("resistor", name, ohms, "Ω", "branch_resistor_for_imbalance", values, True)
