"""Choice of the dropper: the current that was wished, and what the string and its LEDs let through."""

from __future__ import annotations

import math

from .. import theory
from ..circuit.values import show
from ..solver.steady import spread, steady_state, steady_states
from ..solver.transient import Fault, with_fault
from . import stock
from .constraints import groups
from .corners import POINTS
from .infeasible import Infeasible, round_down
from .sizing import Sizing

CLOSEST = 0.95  # of the mains' least peak, that the string may take; beyond, the light hangs on the last volts
_REACH = 3.0  # how far preferred values are looked for, either way
_SURE = 0.95  # of the largest dropper that the LEDs let through: below, nothing has to be solved again
_LEAST, _MOST = 1e-9, 3e-5  # F, of the droppers that a lamp may have
_LED_FAULTS = (
    Fault("short", "D1"),
    Fault("open", "LED"),
    Fault("short", "LED"),
    Fault("short", "group"),
    Fault("short", "groups"),
)


def check_string(sizing: Sizing) -> None:
    """Raise `Infeasible` if the string's greatest voltage comes too close to the mains' least peak."""
    brief, lamp = sizing.brief, sizing.lamp
    group = brief.led_kind.led("greatest").voltage_at(brief.current / brief.in_parallel)
    least_peak = math.sqrt(2) * brief.supply.low
    room = CLOSEST * least_peak - 2 * lamp.diode.voltage_at(brief.current) - lamp.series_resistor * brief.current
    if brief.in_series * group <= room:
        return
    most = math.floor(room / group)
    why = (
        f"{groups(brief.in_series)} of up to {show(group, 'V')} need {show(brief.in_series * group, 'V')}; at"
        f" {show(brief.supply.low, 'V', 4)} the mains' peak is {show(least_peak, 'V')}, and {100 * CLOSEST:.3g} % of"
        f" that, less two diodes, is {show(room, 'V')}."
    )
    if most < 1:
        raise Infeasible("in_series", f"{why} Not even one group fits; take LEDs of fewer volts.")
    raise Infeasible("in_series", f"{why} At most {groups(most)} can be had.", brief.but(in_series=most))


def guess_dropper(sizing: Sizing) -> Sizing:
    """A first value by the closed form, not a preferred one; one that is fixed stays.

    Raises
    ------
    Infeasible
        If that is no value a lamp can have.
    """
    brief = sizing.brief
    if "dropper" in brief.fixed:
        return sizing
    farads = _ideal_dropper(sizing)
    if not _LEAST <= farads <= _MOST:
        possible = min(max(farads, 1.1e-9), 2.7e-5)
        raise Infeasible(
            "current",
            f"{show(brief.current, 'A')} asks for a dropper of {show(farads, 'F')}; kept here are 1 nF to 30 µF.",
            brief.but(current=float(f"{brief.current * possible / farads:.2g}")),
        )
    return sizing.with_value("dropper", farads)


def choose_dropper(sizing: Sizing) -> Sizing:
    """The preferred value whose current comes nearest to the wish, the LEDs within their limit in every corner.

    Raises
    ------
    Infeasible
        If the wish itself is over that limit.
    """
    brief, lamp = sizing.brief, sizing.lamp
    if "dropper" in brief.fixed:
        _largest_dropper(sizing, steady_state(lamp, POINTS).string_current_mean)
        return sizing
    exact = _exact_dropper(sizing)
    most = _largest_dropper(sizing.with_value("dropper", exact), brief.current)
    values = stock.values(brief, "dropper", exact / _REACH, exact * _REACH)
    means = steady_states(spread(lamp, {"dropper": values}), POINTS).string_current_mean
    nearest_first = sorted((abs(mean - brief.current), value) for mean, value in zip(means, values, strict=True))

    def passes(value):
        if value <= _SURE * most:
            return True
        return value <= most / _SURE and led_headroom(sizing.with_value("dropper", value)) >= 1

    # the smallest of a series gives a third of what has just passed, so one of them will; a drawer may have none
    chosen = next((value for _, value in nearest_first if passes(value)), None)
    if chosen is None:
        others = {name: kept for name, kept in brief.stock.items() if name != "dropper"}
        why = (
            f"The droppers in the drawer, {show(values[0], 'F')} the least of them, give the LEDs more than they stand."
        )
        raise Infeasible("stock", why, brief.but(stock=others))
    return sizing.with_value("dropper", chosen)


def led_currents(sizing: Sizing) -> list[tuple[float, float, str]]:
    """The most that one LED gets, and what it is allowed: in use, and with each fault that can raise it.

    Returns
    -------
    list of (float, float, str)
        A, A, and when.
    """
    brief, lamp = sizing.brief, sizing.bright
    currents = [(sizing.greatest_current / brief.in_parallel, brief.led_limit, "in use")]
    for fault in () if brief.leds_in_use_only else _LED_FAULTS:
        if not fault.why_not(lamp):
            current = steady_state(with_fault(lamp, fault)).led_current_mean
            currents.append((current, brief.led_kind.current_limit, f"with {fault.words(lamp)}"))
    return currents


def tightest(currents: list[tuple[float, float, str]]) -> tuple[float, float, str]:
    """Of `led_currents` the one that is nearest to, or furthest over, what is allowed."""
    return max(currents, key=lambda row: row[0] / row[1])


def led_headroom(sizing: Sizing) -> float:
    """How many times the LEDs' current goes into what they are allowed, at its tightest."""
    current, limit, _ = tightest(led_currents(sizing))
    return limit / current


def _ideal_dropper(sizing):
    """The dropper of the closed form for the wished current, F."""
    brief, lamp = sizing.brief, sizing.lamp
    return theory.dropper_for_current(
        frequency=lamp.mains.frequency,
        peak_voltage=lamp.mains.peak,
        string_current_mean=brief.current,
        clamped_voltage=lamp.clamped_voltage(brief.current),
    )


def _exact_dropper(sizing):
    """The dropper, preferred or not, that gives just the wished current, F: the closed form, then put right twice."""
    value = _ideal_dropper(sizing)
    for _ in range(2):
        trial = sizing.with_value("dropper", value).lamp
        value *= sizing.brief.current / float(steady_states([trial], POINTS).string_current_mean[0])
    return value


def _largest_dropper(sizing, mean_current):
    """The largest dropper that keeps the LEDs within their limit, F; `Infeasible` if that is less than the one there.

    Parameters
    ----------
    mean_current
        A, of the lamp on nominal mains.
    """
    brief, farads = sizing.brief, sizing.lamp.dropper
    current, limit, when = tightest(led_currents(sizing))
    if current <= limit * (1 + 1e-9):
        return farads * limit / current
    most = round_down(0.99 * mean_current * limit / current)
    why = (
        f"{show(mean_current, 'A')} on average is too much: with mains and dropper at their upper ends and LEDs of"
        f" least forward voltage one LED gets {show(current, 'A')} {when}, and {show(limit, 'A')} is what it is"
        " allowed."
    )
    if "dropper" in brief.fixed:
        mended = brief.without_fixed("dropper", current=min(brief.current, most))
        raise Infeasible("fixed", f"A dropper of {show(farads, 'F')}: {why}", mended)
    raise Infeasible("current", f"{why} {show(most, 'A')} can be had.", brief.but(current=most))
