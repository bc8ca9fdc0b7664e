"""Dark lamp: where its capacitors stand when next to nothing flows through the bridge, and a step of it.

The smoothing capacitor's current is the difference of what comes and goes, never of two voltages: in a step,
nanoamperes move a bus of hundreds of volts by less than its last digit.
"""

import math

from . import columns as col
from .columns import A_D, A_S, B_D, B_S, G_S, R_D, R_S
from .compilation import compiled_part

_HALVINGS = 60
_NEAR = 1e-8  # of the string's slope voltage: how well a step knows its bus
_MOST = 500.0  # greatest exponent: any current so large means that the bus is too low


@compiled_part
def current_at(a, b, resistance, volts, guess):
    """Current of junctions and a resistor in series at a voltage: a·ln(1 + i/b) + resistance·i = volts, 0 or more."""
    x = math.log(1 + guess / b)
    for _ in range(60):
        rise = b * math.expm1(x)
        new = max(x + (volts - resistance * rise - a * x) / (resistance * (rise + b) + a), 0.0)
        done = abs(new - x) <= 1e-13 * (1 + x)
        x = new
        if done:
            break
    return b * math.expm1(x)


@compiled_part
def solve_dark(p, vb, kb, total, e):
    """`step.solve_conducting` for a dark lamp with smoothing: the bus's rise and the bridge's current are the unknowns.

    The string is taken as a straight line about the voltage found last, and so becomes a part of the bus's companion.
    """
    rise, y, slope, j = 0.0, 0.0, 0.0, 0.0
    for _ in range(20):
        y = current_at(p[A_S], p[B_S], p[R_S], vb + rise, y)
        slope = 1 / (p[A_S] / (p[B_S] + y) + p[R_S])
        companion = 1 / (kb + p[G_S] + slope)
        lost = y - slope * rise + p[G_S] * vb  # by a bus that does not rise
        volts = e - vb + lost * companion
        if volts <= 0:
            return -1.0, 0.0, 0.0, 0.0
        j = current_at(p[A_D], p[B_D], total + companion, volts, j)
        change = (j - lost) * companion - rise
        y += slope * change
        rise += change
        if abs(change) <= _NEAR * p[A_S]:
            break
    y = max(y, 0.0)
    return y, vb + rise - p[R_S] * y, j, e - vb - rise - (total - p[R_D]) * j


@compiled_part
def load_current(p, bus):
    """What a bus at rest loses: the string's current, the bleeder's and the diodes' reverse current."""
    return current_at(p[col.A_S], p[col.B_S], p[col.R_S], bus, 0.0) + p[col.G_S] * bus + p[col.LEAK]


@compiled_part
def crest_voltage(mains, lengths, scale, sign):
    """The steady voltage at which junctions carry the mean of what they carry on the mains: a·ln(mean of e^(v/a)).

    `scale` is the mains' peak over the junctions' slope voltage a; the result too is in units of a. The mains is
    taken in the middle of each step, where the step takes it.
    """
    top = -math.inf
    for step in range(mains.size - 1):
        top = max(top, sign * 0.5 * (mains[step] + mains[step + 1]))
    total = 0.0
    for step in range(mains.size - 1):
        total += lengths[step] * math.exp(scale * (sign * 0.5 * (mains[step] + mains[step + 1]) - top))
    return scale * top + math.log(total / (mains.size - 1))


@compiled_part
def dropper_at_rest(p, forward, backward, bus):
    """Dropper voltage at which its bleeder takes what more flows one way than the other; all volts over a_d."""
    even = 0.5 * (forward - backward)
    if p[col.G_C] == 0.0 or even == 0.0:
        return even
    low, high = min(even, 0.0), max(even, 0.0)
    for _ in range(_HALVINGS):
        dropper = 0.5 * (low + high)
        flow = math.exp(min(forward - dropper - bus, _MOST)) - math.exp(min(backward + dropper - bus, _MOST))
        if p[col.B_D] * flow > p[col.G_C] * p[col.A_D] * dropper:
            low = dropper
        else:
            high = dropper
    return 0.5 * (low + high)


@compiled_part
def dark_state(p, mains, lengths):
    """Dropper and bus voltage of a lamp so dark that neither moves, and what the bus loses.

    The bus stands where the bridge, whose current is an exponential of the mains, brings what it loses:
    b_d·(e^((M₊ - v_c - V)/a_d) + e^((M₋ + v_c - V)/a_d)) = load(V).
    """
    a = p[col.A_D]
    scale = p[col.PEAK] / a
    forward, backward = crest_voltage(mains, lengths, scale, 1.0), crest_voltage(mains, lengths, scale, -1.0)
    low, high = 0.0, max(forward, backward, 0.0)
    for _ in range(_HALVINGS):
        bus = 0.5 * (low + high)
        dropper = dropper_at_rest(p, forward, backward, bus)
        flow = math.exp(min(forward - dropper - bus, _MOST)) + math.exp(min(backward + dropper - bus, _MOST))
        if p[col.B_D] * flow > load_current(p, a * bus):
            low = bus
        else:
            high = bus
    bus = a * low
    return a * dropper_at_rest(p, forward, backward, low), bus, load_current(p, bus)
