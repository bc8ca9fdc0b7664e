"""Step of the circuit in time: two implicit stages, of second order and L-stable.

Both stages weigh their own end with γ = 1 - 1/√2. The second stage ends the step, so that
every recorded point satisfies the circuit's equations exactly; nothing of a current that jumps
is carried over a jump, and a stiff loop is damped and does not ring.
"""

import math

from . import network as net
from .compilation import compiled

GAMMA = 1 - math.sqrt(0.5)
RATIO = (1 - GAMMA) / GAMMA
# Results of a stage: w, m, V, currents of D1 to D4 and of the string (`network.solve`), then these.
W, MINUS, BUS, I_1, I_2, I_3, I_4, I_STRING, LINE, DROPPER, STORE, MAINS, I_STORE = range(13)
STAGE = 13


# Columns of a piece of a mains that is no sine; harmonics have three columns, pieces five.
START, END, GATE, LEVEL, SLOPE = range(5)
_PIECE = 5
_AT_CORNER = 1e-9  # of a period: what is so near a corner stands on it


@compiled
def piece_at(orders, share):
    """The row of the piece that a share of the period lies in, or begins."""
    low, high = 0, orders.shape[0] - 1
    while low < high:
        middle = (low + high + 1) // 2
        if orders[middle, START] <= share + _AT_CORNER:
            low = middle
        else:
            high = middle - 1
    return low


@compiled
def time_to_corner(p, orders, t):
    """Seconds until the mains has its next corner; infinite where it has none."""
    if orders.shape[1] != _PIECE:
        return math.inf
    share = p[net.FREQUENCY] * t
    share -= math.floor(share + _AT_CORNER)
    return (orders[piece_at(orders, share), END] - share) / p[net.FREQUENCY]


@compiled
def mains_at(p, orders, t, factor):
    """Mains voltage at a time; `orders` has a row a harmonic (order, fraction, phase in radians) or a row a piece."""
    if orders.shape[1] == _PIECE:
        share = p[net.FREQUENCY] * t
        share -= math.floor(share)
        row = orders[piece_at(orders, share)]
        v = row[LEVEL] + row[SLOPE] * (share - row[START])
        if row[GATE] != 0.0:
            v += row[GATE] * math.sin(2 * math.pi * share)
        return factor * p[net.PEAK] * v
    angle = 2 * math.pi * p[net.FREQUENCY] * t
    v = 0.0
    for row in range(orders.shape[0]):
        v += orders[row, 1] * math.sin(orders[row, 0] * angle + orders[row, 2])
    return factor * p[net.PEAK] * v


@compiled
def solve_stage(p, points, v, base_u, base_q, base_i, part, out, factors):
    """Solve one implicit stage of `part` = γ·h seconds from the states' bases.

    An inductance in the line comes as a resistance L/part and a voltage L/part·base_i behind it.
    """
    alpha = 1.0
    if p[net.DROPPER_SHORT] > 0:
        series, u0, open_line = 0.0, 0.0, False
    elif p[net.C] > 0:
        alpha = 1 / (1 + part / p[net.C] * p[net.G_C])
        series, u0, open_line = part / p[net.C] * alpha, base_u * alpha, False
    else:
        open_line = p[net.G_C] == 0
        series, u0 = (0.0 if open_line else 1 / p[net.G_C]), 0.0
    open_line = open_line or p[net.LINE_OPEN] > 0
    choke = p[net.L] / part
    line = 0.0 if open_line else 1 / (p[net.R] + series + choke)
    bus = 1 / (p[net.ESR] + part / p[net.CS]) if p[net.CS] > 0 else 0.0
    driving = v - u0 + choke * base_i
    earth = v if p[net.EARTH_AT_LINE] > 0 else 0.0
    before, behind = line, driving
    if p[net.BODY_BRIDGE] > 0:
        before = line + p[net.BODY_BRIDGE]
        behind = (line * driving + p[net.BODY_BRIDGE] * earth) / before
    if not net.solve_nodes(p, points, before, behind, bus, base_q, earth, out, factors):
        return False
    out[LINE] = (driving - out[W]) * line
    if open_line and p[net.C] > 0:
        out[DROPPER] = u0
    else:
        out[DROPPER] = u0 + series * out[LINE]
    out[MAINS] = v
    out[I_STORE] = bus * (out[BUS] - base_q)
    out[STORE] = base_q + part / p[net.CS] * out[I_STORE] if p[net.CS] > 0 else out[BUS]
    return True


@compiled
def state_sensitivity(p, part, factors, slopes) -> None:
    """Fill in how a stage's two states change with their bases: du/du, du/dq, dq/du, dq/dq; with no inductance."""
    slopes[0] = slopes[1] = slopes[2] = slopes[3] = 0.0
    moves = p[net.C] > 0 and p[net.DROPPER_SHORT] == 0
    line = series = alpha = 0.0
    if moves:
        alpha = 1 / (1 + part / p[net.C] * p[net.G_C])
        series = part / p[net.C] * alpha
        line = 0.0 if p[net.LINE_OPEN] > 0 else 1 / (p[net.R] + series)
    bus = 1 / (p[net.ESR] + part / p[net.CS]) if p[net.CS] > 0 else 0.0
    if moves:
        w, v = net.node_sensitivity(factors, -line * alpha, 0.0)
        slopes[0] = alpha + series * line * (-alpha - w)
        slopes[2] = part / p[net.CS] * bus * v if bus > 0 else 0.0
    if bus > 0:
        w, v = net.node_sensitivity(factors, 0.0, bus)
        slopes[1] = -series * line * w if moves else 0.0
        slopes[3] = 1 + part / p[net.CS] * bus * (v - 1)


@compiled
def two_stage_step(p, orders, factor, points, t, h, u, q, i, first, second, factors_1, factors_2):
    """Go `h` seconds on from states u, q, i at time t; fill both stages; False if no answer was found."""
    part = GAMMA * h
    if not solve_stage(p, points, mains_at(p, orders, t + part, factor), u, q, i, part, first, factors_1):
        return False
    base_u = u + RATIO * (first[DROPPER] - u)
    base_q = q + RATIO * (first[STORE] - q)
    base_i = i + RATIO * (first[LINE] - i)
    return solve_stage(p, points, mains_at(p, orders, t + h, factor), base_u, base_q, base_i, part, second, factors_2)
