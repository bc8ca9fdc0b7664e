"""Lamps drawn at random over the whole range that the workbook serves.

They are SimpleNamespace objects with the attribute names of the circuit as data
(SI units), so that a test can read them directly or build real parts from them;
`lamps_from_anywhere` gives real ones.
"""

from contextlib import suppress
from types import SimpleNamespace

import numpy as np
from dropper import Lamp, Led, LedString, Mains


def waveform_reach(mains):
    """Half the peak-to-peak mains voltage, V: what a bridge behind a capacitor can be pushed to."""
    angle = np.linspace(0.0, 2 * np.pi, 2048, endpoint=False)
    wave = np.sin(angle)
    for order, (fraction, phase) in mains.harmonics.items():
        wave = wave + fraction * np.sin(order * angle + np.radians(phase))
    return 2**0.5 * mains.voltage * np.ptp(wave) / 2


def one_lamp(rng, name):
    """A lamp that may or may not light."""

    def between(low, high):
        return float(rng.uniform(low, high))

    def spread(low, high):
        return float(np.exp(rng.uniform(np.log(low), np.log(high))))

    def seldom(share, value):
        return value if rng.random() < share else None

    harmonics = {}
    if rng.random() < 1 / 3:
        for order in sorted(rng.choice(np.arange(2, 16), size=rng.integers(1, 5), replace=False)):
            harmonics[int(order)] = (between(0.002, 0.06), between(-180.0, 180.0))
    mains = SimpleNamespace(
        voltage=between(100.0, 240.0), frequency=float(rng.choice([50.0, 60.0])), harmonics=harmonics
    )
    led = SimpleNamespace(
        forward_voltage=between(1.8, 3.5),
        at_current=spread(0.005, 0.060),
        series_resistance=between(1.0, 20.0),
        ideality=between(1.5, 3.0),
    )
    # the ohmic part of a data-sheet voltage stays below half of it
    led.series_resistance = min(led.series_resistance, 0.5 * led.forward_voltage / led.at_current)
    return SimpleNamespace(
        name=name,
        mains=mains,
        dropper=spread(68e-9, 4.7e-6),
        bleeder=seldom(0.6, spread(220e3, 4.7e6)),
        inrush_resistor=0.0 if rng.random() < 0.15 else spread(1.0, 1e3),
        diode=SimpleNamespace(
            forward_voltage=between(0.65, 0.90),
            at_current=0.010,
            series_resistance=between(0.0, 0.1),
            ideality=between(1.5, 2.0),
        ),
        smoothing=0.0 if rng.random() < 0.2 else spread(10e-9, 100e-6),
        smoothing_bleeder=seldom(0.5, spread(47e3, 1e6)),
        series_resistor=0.0 if rng.random() < 0.3 else spread(1.0, 1e3),
        string=SimpleNamespace(led=led, in_series=round(spread(1.0, 100.0)), in_parallel=int(rng.integers(1, 9))),
    )


def random_lamps(count, seed):
    """Yield `count` lamps whose clamped voltage, in_series*Vf + 2*Vd, stays within 0.93 of the mains' reach."""
    rng = np.random.default_rng(seed)
    made = 0
    while made < count:
        lamp = one_lamp(rng, f"random lamp {seed}-{made}")
        clamped = lamp.string.in_series * lamp.string.led.forward_voltage + 2 * lamp.diode.forward_voltage
        if clamped <= 0.93 * waveform_reach(lamp.mains):
            made += 1
            yield lamp


def lamps_from_anywhere(count, seed):
    """Lamps as the circuit's own data, from anywhere in the ranges of their fields: most are no good, half are dark."""
    rng = np.random.default_rng(seed)

    def between(low, high):
        return float(rng.uniform(low, high))

    def spread(low, high):
        return float(np.exp(rng.uniform(np.log(low), np.log(high))))

    def seldom(share, value, otherwise=None):
        return value if rng.random() < share else otherwise

    lamps = []
    while len(lamps) < count:
        orders = rng.choice(np.arange(2, 41), size=rng.integers(1, 5), replace=False) if rng.random() < 0.5 else ()
        harmonics = {int(order): (between(0, seldom(0.5, 1.0, 0.06)), between(-360, 360)) for order in orders}
        volts, hertz = seldom(0.5, between(1, 1000), spread(1, 1000)), spread(10, 1000)
        led = between(1.5, 4), spread(1e-4, 0.1), between(0, 10), between(1, 3)
        with suppress(ValueError):  # an LED whose resistance alone would drop more than it may
            lamps.append(
                Lamp(
                    mains=Mains(volts, hertz, harmonics),
                    string=LedString(Led(*led), round(spread(1, 1000)), round(spread(1, 1000))),
                    dropper=spread(1e-10, 1e-4),
                    smoothing=seldom(0.8, spread(1e-9, 1e-2), 0.0),
                    bleeder=seldom(0.5, spread(1e3, 1e9)),
                    inrush_resistor=seldom(0.7, spread(0.1, 1e5), 0.0),
                    smoothing_bleeder=seldom(0.4, spread(1e2, 1e9)),
                    series_resistor=seldom(0.5, spread(1, 1e6), 0.0),
                )
            )
    return lamps
