"""Random values of a task: drawn from a learner's seed, round, and possible on a bench."""

import re
from collections.abc import Sequence
from random import Random
from typing import Any

from ...circuit import units
from ...circuit.numerals import significant
from ...circuit.series import preferred
from ...circuit.values import show, with_unit
from ...components.marks.colours import COLOURS, DIGITS

# What the names in a question stand for; those that the theory's glossary has too carry its unit (a test holds it).
UNITS = {
    "voltage": "V",
    "frequency": "Hz",
    "dropper": "F",
    "smoothing": "F",
    "clamped_voltage": "V",
    "string_voltage": "V",
    "diode_voltage": "V",
    "output_voltage": "V",
    "load_voltage": "V",
    "load_resistance": "Ω",
    "line_current_rms": "A",
    "string_current_mean": "A",
    "string_current_max": "A",
    "string_current_min": "A",
    "clamped_fraction": "",
    "current_modulation": "",
    "string_resistance": "Ω",
    "series_resistance": "Ω",
    "ideality": "",
    "in_series": "",
    "in_parallel": "",
    "forward_voltage": "V",
    "hours_a_year": "h",
    "price_of_energy": "/kWh",
    "real_power": "W",
    "thermal_voltage": "V",
    "swing": "V",
    "rise": "%",
    "more": "",
    "moment": "°",
    "resistor": "Ω",
    "larger_resistor": "Ω",
    "power_factor": "",
    "better_factor": "",
    "limit": "%",
    "watt_digit": "W",
    "led_power": "W",
    "resistor_heat": "W",
    "times_current": "",
    "lost_voltage": "V",
    "reactive_power": "var",
    "current_distortion_power": "var",
    "inrush_resistor": "Ω",
    "greatest_current": "A",
    "bleeder": "Ω",
    "time": "s",
    "limit_voltage": "V",
    "dropper_voltage": "V",
    "bus_voltage": "V",
    "other_moment": "°",
    "third_moment": "°",
    "resistance": "Ω",
    "rated_power": "W",
    "limiting_voltage": "V",
    "rated_voltage": "V",
    "body_resistance": "Ω",
    "used": "%",
    "lost": "%",
    "dropper_voltage_rms": "V",
    "dissipation_factor": "",
    "heat_flow": "W",
    "thermal_resistance": "K/W",
    "room_temperature": "°C",
    "enclosure_heat": "W",
    "enclosure_resistance": "K/W",
    "temperature": "°C",
    "full_power_temperature": "°C",
    "no_power_temperature": "°C",
    "junctions": "",
    "voltage_coefficient": "V/K",
    "junction_temperature": "°C",
    "reference_temperature": "°C",
    "rated_life": "h",
    "rated_temperature": "°C",
    "hours_a_day": "h",
    "first_hours": "h",
    "first_temperature": "°C",
    "second_temperature": "°C",
    "years": "",
    "yearly": "%",
    "times_leds": "",
    "forward_voltage_difference": "V",
    "dynamic_resistance": "Ω",
    "second_in_series": "",
    "second_forward_voltage": "V",
    "mains_off": "%",
    "dropper_off": "%",
    "string_off": "%",
    "resistor_off": "%",
    "smoothing_off": "%",
    "value_below": "F",
    "value_above": "F",
    # before and with a fault; how often a cause is met, what a test tells
    "current_after": "A",
    "factor_after": "",
    "first_weight": "",
    "second_weight": "",
    "first_chance": "%",
    "second_chance": "%",
    "third_chance": "%",
    "bits": "",
    "other_bits": "",
    # mains of other shapes, and a cable
    "peak_voltage": "V",
    "top_voltage": "V",
    "dwell": "",
    "cut_off": "°",
    "switch_capacitor": "F",
    # what an instrument says
    "displacement_factor": "",
    "turned": "°",
    # what stands on parts, and what a meter says of it
    "code": "",
    "whole": "",
    "decimal": "",
    "place": "",
    "first": "colour",
    "second": "colour",
    "third": "colour",
    "other_first": "colour",
    "marked": "F",
    "measured": "F",
    "needed": "F",
    "marked_tolerance": "%",
    "meter_percent": "%",
    "meter_digits": "",
}
_IN_WORDS = {"h": "hours", "/kWh": "a kilowatt-hour"}
_NUMERAL = re.compile(r"\d+(\.\d+)?")
_PLAIN = {"V", "W", "VA", "var"}  # no one writes 800 mV for a diode
MAINS = ((230.0, 50.0), (240.0, 50.0), (220.0, 60.0), (127.0, 60.0), (120.0, 60.0))


