"""Transient: a circuit integrated over time from given states, in steps as long as the error allows.

A step is refused and shortened where it is too coarse. Where a diode starts or stops to conduct
inside a step, that instant is searched by halving and the step ends on it; the next one is
short and grows again. So a start of conduction, an inrush of microseconds and a discharge of
minutes are integrated by the same code.
"""

import math

import numpy as np

from . import network as net
from . import sdirk_step as sdirk
from .compilation import compiled

# Rows of the recorded waves.
(TIME, MAINS, LINE, DROPPER, BUS, STRING_WAVE, BRIDGE, MINUS, SQUARED, CHARGED) = range(10)
WAVES = 10  # the last two are sums so far: line current squared, string current

# Sums over the time: integrals of ...
(
    SQUARE,  # line current squared
    TAKEN,  # mains voltage times line current
    CHARGE,  # string current
    BUS_TIME,  # bus voltage
    DROPPER_SQUARE,  # dropper voltage squared
    STRING_SQUARE,  # string current squared
    STRING_ENERGY,  # string current times bus voltage
    BUS_SQUARE,  # bus voltage squared
    STORE_SQUARE,  # current of the smoothing capacitor squared
    DIODE_1,
    DIODE_2,
    DIODE_3,
    DIODE_4,  # energy in each diode
    CONDUCTING,  # time in which any diode conducts
    LINE_PEAK,
    DROPPER_PEAK,
    BUS_MAX,
    BUS_MIN,
    STRING_MAX,
    STRING_MIN,
    REVERSE_1,
    REVERSE_2,
    REVERSE_3,
    REVERSE_4,  # greatest reverse voltage of each diode
    STEPS,
) = range(25)
SUMS = 25

# State that `integrate` is given and leaves.
NOW, END, DROPPER_STATE, STORE_STATE, LINE_STATE, STEP, BY_00, BY_01, BY_10, BY_11 = range(10)
STATE = 10
DONE, FULL, FAILED = 0, 1, 2

TOLERANCE = 4e-4
_GROWTH = 2.0  # a step grows at most so much over the last
_SHORTEST = 1e-6  # ohms, only for the length of a first step


@compiled
def conducts(p, out, k, before):
    """Whether a diode counts as conducting; it starts at twice the current at which it stops."""
    level = 1e-4 * p[net.SCALE]
    return out[sdirk.I_1 + k] > (0.5 * level if before else level)


@compiled
def switches(p, out, on):
    """Whether any diode has started or stopped to conduct since `on`."""
    differ = False
    for k in range(4):
        differ = differ or conducts(p, out, k, on[k] > 0) != (on[k] > 0)
    return differ


@compiled
def step_error(p, u, q, i, first, second):
    """What the two stages' slopes disagree by, over what is allowed: above 1 a step is too long."""
    base_u = u + sdirk.RATIO * (first[sdirk.DROPPER] - u)
    base_q = q + sdirk.RATIO * (first[sdirk.STORE] - q)
    ratio = 0.0
    if p[net.C] > 0 and p[net.DROPPER_SHORT] == 0:
        gap = abs(second[sdirk.DROPPER] - base_u - first[sdirk.DROPPER] + u)
        ratio = gap / (TOLERANCE * (abs(u) + 0.2 * p[net.PEAK]))
    if p[net.CS] > 0:
        gap = abs(second[sdirk.STORE] - base_q - first[sdirk.STORE] + q)
        bend = p[net.A_S] + p[net.A_O] + p[net.R_S] * p[net.SCALE]
        ratio = max(ratio, gap / (TOLERANCE * (bend + 0.05 * abs(q) + 0.003 * p[net.PEAK])))
    if p[net.L] > 0:
        base_i = i + sdirk.RATIO * (first[sdirk.LINE] - i)
        gap = abs(second[sdirk.LINE] - base_i - first[sdirk.LINE] + i)
        ratio = max(ratio, gap / (TOLERANCE * (abs(i) + abs(second[sdirk.LINE]) + p[net.SCALE])))
    return ratio


