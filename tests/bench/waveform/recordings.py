"""Recordings whose truth is known."""

import numpy as np
from dropper import Lamp, steady_state
from dropper.bench.waveform import Recording

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
FINE = 4096
# IEEE 1459-2010, inputs after Annex B (from memory); the outputs follow from the definitions.
ORDERS = np.array([1, 3, 5, 7])
VOLTS, BEHIND_V = np.array([100.0, 8, 15, 5]), np.radians([0, 70, -141, -142])
AMPERES, BEHIND_A = np.array([100.0, 20, 15, 10]), np.radians([30, 165, -234, -234])


def sampled(result, frequency, span, count, phase=0.3, noise=(0.0, 0.0, 0.0), seed=0, steps=None):
    """A steady state as an oscilloscope samples it: start at any phase, white noise, rounding to steps."""
    chance = np.random.default_rng(seed)
    time = np.arange(count) * span / count
    grid = (np.arange(FINE) + 0.5) / FINE
    waves = []
    for k, name in enumerate(("mains_voltage", "line_current", "bus_voltage")):
        wave = np.interp(np.mod(frequency * time + phase, 1), grid, getattr(result, name), period=1)
        wave = wave + chance.normal(0, noise[k], count)
        waves.append(np.round(wave / steps[k]) * steps[k] if steps else wave)
    return Recording(time - 0.01, *waves, in_step=0.0)


def of_lamp(lamp=STAIR, frequency=50.03, span=0.1, count=5000, **more):
    """The same from a lamp."""
    return sampled(steady_state(lamp, FINE), frequency, span, count, **more)


def of_harmonics(count=20_000, span=0.2, frequency=60.0, start=0.0, noise=0.0, seed=0):
    """The check set's voltage and current."""
    time = start + np.arange(count) * span / count
    turn = 2 * np.pi * frequency * time[:, None] * ORDERS
    chance = np.random.default_rng(seed)
    volts = (np.sqrt(2) * VOLTS * np.sin(turn - BEHIND_V)).sum(axis=1)
    amperes = (np.sqrt(2) * AMPERES * np.sin(turn - BEHIND_A)).sum(axis=1)
    return Recording(
        time, volts + chance.normal(0, noise, count), amperes + chance.normal(0, noise, count), in_step=0.0
    )
