"""Cycle: a lamp integrated over it from a given state; waveforms, sums, and the state at the end."""

import math

from . import columns as col
from .compilation import compiled_part
from .step import companion_elements, damped_steps, solve_substep

_SHORT = 0.5  # of the mean step: one so short is in an edge, or shortly after it
_SLOW = 8.0


@compiled_part
def integrate_cycle(p, mains, lengths, start, steps, mean, vc, vb, y, record, waves, sums, end) -> None:
    """Integrate over `steps` steps from state (vc, vb); fill waves and sums; what the state gains, and how, in `end`.

    Gains are added up as they come, and so are the slopes less the identity: what a dark lamp's capacitors gain
    in a cycle is far below what can be seen in a difference of their voltages.
    `mains` holds the mains voltage at every step's ends over a whole cycle, in units of the peak; `mean` is the mean
    length of a step in seconds, and `lengths` has every step's over it.
    """
    smoothed = p[col.CS] > 0
    count = mains.size - 1
    r_string = p[col.R_S] + p[col.A_S] / (p[col.B_S] + max(y, 1e-9))
    least = p[col.LEAST]
    threshold = p[col.A_D] * math.log1p(least / p[col.B_D])
    h = mean * lengths[start % count]
    plain = companion_elements(p, h, r_string, False)
    with_damping = companion_elements(p, h, r_string, True)
    damped = 0  # steps still to be damped

    square = power = string = bus = dropper_square = 0.0
    heat_diodes = bus_square = string_square = heat_junctions = conducting = 0.0
    line_peak = string_max = bus_max = dropper_peak = 0.0
    string_min = bus_min = math.inf
    m00 = m01 = m10 = m11 = 0.0  # the map from start to end, less the identity
    dropper_gain = bus_gain = 0.0
    on = False
    since = 0  # steps since the bridge began to conduct
    j = j_before = j_earlier = v = dv = 0.0
    y_before = y = max(y, 1e-12)
    for step in range(steps):
        index = (start + step) % count
        if mean * lengths[index] != h:
            h = mean * lengths[index]
            plain = companion_elements(p, h, r_string, False)
            with_damping = companion_elements(p, h, r_string, True)
        u0, u1 = p[col.PEAK] * mains[index], p[col.PEAK] * mains[index + 1]
        if record:
            for wave in range(4):
                waves[wave, index] = 0.0
        done = 0.0
        while done < 1.0:
            guess = max(2 * y - y_before, 0.5 * y, 1e-12)
            if on and since > 0:  # the bridge's current goes on as it went: what that makes of the string's
                coming = 3 * (j - j_before) + j_earlier if since > 2 else 2 * j - j_before if since > 1 else j
                kb = with_damping[2] if damped > 0 else plain[2]
                idle = y + (p[col.G_S] + kb) * v - kb * vb
                guess = max(y + (max(coming, 0.1 * j) - idle) / (1 + (p[col.G_S] + kb) * dv), 1e-12)
            v0 = u0 + done * (u1 - u0)
            share, onset, on, damped, sign, new, junctions, bridge, drop, elements = solve_substep(
                p, h, 1.0 - done, v0, u1, vc, vb, y, guess, on, damped, plain, with_damping, r_string, threshold
            )
            _, weight_s, kb, weight_b, a, alpha, total = elements
            y_before, y = y, new
            j_earlier, j_before, j = j_before, j, bridge
            since = since + 1 if on else 0
            v = junctions + p[col.R_S] * y
            dv = p[col.A_S] / (p[col.B_S] + y) + p[col.R_S]
            g = p[col.G_S] + kb
            if on:
                q = total + p[col.A_D] / (p[col.B_D] + j)
                slope = q * (1 + g * dv) + dv
                # How the step's changes of both states answer to the states before it.
                c_c = -a * (p[col.G_C] + (1 + g * dv) * alpha / slope) / weight_b
                c_b = -a * sign * kb * dv / (slope * weight_b)
                b_c = -sign * alpha * dv / (slope * weight_s)
                b_b = -(q * (1 + p[col.G_S] * dv) + dv) / (slope * weight_s)
            else:
                c_c, c_b, b_c = -a * p[col.G_C] / weight_b, 0.0, 0.0
                b_b = -(1 + p[col.G_S] * dv) / ((1 + g * dv) * weight_s)
            line_current = sign * j
            dropper_change = a * (line_current - p[col.G_C] * vc) / weight_b
            middle = vc + weight_b * dropper_change
            dropper_loss = (weight_b - 0.5) * p[col.C] * dropper_change * dropper_change / (share * h)
            if smoothed:
                bus_change = (j - y - p[col.G_S] * v) * share * h / p[col.CS]
                bus_loss = (weight_s - 0.5) * p[col.CS] * bus_change * bus_change / (share * h)
            else:
                bus_change = v - vb
                b_c, b_b = 0.0, -1.0
                bus_loss = 0.0
            n00, n01 = c_c * (1 + m00) + c_b * m10, c_c * m01 + c_b * (1 + m11)
            n10, n11 = b_c * (1 + m00) + b_b * m10, b_c * m01 + b_b * (1 + m11)
            m00, m01, m10, m11 = m00 + n00, m01 + n01, m10 + n10, m11 + n11
            dropper_gain += dropper_change
            bus_gain += bus_change

            if record:
                resistive, diodes = p[col.R] * j * j, drop * j
                weight = share * lengths[index]
                square += weight * j * j
                power += weight * (resistive + diodes + middle * line_current + v * j - bus_loss - dropper_loss)
                string += weight * y
                bus += weight * v
                dropper_square += weight * middle * middle
                heat_diodes += weight * diodes
                bus_square += weight * v * v
                string_square += weight * y * y
                heat_junctions += weight * junctions * y
                if j > least:
                    conducting += weight
                waves[col.LINE, index] += share * line_current
                waves[col.DROPPER, index] += share * middle
                waves[col.BUS_WAVE, index] += share * v
                waves[col.STRING_WAVE, index] += share * y
                crest = j
                # In an edge: what flows at the step's end, where the resistor and the dropper are slower than a step.
                if on and lengths[index] < _SHORT and p[col.R] * p[col.C] > _SLOW * h:
                    left = sign * (v0 + share * (u1 - u0) - vc - dropper_change) - p[col.R] * j - drop - v
                    crest += max(left / (p[col.R] + p[col.R_D] + p[col.A_D] / (p[col.B_D] + j)), 0.0)
                line_peak, dropper_peak = max(line_peak, crest), max(dropper_peak, abs(vc + dropper_change))
                string_max, string_min = max(string_max, y), min(string_min, y)
                bus_max, bus_min = max(bus_max, v), min(bus_min, v)
            vc += dropper_change
            vb = vb + bus_change if smoothed else v
            done += share
            if onset:
                on, damped = True, damped_steps(p)
            elif damped > 0:
                damped -= 1
            if done > 1 - 1e-9:
                done = 1.0
    if record:
        leds = p[col.R_S] - p[col.R_SERIES]
        sums[col.SQUARE], sums[col.POWER], sums[col.STRING], sums[col.BUS] = square, power, string, bus
        sums[col.DROPPER_SQUARE], sums[col.BUS_SQUARE], sums[col.CONDUCTING] = dropper_square, bus_square, conducting
        sums[col.HEAT_R], sums[col.HEAT_BLEEDER] = p[col.R] * square, p[col.G_C] * dropper_square
        sums[col.HEAT_DIODES], sums[col.HEAT_SMOOTHING_BLEEDER] = heat_diodes, p[col.G_S] * bus_square
        sums[col.HEAT_SERIES] = p[col.R_SERIES] * string_square
        sums[col.HEAT_LEDS] = heat_junctions + leds * string_square
        for column in range(col.CONDUCTING + 1):
            sums[column] /= steps
        sums[col.LINE_PEAK], sums[col.DROPPER_PEAK] = line_peak, dropper_peak
        sums[col.STRING_MAX], sums[col.STRING_MIN] = string_max, string_min
        sums[col.BUS_MAX], sums[col.BUS_MIN] = bus_max, bus_min
    end[col.GAIN_DROPPER], end[col.GAIN_BUS] = dropper_gain, bus_gain
    end[col.BY_00], end[col.BY_01], end[col.BY_10], end[col.BY_11] = m00, m01, m10, m11
