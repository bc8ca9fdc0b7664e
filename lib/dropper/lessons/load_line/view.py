"""Load-line view: the dropper's load line, the string's curve, and the power they agree on."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, replace_at
from ...results.compare import why_dark
from ...results.excess import marked
from ...results.explain import clamped_voltage
from ...results.light import Light, light_of
from ...results.reading import Reading
from ...solver.steady import SteadyState, steady_state, steady_states

POINTS = 1024  # as every other page, so that a reading is the same number on all of them
_SHARES = np.linspace(0.0, 1.0, 61)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """Lines over the clamped voltage D from 0 to the mains' peak, and where the lamp stands on them."""

    lamp: Lamp
    dark: bool
    why_dark: str = about("in a clause, '' where it is lit")
    clamped: np.ndarray = about("clamped voltage, the axis", "V")
    bridge: np.ndarray = about("mean string current behind a bridge, 4fC(Vp - D)", "A")
    half_wave: np.ndarray = about("the same of a half-wave pump with this dropper", "A")
    power: np.ndarray = about("power behind the bridge", "W")
    string: tuple = about("volts and amperes of the string with its diodes")
    crossing: tuple = about("volts and amperes where the solver has the lamp")
    watts: float = about("power into the bridge there", "W")
    double_point: tuple = about("volts, amperes and watts with twice the LEDs, nan where they stay dark")
    rule: float = about("mains over reactance, rms", "A")
    result: SteadyState
    readings: tuple

    @property
    def glow(self) -> Light:
        """The light through a period."""
        return light_of(self.lamp, self.result)


def view_of(lamp: Lamp) -> View:
    """What a lamp shows."""
    peak, mains = lamp.mains.peak, lamp.mains
    result = steady_state(lamp, POINTS)
    clamped = peak * _SHARES
    source = {"frequency": mains.frequency, "dropper": lamp.dropper}
    # The lines' last point, at the peak itself, is where both have come down to the end of their range.
    inside = np.minimum(clamped, peak * (1 - 1e-9))
    drops = 2 * lamp.diode.voltage_at(max(result.string_current_mean, 1e-6))
    crossing, double_point = _point(lamp, result), _doubled(lamp)
    bridge = theory.mean_string_current(peak_voltage=peak, clamped_voltage=inside, **source)
    current = np.linspace(0, 1.05, 40) ** 2 * bridge[0]
    rule = theory.short_circuit_current(voltage=mains.voltage, **source)
    return View(
        lamp=lamp,
        dark=result.dark,
        why_dark=why_dark(lamp, result) if result.dark else "",
        clamped=clamped,
        bridge=bridge,
        half_wave=theory.half_wave_current(peak_voltage=peak, output_voltage=inside, diode_voltage=0.0, **source),
        power=theory.real_power(peak_voltage=peak, clamped_voltage=inside, **source),
        string=(np.array([lamp.string.voltage_at(i) for i in current]) + drops, current),
        crossing=crossing[:2],
        watts=crossing[2],
        double_point=double_point,
        rule=rule,
        result=result,
        readings=marked(_readings(lamp, result, crossing, rule, source), lamp),
    )


def bridging_currents(lamp: Lamp) -> tuple[float, float]:
    """Half of the groups bridged with a wire: the current before and after, A.

    Parameters
    ----------
    lamp
        With two groups at least.
    """
    fewer = replace_at(lamp, "string.in_series", max(1, lamp.string.in_series // 2))
    before, after = steady_states([lamp, fewer], POINTS).string_current_mean
    return float(before), float(after)


def _point(lamp, result):
    """Clamped voltage, mean string current and the watts that go into the bridge."""
    loss = result.heat["inrush_resistor"] + result.heat["bleeder"]
    return clamped_voltage(lamp, result), result.string_current_mean, result.real_power - loss


def _doubled(lamp):
    groups = 2 * lamp.string.in_series
    if groups > 1000:
        return (np.nan,) * 3
    twice = replace_at(lamp, "string.in_series", groups)
    result = steady_state(twice, 128)
    return (np.nan,) * 3 if result.dark else _point(twice, result)


def _readings(lamp, result, crossing, rule, source):
    peak, (clamped, _, watts) = lamp.mains.peak, crossing
    share = {"clamped_fraction": min(clamped / peak, 1 - 1e-9)}
    at = source | {"peak_voltage": peak}
    here = at | {"clamped_voltage": min(clamped, peak)}
    diode_voltage = (clamped - result.bus_voltage_mean) / 2
    drop = {"output_voltage": min(result.bus_voltage_mean, peak), "diode_voltage": diode_voltage}
    most = (
        Reading("peak_voltage", "peak of the mains", peak, "V", "peak_voltage", {"voltage": lamp.mains.voltage}, True),
        Reading(
            "short_circuit_current",
            "mains over reactance, rms",
            rule,
            "A",
            "short_circuit_current",
            source | {"voltage": lamp.mains.voltage},
            True,
        ),
        Reading("greatest_power", "greatest power", theory.greatest_power(**at), "W", "greatest_power", at, True),
    )
    if result.dark:
        return most
    excess = rule / result.string_current_mean
    rise = {"peak_voltage": peak, "clamped_voltage": min(clamped, peak * (1 - 1e-9))}
    return (
        *most[:1],
        Reading(
            "clamped_voltage",
            "clamped voltage D",
            clamped,
            "V",
            "clamped_voltage",
            {"string_voltage": result.bus_voltage_mean, "diode_voltage": diode_voltage},
            True,
        ),
        Reading(
            "string_current_mean", "string current, mean", result.string_current_mean, "A", "mean_string_current", here
        ),
        Reading("real_power", "power into the bridge", watts, "W", "real_power", here),
        most[1],
        Reading("rule_excess", "… times the mean current", excess, "", "reactance_rule_excess", share),
        Reading(
            "half_wave_current",
            "half wave would give",
            theory.half_wave_current(**at, **drop),
            "A",
            "half_wave_current",
            at | drop,
            True,
        ),
        most[2],
        Reading(
            "elasticity",
            "current for 1 % more mains",
            theory.elasticity_to_peak_voltage(**source, **rise),
            "%",
            "elasticity_to_peak_voltage",
            source | rise,
            True,
        ),
    )
