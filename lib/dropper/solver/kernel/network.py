"""Network: the circuit at one instant, four diodes of their own, the line and the bus, solved for voltages.

The nodes are the bridge's ac terminals A (after the dropper) and B (neutral), the plus and
the minus of the bus. B is where voltages are counted from; the unknowns are

    w = A - B,  m = minus - B,  V = plus - minus.

D1 leads from A to plus, D2 from B to plus, D3 from minus to A, D4 from minus to B. A person's body may
lead from one of these nodes to earth, or from plus to minus: a conductance BODY, whose voltage is
BODY_MINUS·m + BODY_BUS·V less the earth's, or BODY_BRIDGE from A to earth. Line and
capacitors come as what an implicit step makes of them, a voltage behind a resistance. Every
branch carries more current at more voltage, so there is one answer, and Newton's method finds
it: a branch is replaced by its tangent, the three linear equations are solved, and the tangent
moves to the point of the law that the answer suggests, by current where current flows and by
voltage where it does not.
"""

import math

import numpy as np

from .compilation import compiled

# Columns of a circuit's row of numbers, SI units; conductance 0 where nothing is fitted.
(
    PEAK,
    FREQUENCY,
    LINE_OPEN,
    R,
    L,
    C,
    G_C,
    DROPPER_SHORT,
    STATE_1,
    STATE_2,
    STATE_3,
    STATE_4,
    A_D,
    B_D,
    R_D,
    CS,
    ESR,
    G_S,
    STRING_OPEN,
    A_S,
    B_S,
    A_O,
    B_O,
    B_GUESS,
    R_S,
    SCALE,
    BODY,
    BODY_MINUS,
    BODY_BUS,
    BODY_BRIDGE,
    EARTH_AT_LINE,
) = range(31)
COLUMNS = 31
HEALTHY, OPEN, SHORT = 0.0, 1.0, 2.0

# Ohms of a junction that has failed short: metal and molten silicon. Typical practice, no source.
# It is there to say how much current each of two short paths takes; no reading depends on it.
SHORT_RESISTANCE = 0.01
# Siemens across each junction that is not open, below any real one's leakage: it settles where
# the bus floats when all four diodes block.
LEAK = 1e-12
VOLTS, AMPS, SLOPE = range(3)  # the tangent of each branch; branch 4 is the string
_MOST_ITERATIONS = 60
STRING = 4


@compiled
def cold_tangents(p) -> np.ndarray:
    """Tangents of every branch without current, to start from."""
    points = np.zeros((5, 3))
    for k in range(4):
        points[k, SLOPE] = p[B_D] / p[A_D]
    points[STRING, SLOPE] = p[B_GUESS] / (p[A_S] + p[A_O]) if p[STRING_OPEN] == 0 else 0.0
    return points


@compiled
def move_tangent(point, v, a, b, a_other, b_other, b_guess, r, knee) -> None:
    """Move a tangent to where the linear answer `v` suggests; the law is
    v = a·ln(1 + i/b) + a_other·ln(1 + i/b_other) + r·i.
    """
    whole = a + a_other
    if v <= 0:
        i = -b_guess if v < -40 * whole else b_guess * math.expm1(v / whole)
        point[VOLTS], point[AMPS], point[SLOPE] = v, i, (b_guess + i) / whole
        return
    linear = point[AMPS] + point[SLOPE] * (v - point[VOLTS])
    exponent = (v - r * max(point[AMPS], 0.0)) / whole
    guess = b_guess * math.expm1(min(exponent, 200.0)) if exponent > 0 else 0.0
    # 0.9: with two logarithms the guess is up to 6 % high where hardly any current flows
    i = max(linear, min(guess, knee)) if v > point[VOLTS] else max(linear, 0.9 * guess)
    i = max(i, 1e-3 * b_guess * v / whole)
    point[AMPS] = i
    point[VOLTS] = a * math.log1p(i / b) + r * i
    slope = a / (b + i) + r
    if a_other > 0:
        point[VOLTS] += a_other * math.log1p(i / b_other)
        slope += a_other / (b_other + i)
    point[SLOPE] = 1 / slope