@compiled
def add_stage(p, out, weight, sums) -> None:
    """Add one stage to the integrals."""
    line, y, v, w, m = out[sdirk.LINE], out[sdirk.I_STRING], out[sdirk.BUS], out[sdirk.W], out[sdirk.MINUS]
    sums[SQUARE] += weight * line * line
    sums[TAKEN] += weight * out[sdirk.MAINS] * line
    sums[CHARGE] += weight * y
    sums[BUS_TIME] += weight * v
    sums[DROPPER_SQUARE] += weight * out[sdirk.DROPPER] * out[sdirk.DROPPER]
    sums[STRING_SQUARE] += weight * y * y
    sums[STRING_ENERGY] += weight * y * v
    sums[BUS_SQUARE] += weight * v * v
    sums[STORE_SQUARE] += weight * out[sdirk.I_STORE] * out[sdirk.I_STORE]
    sums[DIODE_1] += weight * out[sdirk.I_1] * (w - m - v)
    sums[DIODE_2] += weight * out[sdirk.I_2] * (-m - v)
    sums[DIODE_3] += weight * out[sdirk.I_3] * (m - w)
    sums[DIODE_4] += weight * out[sdirk.I_4] * m


@compiled
def update_extremes(p, out, sums) -> None:
    """Look for greatest and least values at a step's end."""
    v, w, m = out[sdirk.BUS], out[sdirk.W], out[sdirk.MINUS]
    sums[LINE_PEAK] = max(sums[LINE_PEAK], abs(out[sdirk.LINE]))
    sums[DROPPER_PEAK] = max(sums[DROPPER_PEAK], abs(out[sdirk.DROPPER]))
    sums[BUS_MAX] = max(sums[BUS_MAX], v)
    sums[BUS_MIN] = min(sums[BUS_MIN], v)
    sums[STRING_MAX] = max(sums[STRING_MAX], out[sdirk.I_STRING])
    sums[STRING_MIN] = min(sums[STRING_MIN], out[sdirk.I_STRING])
    sums[REVERSE_1] = max(sums[REVERSE_1], m + v - w)
    sums[REVERSE_2] = max(sums[REVERSE_2], m + v)
    sums[REVERSE_3] = max(sums[REVERSE_3], w - m)
    sums[REVERSE_4] = max(sums[REVERSE_4], -m)


@compiled
def record(waves, count, t, out, sums) -> None:
    """Record one point."""
    waves[TIME, count], waves[MAINS, count], waves[LINE, count] = t, out[sdirk.MAINS], out[sdirk.LINE]
    waves[DROPPER, count], waves[BUS, count] = out[sdirk.DROPPER], out[sdirk.BUS]
    waves[STRING_WAVE, count], waves[BRIDGE, count] = out[sdirk.I_STRING], out[sdirk.W]
    waves[MINUS, count] = out[sdirk.MINUS]
    waves[SQUARED, count], waves[CHARGED, count] = sums[SQUARE], sums[CHARGE]


