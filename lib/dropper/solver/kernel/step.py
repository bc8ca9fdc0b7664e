"""Step of one lamp: which way the bridge conducts, if it does, and what flows."""

import math

from .columns import A_D, A_S, B_D, B_S, CS, G_C, G_S, LEAK, R_D, R_S, C, R
from .compilation import compiled_part
from .dark import solve_dark

DAMPED = 3  # steps after the bridge begins to conduct
_NEAR = 3e-4  # V: how well each step's equation is solved


@compiled_part
def weight(z):
    """Exponentially fitted weight of a step's end, from 1/2 (z = 0) to 1."""
    if z < 0.05:
        return 0.5 + z / 12
    if z > 40:
        return 1 - 1 / z
    return 1 / (1 - math.exp(-z)) - 1 / z


@compiled_part
def damped_steps(p):
    """Steps to damp after the bridge begins to conduct; a dark lamp's bridge begins with nothing and jumps nowhere."""
    return DAMPED if p[LEAK] == 0.0 else 0


@compiled_part
def solve_blocking(p, y, vb, kb):
    """Solve the string with no current from the bridge: y + G·V + kb·(V - vb) = 0.

    Returns the string current, the voltage of its junctions, and no current and no drop in
    the bridge.
    """
    if kb == 0.0:
        return 0.0, 0.0, 0.0, 0.0
    g = p[G_S] + kb
    target = kb * vb
    low, high = 0.0, target
    y = min(y, high)
    junctions = 0.0
    for _ in range(60):
        x = 1 + y / p[B_S]
        junctions = p[A_S] * math.log(x)
        slope = p[A_S] / (p[B_S] * x)
        f = y + g * (junctions + p[R_S] * y) - target
        if f > 0:
            high = y
        else:
            low = y
        change = -f / (1 + g * (slope + p[R_S]))
        if p[A_S] * change * change <= _NEAR * y * y:
            return y + change, junctions + slope * change, 0.0, 0.0
        new = y + change
        if new <= low and new < 0.1 * y:
            new = low + 0.1 * (y - low)
        if new > high:
            new = 0.5 * (low + high)
        if new == y:
            break
        y = new
    return y, junctions, 0.0, 0.0


@compiled_part
def solve_conducting(p, y, vb, kb, total, e):
    """The string with the bridge conducting under e volts.

    Returns the string current (negative: the bridge does not conduct), the voltage of its
    junctions, the bridge's current and the voltage its two diodes drop.
    """
    g = p[G_S] + kb
    least, high = 0.0, math.inf
    bounded = kb == 0.0
    junctions = j = drop = 0.0
    for _ in range(80):
        x = 1 + y / p[B_S]
        junctions = p[A_S] * math.log(x)
        slope = p[A_S] / (p[B_S] * x)
        v = junctions + p[R_S] * y
        dv = slope + p[R_S]
        j = y + g * v - kb * vb
        if j <= 0:
            if not bounded:
                bounded = True
                least, idle, _, _ = solve_blocking(p, y, vb, kb)
                if idle + p[R_S] * least >= e:
                    return -1.0, 0.0, 0.0, 0.0
            least = max(least, y)
            y = 2 * least + 1e-12
            if high < math.inf:
                y = min(y, 0.5 * (least + high))
            continue
        dj = 1 + g * dv
        diode_slope = p[A_D] / (p[B_D] + j)
        drop = p[A_D] * math.log(1 + j / p[B_D])
        f = total * j + drop + v - e
        if f > 0:
            high = y
        elif y > least:
            least = y
        change = -f / ((total + diode_slope) * dj + dv)
        j_change = dj * change
        # What the straight line misses is second order: the logarithms' bend, in volts.
        if p[A_D] * j_change * j_change <= _NEAR * j * j and p[A_S] * change * change <= _NEAR * y * y:
            j += j_change
            return y + change, junctions + slope * change, j, drop + diode_slope * j_change + p[R_D] * j
        new = y + change
        if new < least:
            new = least + 0.05 * (y - least) if y > least else least
        if new > high:
            new = 0.5 * (least + high)
        if new == y:
            break
        y = new
    return y, junctions, j, drop + p[R_D] * j


