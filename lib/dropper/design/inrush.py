"""The inrush resistor: the rush of current at plug-in with everything at its worst end."""

from __future__ import annotations

import bisect

from .. import theory
from ..circuit.lamp import replace_at
from ..circuit.values import show
from ..components.kinds import RECTIFIERS
from ..solver.transient import Fault, with_fault, worst_plug_in
from . import stock
from .brief import Brief
from .infeasible import Infeasible
from .sizing import Sizing

_PERIODS = 0.5  # of the mains, that a rush is followed
_LEAST_SMOOTHING = 1e-6  # F: with less nearly all of a rush goes through the LEDs
_RECTIFIER_SURGE = RECTIFIERS[-1].surge


def peak_inrush(sizing: Sizing, ohms: float, line_inductance: float = 0.0) -> float:
    """Peak line current when it is plugged in again at once, everything at its worst end, A.

    Parameters
    ----------
    ohms
        Inrush resistor, nominal.
    line_inductance
        Of the mains, H. Without any the peak is no higher on any mains: that is what is chosen by.
    """
    return _rush(sizing, ohms, line_inductance).line_current_peak


def peak_inrush_with_fault(sizing: Sizing, ohms: float) -> float:
    """The same with the diodes at the ac side short, of all faults that parts are chosen for the one of the highest."""
    faulty = with_fault(_with_least_resistor(sizing, ohms), Fault("short", "D1 and D2"))
    return worst_plug_in(faulty, True, _PERIODS, line_inductance=0.0).line_current_peak


def leds_stand_rush(sizing: Sizing, ohms: float) -> bool:
    """Whether the LEDs stand what goes through them of the rush: all of it where nothing smooths, most where little."""
    return _leds_stand(sizing, _rush(sizing, ohms))


def smoothing_for_rush(sizing: Sizing) -> Sizing | None:
    """The sizing with so much smoothing that the resistor has to keep to the wished rush only.

    Returns
    -------
    Sizing or None
        None where the resistor is no larger than that already, or where no smoothing capacitor helps.
    """
    brief = sizing.brief
    lean = guess_inrush_resistor(sizing)
    if lean.lamp.inrush_resistor >= sizing.lamp.inrush_resistor:
        return None
    for farads in stock.values(brief, "smoothing", _LEAST_SMOOTHING, brief.largest_smoothing):
        other = lean.with_value("smoothing", farads)
        if leds_stand_rush(other, other.lamp.inrush_resistor):
            return other
    return None


def _rush(sizing, ohms, line_inductance=0.0):
    """Plugged in again at once, everything at its worst end."""
    return worst_plug_in(_with_least_resistor(sizing, ohms), True, _PERIODS, line_inductance=line_inductance)


def _leds_stand(sizing, rush):
    each = rush.string_current_peak / sizing.lamp.string.in_parallel
    return each <= sizing.brief.led_surge


def _with_least_resistor(sizing, ohms):
    return replace_at(sizing.bright, "inrush_resistor", (1 - sizing.brief.resistor_tolerance) * ohms)


def guess_inrush_resistor(sizing: Sizing) -> Sizing:
    """A first value by the closed form, which knows neither the string's share nor the mains' own ohms.

    One that is fixed stays.
    """
    if "inrush_resistor" in sizing.brief.fixed:
        return sizing
    ohms, brief = _ideal_resistor(sizing.brief), sizing.brief
    least = ohms / 1000 if "inrush_resistor" in brief.stock else ohms / 2.5
    most = ohms * 1000 if "inrush_resistor" in brief.stock else ohms
    among = stock.values(brief, "inrush_resistor", least, most)
    return sizing.with_value("inrush_resistor", max((v for v in among if v <= ohms), default=among[0]))


def choose_inrush_resistor(sizing: Sizing) -> Sizing:
    """The least preferred value that keeps the rush to the wish, and with any fault to what a rectifier stands.

    Where nothing or little smooths, it has to spare the LEDs too.

    Raises
    ------
    Infeasible
        If one that is fixed does not.
    """
    brief = sizing.brief
    if "inrush_resistor" in brief.fixed:
        _check_fixed(sizing)
        return sizing
    ideal = _ideal_resistor(brief)
    least = ideal / (1000 if "inrush_resistor" in brief.stock else 20)
    values = stock.values(brief, "inrush_resistor", least, ideal * 1000)
    verdicts = {}

    def passes(value):
        if value not in verdicts:
            rush = _rush(sizing, value)
            verdicts[value] = (
                rush.line_current_peak <= brief.inrush
                and _leds_stand(sizing, rush)
                and _rectifier_stands(sizing, value)
            )
        return verdicts[value]

    place = min(max(bisect.bisect_right(values, sizing.lamp.inrush_resistor or ideal) - 1, 1), len(values) - 1)
    while not passes(values[place]):
        place += 1
        if place == len(values):
            raise _drawer_too_small(brief, values[-1])
    while place > 0 and passes(values[place - 1]):
        place -= 1
    return sizing.with_value("inrush_resistor", values[place])


def _drawer_too_small(brief, ohms):
    others = {name: kept for name, kept in brief.stock.items() if name != "inrush_resistor"}
    why = f"Not even {show(ohms, 'Ω')}, the largest inrush resistor there is, keeps the rush to what is asked."
    return Infeasible("stock", why, brief.but(stock=others))


def _replug_step(brief):
    """The greatest step of plugging in again, V."""
    return theory.replug_step(peak_voltage=brief.greatest_peak)


def _ideal_resistor(brief: Brief) -> float:
    """The resistor of the closed form for the wished rush, Ω."""
    return theory.surge_resistor(peak_voltage=_replug_step(brief), greatest_current=brief.inrush)


def _rectifier_stands(sizing, ohms):
    """Whether a rectifier stands the rush with any fault; solved where the whole step over the ohms is more."""
    least = (1 - sizing.brief.resistor_tolerance) * ohms
    bound = theory.inrush_peak(step_voltage=_replug_step(sizing.brief), inrush_resistor=least)
    return bound <= _RECTIFIER_SURGE or peak_inrush_with_fault(sizing, ohms) <= _RECTIFIER_SURGE


def _check_fixed(sizing):
    """Raise `Infeasible` if a fixed inrush resistor lets too much through."""
    brief, ohms = sizing.brief, sizing.lamp.inrush_resistor
    peak, fault_peak = peak_inrush(sizing, ohms), peak_inrush_with_fault(sizing, ohms)
    if peak > brief.inrush:
        excess = f"{show(peak, 'A')}; {show(brief.inrush, 'A')} is the wish"
    elif fault_peak > _RECTIFIER_SURGE:
        stood = show(_RECTIFIER_SURGE, "A")
        excess = f"{show(fault_peak, 'A')} with two diodes short; {stood} is what a rectifier of 1 A stands"
    elif not leds_stand_rush(sizing, ohms):
        how_much = "little smooths, so most" if sizing.lamp.smoothing else "nothing smooths, so all"
        excess = f"{show(peak, 'A')}; {how_much} of it goes through the LEDs, more than they are let take"
    else:
        return
    why = f"With an inrush resistor of {show(ohms, 'Ω')} the rush reaches {excess}."
    raise Infeasible("fixed", why, brief.without_fixed("inrush_resistor"))