@compiled
def integrate(p, orders, factor, state, points, on, longest, start, waves, sums) -> tuple[int, int]:
    """Integrate the circuit from state[NOW] to state[END].

    Parameters
    ----------
    p : a circuit's row (`network`)
    orders, factor : the mains (`sdirk_step.mains_at`)
    state : times, the two capacitors' voltages, the current in the line's inductance, the next step's length, how
        the capacitors' voltages change with the start (where there is no inductance)
    points : tangents (`network.tangents`)
    on : for each diode 1 while it conducts
    longest : no step is longer, seconds
    start : whether to solve and record the first instant
    waves : filled with a column a step
    sums : added to

    Returns
    -------
    (outcome, count)
        DONE; FULL: no more room in `waves`, call again; FAILED: no answer was found.
    """
    first, second = np.zeros(sdirk.STAGE), np.zeros(sdirk.STAGE)
    trial_1, trial_2 = np.zeros(sdirk.STAGE), np.zeros(sdirk.STAGE)
    factors_1, factors_2 = np.zeros(6), np.zeros(6)
    slopes_1, slopes_2 = np.zeros(4), np.zeros(4)
    capacity, count = waves.shape[1], 0
    period = 1 / p[net.FREQUENCY]
    event_width = 1e-5 * period
    # the steps after an event resolve the line's own time constant
    capacitor = p[net.C] if p[net.C] > 0 else p[net.CS]
    resistance = p[net.R] + 2 * p[net.R_D] + _SHORTEST
    time_constant = max(resistance * capacitor, math.sqrt(p[net.L] * capacitor))
    if p[net.L] > 0:  # the current rises within the shorter of the two
        time_constant = min(time_constant, p[net.L] / resistance)
    short_step = min(max(0.03 * time_constant, 1e-7 * period), 1e-3 * period)
    t, u, q, i, h = state[NOW], state[DROPPER_STATE], state[STORE_STATE], state[LINE_STATE], state[STEP]
    if h <= 0:
        h = max(1e-4 * time_constant, 1e-9 * period)
    if start:
        mains = sdirk.mains_at(p, orders, t, factor)
        if not sdirk.solve_stage(p, points, mains, u, q, i, 1e-3 * h, second, factors_2):
            return FAILED, 0
        for k in range(4):
            on[k] = 1.0 if conducts(p, second, k, False) else 0.0
        update_extremes(p, second, sums)
        record(waves, 0, t, second, sums)
        count = 1
    outcome = DONE
    while state[END] - t > 1e-12 * period:
        if count == capacity:
            outcome = FULL
            break
        remaining = state[END] - t
        corner = sdirk.time_to_corner(p, orders, t)
        length = min(h, longest)
        at_corner = length > 0.999 * corner
        if at_corner:
            length = corner
        h = length if length < 0.999 * remaining else remaining
        solved = sdirk.two_stage_step(p, orders, factor, points, t, h, u, q, i, first, second, factors_1, factors_2)
        ratio = step_error(p, u, q, i, first, second) if solved else 16.0
        if ratio > 1:
            h *= 0.9 / math.sqrt(ratio) if ratio < 16 else 0.25
            if h < 1e-13 * period:
                outcome = FAILED
                break
            continue
        event = switches(p, second, on)
        if event and h > event_width:
            low, high = 0.0, h
            while high - low > event_width:
                middle = 0.5 * (low + high)
                solved = sdirk.two_stage_step(
                    p, orders, factor, points, t, middle, u, q, i, trial_1, trial_2, factors_1, factors_2
                )
                if not solved or switches(p, trial_2, on):
                    high = middle
                else:
                    low = middle
            h = high
            if not sdirk.two_stage_step(p, orders, factor, points, t, h, u, q, i, first, second, factors_1, factors_2):
                outcome = FAILED
                break
        part = sdirk.GAMMA * h
        sdirk.state_sensitivity(p, part, factors_1, slopes_1)
        sdirk.state_sensitivity(p, part, factors_2, slopes_2)
        # the second base is x + RATIO·(x1 - x)
        b00, b01 = 1 - sdirk.RATIO + sdirk.RATIO * slopes_1[0], sdirk.RATIO * slopes_1[1]
        b10, b11 = sdirk.RATIO * slopes_1[2], 1 - sdirk.RATIO + sdirk.RATIO * slopes_1[3]
        s00, s01 = slopes_2[0] * b00 + slopes_2[1] * b10, slopes_2[0] * b01 + slopes_2[1] * b11
        s10, s11 = slopes_2[2] * b00 + slopes_2[3] * b10, slopes_2[2] * b01 + slopes_2[3] * b11
        m00, m01, m10, m11 = state[BY_00], state[BY_01], state[BY_10], state[BY_11]
        state[BY_00], state[BY_01] = s00 * m00 + s01 * m10, s00 * m01 + s01 * m11
        state[BY_10], state[BY_11] = s10 * m00 + s11 * m10, s10 * m01 + s11 * m11

        add_stage(p, first, (1 - sdirk.GAMMA) * h, sums)
        add_stage(p, second, part, sums)
        update_extremes(p, second, sums)
        conducting = False
        for k in range(4):
            now = conducts(p, second, k, on[k] > 0)
            on[k] = 1.0 if now else 0.0
            conducting = conducting or now
        if conducting:
            sums[CONDUCTING] += h
        sums[STEPS] += 1
        t = t + h if h < remaining else state[END]
        u, q, i = second[sdirk.DROPPER], second[sdirk.STORE], second[sdirk.LINE]
        record(waves, count, t, second, sums)
        count += 1
        growth = 0.9 / math.sqrt(max(ratio, 1e-6))
        at_corner = at_corner and h >= corner
        h *= min(_GROWTH, max(0.3, growth))
        if event or at_corner:
            h = short_step
    state[NOW], state[DROPPER_STATE], state[STORE_STATE], state[LINE_STATE], state[STEP] = t, u, q, i, h
    return outcome, count
