"""Stepped-wave view: a lamp on a wave of three levels, as steep as its first harmonics make it, and on a sine."""

import functools
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp, replace_at
from ...results.explain import heat_reading
from ...results.reading import Reading
from ...solver.power import harmonics
from ...solver.steady import SteadyState, steady_state

POINTS = 1024
HIGHEST = 39  # the last odd harmonic that a mains may have
REST = 45.0  # °, on either side of each zero: half of the time without voltage, which gives the sine's peak and rms
_SAMPLES = 3600
_OF_THE_SOLVER = "The formulas of this lesson know a sine: this number is the solver's."


@documented
@dataclass(frozen=True)
class Supply:
    """A lamp, and its supply: a sine, or a wave of three levels with the same peak."""

    lamp: Lamp
    highest: int = quantity("", 1, HIGHEST, 1, meaning="highest harmonic of the steps; 1 for a sine", whole=True)

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)

    @property
    def fed(self) -> Lamp:
        """The lamp on this supply."""
        if self.highest == 1:
            return self.lamp
        orders = _orders()[: self.highest + 1]
        # The mean over so much of a period: edges of that length, which do not ring.
        orders = orders * np.sinc(np.arange(len(orders)) / (self.highest + 1))
        first = abs(orders[1])
        shares = {
            order: (float(abs(value) / first), 180.0 if value.real < 0 else 0.0)
            for order, value in enumerate(orders)
            if order > 1 and abs(value) > 1e-6
        }
        lamp = replace_at(self.lamp, "mains.voltage", float(self.lamp.mains.peak * first))
        return replace_at(lamp, "mains.harmonics", shares)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """A period on the wave, and the same lamp on a sine."""

    supply: Supply
    result: SteadyState
    on_sine: SteadyState
    angle: np.ndarray = about("of each sample; the wave rises at 45°", "°")
    steps: np.ndarray = about("the three levels with edges that take no time, at each of them", "V")
    light: float = about("mean current of the string over that on a sine, nan if dark on it")
    line: float = about("rms line current over that on a sine, nan if dark on it")
    heat: float = about("heat of the inrush resistor over that on a sine, nan where there is none")
    readings: tuple


def view_of(supply: Supply) -> View:
    """What a lamp does on such a supply."""
    lamp = supply.lamp
    result, on_sine = steady_state(supply.fed, POINTS), steady_state(lamp, POINTS)
    angle = 360 * lamp.mains.frequency * result.time
    lit = not on_sine.dark
    return View(
        supply=supply,
        result=result,
        on_sine=on_sine,
        angle=angle,
        steps=lamp.mains.peak * _level(angle),
        light=result.string_current_mean / on_sine.string_current_mean if lit else np.nan,
        line=result.line_current_rms / on_sine.line_current_rms if lit else np.nan,
        heat=_heat(result) / _heat(on_sine) if lit and lamp.inrush_resistor else np.nan,
        readings=() if result.dark else _readings(supply.fed, result),
    )


def _heat(result):
    return result.heat["inrush_resistor"]


def _level(angle):
    """The wave of three levels, 1 high: nothing for 45° on either side of each zero."""
    within = np.mod(angle, 180.0)
    up = np.where(np.mod(angle, 360.0) < 180, 1.0, -1.0)
    return np.where((within > REST) & (within < 180 - REST), up, 0.0)


@functools.cache
def _orders():
    """The harmonics of the wave that is 1 high by order, rms, each with the angle of its sine."""
    return harmonics(_level((np.arange(_SAMPLES) + 0.5) * 360 / _SAMPLES), HIGHEST)


def _readings(lamp, result):
    def of(key, name, value, unit):
        return Reading(key, name, value, unit, "", note=_OF_THE_SOLVER)

    heat = (
        heat_reading("inrush_resistor", lamp, result)
        if lamp.inrush_resistor
        else Reading("inrush_resistor", "heat of the inrush resistor", 0.0, "W", "", note="None is fitted.")
    )
    volts = float(np.sqrt((result.mains_voltage**2).mean()))
    return (
        heat,
        of("string_current_mean", "string current, mean", result.string_current_mean, "A"),
        of("line_current_rms", "line current, rms", result.line_current_rms, "A"),
        of("line_current_peak", "line current, peak", result.line_current_peak, "A"),
        of("supply_rms", "voltage of the supply, rms", volts, "V"),
        of("real_power", "power", result.real_power, "W"),
        of("power_factor", "power factor", result.power_factor, ""),
    )
