"""Design view: a preview at once by the closed forms for the wishes on sliders, and the design itself after a rest."""

import dataclasses
import functools
import math
from dataclasses import dataclass

import numpy as np

from ... import theory
from ...bench.residual import CAUTION
from ...circuit.fields import about, documented
from ...circuit.lamp import THERMAL_VOLTAGE, Lamp, replace_at
from ...circuit.series import preferred
from ...design import Brief, Design, Infeasible, design, nearest
from ...design.comparison import changes
from ...design.corners import bare, flickers, spread_of
from ...design.result import CORNER_READINGS
from ...design.wishes import with_groups
from ...results.excess import marked
from ...results.explain import reading
from ...results.reading import Reading
from ...solver.steady import SteadyState, spread, steady_state, steady_states
from ...standards import touch_rule

LEAST, MOST = 1e-6, 1e-3  # F, of the smoothing capacitors that flicker is shown for
_POINTS = 128
_VOLTS = 9
_FARADS = preferred(3, LEAST, MOST)
_OWN_MAINS = ("place", "voltage", "low", "high", "frequency")
_SHOWN = ("string_current_mean", "line_current_rms", "real_power", "power_factor", "bus_voltage_mean")


@documented
@dataclass(frozen=True, eq=False)
class View:
    """A brief, a lamp for it, what the lamp does over the mains' band, and the design where it is worked out."""

    setting: Brief
    lamp: Lamp
    result: SteadyState
    volts: np.ndarray = about("mains voltage, rms, over the band", "V")
    currents: dict = about("mean string current at those volts: 'nominal', 'most' and 'least' by dropper and LEDs", "A")
    limit: float = about("current through the whole string that its LEDs are allowed in use", "A")
    flickers: np.ndarray = about("percent flicker in the worst corner, for each of `FARADS`", "%")
    answer: Design | Infeasible | None = about("the design, or why there is none; None before it is worked out")
    readings: tuple


FARADS = np.array(_FARADS)


def with_wish(setting: Brief, path: str, value: str | int | float, own: Brief) -> Brief:
    """A brief with one wish changed.

    Parameters
    ----------
    path
        A field; "place" brings its own mains, "" that of `own`; "led" takes the place of LEDs of one's own.
    own
        The one that the panel started from.

    Raises
    ------
    ValueError
        If the value is not allowed.
    """
    if path == "place":
        mains = dict.fromkeys(_OWN_MAINS[1:]) | {"place": value}
        if not value and own.place:
            return setting
        return setting.but(**mains if value else {name: getattr(own, name) for name in _OWN_MAINS})
    if path == "led":
        return setting.but(led=value, own_led=own.own_led if value == own.led else None)
    return setting.but(**{path: value})


@functools.lru_cache(maxsize=64)
def view_of(setting: Brief) -> View:
    """What a brief shows at once."""
    return _view(setting, preview(with_groups(setting)), None)


@functools.lru_cache(maxsize=64)
def design_view(setting: Brief) -> View:
    """What a brief shows once its design is worked out, or why there is none."""
    try:
        answer = design(setting)
    except Infeasible as failed:
        return dataclasses.replace(view_of(setting), answer=failed.with_traceback(None))
    return _view(setting, answer.lamp, answer)


def preview(setting: Brief) -> Lamp:
    """A lamp for a brief by the closed forms, on preferred values: near the design, and found at once."""
    supply = setting.supply
    step = theory.replug_step(peak_voltage=math.sqrt(2) * supply.high)
    ohms = theory.surge_resistor(peak_voltage=step, greatest_current=setting.inrush)
    lamp = bare(
        setting,
        {
            "dropper": 1e-7,
            "smoothing": setting.largest_smoothing,
            "inrush_resistor": preferred(setting.resistor_series, ohms / 2.5, ohms)[-1],
        },
    )
    clamped = lamp.clamped_voltage(setting.current)
    if clamped >= lamp.mains.peak:
        return lamp
    farads = theory.dropper_for_current(
        frequency=supply.frequency,
        peak_voltage=lamp.mains.peak,
        clamped_voltage=clamped,
        string_current_mean=setting.current,
    )
    farads = min(max(farads, 1e-9), 3e-5)
    near = min(preferred(setting.dropper_series, farads / 2, farads * 2), key=lambda value: abs(value - farads))
    lamp = replace_at(lamp, "dropper", setting.fixed.get("dropper", near))
    return replace_at(lamp, "smoothing", setting.fixed.get("smoothing", _smoothing(setting, lamp, clamped)))


