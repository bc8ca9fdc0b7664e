"""One lamp through one mains cycle, step by step, and round again until it repeats.

The state is the dropper's voltage and the smoothing capacitor's. Each step is implicit and
solves one increasing equation for the string current, so it always has its one answer:

    (R + ...)·j + a_d·ln(1 + j/b_d) + V = ±(v - v_dropper)     the bridge conducts, j > 0
    j = y + V/R_b + C_s·dV/dt                                  current into the bus
    V = a_s·ln(1 + y/b_s) + r_s·y                              the string at current y

The weight of a step's end against its start goes from one half (which conserves energy
exactly) to one (which never rings) as the step grows longer than the time constant it has
to follow: theta = 1/(1 - exp(-z)) - 1/z, z = step/time constant. What a weight above one half
loses acts as a small resistance of the method's own; its loss is kept out of every watt.
The instant the bridge starts to conduct is found inside a step, which is then split there.
The periodic state is found by Newton's method on the map from one (half) cycle to the next.

Everything here is plain numbers, compiled once by numba and kept in its cache; nothing
outside this package should call it: see `steady`.
"""

import math

import numba
import numpy as np

# Columns of a lamp's row of numbers, SI units; conductance 0 where nothing is fitted.
(PEAK, FREQUENCY, C, G_C, R, CS, G_S, A_D, B_D, R_D, A_S, B_S, R_S, R_SERIES) = range(14)

# Columns of the sums over a cycle: mean values of ...
(
    SQUARE,        # line current squared
    POWER,         # power into the lamp's terminals
    STRING,        # string current
    BUS,           # bus voltage
    DROPPER_SQUARE,  # dropper voltage squared
    HEAT_R, HEAT_BLEEDER, HEAT_DIODES, HEAT_SMOOTHING_BLEEDER, HEAT_SERIES, HEAT_LEDS,
    CONDUCTING,    # share of the time in which the bridge conducts
    LINE_PEAK, STRING_MAX, STRING_MIN, BUS_MAX, BUS_MIN, DROPPER_PEAK,
    SETTLED,       # 1 if the cycle repeats
    SWEEPS,        # how many cycles it took
) = range(20)  # fmt: skip
SUMS = 20

# Rows of the recorded waveforms.
LINE, DROPPER, BUS_WAVE, STRING_WAVE = range(4)

_MOST_SWEEPS = 80
_DAMPED = 3  # steps
_NEAR = 1e-5  # V: how well each step's equation is solved
_compiled = numba.njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "arcp", "nsz"})


@_compiled
def _weight(z):
    """Exponentially fitted weight of a step's end, from 1/2 (z = 0) to 1."""
    if z < 0.05:
        return 0.5 + z / 12
    if z > 40:
        return 1 - 1 / z
    return 1 / (1 - math.exp(-z)) - 1 / z