@compiled_part
def companion_elements(p, h, r_string, damped):
    """What a step of h seconds needs beside the state: weights and companion elements.

    Just after the bridge begins to conduct a step is damped, so that the jump does not ring;
    from then on the line is followed with the weight of one half, exact to second order.
    """
    inverse_c = 1 / p[C]
    weight_b = weight(h * inverse_c * p[G_C])
    a = weight_b * h * inverse_c / (1 + weight_b * h * inverse_c * p[G_C])
    alpha = 1 - a * p[G_C]
    line = p[R] + p[R_D]
    weight_c, weight_s, kb, lag = 0.5, 1.0, 0.0, 0.0
    if p[CS] > 0:
        weight_s = weight(h / p[CS] * (1 / r_string + p[G_S]))
    if damped:
        if p[CS] > 0:
            weight_c = weight(h * (inverse_c + 1 / p[CS]) / max(line, 1e-9))
            weight_s = max(weight_s, weight_c)
        else:
            weight_c = weight(h * inverse_c / (line + r_string))
        lag = (weight_c - 0.5) * h * inverse_c
    if p[CS] > 0:
        kb = p[CS] / (weight_s * h)
    return weight_c, weight_s, kb, weight_b, a, alpha, line + lag + a


@compiled_part
def solve_substep(p, h, share, v0, v1, vc, vb, y, guess, on, damped, plain, with_damping, r_string, threshold):
    """Solve the next stretch of a step: all that is left of it, or up to the start of conduction.

    Parameters
    ----------
    p : a lamp's row
    h, share : the whole step in seconds, and the share of it that is left
    v0, v1 : mains voltage at the stretch's start and at the step's end
    vc, vb, y : dropper and bus voltage and string current so far
    guess : a guess at the string current to come
    on, damped : whether the bridge conducts, and how many steps are still to be damped
    plain, with_damping : `companion_elements` of a whole step
    r_string, threshold : the string's resistance, and the drop at which diodes count as conducting

    Returns
    -------
    (share, onset, on, damped, sign, y, junctions, j, drop, elements)
        `onset`: the stretch ends where conduction starts, and the rest of the step is still to be solved.
    """
    onset = blocked = False
    while True:
        damp = on and damped > 0
        whole_elements = with_damping if damp else plain
        elements = whole_elements if share == 1.0 else companion_elements(p, share * h, r_string, damp)
        weight_c, weight_s, kb, weight_b, _, alpha, total = elements
        e = v0 + weight_c * (v1 - v0) - alpha * vc
        sign = 1.0 if e > 0 else -1.0
        if on:
            if p[LEAK] > 0 and kb > 0:
                new, junctions, j, drop = solve_dark(p, vb, kb, total, sign * e)
            else:
                new, junctions, j, drop = solve_conducting(p, guess, vb, kb, total, sign * e)
            if new > 0:
                return share, onset, on, damped, sign, new, junctions, j, drop, elements
            on, blocked = False, True
            continue
        new, junctions, j, drop = solve_blocking(p, max(y, 1e-15), vb, kb)
        new = max(new, 0.0)
        if onset or blocked:
            return share, onset, on, damped, sign, new, junctions, j, drop, elements
        v = junctions + p[R_S] * new
        bus_end = vb + (v - vb) / weight_s if p[CS] > 0 else 0.0
        after = sign * (v1 - vc - (alpha - 1) * vc / weight_b) - bus_end - threshold
        before = sign * (v0 - vc) - vb - threshold
        cut = before / (before - after) if before < 0 < after else 0.0
        if after <= 0 or cut > 0.999 or (cut >= 1e-3 and share < 1e-3):
            return share, onset, on, damped, sign, new, junctions, j, drop, elements
        if cut < 1e-3:
            on, damped = True, damped_steps(p)
        else:
            v1 = v0 + cut * (v1 - v0)
            share *= cut
            onset = True
