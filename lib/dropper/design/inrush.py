"""The inrush resistor: the rush of current at plug-in with everything at its worst end."""

from __future__ import annotations

import bisect
import math
from typing import TYPE_CHECKING

from .. import theory
from ..circuit.lamp import Lamp, replace_at
from ..circuit.series import preferred
from ..circuit.values import show
from ..components.kinds import RECTIFIERS
from ..solver.transient import Fault, with_fault, worst_plug_in
from .corners import bright
from .infeasible import Infeasible

if TYPE_CHECKING:
    from .brief import Brief

_PERIODS = 0.5  # of the mains, that a rush is followed


def rush(brief: Brief, lamp: Lamp, ohms: float) -> float:
    """Peak line current when it is plugged in again at once, everything at its worst end, A.

    Parameters
    ----------
    ohms
        Inrush resistor, nominal.
    """
    return worst_plug_in(_least_resistor(brief, lamp, ohms), True, _PERIODS).line_current_peak


def rush_with_fault(brief: Brief, lamp: Lamp, ohms: float) -> float:
    """The same with the diodes at the ac side short, of all faults that parts are chosen for the one of the highest."""
    faulty = with_fault(_least_resistor(brief, lamp, ohms), Fault("short", "D1 and D2"))
    return worst_plug_in(faulty, True, _PERIODS).line_current_peak


def _least_resistor(brief, lamp, ohms):
    return replace_at(bright(brief, lamp), "inrush_resistor", (1 - brief.resistor_tolerance) * ohms)


def inrush_resistor(brief: Brief, lamp: Lamp) -> float | None:
    """The least preferred value that keeps the rush to the wish, and with any fault to what a rectifier stands.

    Raises
    ------
    Infeasible
        If one that is fixed does not.
    """
    if "inrush_resistor" in brief.fixed:
        _fixed_holds(brief, lamp)
        return lamp.inrush_resistor
    step = theory.replug_step(peak_voltage=math.sqrt(2) * brief.supply.high)
    guess = theory.surge_resistor(peak_voltage=step, greatest_current=brief.inrush)
    values = preferred(brief.resistor_series, guess / 20, guess * 10)
    passes = {}

    def passed(value):
        if value not in passes:
            passes[value] = rush(brief, lamp, value) <= brief.inrush and _rectifier_stands(brief, lamp, value)
        return passes[value]

    start = max(bisect.bisect_right(values, lamp.inrush_resistor or guess) - 1, 1)
    while not passed(values[start]):
        start += 1
    while start > 0 and passed(values[start - 1]):
        start -= 1
    return values[start]


def _rectifier_stands(brief, lamp, ohms):
    """Whether a rectifier stands the rush with any fault; solved where the whole step over the ohms is more."""
    step = theory.replug_step(peak_voltage=math.sqrt(2) * brief.supply.high)
    bound = theory.inrush_peak(step_voltage=step, inrush_resistor=(1 - brief.resistor_tolerance) * ohms)
    most = RECTIFIERS[-1].surge
    return bound <= most or rush_with_fault(brief, lamp, ohms) <= most


def _fixed_holds(brief, lamp):
    """Complain of a fixed inrush resistor that lets too much through."""
    ohms, stood = lamp.inrush_resistor, RECTIFIERS[-1].surge
    peak, fault = rush(brief, lamp, ohms), rush_with_fault(brief, lamp, ohms)
    told = ""
    if peak > brief.inrush:
        told = f"{show(peak, 'A')}; {show(brief.inrush, 'A')} is the wish"
    elif fault > stood:
        told = f"{show(fault, 'A')} with two diodes short; {show(stood, 'A')} is what a rectifier of 1 A stands"
    if told:
        why = f"With an inrush resistor of {show(ohms, 'Ω')} the rush reaches {told}."
        raise Infeasible("fixed", why, brief.freed("inrush_resistor"))