class Chance(Random):
    """A source of chance whose draws hang on the generator's bits alone, not on how a version of Python uses them."""

    def choice(self, seq: Sequence[Any]) -> Any:
        """One of a sequence, each as likely."""
        return seq[self._under(len(seq))]

    def randint(self, a: int, b: int) -> int:
        """A whole number between two, both included."""
        return a + self._under(b - a + 1)

    def uniform(self, a: float, b: float) -> float:
        """A number between two."""
        return a + (b - a) * self.random()

    def _under(self, count):
        """A whole number from 0, less than a count: bits are drawn until they are below it."""
        bits = count.bit_length()
        while (drawn := self.getrandbits(bits)) >= count:
            pass
        return drawn


def generator(seed: int, key: str) -> Chance:
    """The source of chance of one task: the same seed and key draw the same values everywhere."""
    return Chance(f"{seed}:{key}")


def value_text(value: float, unit: str, digits: int = 3) -> str:
    """A value as a task writes it."""
    if unit == "colour":
        return COLOURS[DIGITS[value]].called
    minus, size = ("−" if value < 0 else ""), abs(value)
    if units.UNITS[unit].plain:
        return minus + with_unit(significant(size, digits), _IN_WORDS.get(unit, unit))
    if unit in _PLAIN and 0.1 <= size < 1000:
        return f"{minus}{size:.{digits}g} {unit}"
    return minus + show(size, unit, digits)


def answer_text(value: float, unit: str, exact: bool = False) -> str:
    """An answer as a task writes it: three digits, zeros at its end too.

    Parameters
    ----------
    exact
        Whether it is a count or a code, with no rounding in it: then no zeros are added.

    Examples
    --------
    >>> answer_text(1.0, "W"), answer_text(0.015, "A"), answer_text(0.0, "W"), answer_text(7.0, "", exact=True)
    ('1.00 W', '15.0 mA', '0 W', '7')
    """
    text = value_text(value, unit)
    number = _NUMERAL.search(text)
    if exact or number is None or not float(number[0]):
        return text
    lacking = 3 - len(number[0].replace(".", "").lstrip("0"))
    if lacking <= 0:
        return text
    point = "" if "." in number[0] else "."
    return text[: number.end()] + point + "0" * lacking + text[number.end() :]


def mains(chance: Random, choice: tuple[tuple[float, ...], ...] = MAINS) -> dict[str, float]:
    """A mains voltage and its frequency."""
    voltage, frequency = chance.choice(choice)
    return {"voltage": voltage, "frequency": frequency}


def part(chance: Random, series: int, low: float, high: float) -> float:
    """A preferred value of an E series between two bounds."""
    return chance.choice(preferred(series, low, high))


def step_value(chance: Random, low: float, high: float, step: float) -> float:
    """A value between two bounds in even steps."""
    return round(low + step * chance.randint(0, round((high - low) / step)), 10)


def share_of_peak(chance: Random, voltage: float, low: float, high: float, step: float = 5.0) -> float:
    """A direct voltage in even steps, between two shares of the mains' peak; the peak is taken roughly."""
    peak = 1.4 * voltage
    first, last = round(low * peak / step) * step, round(high * peak / step) * step
    return step_value(chance, max(first, step), max(last, step), step)


def bridge_lamp(
    chance: Random, low: float = 0.15, high: float = 0.65, least: float = 100e-9, most: float = 1.5e-6
) -> dict[str, float]:
    """Mains, dropper and clamped voltage of a lamp behind a bridge."""
    values = mains(chance)
    return values | {
        "dropper": part(chance, 6, least, most),
        "clamped_voltage": share_of_peak(chance, values["voltage"], low, high),
    }


def meter_reading(chance: Random) -> dict[str, float]:
    """What a plug-in meter might show of a dropper lamp."""
    values = mains(chance)
    values["line_current_rms"] = chance.randint(12, 75) / 1e3
    share = chance.uniform(0.15, 0.5)
    values["real_power"] = max(round(share * values["voltage"] * values["line_current_rms"], 1), 0.3)
    return values
