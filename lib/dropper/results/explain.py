"""Explanation of a reading: its derivation with the lamp's present values put in.

The closed form knows an ideal lamp (no resistor in the line, smoothing without end, a sine);
the reading comes from the lamp as it is. Both are shown, and how far they are apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache, cached_property
from typing import TYPE_CHECKING

from ..circuit.excerpt import excerpt
from ..circuit.html import Markup, from_markdown, joined, tag
from ..circuit.lamp import THERMAL_VOLTAGE, Lamp
from ..circuit.parts import BY_KEY
from ..circuit.values import show_reading
from ..solver.steady import SteadyState
from .compare import signed_percent
from .reading import Reading

if TYPE_CHECKING:
    from ..theory.engine.derivation import Derivation
    from ..theory.engine.working import Working

_BENCH = (
    # key, name, unit, derivation
    ("string_current_mean", "string current, mean", "A", "mean_string_current"),
    ("string_current_max", "string current, greatest", "A", "string_current_max_of_swing"),
    ("string_current_min", "string current, least", "A", "string_current_min_of_swing"),
    ("percent_flicker", "percent flicker", "%", "percent_flicker"),
    ("bus_voltage_mean", "bus voltage, mean", "V", "string_voltage"),
    ("bus_ripple", "bus ripple, p–p", "V", "bus_ripple_of_swing"),
    ("line_current_rms", "line current, rms", "A", "line_current_rms"),
    ("line_current_peak", "line current, peak", "A", "line_current_peak"),
    ("real_power", "power", "W", "real_power"),
    ("apparent_power", "apparent power", "VA", "apparent_power"),
    ("power_factor", "power factor", "", "power_factor"),
    ("displacement_factor", "displacement factor", "", "displacement_factor"),
    ("current_thd", "distortion of the line current", "", "current_thd"),
    ("dropper_voltage_peak", "dropper voltage, peak", "V", "dropper_voltage_peak"),
    ("dropper_voltage_rms", "dropper voltage, rms", "V", "dropper_voltage_rms"),
    ("conduction_fraction", "share of time in which the bridge conducts", "", "conduction_fraction"),
)
QUESTIONS = {key: name for key, name, _, _ in _BENCH}


def clamped_voltage(lamp: Lamp, result: SteadyState) -> float:
    """What the bridge is held at: the bus voltage's mean and two diodes at the current they carry, V."""
    conducting = result.string_current_mean / max(result.conduction_fraction, 1e-9)
    return result.bus_voltage_mean + 2 * lamp.diode.voltage_at(conducting)


def values_for(derivation: Derivation, lamp: Lamp, result: SteadyState) -> dict[str, float]:
    """The values that a derivation asks for, taken from a lamp and its steady state, SI units.

    Raises
    ------
    KeyError
        For a value that a lamp does not have.
    """
    from .. import theory

    led, mean = lamp.string.led, result.string_current_mean
    fraction = min(clamped_voltage(lamp, result) / lamp.mains.peak, 1.0)

    def resistance():
        string = theory.string_resistance(**values_for(theory.string_resistance, lamp, result))
        return string + lamp.series_resistor

    def swing():
        law = theory.current_modulation if lamp.smoothing else theory.charging_harmonic
        return min(law(**values_for(law, lamp, result)), 1.0)

    known = {
        "voltage": lambda: lamp.mains.voltage,
        "frequency": lambda: lamp.mains.frequency,
        "dropper": lambda: lamp.dropper,
        "smoothing": lambda: lamp.smoothing,
        "bleeder": lambda: lamp.bleeder,
        "smoothing_bleeder": lambda: lamp.smoothing_bleeder,
        "inrush_resistor": lambda: lamp.inrush_resistor,
        "series_resistor": lambda: lamp.series_resistor,
        "in_series": lambda: lamp.string.in_series,
        "in_parallel": lambda: lamp.string.in_parallel,
        "forward_voltage": lambda: led.forward_voltage,
        "at_current": lambda: led.at_current,
        "series_resistance": lambda: led.series_resistance,
        "ideality": lambda: led.ideality,
        "thermal_voltage": lambda: THERMAL_VOLTAGE,
        "peak_voltage": lambda: lamp.mains.peak,
        "clamped_voltage": lambda: clamped_voltage(lamp, result),
        "clamped_fraction": lambda: fraction,
        "diode_voltage": lambda: lamp.diode.voltage_at(mean / max(result.conduction_fraction, 1e-9)),
        "bus_voltage": lambda: result.bus_voltage_mean,
        "string_voltage": lambda: result.bus_voltage_mean - mean * lamp.series_resistor,
        "string_current_mean": lambda: mean,
        "smoothing_bleeder_current": lambda: (
            result.bus_voltage_mean / lamp.smoothing_bleeder if lamp.smoothing_bleeder else 0.0
        ),
        "string_current_max": lambda: result.string_current_max,
        "string_current_min": lambda: result.string_current_min,
        "string_current_rms": lambda: float((result.string_current**2).mean() ** 0.5),
        "line_current_rms": lambda: result.line_current_rms,
        "dropper_voltage_rms": lambda: result.dropper_voltage_rms,
        "string_resistance": resistance,
        "current_modulation": swing,
    }
    return {keyword: known[keyword]() for keyword in derivation.keywords}


