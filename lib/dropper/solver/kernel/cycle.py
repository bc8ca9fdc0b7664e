"""Cycle: a lamp integrated over it from a given state; waveforms, sums, and the state at the end."""

import math

from . import columns as col
from .compilation import compiled
from .step import DAMPED, companion_elements, solve_substep


@compiled
def integrate_cycle(p, mains, start, steps, h, vc, vb, y, record, waves, sums, end) -> None:
    """Integrate over `steps` steps from state (vc, vb); fill waves and sums; end state and its slope in `end`.

    `mains` holds the mains voltage at every step's ends over a whole cycle, in units of the peak.
    """
    smoothed = p[col.CS] > 0
    count = mains.size - 1
    r_string = p[col.R_S] + p[col.A_S] / (p[col.B_S] + max(y, 1e-9))
    least = 1e-4 * 2 * math.pi * p[col.FREQUENCY] * p[col.C] * p[col.PEAK]
    threshold = p[col.A_D] * math.log(1 + least / p[col.B_D])
    plain = companion_elements(p, h, r_string, False)
    with_damping = companion_elements(p, h, r_string, True)
    damped = 0  # steps still to be damped

    square = power = string = bus = dropper_square = 0.0
    heat_diodes = bus_square = string_square = heat_junctions = conducting = 0.0
    line_peak = string_max = bus_max = dropper_peak = 0.0
    string_min = bus_min = math.inf
    m00, m01, m10, m11 = 1.0, 0.0, 0.0, 1.0
    on = False
    y_before = y = max(y, 1e-12)
    for step in range(steps):
        index = (start + step) % count
        u0, u1 = p[col.PEAK] * mains[index], p[col.PEAK] * mains[index + 1]
        if record:
            for wave in range(4):
                waves[wave, step] = 0.0
        done = 0.0
        while done < 1.0:
            guess = max(2 * y - y_before, 0.5 * y, 1e-12)
            v0 = u0 + done * (u1 - u0)
            share, onset, on, damped, sign, new, junctions, j, drop, elements = solve_substep(
                p, h, 1.0 - done, v0, u1, vc, vb, y, guess, on, damped, plain, with_damping, r_string, threshold
            )
            _, weight_s, kb, weight_b, a, alpha, total = elements
            y_before, y = y, new
            v = junctions + p[col.R_S] * y
            dv = p[col.A_S] / (p[col.B_S] + y) + p[col.R_S]
            g = p[col.G_S] + kb
            if on:
                q = total + p[col.A_D] / (p[col.B_D] + j)
                dj = 1 + g * dv
                slope = q * dj + dv
                dy_c = -sign * alpha / slope
                dy_b = kb * q / slope
                dj_c = dj * dy_c
                dj_b = dj * dy_b - kb
            else:
                dy_c = 0.0
                dy_b = kb / (1 + g * dv)
                dj_c = dj_b = 0.0
            line_current = sign * j
            middle = alpha * vc + a * line_current
            dropper_change = (middle - vc) / weight_b
            c_c = 1 + (alpha - 1 + a * sign * dj_c) / weight_b
            c_b = a * sign * dj_b / weight_b
            dropper_loss = (weight_b - 0.5) * p[col.C] * dropper_change * dropper_change / (share * h)
            if smoothed:
                bus_change = (j - y - p[col.G_S] * v) * share * h / p[col.CS]
                b_c = dv * dy_c / weight_s
                b_b = 1 + (dv * dy_b - 1) / weight_s
                bus_loss = (weight_s - 0.5) * p[col.CS] * bus_change * bus_change / (share * h)
            else:
                bus_change = v - vb
                b_c = b_b = 0.0
                bus_loss = 0.0
            n00, n01 = c_c * m00 + c_b * m10, c_c * m01 + c_b * m11
            m10, m11 = b_c * m00 + b_b * m10, b_c * m01 + b_b * m11
            m00, m01 = n00, n01

            if record:
                resistive, diodes = p[col.R] * j * j, drop * j
                square += share * j * j
                power += share * (resistive + diodes + middle * line_current + v * j - bus_loss - dropper_loss)
                string += share * y
                bus += share * v
                dropper_square += share * middle * middle
                heat_diodes += share * diodes
                bus_square += share * v * v
                string_square += share * y * y
                heat_junctions += share * junctions * y
                if j > least:
                    conducting += share
                waves[col.LINE, step] += share * line_current
                waves[col.DROPPER, step] += share * middle
                waves[col.BUS_WAVE, step] += share * v
                waves[col.STRING_WAVE, step] += share * y
                line_peak, dropper_peak = max(line_peak, j), max(dropper_peak, abs(vc + dropper_change))
                string_max, string_min = max(string_max, y), min(string_min, y)
                bus_max, bus_min = max(bus_max, v), min(bus_min, v)
            vc += dropper_change
            vb = vb + bus_change if smoothed else v
            done += share
            if onset:
                on, damped = True, DAMPED
            elif damped > 0:
                damped -= 1
            if done > 1 - 1e-9:
                done = 1.0
    if record:
        leds = p[col.R_S] - p[col.R_SERIES]
        sums[col.SQUARE], sums[col.POWER], sums[col.STRING], sums[col.BUS] = square, power, string, bus
        sums[col.DROPPER_SQUARE], sums[col.CONDUCTING] = dropper_square, conducting
        sums[col.HEAT_R], sums[col.HEAT_BLEEDER] = p[col.R] * square, p[col.G_C] * dropper_square
        sums[col.HEAT_DIODES], sums[col.HEAT_SMOOTHING_BLEEDER] = heat_diodes, p[col.G_S] * bus_square
        sums[col.HEAT_SERIES] = p[col.R_SERIES] * string_square
        sums[col.HEAT_LEDS] = heat_junctions + leds * string_square
        for column in range(col.CONDUCTING + 1):
            sums[column] /= steps
        sums[col.LINE_PEAK], sums[col.DROPPER_PEAK] = line_peak, dropper_peak
        sums[col.STRING_MAX], sums[col.STRING_MIN] = string_max, string_min
        sums[col.BUS_MAX], sums[col.BUS_MIN] = bus_max, bus_min
    end[col.END_DROPPER], end[col.END_BUS], end[col.END_STRING] = vc, vb, y
    end[col.BY_00], end[col.BY_01], end[col.BY_10], end[col.BY_11] = m00, m01, m10, m11
