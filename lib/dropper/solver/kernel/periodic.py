"""Periodic state: the cycle that repeats, found by Newton's method on the map from one cycle to the next."""

import math

import numpy as np

from . import columns as col
from .compilation import compiled, compiled_part
from .cycle import integrate_cycle
from .dark import dark_state

_MOST_SWEEPS = 80
_SETTLED = 5e-7  # of the energy that a cycle turns over
_LEAK_SWEEPS = 6


@compiled_part
def find_cycle(p, mains, lengths, symmetric, guess, waves, sums) -> None:
    """Find the cycle that repeats; fill the recorded waves (one whole cycle) and the sums.

    Starts at the mains' crest with the dropper at guess[0], the bus at guess[1] and the
    string current at guess[2]. Where the row has a reverse current of the diodes, the lamp is dark: it starts from
    `dark_state`, and a resistor across the bus takes what the reverse current takes. Changes the row.
    """
    count = mains.size - 1
    start = count // 4
    steps = count // 2 if symmetric else count
    mirror = -1.0 if symmetric else 1.0
    h = 1 / (p[col.FREQUENCY] * count)
    end = np.empty(col.ENDS)
    vc, vb, y = guess[0], guess[1], guess[2]
    bleeder = p[col.G_S]
    if p[col.LEAK] > 0:
        vc, vb, y = dark_state(p, mains, lengths)
        p[col.LEAST] = min(p[col.LEAST], 1e-6 * y)
    leak = p[col.LEAK] / max(vb, p[col.A_D])
    top = 0.0  # no bus gets so high
    for v in mains:
        top = max(top, 2 * p[col.PEAK] * abs(v))
    before = math.inf
    record = p[col.LEAK] > 0
    settled = False
    sweep = 0
    while not settled and sweep < _MOST_SWEEPS:
        p[col.G_S] = bleeder + leak
        integrate_cycle(p, mains, lengths, start, steps, h, vc, vb, y, record, waves, sums, end)
        sweep += 1
        r_c, r_b = mirror * end[col.GAIN_DROPPER] + (mirror - 1) * vc, end[col.GAIN_BUS] if p[col.CS] > 0 else 0.0
        if leak > 0 and sweep <= _LEAK_SWEEPS and sums[col.BUS_SQUARE] > 0:
            leak = p[col.LEAK] * sums[col.BUS] / sums[col.BUS_SQUARE]
        # What the cycle fails to give back of the energy that the capacitors hold.
        imbalance = p[col.C] * max(abs(vc), 1e-3 * p[col.PEAK]) * abs(r_c) + p[col.CS] * max(vb, 1.0) * abs(r_b)
        floor = (1e-15 if leak == 0 else 1e-20) * p[col.C] * p[col.PEAK] * p[col.PEAK]
        if record and imbalance <= max(_SETTLED * sums[col.POWER] * h * steps, floor):
            settled = True
            break
        record = True  # the first step is most often near enough
        k00, k01 = 1 - mirror - mirror * end[col.BY_00], -mirror * end[col.BY_01]
        k10, k11 = -end[col.BY_10], -end[col.BY_11]
        if p[col.CS] == 0.0:
            k10, k11 = 0.0, 1.0
        det = k00 * k11 - k01 * k10
        d_c, d_b = r_c, r_b  # where Newton's step is of no use: simply let the cycle run on
        if k00 == 0.0 and k11 > 0 and r_b < 0:  # nothing passes the dropper: the bus is too high
            d_b = max(r_b / k11, -p[col.PEAK])
        if abs(det) > 1e-12 * (abs(k00 * k11) + abs(k01 * k10)) and imbalance <= 4 * before:
            n_c, n_b = (k11 * r_c - k01 * r_b) / det, (k00 * r_b - k10 * r_c) / det
            if abs(n_c) <= p[col.PEAK] and abs(n_b) <= p[col.PEAK]:
                d_c, d_b = n_c, n_b
        vc += d_c
        vb = min(max(vb + d_b, 0.1 * vb), top)
        before = imbalance
    if leak > 0:
        sums[col.HEAT_DIODES] += (p[col.G_S] - bleeder) * sums[col.BUS_SQUARE]
        sums[col.HEAT_SMOOTHING_BLEEDER] = bleeder * sums[col.BUS_SQUARE]
    sums[col.SETTLED] = 1.0 if settled else 0.0
    sums[col.SWEEPS] = sweep
    if symmetric:
        mirror_waves(waves, start, steps)
    sums[col.FLICKER_INDEX] = flicker_index(waves[col.STRING_WAVE], lengths)


@compiled_part
def mirror_waves(waves, start, steps) -> None:
    """Fill the half cycle that mirrors the one from `start` on."""
    for step in range(start, start + steps):
        there = (step + steps) % (2 * steps)
        waves[col.LINE, there], waves[col.DROPPER, there] = -waves[col.LINE, step], -waves[col.DROPPER, step]
        waves[col.BUS_WAVE, there] = waves[col.BUS_WAVE, step]
        waves[col.STRING_WAVE, there] = waves[col.STRING_WAVE, step]


@compiled_part
def flicker_index(wave, lengths):
    """Area above the mean over the whole area, nan where there is none."""
    whole = above = 0.0
    for step in range(wave.size):
        whole += wave[step] * lengths[step]
    mean = whole / wave.size
    for step in range(wave.size):
        above += max(wave[step] - mean, 0.0) * lengths[step]
    return above / whole if whole > 0 else math.nan


@compiled
def find_cycles(rows, mains, lengths, cycle_of, symmetric, guesses, waves, sums) -> None:
    """`find_cycle` for every lamp; `cycle_of` tells each lamp's row of `mains`, all on a grid of the same steps."""
    for lamp in range(rows.shape[0]):
        find_cycle(rows[lamp], mains[cycle_of[lamp]], lengths, symmetric[lamp], guesses[lamp], waves[lamp], sums[lamp])