@compiled
def solve_nodes(p, points, line, e, bus, v0, earth, out, factors) -> bool:
    """Solve the circuit at one instant for its voltages and currents.

    Parameters
    ----------
    p : a circuit's row
    points : tangents to start from; they are moved
    line, e : conductance in front of the bridge, and the voltage behind it
    bus, v0 : conductance of the smoothing capacitor's step, and the voltage behind it
    earth : voltage of earth, from B; 0 where the body does not lead to it
    out : filled with w, m, V, the four diode currents and the string's
    factors : filled with the factors of the last three equations, for `node_sensitivity`

    Returns
    -------
    bool
        Whether an answer was found.
    """
    knee = 1e-3 * p[SCALE]
    whole = p[A_S] + p[A_O]
    idle = whole * math.log(1e-4 * p[B_D] / p[B_GUESS]) if p[STRING_OPEN] == 0 else 0.0
    at_minus, at_bus = p[BODY] * p[BODY_MINUS], p[BODY] * p[BODY_BUS]
    for _ in range(_MOST_ITERATIONS):
        c1 = c2 = c3 = c4 = 0.0
        g1 = g2 = g3 = g4 = 0.0
        for k in range(4):
            state = p[STATE_1 + k]
            if state == HEALTHY:
                c, g = points[k, AMPS] - points[k, SLOPE] * points[k, VOLTS], points[k, SLOPE] + LEAK
            else:
                c, g = 0.0, (1 / SHORT_RESISTANCE if state == SHORT else 0.0)
            if k == 0:
                c1, g1 = c, g
            elif k == 1:
                c2, g2 = c, g
            elif k == 2:
                c3, g3 = c, g
            else:
                c4, g4 = c, g
        c5 = g5 = 0.0
        if p[STRING_OPEN] == 0:
            g5 = points[STRING, SLOPE] + LEAK
            c5 = points[STRING, AMPS] - points[STRING, SLOPE] * points[STRING, VOLTS]
        # symmetric and positive definite: L·D·L'
        d1 = line + g1 + g3
        l21, l31 = -(g1 + g3) / d1, -g1 / d1
        # differences written out, so that a large line conductance does not drown the leakage
        d2 = g2 + g4 + (g1 + g3) * line / d1 + at_minus
        s32 = g2 + g1 * line / d1 + at_minus * p[BODY_BUS]
        l32 = s32 / d2
        d3 = g5 + p[G_S] + bus + at_bus + g1 * (line + g3) / d1 + g2 - s32 * l32
        b1 = line * e - c1 + c3
        b2 = c1 + c2 - c3 - c4 + at_minus * earth
        b3 = c1 + c2 - c5 + bus * v0 + at_bus * earth
        y2 = b2 - l21 * b1
        y3 = b3 - l31 * b1 - l32 * y2
        v = y3 / d3
        m = y2 / d2 - l32 * v
        w = b1 / d1 - l21 * m - l31 * v
        factors[0], factors[1], factors[2], factors[3], factors[4], factors[5] = d1, l21, l31, d2, l32, d3
        converged = True
        for k in range(4):
            if p[STATE_1 + k] != HEALTHY:
                continue
            if k == 0:
                d = w - m - v
            elif k == 1:
                d = -m - v
            elif k == 2:
                d = m - w
            else:
                d = m
            before = points[k, VOLTS]
            if abs(d - before) > 1e-3 * p[A_D] and not (d < -10 * p[A_D] and before < -10 * p[A_D]):
                converged = False
            move_tangent(points[k], d, p[A_D], p[B_D], 0.0, 1.0, p[B_D], p[R_D], knee)
        if p[STRING_OPEN] == 0:
            before = points[STRING, VOLTS]
            if abs(v - before) > 1e-3 * whole and not (v < idle and before < idle):
                converged = False
            move_tangent(points[STRING], v, p[A_S], p[B_S], p[A_O], p[B_O], p[B_GUESS], p[R_S], knee)
        if converged:
            out[0], out[1], out[2] = w, m, v
            out[3] = c1 + g1 * (w - m - v)
            out[4] = c2 + g2 * (-m - v)
            out[5] = c3 + g3 * (m - w)
            out[6] = c4 + g4 * m
            out[7] = c5 + g5 * v
            return True
    return False


@compiled
def node_sensitivity(factors, b1, b3):
    """How w and V answer to a change on the right side of the first and third equation."""
    d1, l21, l31, d2, l32, d3 = factors[0], factors[1], factors[2], factors[3], factors[4], factors[5]
    y2 = -l21 * b1
    y3 = b3 - l31 * b1 - l32 * y2
    v = y3 / d3
    m = y2 / d2 - l32 * v
    return b1 / d1 - l21 * m - l31 * v, v