class LampValues(Mapping):
    """The values that a derivation asks for, worked out when they are first read: a slider does not wait for them.

    Parameters
    ----------
    derivation
        Its name in `theory`.
    result
        The lamp's own.
    """

    def __init__(self, derivation: str, lamp: Lamp, result: SteadyState):
        self._derivation, self._lamp, self._result = derivation, lamp, result

    @cached_property
    def _values(self):
        from ..theory import ALL

        return values_for(ALL[self._derivation], self._lamp, self._result)

    def __getitem__(self, keyword: str) -> float:
        return self._values[keyword]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)


def reading(key: str, lamp: Lamp, result: SteadyState) -> Reading:
    """One of a lamp's readings, ready to explain itself.

    Parameters
    ----------
    key
        One of `QUESTIONS`.
    result
        The lamp's own.

    Raises
    ------
    KeyError
        For a reading without a derivation.
    """
    for known, name, unit, derivation in _BENCH:
        if known == key:
            values = LampValues(derivation, lamp, result)
            from_readings = key in ("percent_flicker", "bus_voltage_mean")
            more = {"from_readings": from_readings, "note": _mains_note(lamp)}
            return Reading(key, name, getattr(result, key), unit, derivation, values, **more)
    raise KeyError(f"{excerpt(key)} has no derivation here; choose from {', '.join(QUESTIONS)}")


@cache
def warms(key: str) -> bool:
    """Whether a part, by its key, turns power into heat that a derivation gives."""
    from ..theory import ALL

    return f"{key}_heat" in set(ALL)


def heat_reading(key: str, lamp: Lamp, result: SteadyState) -> Reading:
    """The heat of one part, ready to explain itself.

    Parameters
    ----------
    key
        One of the keys of `result.heat` whose part is fitted and not an ideal capacitor.
    """
    derivation = f"{key}_heat"
    name = f"heat of the {BY_KEY[key].name}"
    values = LampValues(derivation, lamp, result)
    return Reading(key, name, result.heat[key], "W", derivation, values, from_readings=True, note=_mains_note(lamp))


def _mains_note(lamp):
    """What a formula leaves out where the mains is no sine."""
    if lamp.mains.cycle.shape is None:
        return ""
    return f"The formula knows a sine; this mains is a {lamp.mains.shape.kind}, and the solver follows it."


def working(key: str, lamp: Lamp, result: SteadyState) -> Working:
    """A lamp's reading worked out by its formula with the present values.

    Parameters
    ----------
    key
        One of `QUESTIONS`.
    result
        The lamp's own.

    Returns
    -------
    Working
        Shows itself in a notebook; `.value` is the number, `.plain()` the text.

    Raises
    ------
    KeyError
        For a reading without a derivation.
    ValueError
        Where the formula does not apply, as for a lamp that stays dark.
    """
    return work_out(reading(key, lamp, result))


def work_out(reading: Reading) -> Working:
    """A reading's derivation worked out with its values.

    Raises
    ------
    ValueError
        Where the formula does not apply.
    """
    from ..theory import ALL

    return ALL[reading.derivation].working(names=reading.names, **reading.values)


def comparison(reading: Reading, working: Working) -> str:
    """The formula's value beside the reading, in a sentence."""
    formula = reading.scale * working.value
    if reading.exact:
        return f"The panel's number is this formula's own: {reading.text}."
    if reading.chosen:
        return (
            f"The formula's value, before tolerance and the next value that is sold, is"
            f" {show_reading(formula, reading.unit)}; chosen is {reading.text}."
        )
    if reading.from_readings:
        return (
            f"Worked out from the other readings put in, it comes to {show_reading(formula, reading.unit)}; the panel"
            f" reads {reading.text} ({signed_percent(reading.value, formula)} against that)."
        )
    return (
        f"For this lamp as it is, with its resistors, its bleeders, its ripple and its mains, the reading is"
        f" {reading.text}; the formula's ideal lamp gives {show_reading(formula, reading.unit)}"
        f" ({signed_percent(reading.value, formula)} against the reading)."
    )


def in_html(reading: Reading) -> Markup:
    """The working and its comparison as HTML with LaTeX in dollar signs."""
    if not reading.derivation:
        return tag("p", f"{reading.name}: {reading.text}. {reading.note}")
    try:
        working = work_out(reading)
    except ValueError as error:
        return tag("p", f"The formula has nothing to say here: {error}.")
    note = f" {reading.note}" if reading.note else ""
    return joined(from_markdown(working._repr_markdown_()), tag("p", f"{comparison(reading, working)}{note}"))