def _smoothing(setting, lamp, clamped):
    string = lamp.string
    try:
        farads = theory.smoothing_for_modulation(
            frequency=lamp.mains.frequency,
            clamped_fraction=clamped / lamp.mains.peak,
            current_modulation=setting.flicker_limit / 100,
            string_resistance=theory.string_resistance(
                string_current_mean=setting.current,
                ideality=string.led.ideality,
                thermal_voltage=THERMAL_VOLTAGE,
                in_series=string.in_series,
                in_parallel=string.in_parallel,
                series_resistance=string.led.series_resistance,
            ),
        )
    except ValueError:  # it wavers no more than that without any
        return 0.0
    farads = max(farads / (1 - setting.smoothing_tolerance), 1e-8)
    if farads >= setting.largest_smoothing:
        return setting.largest_smoothing
    return preferred(setting.smoothing_series, farads, 11 * farads)[0]


def _view(setting, lamp, answer):
    supply, kind = setting.supply, setting.led_kind
    volts = np.linspace(supply.low, supply.high, _VOLTS)
    more, ends = setting.dropper_tolerance, spread_of(setting, lamp)
    ways = {
        "nominal": (lamp.dropper, kind.typical, supply.frequency),
        "most": ((1 + more) * lamp.dropper, kind.least, ends.frequency_high),
        "least": ((1 - more) * lamp.dropper, kind.greatest, ends.frequency_low),
    }
    rows = np.array([(volt, *way) for way in ways.values() for volt in volts])
    paths = ("mains.voltage", "dropper", "string.led.forward_voltage", "mains.frequency")
    means = steady_states(spread(lamp, dict(zip(paths, rows.T, strict=True))), _POINTS).string_current_mean
    result, limit = steady_state(lamp, 512), setting.led_limit * setting.in_parallel
    return View(
        setting=setting,
        lamp=lamp,
        result=result,
        volts=volts,
        currents=dict(zip(ways, np.maximum(means, 0.0).reshape(len(ways), -1), strict=True)),
        limit=limit,
        flickers=np.nan_to_num(flickers(setting, lamp, _FARADS, _POINTS), nan=100.0),
        answer=answer,
        readings=marked(_readings(setting, lamp, result, answer), lamp, limit),
    )


_LATER = "Only a whole design has this figure."


def _readings(setting, lamp, result, answer):
    if result.dark:
        note = "The mains does not reach the voltage of the string, so there is no formula to explain it by."
        return (Reading("string_current_mean", "string current, mean", 0.0, "A", "", note=note),)
    rows = [reading(key, lamp, result) for key in _SHOWN]
    if isinstance(answer, Design):
        by_key = {row.key: row for row in answer.readings}
        corners = [by_key[key] for key in CORNER_READINGS]
        left = _left(answer)
    else:  # rows without a figure, so that nothing jumps when the design comes
        corners = [Reading(key, name, math.nan, unit, "", note=_LATER) for key, (name, unit) in CORNER_READINGS.items()]
        left = Reading("left", _left_name(touch_rule(setting.rule)), math.nan, "V", "", note=_LATER)
    return (rows[0], *corners[:-1], *rows[1:], corners[-1], left)


def _left_name(rule):
    return f"the dropper holds after {rule.seconds:g} s, at worst"


def _left(answer):
    """What the dropper still holds when the brief's rule asks: the most that a meter between the pins could show."""
    check, left = answer.rule_check, answer.residual
    values = {
        "time": check.rule.seconds,
        "bleeder": left.bleeder,
        "dropper": left.capacitance,
        "initial_voltage": left.peak_voltage,
    }
    return Reading(
        "left", _left_name(check.rule), check.voltage_left, "V", "residual_voltage", values, True, note=CAUTION
    )


def nearest_brief(setting: Brief) -> tuple[Brief | None, tuple[str, ...]]:
    """The nearest brief that can be met, and what was given up for it, told in sentences."""
    made, given_up = nearest(setting)
    reasons = tuple(dict.fromkeys(failed.why for failed in given_up))
    if made is None:
        return None, reasons
    changed_to = ", ".join(f"{name} from {old} to {new}" for name, old, new in changes(setting, made.brief))
    return made.brief, (f"Changed: {changed_to}.", *reasons) if changed_to else reasons


def with_name(view: View, name: str) -> View:
    """The same view of a lamp of another name; nothing is worked out again.

    Raises
    ------
    ValueError
        For a name that will not do.
    """
    setting, answer = view.setting.but(name=name), view.answer
    lamp = dataclasses.replace(view.lamp, name=name)
    named = answer.named(name) if isinstance(answer, Design) else answer
    return dataclasses.replace(view, setting=setting, lamp=lamp, answer=named)
