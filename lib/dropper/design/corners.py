"""Corners: a lamp with its mains, its dropper and its LEDs at their ends, all at once."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from ..circuit.lamp import Diode, Lamp, LedString, Mains, replace_at
from ..solver.steady import spread, steady_states
from .tolerance import Spread

if TYPE_CHECKING:
    from .brief import Brief

POINTS = 512  # of the cycle wherever a limit is judged
_PATHS = ("mains.voltage", "mains.frequency", "dropper", "string.led.forward_voltage", "smoothing")


def bare(brief: Brief, values: dict) -> Lamp:
    """A lamp of a brief on its nominal mains, with values for its parts.

    Parameters
    ----------
    values
        By the fields of `Lamp`; what the brief fixes wins.
    """
    supply, kind = brief.supply, brief.led_kind
    string = LedString(kind.led(), brief.in_series, brief.in_parallel)
    return Lamp(Mains(supply.nominal, supply.frequency), string, diode=Diode(), name=brief.name, **values | brief.fixed)


def spread_of(brief: Brief, lamp: Lamp) -> Spread:
    """The ends of everything that may lie off its nominal value."""
    return Spread.of(lamp, brief.supply, brief.led_kind, brief.dropper_tolerance)


def bright(brief: Brief, lamp: Lamp) -> Lamp:
    """The lamp where most current flows: mains and dropper at their upper ends, LEDs of least forward voltage."""
    return _corner(brief, lamp, 1, "least")


def dim(brief: Brief, lamp: Lamp) -> Lamp:
    """The lamp where least current flows: mains and dropper at their lower ends, LEDs of greatest forward voltage."""
    return _corner(brief, lamp, -1, "greatest")


def tall(brief: Brief, lamp: Lamp) -> Lamp:
    """The lamp whose bus stands highest: mains and dropper at their upper ends, LEDs of greatest forward voltage."""
    return _corner(brief, lamp, 1, "greatest")


def _corner(brief, lamp, end, leds):
    """Mains and dropper at one end, -1 or 1; LEDs of "least" or "greatest" forward voltage."""
    ends = spread_of(brief, lamp)
    high = Mains(ends.voltage_high, ends.frequency_high)
    low = Mains(ends.voltage_low, ends.frequency_low)
    lamp = replace_at(lamp, "mains", high if end > 0 else low)
    lamp = replace_at(lamp, "dropper", (1 + end * brief.dropper_tolerance) * lamp.dropper)
    return replace_at(lamp, "string.led", brief.led_kind.led(leds))


def flickers(brief: Brief, lamp: Lamp, smoothings: Sequence[float], points: int = POINTS) -> np.ndarray:
    """Percent flicker in the worst of eight corners, for each smoothing capacitor at its least.

    Parameters
    ----------
    smoothings
        F, nominal.
    points
        As for `steady_states`.

    Returns
    -------
    numpy.ndarray
        Per cent; nan where a corner stays dark.
    """
    rows = _flicker_corners(brief, lamp, smoothings)
    return _percent_flicker(lamp, rows, points).reshape(len(smoothings), -1).max(axis=1)


def wavering(brief: Brief, lamp: Lamp) -> Lamp:
    """The lamp in the one of eight corners where its light wavers most, with least smoothing."""
    rows = _flicker_corners(brief, lamp, [lamp.smoothing])
    worst = rows[np.argmax(_percent_flicker(lamp, rows, POINTS))]
    for path, value in zip(_PATHS, worst, strict=True):
        lamp = replace_at(lamp, path, float(value))
    return lamp


def _flicker_corners(brief, lamp, smoothings):
    """Eight corners a smoothing capacitor, a row each, in the order of `_PATHS`."""
    ends, kind = spread_of(brief, lamp), brief.led_kind
    mains = ((ends.voltage_low, ends.frequency_low), (ends.voltage_high, ends.frequency_high))
    farads = [(1 + sign * brief.dropper_tolerance) * lamp.dropper for sign in (-1, 1)]
    least = [(1 - brief.smoothing_tolerance) * value for value in smoothings]
    return np.array(
        [
            (*supply, dropper, led, smoothing)
            for smoothing, supply, dropper, led in itertools.product(least, mains, farads, (kind.least, kind.greatest))
        ]
    )


def _percent_flicker(lamp, rows, points):
    return steady_states(spread(lamp, dict(zip(_PATHS, rows.T, strict=True))), points).percent_flicker
