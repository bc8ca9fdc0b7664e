"""Wishes: what is asked of a lamp's light, case and LEDs beyond its parts: met, refused, or what they ask for."""

from __future__ import annotations

import math

from .. import theory
from ..circuit.values import show
from ..solver.steady import spread, steady_state, steady_states
from ..standards import NO_LEAVE
from .brief import Brief
from .constraints import BEST
from .corners import POINTS, bare
from .infeasible import Infeasible, round_down
from .inrush import smoothing_for_rush
from .sizing import Sizing

_MOST_MISS = 0.4  # of the wished current; neighbours of the widest series lie closer
_TOUCHABLE = (
    "No. Nothing parts this circuit from the mains: every LED and both ends of the bus can have the mains' volts to"
    " earth, whichever way the plug is in. It belongs behind a case with double or reinforced insulation, built and"
    f" tested by a person licensed for it; the nearest is the same lamp in a closed case. {NO_LEAVE}"
)
METAL_CASE = (
    "Metal case: every part of the circuit needs double or reinforced insulation to the metal, or basic insulation and"
    " the metal a lasting connection to protective earth. Either way creepage distances and clearances, through the"
    " mounting of the LEDs too, are those of the luminaire's standard (IEC 60598-1) in the edition that is in force:"
    f" read them there. A person licensed for it has to judge, build and test that. {NO_LEAVE}"
)


def refuse_touchable(brief: Brief) -> None:
    """Raise `Infeasible` where parts of the circuit are to be open to touch."""
    if brief.touchable:
        raise Infeasible("touchable", _TOUCHABLE, brief.but(touchable=False))


def with_groups(brief: Brief) -> Brief:
    """A brief whose number of groups is settled: the best, where it was left open.

    The best has the string at half the mains' peak, where a dropper of given size gives most light; fewer, where the
    light would swing more than is wished.
    """
    if brief.in_series != BEST:
        return brief
    one = _one(brief)
    best = theory.best_clamped_voltage(peak_voltage=one.mains.peak)
    if brief.swing is not None:
        _check_mains_alone(brief)
        best = min(best, _most_clamped(brief))
    most = math.sqrt(2) * brief.supply.low / brief.led_kind.greatest * 0.9
    return brief.but(in_series=max(1, min(1000, int(most), _groups_for(brief, one, best))))


def _check_mains_alone(brief):
    supply = brief.supply
    alone = 100 * (supply.high - supply.low) / supply.nominal
    if _most_clamped(brief) > _one(brief).clamped_voltage(brief.current):
        return
    why = (
        f"The mains alone swings by {alone:.3g} %, and the current never by less; {brief.swing:.3g} % is the wish. With"
        f" a string at a third of the mains' peak it is {1.5 * alone:.3g} %."
    )
    raise Infeasible("swing", why, brief.but(swing=math.ceil(15 * alone) / 10))


def _one(brief):
    return bare(brief.but(in_series=1), {"dropper": 1e-7, "smoothing": 1e-5})


def _groups_for(brief, one, clamped):
    """So many groups come nearest below a clamped voltage."""
    diodes = 2 * one.diode.voltage_at(brief.current)
    return math.floor((clamped - diodes) / one.string.voltage_at(brief.current))


def _most_clamped(brief):
    """The clamped voltage at which the mean current swings as much as is wished, by the closed form."""
    supply = brief.supply
    return math.sqrt(2) * (supply.nominal - 100 * (supply.high - supply.low) / brief.swing)


def swing_with_mains(sizing: Sizing) -> float:
    """How far the mean current moves from the least to the greatest mains, parts nominal, % of its value."""
    supply = sizing.brief.supply
    means = steady_states(spread(sizing.lamp, {"mains.voltage": [supply.low, supply.high]}), POINTS)
    low, high = (max(0.0, float(mean)) for mean in means.string_current_mean)
    return 100 * (high - low) / sizing.current


def check_swing(sizing: Sizing) -> None:
    """Raise `Infeasible` where the light swings with the mains by more than is wished; fewer groups are offered."""
    brief = sizing.brief
    if brief.swing is None:
        return
    swing = swing_with_mains(sizing)
    if swing <= brief.swing * (1 + 1e-9):
        return
    supply, count = brief.supply, brief.in_series
    why = (
        f"From {show(supply.low, 'V', 4)} to {show(supply.high, 'V', 4)} the mean current moves by {swing:.3g} % of its"
        f" value; {brief.swing:.3g} % is the wish. The string takes"
        f" {100 * sizing.lamp.clamped_voltage(sizing.current) / sizing.lamp.mains.peak:.2g} % of the mains' peak."
    )
    fewer = min(count - 1, _groups_for(brief, _one(brief), _most_clamped(brief)))
    if fewer >= 1:
        raise Infeasible("swing", f"{why} Fewer LEDs swing less.", brief.but(in_series=fewer))
    least = math.ceil(10 * swing) / 10
    raise Infeasible("swing", f"{why} The mains alone swings so: no number of LEDs helps.", brief.but(swing=least))


def check_current(sizing: Sizing) -> None:
    """Raise `Infeasible` where a resistor that spares the LEDs the rush leaves far too little current."""
    brief, lamp = sizing.brief, sizing.lamp
    if sizing.miss >= -_MOST_MISS or "dropper" in brief.stock or "dropper" in brief.fixed:
        return
    smoothed = smoothing_for_rush(sizing)
    why = (
        f"Only {show(sizing.current, 'A')} of {show(brief.current, 'A')} reach the LEDs: to spare them the rush at"
        f" plug-in, {show(brief.led_surge, 'A')} in one at most, the inrush resistor has to be"
        f" {show(lamp.inrush_resistor, 'Ω')}."
    )
    if smoothed is None:
        raise Infeasible("current", why, brief.but(current=round_down(sizing.current)))
    why += f" With a smoothing capacitor of {show(smoothed.lamp.smoothing, 'F')} it need not."
    raise Infeasible("flicker", why, brief.but(flicker=round_down(smoothed.flicker)))


def check_pulse(sizing: Sizing) -> None:
    """Raise `Infeasible` where an LED's current peaks above the pulse limit of its data sheet; smoothing is offered."""
    brief = sizing.brief
    if brief.led_pulse is None:
        return
    string = steady_state(sizing.bright, POINTS).string_current
    peak = float(string.max()) / brief.in_parallel
    if peak <= brief.led_pulse:
        return
    why = (
        f"In the bright corner one LED peaks at {show(peak, 'A')} twice each mains period;"
        f" {show(brief.led_pulse, 'A')} is the pulse that its data sheet allows."
    )
    mean = float(string.mean()) / brief.in_parallel
    if mean < 0.95 * brief.led_pulse and brief.flicker_limit > 1:
        depth = min(0.9 * brief.flicker_limit, 100 * (brief.led_pulse / mean - 1))
        calmer = max(0.5, float(f"{depth:.2g}"))
        raise Infeasible("led_pulse", f"{why} Smoothing takes the peaks off.", brief.but(flicker=calmer))
    less = float(f"{0.95 * brief.current * brief.led_pulse / peak:.2g}")
    raise Infeasible("led_pulse", why, brief.but(current=less))


def fewer_leds(brief: Brief, share: float) -> Brief | None:
    """The brief with fewer groups, where the heat has to come down to a share; None where one group is left.

    Heat goes with the number of LEDs as with the current; a designer takes LEDs away first.
    """
    fewer = math.floor(0.97 * share * brief.in_series)
    return brief.but(in_series=fewer) if fewer >= 1 and brief.in_series > 1 else None
