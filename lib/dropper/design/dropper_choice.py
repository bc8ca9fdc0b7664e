"""The dropper for a current, the rest of the lamp as it is: what the string and its LEDs let through."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from .. import theory
from ..circuit.lamp import Lamp, replace_at
from ..circuit.series import preferred
from ..circuit.values import show
from ..solver.steady import spread, steady_state, steady_states
from ..solver.transient import Fault, settle, with_fault
from .constraints import groups
from .corners import POINTS, bright
from .infeasible import Infeasible

if TYPE_CHECKING:
    from .brief import Brief

CLOSEST = 0.95  # of the mains' least peak, that the string may take; beyond, the light hangs on the last volts
_REACH = 3.0  # how far preferred values are looked for, either way
_SURE = 0.95  # of the largest dropper that the LEDs let through: below, nothing has to be solved again
_LED_FAULTS = (
    Fault("short", "D1"),
    Fault("open", "LED"),
    Fault("short", "LED"),
    Fault("short", "group"),
    Fault("short", "groups"),
)


def string_fits(brief: Brief, lamp: Lamp) -> None:
    """Complain if the string's greatest voltage comes too close to the mains' least peak.

    Raises
    ------
    Infeasible
    """
    led = brief.led_kind.led("greatest")
    each = led.voltage_at(brief.current / brief.in_parallel)
    least_peak = math.sqrt(2) * brief.supply.low
    room = CLOSEST * least_peak - 2 * lamp.diode.voltage_at(brief.current) - lamp.series_resistor * brief.current
    if brief.in_series * each <= room:
        return
    most = math.floor(room / each)
    told = (
        f"{groups(brief.in_series)} of up to {show(each, 'V')} need {show(brief.in_series * each, 'V')}; at"
        f" {show(brief.supply.low, 'V', 4)} the mains' peak is {show(least_peak, 'V')}, and {100 * CLOSEST:.3g} % of"
        f" that, less two diodes, is {show(room, 'V')}."
    )
    if most < 1:
        raise Infeasible("in_series", f"{told} Not even one group fits; take LEDs of fewer volts.")
    raise Infeasible("in_series", f"{told} At most {groups(most)} can be had.", brief.but(in_series=most))


def led_currents(brief: Brief, lamp: Lamp) -> list[tuple[float, float, str]]:
    """The most that one LED gets, and what it is allowed: in use, and with each fault that can raise it.

    Returns
    -------
    list of (float, float, str)
        A, A, and when.
    """
    high = bright(brief, lamp)
    mean = float(steady_states([high], POINTS).string_current_mean[0])
    found = [(mean / brief.in_parallel, brief.led_limit, "in use")]
    for fault in () if brief.leds_in_use_only else _LED_FAULTS:
        if not fault.why_not(high):
            now = settle(with_fault(high, fault)).led_current_mean
            found.append((now, brief.led_kind.current_limit, f"with {fault.words(high)}"))
    return found


def tightest(currents: list[tuple[float, float, str]]) -> tuple[float, float, str]:
    """Of `led_currents` the one that is nearest to, or furthest over, what is allowed."""
    return max(currents, key=lambda row: row[0] / row[1])


def dropper(brief: Brief, lamp: Lamp) -> float | None:
    """The preferred value whose current comes nearest to the wish, the LEDs within their limit in every corner.

    Raises
    ------
    Infeasible
        If the wish itself is over that limit.
    """
    if "dropper" in brief.fixed:
        _leds_hold(brief, lamp, lamp.dropper, steady_state(lamp, POINTS).string_current_mean)
        return lamp.dropper
    exact = _exactly(brief, lamp)
    most = _leds_hold(brief, replace_at(lamp, "dropper", exact), exact, brief.current)
    values = preferred(brief.dropper_series, exact / _REACH, exact * _REACH)
    means = steady_states(spread(lamp, {"dropper": values}), POINTS).string_current_mean
    nearest_first = sorted((abs(mean - brief.current), value) for mean, value in zip(means, values, strict=True))
    # the smallest of them gives a third of what has just passed, so one of them will
    return next(
        value
        for _, value in nearest_first
        if value <= _SURE * most or (value <= most / _SURE and led_room(brief, replace_at(lamp, "dropper", value)) >= 1)
    )


def led_room(brief: Brief, lamp: Lamp) -> float:
    """How many times the LEDs' current fits into what they are allowed, at its tightest."""
    now, limit, _ = tightest(led_currents(brief, lamp))
    return limit / now


def _exactly(brief, lamp):
    """The dropper, preferred or not, that gives just the wished current: the closed form, then put right twice."""
    value = theory.dropper_for_current(
        frequency=lamp.mains.frequency,
        peak_voltage=lamp.mains.peak,
        string_current_mean=brief.current,
        clamped_voltage=lamp.clamped_voltage(brief.current),
    )
    for _ in range(2):
        now = float(steady_states([replace_at(lamp, "dropper", value)], POINTS).string_current_mean[0])
        value *= brief.current / now
    return value


def _leds_hold(brief, lamp, value, current):
    """The largest dropper that keeps the LEDs within their limit; complains if that is less than a value."""
    now, limit, when = tightest(led_currents(brief, lamp))
    if now <= limit * (1 + 1e-9):
        return value * limit / now
    most = 0.99 * current * limit / now
    told = (
        f"{show(current, 'A')} on average is too much: with mains and dropper at their upper ends and LEDs of least"
        f" forward voltage one LED gets {show(now, 'A')} {when}, and {show(limit, 'A')} is what it is allowed."
    )
    if "dropper" in brief.fixed:
        freed = brief.freed("dropper", current=min(brief.current, rounded_down(most)))
        raise Infeasible("fixed", f"A dropper of {show(value, 'F')}: {told}", freed)
    most = rounded_down(most)
    raise Infeasible("current", f"{told} {show(most, 'A')} can be had.", brief.but(current=most))


def rounded_down(value: float) -> float:
    """Two significant digits, downwards."""
    size = 10 ** (math.floor(math.log10(value)) - 1)
    return float(f"{math.floor(value / size) * size:.2g}")
