"""Periodic state: the cycle that repeats, found by Newton's method on the map from one cycle to the next."""

import math

import numpy as np

from . import columns as col
from .compilation import compiled
from .cycle import integrate_cycle

_MOST_SWEEPS = 80


@compiled
def find_cycle(p, mains, symmetric, guess, waves, sums) -> None:
    """Find the cycle that repeats; fill the recorded waves (one whole cycle) and the sums.

    Starts at the mains' crest with the dropper at guess[0], the bus at guess[1] and the
    string current at guess[2].
    """
    count = mains.size - 1
    start = count // 4
    steps = count // 2 if symmetric else count
    mirror = -1.0 if symmetric else 1.0
    h = 1 / (p[col.FREQUENCY] * count)
    end = np.empty(col.ENDS)
    vc, vb = guess[0], guess[1]
    before = math.inf
    record = False
    settled = False
    sweep = 0
    while not settled and sweep < _MOST_SWEEPS:
        record = record or sweep == _MOST_SWEEPS - 1
        integrate_cycle(p, mains, start, steps, h, vc, vb, guess[2], record, waves, sums, end)
        sweep += 1
        r_c, r_b = mirror * end[col.END_DROPPER] - vc, end[col.END_BUS] - vb if p[col.CS] > 0 else 0.0
        # What the cycle fails to give back, against what it turns over.
        imbalance = p[col.C] * p[col.PEAK] * abs(r_c) + p[col.CS] * max(vb, 1.0) * abs(r_b)
        turnover = max(p[col.C] * p[col.PEAK] * (p[col.PEAK] - abs(vc)), 1e-6 * p[col.C] * p[col.PEAK] * p[col.PEAK])
        if record and imbalance <= max(
            3e-7 * sums[col.POWER] * h * steps, 1e-15 * p[col.C] * p[col.PEAK] * p[col.PEAK]
        ):
            settled = True
            break
        record = imbalance <= 3e-4 * turnover
        k00, k01 = 1 - mirror * end[col.BY_00], -mirror * end[col.BY_01]
        k10, k11 = -end[col.BY_10], 1 - end[col.BY_11]
        if p[col.CS] == 0.0:
            k10, k11 = 0.0, 1.0
        det = k00 * k11 - k01 * k10
        d_c, d_b = r_c, r_b  # where Newton's step is of no use: simply let the cycle run on
        error = abs(r_c) + abs(r_b)
        if abs(det) >= 1e-9 and error <= 4 * before:
            n_c, n_b = (k11 * r_c - k01 * r_b) / det, (k00 * r_b - k10 * r_c) / det
            if abs(n_c) <= p[col.PEAK] and abs(n_b) <= p[col.PEAK]:
                d_c, d_b = n_c, n_b
        vc += d_c
        vb = max(vb + d_b, 0.1 * vb)
        before = error
    sums[col.SETTLED] = 1.0 if settled else 0.0
    sums[col.SWEEPS] = sweep
    if symmetric:
        for step in range(steps):
            waves[col.LINE, step + steps] = -waves[col.LINE, step]
            waves[col.DROPPER, step + steps] = -waves[col.DROPPER, step]
            waves[col.BUS_WAVE, step + steps] = waves[col.BUS_WAVE, step]
            waves[col.STRING_WAVE, step + steps] = waves[col.STRING_WAVE, step]


@compiled
def find_cycles(rows, mains, shape_of, symmetric, guesses, waves, sums) -> None:
    """`find_cycle` for every lamp; `shape_of` tells each lamp's row of `mains`."""
    for lamp in range(rows.shape[0]):
        find_cycle(rows[lamp], mains[shape_of[lamp]], symmetric[lamp], guesses[lamp], waves[lamp], sums[lamp])
