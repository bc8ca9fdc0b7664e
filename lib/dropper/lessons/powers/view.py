"""Powers view: watts, volt-amperes and what lies between them, the parts of a lamp's apparent power."""

import functools
from dataclasses import dataclass

import numpy as np

from ... import theory
from ...bench.meter import PlugInMeter
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...results.explain import clamped_voltage, heat_reading, reading, values_for
from ...results.reading import Reading
from ...solver import power
from ...solver.steady import SteadyState, steady_state

POINTS = 1024  # as every other page, so that a reading is the same number on all of them
ORDERS = (1, 3, 5, 7, 9, 11, 13, 15)
_FRACTIONS = np.linspace(0.005, 0.995, 100)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The parts of the apparent power, the spectrum of the line current, and the power factor over D/Vp."""

    lamp: Lamp
    result: SteadyState
    parts: object = about("`power.PowerQuantities`, None if no current flows")
    spectrum: np.ndarray = about("line current over its fundamental, for each of `ORDERS`", "%")
    fractions: np.ndarray
    factors: np.ndarray = about("power factor of an ideal lamp at each fraction")
    fraction: float = about("D/Vp of this lamp")
    meter_texts: dict = about("what a plug-in meter shows, as text")
    readings: tuple


def view_of(lamp: Lamp) -> View:
    """What a lamp shows."""
    result = steady_state(lamp, POINTS)
    flows = not result.dark
    lines = result.harmonic_currents
    parts = power.of_steady_state(result) if flows else None
    meter = PlugInMeter()
    meter_texts = {name: meter.reading_text(name, value) for name, value in meter.readings(result).items()}
    return View(
        lamp=lamp,
        result=result,
        parts=parts,
        spectrum=100 * lines[list(ORDERS)] / lines[1] if flows else np.zeros(len(ORDERS)),
        fractions=_FRACTIONS,
        factors=_ideal(),
        fraction=min(clamped_voltage(lamp, result) / lamp.mains.peak, 1.0) if flows else np.nan,
        meter_texts=meter_texts,
        readings=_readings(lamp, result, parts) if flows else (),
    )


@functools.cache
def _ideal():
    """Power factor of the ideal lamp over D/Vp, the same for every lamp."""
    return theory.power_factor(clamped_fraction=_FRACTIONS)


def _readings(lamp, result, parts):
    def of(key, name, value, unit, derivation):
        return Reading(key, name, value, unit, derivation, values_for(theory.ALL[derivation], lamp, result))

    peak = lamp.mains.peak
    clamped = min(clamped_voltage(lamp, result), peak * (1 - 1e-9))
    whole = {
        "real_power": parts.real,
        "reactive_power": abs(parts.reactive),
        "current_distortion_power": parts.current_distortion,
    }
    return (
        reading("real_power", lamp, result),
        of("reactive", "reactive power, leading", abs(parts.reactive), "var", "fundamental_reactive_power"),
        of("distortion", "current distortion power", parts.current_distortion, "var", "current_distortion_power"),
        Reading(
            "apparent_power",
            "apparent power",
            result.apparent_power,
            "VA",
            "apparent_power_from_parts",
            whole,
            from_readings=True,
        ),
        of("nonactive", "nonactive power", parts.nonactive, "var", "nonactive_power"),
        reading("power_factor", lamp, result),
        reading("displacement_factor", lamp, result),
        reading("current_thd", lamp, result),
        reading("line_current_rms", lamp, result),
        reading("string_current_mean", lamp, result),
        Reading(
            "clamped_fraction",
            "clamped voltage over peak, D/Vp",
            clamped / peak,
            "",
            "clamped_share",
            {"clamped_voltage": clamped, "peak_voltage": peak},
            True,
        ),
        heat_reading("inrush_resistor", lamp, result)
        if lamp.inrush_resistor
        else Reading("inrush_resistor", "heat of the inrush resistor", 0.0, "W", "", note="None is fitted."),
    )
