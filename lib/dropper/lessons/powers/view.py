"""Powers view: watts, volt-amperes and what lies between them, and the current that makes the difference."""

import functools
from dataclasses import dataclass

import numpy as np

from ... import theory
from ...bench.meter import PlugInMeter
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...results.explain import LampValues, clamped_voltage, heat_reading, reading, values_for
from ...results.reading import Reading
from ...solver import power
from ...solver.steady import SteadyState, steady_state

POINTS = 1024  # as every other page, so that a reading is the same number on all of them
HOURS = 1460.0  # four hours a day for a year
_FRACTIONS = np.linspace(0.005, 0.995, 100)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """Voltage and current of a period, the parts of the apparent power, and the power factor over D/Vp."""

    lamp: Lamp
    result: SteadyState
    angle: np.ndarray = about("of each sample, from the mains' rise through zero", "°")
    fundamental: np.ndarray = about("the line current's fundamental, at each of them; zeros if dark", "A")
    lead: float = about("how far the fundamental is ahead of the voltage, nan if dark", "°")
    parts: object = about("`power.PowerQuantities`, None if no current flows")
    led_share: float = about("power of the LEDs over the lamp's, nan if dark", "%")
    energy: float = about("taken in a year of four hours a day, nan if dark", "kWh")
    fractions: np.ndarray
    factors: np.ndarray = about("power factor of an ideal lamp at each fraction")
    fraction: float = about("D/Vp of this lamp")
    meter_texts: dict = about("what a plug-in meter shows, as text")
    readings: tuple


def view_of(lamp: Lamp) -> View:
    """What a lamp shows."""
    result = steady_state(lamp, POINTS)
    flows = not result.dark
    parts = power.of_steady_state(result) if flows else None
    angle = 360 * lamp.mains.frequency * result.time
    first = power.harmonics(result.line_current)[1] if flows else 0j
    meter = PlugInMeter()
    meter_texts = {name: meter.reading_text(name, value) for name, value in meter.readings(result).items()}
    energy = theory.energy_of_a_year(real_power=parts.real, hours_a_year=HOURS) if flows else np.nan
    return View(
        lamp=lamp,
        result=result,
        angle=angle,
        fundamental=np.sqrt(2) * abs(first) * np.sin(np.radians(angle) + np.angle(first)),
        lead=-float(np.degrees(np.arctan2(parts.reactive, parts.fundamental_real))) if flows else np.nan,
        parts=parts,
        led_share=100 * result.heat["leds"] / parts.real if flows else np.nan,
        energy=float(energy),
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
    to_leds = LampValues("leds_heat", lamp, result)
    return (
        reading("power_factor", lamp, result),
        reading("real_power", lamp, result),
        Reading("leds", "power into the LEDs", result.heat["leds"], "W", "leds_heat", to_leds, from_readings=True),
        heat_reading("inrush_resistor", lamp, result)
        if lamp.inrush_resistor
        else Reading("inrush_resistor", "heat of the inrush resistor", 0.0, "W", "", note="None is fitted."),
        Reading(
            "apparent_power",
            "apparent power",
            result.apparent_power,
            "VA",
            "apparent_power_from_parts",
            whole,
            from_readings=True,
        ),
        of("reactive", "reactive power, leading", abs(parts.reactive), "var", "fundamental_reactive_power"),
        of("distortion", "current distortion power", parts.current_distortion, "var", "current_distortion_power"),
        reading("displacement_factor", lamp, result),
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
    )
