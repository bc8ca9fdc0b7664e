"""Corner stresses: what every part is asked to stand over the corners of a design, its clamp holding the bus."""

from __future__ import annotations

import dataclasses
import math

from ..circuit import progress
from ..circuit.lamp import Lamp, Led, LedString, replace_at
from ..solver.transient import Fault, faults_of
from .ratings import Circumstance, stresses
from .ratings.stress import PartStress
from .sizing import Sizing

BRIGHT, TALL = "bright corner", "tall corner"  # of `corners`
_IN_A_CORNER = ("upper", "plug-in", "fault")  # its normal use is at the same mains as its upper limit
_STRING_OPEN = Fault("open", "string")
_TALL_FAULTS = (Fault("open", "D1"), _STRING_OPEN)
_MOST_CLAMP_JUNCTION = 50.0  # V, of one junction that stands for a clamp


def corner_stresses(sizing: Sizing) -> tuple[PartStress, ...]:
    """Every stress of every part: in normal use at nominal values, all else with values and mains at their ends."""
    upper, bright = sizing.brief.supply.high, sizing.bright
    faults = faults_of(bright)
    if sizing.clamp is not None:
        faults = tuple(fault for fault in faults if fault != _STRING_OPEN)
    tall_faults = tuple(fault for fault in _TALL_FAULTS if fault in faults)
    with progress.stage(0.0, 0.05):
        rows = list(stresses(sizing.lamp, upper, (), ("normal",)))
    with progress.stage(0.05, 0.8):
        rows += _in_corner(stresses(bright, upper, faults, _IN_A_CORNER), BRIGHT)
    with progress.stage(0.8, 1.0):
        rows += _in_corner(stresses(sizing.tall_with_least_smoothing, upper, tall_faults, _IN_A_CORNER), TALL)
    if sizing.clamp is not None:
        rows += _with_clamp(sizing)
    return tuple(rows)


def _in_corner(rows, words):
    """Stresses of a corner, the corner named in their circumstance."""
    circumstances = {id(stress.circumstance): stress.circumstance for stress in rows}
    named = {key: dataclasses.replace(now, words=f"{now.words}, {words}") for key, now in circumstances.items()}
    return [dataclasses.replace(stress, circumstance=named[id(stress.circumstance)]) for stress in rows]


def clamp_for_string(sizing: Sizing, lamp: Lamp) -> Lamp:
    """A lamp whose string has come off, the clamp in its place at its upper end."""
    count = math.ceil(sizing.open_bus_voltage / _MOST_CLAMP_JUNCTION)
    junction = Led(sizing.open_bus_voltage / count, 0.01, 1.0, 12.0)
    return replace_at(lamp, "string", LedString(junction, count))


def _with_clamp(sizing):
    """Stresses with the string open and the clamp holding the bus."""
    lamp = clamp_for_string(sizing, sizing.bright)
    now = Circumstance("fault", "with one fault (string open), the clamp holding the bus", lamp)
    return [
        dataclasses.replace(stress, circumstance=now)
        for stress in stresses(lamp, sizing.brief.supply.high, (), ("upper",))
        if stress.part != "leds"
    ]
