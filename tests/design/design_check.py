"""A second look at a design, by the solver and the ratings alone: none of the designer's own bookkeeping is used."""

import dataclasses
import itertools
import math

from dropper import steady_state
from dropper.circuit.lamp import Mains, replace_at
from dropper.circuit.series import preferred
from dropper.components import kinds
from dropper.components.kinds import Chain
from dropper.design.ratings import ratings
from dropper.solver.transient import faults_of, worst_plug_in
from dropper.standards import touch_rule

STEERED = 0.01  # of the frequency, EN 50160
LARGEST_SURGE = kinds.RECTIFIERS[-1].surge


def corner(brief, lamp, mains, dropper, led):
    """A lamp with its mains, its dropper and its LEDs at ends: -1, 0, 1; "least", "typical", "greatest"."""
    supply = brief.supply
    volts = {-1: supply.low, 0: supply.nominal, 1: supply.high}[mains]
    lamp = dataclasses.replace(lamp, mains=Mains(volts, (1 + mains * STEERED) * supply.frequency))
    lamp = replace_at(lamp, "dropper", (1 + dropper * brief.dropper_tolerance) * lamp.dropper)
    return replace_at(lamp, "string.led", brief.led_kind.led(led))


CORNERS = ((1, 1, "least"), (1, 1, "greatest"), (-1, -1, "greatest"))


def tables(made, fitted=None, corners=CORNERS):
    """Ratings in the corners, every fault counted; behind a clamp an open string is none of the bus's."""
    brief, lamp = made.brief, made.lamp
    for ends in corners:
        now = corner(brief, lamp, *ends)
        faults = [f for f in faults_of(now) if not (made.sizing.clamp and (f.kind, f.part) == ("open", "string"))]
        yield ratings(now, fitted or made.kinds, now.mains.voltage, tuple(faults))


def deepest_flicker(brief, lamp):
    """Percent flicker in the worst of eight corners, with least smoothing."""
    least = replace_at(lamp, "smoothing", (1 - brief.smoothing_tolerance) * lamp.smoothing)
    ends = itertools.product((-1, 1), (-1, 1), ("least", "greatest"))
    return max(steady_state(corner(brief, least, *each)).percent_flicker for each in ends)


def rush(brief, lamp):
    """Peak line current, plugged in again at once, in the corner of most current."""
    worst = replace_at(
        corner(brief, lamp, 1, 1, "least"), "inrush_resistor", (1 - brief.resistor_tolerance) * lamp.inrush_resistor
    )
    return worst_plug_in(worst, True, 1.0, line_inductance=0.0).line_current_peak


def left(brief, rule, farads, tolerance, ohms, volts):
    """Volts left by the law of discharge, and the rule's limit."""
    farads, ohms = farads * (1 + tolerance), ohms * (1 + brief.resistor_tolerance)
    found = touch_rule(rule)
    return volts * math.exp(-found.seconds / (farads * ohms)), found.limit_for(farads, volts)


def led_over(brief, lamp):
    """Whether an LED gets more than its limit in the corner of most current."""
    now = corner(brief, lamp, 1, 1, "least")
    if steady_state(now).string_current_mean / brief.in_parallel > brief.led_limit * (1 + 1e-6):
        return True
    if brief.leds_in_use_only:
        return False
    table = ratings(now, {"leds": brief.led_kind}, now.mains.voltage)
    return table.of("leds").verdict == "over"


def neighbours(series, value):
    """The next smaller and the next larger preferred value."""
    near = preferred(series, value / 11, 11 * value)
    at = min(range(len(near)), key=lambda index: abs(near[index] / value - 1))
    assert math.isclose(near[at], value, rel_tol=1e-9), f"{value} is no value of E{series}"
    return near[at - 1], near[at + 1]


def smaller_kind(kind):
    """The next smaller kind of a family, in place of one; None for the smallest."""
    single = kind.part if isinstance(kind, Chain) else kind
    for family in kinds.FAMILIES.values():
        if single in family and family.index(single) > 0:
            lower = family[family.index(single) - 1]
            return Chain(lower, kind.count, kind.resistance_each) if isinstance(kind, Chain) else lower
    return None
