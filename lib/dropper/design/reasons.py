"""Reasons: why each value was chosen, and what the next one would do, with a derivation to look it up.

Each function gives the value, or what decides it, as a `Reading`; why this one; and why not one that asks for less.
"""

from __future__ import annotations

from .. import theory
from ..circuit.parts import BY_KEY
from ..circuit.values import show, show_reading
from ..results.explain import reading, values_for
from ..results.reading import Reading
from ..solver.steady import steady_state
from ..solver.transient import LINE_INDUCTANCE
from ..standards import touch_rule
from . import stock
from .bleeders import emptying
from .corners import POINTS
from .dropper_choice import led_currents, tightest
from .inrush import leds_stand_rush, peak_inrush, peak_inrush_with_fault
from .sizing import Sizing

_Reasons = tuple[Reading, str, str]


def _dropper(sizing: Sizing) -> _Reasons:
    lamp, brief = sizing.lamp, sizing.brief
    clamped = values_for(theory.mean_string_current, lamp, sizing.result)["clamped_voltage"]
    value = Reading(
        "dropper",
        "dropper for the wished current",
        lamp.dropper,
        "F",
        "dropper_for_current",
        {
            "frequency": lamp.mains.frequency,
            "peak_voltage": lamp.mains.peak,
            "clamped_voltage": clamped,
            "string_current_mean": brief.current,
        },
        chosen=True,
        note="The nearest value of its series is taken that keeps the LEDs within their limit.",
    )
    why = (
        f"It gives {show_reading(sizing.current, 'A')} on average, {100 * sizing.miss:+.2g} % of the wish, and between"
        f" {show_reading(sizing.least_current, 'A')} and {show_reading(sizing.greatest_current, 'A')} over mains,"
        " tolerance and LEDs."
    ).replace("-", "−")
    near = stock.values(brief, "dropper", lamp.dropper / 4, lamp.dropper * 4)
    place = min(range(len(near)), key=lambda index: abs(near[index] - lamp.dropper))
    others = near[max(place - 1, 0) : place] + near[place + 1 : place + 2]
    return value, why, "; ".join(_other_dropper(sizing, farads) for farads in others) + "."


def _other_dropper(sizing, farads):
    """What another dropper would give, and whether the LEDs would stand it."""
    other = sizing.with_value("dropper", farads)
    mean = float(steady_state(other.lamp, POINTS).string_current_mean)
    text = f"{show(farads, 'F')} would give {show_reading(mean, 'A')}"
    current, limit, when = tightest(led_currents(other))
    if current <= limit:
        return text
    allowed = f"which is allowed {show_reading(limit, 'A')}"
    return f"{text}, and up to {show_reading(current, 'A')} in one LED {when}, {allowed}"


def _bleeder(sizing: Sizing, part: str = "bleeder") -> _Reasons:
    brief, task = sizing.brief, emptying(sizing, part)
    at_plug = part == "bleeder"
    rule = touch_rule(brief.rule if at_plug else brief.bus_rule)
    count, each = sizing.pieces[part]
    other_names = {"dropper": "smoothing capacitor, its tolerance added", "": "Bleeder across the smoothing capacitor"}
    value = Reading(
        part,
        f"largest {BY_KEY[part].name}",
        count * each,
        "Ω",
        "largest_bleeder",
        task.values if task.needed else {},
        chosen=True,
        note="Its own tolerance comes off, then the next lower value of its series is taken.",
        names={} if at_plug else other_names,
    )
    if not task.needed:
        return value, "Nothing has to be emptied here.", ""
    limit = f"{show(task.limit, 'V')} after {show(rule.seconds, 's')}"
    basis = (
        f"{rule.standard} asks for {limit}"
        if at_plug
        else f"no rule that is kept here asks for it inside a closed case; {limit}, as for {rule.whom}, is kept"
    )
    worst = 1 + brief.resistor_tolerance
    why = (
        f"{show(task.left(worst * count * each), 'V')} are left at worst; {basis}. It starts from"
        f" {show(task.start, 'V')}."
    )
    series = f" {count} in series share the volts." if count > 1 else ""
    more = stock.next_above(brief, part, each)
    if more is None:
        return value, why + series, "It is the largest in the drawer."
    left = show(task.left(worst * count * more), "V")
    return value, why + series, f"{f'{count} × ' if count > 1 else ''}{show(more, 'Ω')} would leave {left}."


