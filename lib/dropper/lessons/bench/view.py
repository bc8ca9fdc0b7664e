"""Bench view: a lamp under power: its waveforms, what a meter shows of them, and readings that explain themselves."""

import functools
from dataclasses import dataclass, replace

from ...bench.meter import PlugInMeter
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, Readings
from ...circuit.parts import fitted_parts
from ...circuit.values import show, show_reading, show_to_digit
from ...results import compare, explain
from ...results.excess import marked
from ...results.light import Light, light_of
from ...results.reading import Reading
from ...solver.steady import SteadyState, steady_state
from ..kit.readout import MeterLine

POINTS = 1024  # as every other page, so that a reading is the same number on all of them
_METER = (
    ("current", "line current"),
    ("power", "power"),
    ("apparent_power", "apparent power"),
    ("power_factor", "power factor"),
)
_INSIDE = (
    ("string_current_mean", "string current, mean", "A"),
    ("percent_flicker", "percent flicker", "%"),
    ("bus_voltage_mean", "bus voltage, mean", "V"),
    ("bus_ripple", "bus ripple, p–p", "V"),
)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """What is seen of a lamp on the bench."""

    lamp: Lamp
    result: SteadyState
    lines: tuple[MeterLine, ...] = about("What a plug-in meter shows, and four numbers that it does not.")
    agreement: str = about('Whether the readings in the lamp file can go together; "" where too few were taken.')
    readings: tuple[Reading, ...] = about("Every number that explains itself, the heat of the parts included.")

    @property
    def glow(self) -> Light:
        """The light through a period."""
        return light_of(self.lamp, self.result)


def view_of(lamp: Lamp, meter: PlugInMeter | None = None) -> View:
    """What is seen of a lamp on the bench.

    Parameters
    ----------
    meter
        Whose digits to show.
    """
    meter = meter or PlugInMeter()
    result = steady_state(lamp, POINTS)
    lines = (*_shown_by(meter, lamp.readings, result), *_inside(lamp.readings, result))
    readings = marked(_readings(lamp, result), lamp)
    excess = {reading.key: reading.excess for reading in readings}
    lines = tuple(replace(line, excess=excess.get(line.key, "")) for line in lines)
    return View(lamp, result, lines, _agreement(meter, lamp.readings), readings)


def what_sets_the_brightness(lamp: Lamp) -> tuple[str, str]:
    """Which of the two sets it, "resistor" or "capacitor", and a sentence with the figures."""
    return compare.what_sets_the_brightness(lamp)


def _shown_by(meter, read, result):
    shown, digits = meter.readings(result), meter.digits()
    for key, name in _METER:
        value = getattr(read, key)
        bench = "" if value is None else meter.reading_text(key, value)
        _, digit, field = digits[key]
        yield MeterLine(name, getattr(result, field), meter.reading_text(key, shown[key]), digit, bench, field)


def _inside(read, result):
    """Numbers inside the lamp; a string that stays dark has no flicker."""
    for key, name, unit in _INSIDE:
        value = float("nan") if result.dark and key == "percent_flicker" else getattr(result, key)
        per_cent = unit == "%" and value == value
        text = show_to_digit(value, "%", 1) if per_cent else show_reading(value, unit, full=True)
        voltage = read.bus_voltage if key == "bus_voltage_mean" else None
        yield MeterLine(name, value, text, float(per_cent), "" if voltage is None else show(voltage, "V"), key)


@functools.lru_cache(maxsize=16)
def _agreement(meter: PlugInMeter, read: Readings) -> str:
    """The lamp file alone decides it, so a slider does not have it worked out again."""
    if None in (read.voltage, read.current, read.power, read.power_factor):
        return ""
    return meter.check_agreement(read)[1]


def _readings(lamp, result):
    numbers = [explain.reading(key, lamp, result) for key in explain.QUESTIONS]
    warm = [part.key for part in fitted_parts(lamp) if explain.warms(part.key)]
    return (*numbers, *(explain.heat_reading(key, lamp, result) for key in warm))