@_compiled
def _rest(p, y, vb, kb):
    """The string with no current from the bridge: y + G·V + kb·(V - vb) = 0.

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


@_compiled
def _conduct(p, y, vb, kb, total, e):
    """The string with the bridge conducting under e volts.

    Returns the string current (negative: the bridge does not conduct), the voltage of its
    junctions, the bridge's current and the voltage its two diodes drop.
    """
    g = p[G_S] + kb
    least, high = 0.0, math.inf
    checked = kb == 0.0
    junctions = j = drop = 0.0
    for _ in range(80):
        x = 1 + y / p[B_S]
        junctions = p[A_S] * math.log(x)
        slope = p[A_S] / (p[B_S] * x)
        v = junctions + p[R_S] * y
        dv = slope + p[R_S]
        j = y + g * v - kb * vb
        if j <= 0:
            if not checked:
                checked = True
                least, rest, _, _ = _rest(p, y, vb, kb)
                if rest + p[R_S] * least >= e:
                    return -1.0, 0.0, 0.0, 0.0
            least = max(least, y)
            y = 2 * least + 1e-12
            if high < math.inf:
                y = min(y, 0.5 * (least + high))
            continue
        dj = 1 + g * dv
        steep = p[A_D] / (p[B_D] + j)
        drop = p[A_D] * math.log(1 + j / p[B_D])
        f = total * j + drop + v - e
        if f > 0:
            high = y
        elif y > least:
            least = y
        change = -f / ((total + steep) * dj + dv)
        more = dj * change
        # What the straight line misses is second order: the logarithms' bend, in volts.
        if p[A_D] * more * more <= _NEAR * j * j and p[A_S] * change * change <= _NEAR * y * y:
            j += more
            return y + change, junctions + slope * change, j, drop + steep * more + p[R_D] * j
        new = y + change
        if new < least:
            new = least + 0.05 * (y - least) if y > least else least
        if new > high:
            new = 0.5 * (least + high)
        if new == y:
            break
        y = new
    return y, junctions, j, drop + p[R_D] * j


@_compiled
def _constants(p, h, r_string, damped):
    """What a step of h seconds needs beside the state: weights and companion elements.

    Just after the bridge begins to conduct a step is damped, so that the jump does not ring;
    from then on the line is followed with the weight of one half, exact to second order.
    """
    inverse_c = 1 / p[C]
    weight_b = _weight(h * inverse_c * p[G_C])
    a = weight_b * h * inverse_c / (1 + weight_b * h * inverse_c * p[G_C])
    alpha = 1 - a * p[G_C]
    line = p[R] + p[R_D]
    weight_c, weight_s, kb, lag = 0.5, 1.0, 0.0, 0.0
    if p[CS] > 0:
        weight_s = _weight(h / p[CS] * (1 / r_string + p[G_S]))
    if damped:
        if p[CS] > 0:
            weight_c = _weight(h * (inverse_c + 1 / p[CS]) / max(line, 1e-9))
            weight_s = max(weight_s, weight_c)
        else:
            weight_c = _weight(h * inverse_c / (line + r_string))
        lag = (weight_c - 0.5) * h * inverse_c
    if p[CS] > 0:
        kb = p[CS] / (weight_s * h)
    return weight_c, weight_s, kb, weight_b, a, alpha, line + lag + a


@_compiled
def _sweep(p, mains, start, steps, h, vc, vb, y, record, waves, sums, end):
    """Walk `steps` steps from state (vc, vb); fill waves and sums; end state and its slope in `end`.

    `mains` holds the mains voltage at every step's ends over a whole cycle, in units of the peak.
    """
    smoothed = p[CS] > 0
    count = mains.size - 1
    r_string = p[R_S] + p[A_S] / (p[B_S] + max(y, 1e-9))
    least = 1e-4 * 2 * math.pi * p[FREQUENCY] * p[C] * p[PEAK]
    threshold = p[A_D] * math.log(1 + least / p[B_D])
    whole_plain = _constants(p, h, r_string, False)
    whole_damped = _constants(p, h, r_string, True)
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
        u0, u1 = p[PEAK] * mains[index], p[PEAK] * mains[index + 1]
        if record:
            for wave in range(4):
                waves[wave, step] = 0.0
        done = 0.0
        while done < 1.0:
            part = 1.0 - done
            v0 = u0 + done * (u1 - u0)
            v1 = u1
            sign = 1.0
            quiet = refused = False
            while True:
                damp = on and damped > 0
                if part == 1.0:
                    weight_c, weight_s, kb, weight_b, a, alpha, total = whole_damped if damp else whole_plain
                else:
                    weight_c, weight_s, kb, weight_b, a, alpha, total = _constants(p, part * h, r_string, damp)
                e = v0 + weight_c * (v1 - v0) - alpha * vc
                sign = 1.0 if e > 0 else -1.0
                if on:
                    ahead = max(2 * y - y_before, 0.5 * y, 1e-12)
                    new, junctions, j, drop = _conduct(p, ahead, vb, kb, total, sign * e)
                    if new > 0:
                        break
                    on, refused = False, True
                    continue
                new, junctions, j, drop = _rest(p, max(y, 1e-15), vb, kb)
                if quiet or refused:
                    break
                v = junctions + p[R_S] * new
                later = vb + (v - vb) / weight_s if smoothed else 0.0
                after = sign * (v1 - vc - (alpha - 1) * vc / weight_b) - later - threshold
                if after <= 0:
                    break
                before = sign * (v0 - vc) - vb - threshold
                cut = before / (before - after) if before < 0 else 0.0
                if cut < 1e-3:
                    on, damped = True, _DAMPED
                elif cut > 0.999 or part < 1e-3:
                    break
                else:  # quiet up to the instant of conduction, then round again for the rest
                    v1 = v0 + cut * (v1 - v0)
                    part *= cut
                    quiet = True
            y_before, y = y, max(new, 0.0)
            v = junctions + p[R_S] * y
            dv = p[A_S] / (p[B_S] + y) + p[R_S]
            g = p[G_S] + kb
            if on:
                q = total + p[A_D] / (p[B_D] + j)
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
            signed = sign * j
            middle = alpha * vc + a * signed
            moved = (middle - vc) / weight_b
            c_c = 1 + (alpha - 1 + a * sign * dj_c) / weight_b
            c_b = a * sign * dj_b / weight_b
            stored_c = (weight_b - 0.5) * p[C] * moved * moved / (part * h)
            if smoothed:
                change = (j - y - p[G_S] * v) * part * h / p[CS]
                b_c = dv * dy_c / weight_s
                b_b = 1 + (dv * dy_b - 1) / weight_s
                stored = (weight_s - 0.5) * p[CS] * change * change / (part * h)
            else:
                change = v - vb
                b_c = b_b = 0.0
                stored = 0.0
            n00, n01 = c_c * m00 + c_b * m10, c_c * m01 + c_b * m11
            m10, m11 = b_c * m00 + b_b * m10, b_c * m01 + b_b * m11
            m00, m01 = n00, n01

            if record:
                resistive, diodes = p[R] * j * j, drop * j
                square += part * j * j
                power += part * (resistive + diodes + middle * signed + v * j - stored - stored_c)
                string += part * y
                bus += part * v
                dropper_square += part * middle * middle
                heat_diodes += part * diodes
                bus_square += part * v * v
                string_square += part * y * y
                heat_junctions += part * junctions * y
                if j > least:
                    conducting += part
                waves[LINE, step] += part * signed
                waves[DROPPER, step] += part * middle
                waves[BUS_WAVE, step] += part * v
                waves[STRING_WAVE, step] += part * y
                line_peak, dropper_peak = max(line_peak, j), max(dropper_peak, abs(vc + moved))
                string_max, string_min = max(string_max, y), min(string_min, y)
                bus_max, bus_min = max(bus_max, v), min(bus_min, v)
            vc += moved
            vb = vb + change if smoothed else v
            done += part
            if quiet:
                on, damped = True, _DAMPED
            elif damped > 0:
                damped -= 1
            if done > 1 - 1e-9:
                done = 1.0
    if record:
        leds = p[R_S] - p[R_SERIES]
        sums[SQUARE], sums[POWER], sums[STRING], sums[BUS] = square, power, string, bus
        sums[DROPPER_SQUARE], sums[CONDUCTING] = dropper_square, conducting
        sums[HEAT_R], sums[HEAT_BLEEDER] = p[R] * square, p[G_C] * dropper_square
        sums[HEAT_DIODES], sums[HEAT_SMOOTHING_BLEEDER] = heat_diodes, p[G_S] * bus_square
        sums[HEAT_SERIES] = p[R_SERIES] * string_square
        sums[HEAT_LEDS] = heat_junctions + leds * string_square
        for column in range(CONDUCTING + 1):
            sums[column] /= steps
        sums[LINE_PEAK], sums[DROPPER_PEAK] = line_peak, dropper_peak
        sums[STRING_MAX], sums[STRING_MIN] = string_max, string_min
        sums[BUS_MAX], sums[BUS_MIN] = bus_max, bus_min
    end[0], end[1], end[2] = vc, vb, y
    end[3], end[4], end[5], end[6] = m00, m01, m10, m11


@_compiled
def settle(p, mains, symmetric, guess, waves, sums):
    """Find the cycle that repeats; fill the recorded waves (one whole cycle) and the sums.

    Starts at the mains' crest with the dropper at guess[0], the bus at guess[1] and the
    string current at guess[2].
    """
    count = mains.size - 1
    start = count // 4
    steps = count // 2 if symmetric else count
    mirror = -1.0 if symmetric else 1.0
    h = 1 / (p[FREQUENCY] * count)
    end = np.empty(7)
    vc, vb = guess[0], guess[1]
    before = math.inf
    record = False
    settled = False
    sweep = 0
    while not settled and sweep < _MOST_SWEEPS:
        record = record or sweep == _MOST_SWEEPS - 1
        _sweep(p, mains, start, steps, h, vc, vb, guess[2], record, waves, sums, end)
        sweep += 1
        r_c, r_b = mirror * end[0] - vc, end[1] - vb if p[CS] > 0 else 0.0
        # What the cycle fails to give back, against what it turns over.
        stored = p[C] * p[PEAK] * abs(r_c) + p[CS] * max(vb, 1.0) * abs(r_b)
        turned = max(p[C] * p[PEAK] * (p[PEAK] - abs(vc)), 1e-6 * p[C] * p[PEAK] * p[PEAK])
        if record and stored <= max(3e-7 * sums[POWER] * h * steps, 1e-15 * p[C] * p[PEAK] * p[PEAK]):
            settled = True
            break
        record = stored <= 3e-4 * turned
        k00, k01 = 1 - mirror * end[3], -mirror * end[4]
        k10, k11 = -end[5], 1 - end[6]
        if p[CS] == 0.0:
            k10, k11 = 0.0, 1.0
        det = k00 * k11 - k01 * k10
        d_c, d_b = r_c, r_b  # where Newton's step is of no use: simply let the cycle run on
        error = abs(r_c) + abs(r_b)
        if abs(det) >= 1e-9 and error <= 4 * before:
            n_c, n_b = (k11 * r_c - k01 * r_b) / det, (k00 * r_b - k10 * r_c) / det
            if abs(n_c) <= p[PEAK] and abs(n_b) <= p[PEAK]:
                d_c, d_b = n_c, n_b
        vc += d_c
        vb = max(vb + d_b, 0.1 * vb)
        before = error
    sums[SETTLED] = 1.0 if settled else 0.0
    sums[SWEEPS] = sweep
    if symmetric:
        for step in range(steps):
            waves[LINE, step + steps] = -waves[LINE, step]
            waves[DROPPER, step + steps] = -waves[DROPPER, step]
            waves[BUS_WAVE, step + steps] = waves[BUS_WAVE, step]
            waves[STRING_WAVE, step + steps] = waves[STRING_WAVE, step]


@_compiled
def settle_all(rows, mains, which, symmetric, guesses, waves, sums):
    """`settle` for every lamp; `which` tells each lamp's row of `mains`."""
    for lamp in range(rows.shape[0]):
        settle(rows[lamp], mains[which[lamp]], symmetric[lamp], guesses[lamp], waves[lamp], sums[lamp])