def _smoothing_bleeder(sizing: Sizing) -> _Reasons:
    return _bleeder(sizing, "smoothing_bleeder")


def _inrush_resistor(sizing: Sizing) -> _Reasons:
    brief, ohms = sizing.brief, sizing.lamp.inrush_resistor
    value = Reading(
        "inrush_resistor",
        "resistor for the inrush limit",
        ohms,
        "Ω",
        "surge_resistor",
        {"peak_voltage": theory.replug_step(peak_voltage=brief.greatest_peak), "greatest_current": brief.inrush},
        chosen=True,
        note="The formula takes the step of twice the peak whole and knows no tolerance. The solver takes the resistor"
        f" {100 * brief.resistor_tolerance:.3g} % low, and counts the string's share and the mains' own ohms, but not"
        " its inductance, so that the choice holds on any mains.",
        names={"peak_voltage": "step at plugging in again, twice the mains' peak at its upper end"},
    )
    peak = show_reading(peak_inrush(sizing, ohms), "A")
    usual = show_reading(peak_inrush(sizing, ohms, LINE_INDUCTANCE), "A")
    why = (
        f"Plugged in again at once the rush is {peak} at most, on a mains without inductance, and {usual} on one of the"
        f" reference impedance; {show_reading(brief.inrush, 'A')} is the wish."
    )
    less = stock.next_below(brief, "inrush_resistor", ohms)
    if less is None:
        return value, why, "It is the least in the drawer."
    higher = peak_inrush(sizing, less)
    not_less = f"With {show(less, 'Ω')} it would be {show_reading(higher, 'A')}"
    if higher <= brief.inrush and not leds_stand_rush(sizing, less):
        how_much = "little smooths: most" if sizing.lamp.smoothing else "nothing smooths: all"
        not_less += f", more than the LEDs are let take, for {how_much} of the rush goes through them"
    elif higher <= brief.inrush:
        fault = show_reading(peak_inrush_with_fault(sizing, less), "A")
        not_less += f", and {fault} with two diodes short, more than a rectifier of 1 A stands"
    return value, why, f"{not_less}."


def _smoothing(sizing: Sizing) -> _Reasons:
    brief, farads, limit = sizing.brief, sizing.lamp.smoothing, sizing.brief.flicker_limit
    values = values_for(theory.current_modulation, sizing.lamp, sizing.result)
    values.pop("smoothing")
    values["current_modulation"] = limit / 100
    formula_holds = limit / 100 < theory.charging_harmonic(clamped_fraction=values["clamped_fraction"])
    value = Reading(
        "smoothing",
        "smoothing for the wished flicker",
        farads,
        "F",
        "smoothing_for_modulation" if formula_holds else "",
        values if formula_holds else {},
        chosen=True,
        note="The formula counts the swing at twice the mains frequency only, at nominal values; the choice is made in"
        " the worst corner, with the capacitor at the low end of its tolerance.",
    )
    why = f"In the worst corner the light wavers by {sizing.flicker:.3g} %; {limit:.3g} % is the wish."
    less = stock.next_below(brief, "smoothing", farads)
    if less is None:
        return value, why, "It is the least in the drawer."
    depth = sizing.flicker_with(less)
    if depth > limit:
        return value, why, f"{show(less, 'F')} would leave {depth:.3g} %."
    return value, why, f"{show(less, 'F')} would do for the light, but not for the ripple."


def _series_resistor(sizing: Sizing) -> _Reasons:
    ohms = sizing.lamp.series_resistor
    return Reading("series_resistor", "series resistor", ohms, "Ω", "", note="It was given with the brief."), "", ""


def _diodes(sizing: Sizing) -> _Reasons:
    peak, drop = sizing.brief.greatest_peak, sizing.lamp.diode.voltage_at(1e-4)
    value = Reading(
        "diodes",
        "reverse voltage with the string open",
        peak - drop,
        "V",
        "diode_reverse_voltage_open",
        {"peak_voltage": peak, "diode_voltage": drop},
        True,
    )
    return value, "", ""


def _leds(sizing: Sizing) -> _Reasons:
    return reading("string_current_mean", sizing.lamp, sizing.result), "As the brief has them.", ""


REASONS = {
    "dropper": _dropper,
    "bleeder": _bleeder,
    "smoothing_bleeder": _smoothing_bleeder,
    "inrush_resistor": _inrush_resistor,
    "smoothing": _smoothing,
    "series_resistor": _series_resistor,
    "diodes": _diodes,
    "leds": _leds,
}
