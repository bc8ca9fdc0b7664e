"""Topologies: the designed lamp beside others of its LEDs: not smoothed, half wave, two strings, plain resistor."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from .. import theory
from ..circuit.fields import about, documented
from ..circuit.lamp import Lamp
from ..circuit.values import show
from ..solver.sharing import Branch, share
from ..solver.steady import SteadyState, steady_state
from ..solver.transient import Fault, settle, with_fault
from .sizing import Sizing

if TYPE_CHECKING:
    from .result import Design

_OWN_SHARE = 0.1  # of a string's volts, over the resistor of its own; typical practice, no source
_RESISTORS = ("inrush_resistor", "bleeder", "smoothing_bleeder", "series_resistor")
_HALF = Fault("short", "D1")  # beside a short diode its neighbour never conducts: two diodes are left, a half wave
_NO_DROPPER = Fault("short", "dropper")
HEADER = ("circuit", "current", "resistors' heat", "power", "flicker", "power factor", "parts", "what fails")


@documented
@dataclass(frozen=True, eq=False)
class Topology:
    """One circuit for the LEDs of a brief, parts nominal, on nominal mains."""

    words: str
    model: str = about("how its figures were had")
    current: float = about("mean, through all strings together", "A")
    heat: float = about("of all resistors", "W")
    power: float = about("from the mains", "W")
    flicker: float = about("percent flicker", "%")
    power_factor: float
    parts: int = about("how many parts: a measure of cost, for no prices are kept here")
    fails: str = about("what is worse, or fails first")

    @property
    def row(self) -> tuple[str, ...]:
        """It as text, under `HEADER`."""
        return (
            self.words,
            show(self.current, "A"),
            show(self.heat, "W"),
            show(self.power, "W"),
            f"{self.flicker:.3g} %",
            f"{self.power_factor:.2f}",
            f"{self.parts}",
            f"{self.fails} ({self.model})",
        )


def topologies(design: Design | Sizing) -> tuple[Topology, ...]:
    """The designed lamp and four others of the same LEDs, the designed one first.

    Examples
    --------
    >>> from dropper.design import Brief, size
    >>> rows = topologies(size(Brief("warm white, 5 mm", in_series=20, current=0.01, place="Europe", flicker=30)))
    >>> [row.words for row in rows][:2]
    ['as designed', 'not smoothed']
    """
    sizing = design if isinstance(design, Sizing) else design.sizing
    lamp, result = sizing.lamp, sizing.result
    bare = replace(lamp, smoothing=0.0, smoothing_bleeder=None) if lamp.smoothing else lamp
    others = [_of("as designed", "solver", lamp, result, "nothing that the brief asks for", _count(lamp))]
    if lamp.smoothing:
        unsmoothed = steady_state(bare)
        fails = "the light is out twice each mains period, and the LEDs take the whole rush at plug-in"
        others.append(_of("not smoothed", "solver", bare, unsmoothed, fails, _count(bare)))
    return (*others, _half_wave(lamp, result), _two_strings(lamp), _resistor(lamp, result))


def _of(words, model, lamp, result, fails, parts):
    return Topology(
        words=words,
        model=model,
        current=result.string_current_mean,
        heat=sum(result.heat.get(part, 0.0) for part in _RESISTORS),
        power=result.real_power,
        flicker=float(result.percent_flicker),
        power_factor=result.power_factor,
        parts=parts,
        fails=fails,
    )


def _count(lamp: Lamp) -> int:
    """Parts of a lamp: what is fitted, four diodes and its LEDs."""
    fitted = sum(bool(getattr(lamp, part)) for part in (*_RESISTORS, "dropper", "smoothing"))
    return fitted + 4 + lamp.string.in_series * lamp.string.in_parallel


def _half_wave(lamp: Lamp, full: SteadyState) -> Topology:
    half = settle(with_fault(lamp, _HALF))
    dropper = lamp.dropper * full.string_current_mean / half.string_current_mean if half.string_current_mean > 0 else 0
    fails = (
        f"{100 * half.string_current_mean / full.string_current_mean:.3g} % of the current: for all of it the dropper"
        f" would have to be {show(dropper, 'F')}; the gaps between pulses are twice as long"
    )
    return _of("half wave, two diodes", "network solver, one diode bridged", lamp, half, fails, _count(lamp) - 2)


def _two_strings(lamp: Lamp) -> Topology:
    """Twice the strings, half the current in each, a resistor of its own in each: to the circuit they are one."""
    string = replace(lamp.string, in_parallel=2 * lamp.string.in_parallel)
    each = steady_state(lamp).string_current_mean / 2
    ohms = _OWN_SHARE * string.in_series * string.led.voltage_at(each / lamp.string.in_parallel) / each
    twin = replace(lamp, string=string, series_resistor=lamp.series_resistor + ohms / 2)
    fails = (
        f"{show(ohms, 'Ω')} in each; if one string's LEDs drop 3 % less, it takes {_share(lamp, each, ohms):.3g} % of"
        f" the current, without the resistors {_share(lamp, each, 0.0):.3g} %"
    )
    parts = _count(lamp) + 2 + lamp.string.in_series * lamp.string.in_parallel
    return _of("two strings, a resistor in each", "solver, sharing", twin, steady_state(twin), fails, parts)


def _share(lamp, each, ohms):
    led, count = lamp.string.led, lamp.string.in_series
    lower = replace(led, forward_voltage=0.97 * led.forward_voltage)
    branches = [Branch.of(lower, count, ohms), Branch.of(led, count, ohms)]
    return 100 * float(share(branches, 2 * each).currents[0]) / (2 * each)


def _resistor(lamp: Lamp, full: SteadyState) -> Topology:
    """A plain resistor in the dropper's place, first by the formula, then with its current put right by the solver."""
    wanted = full.string_current_mean
    ohms = theory.dropping_resistor_for_current(
        peak_voltage=lamp.mains.peak, clamped_voltage=lamp.clamped_voltage(wanted), string_current_mean=wanted
    )
    for _ in range(2):
        warm = replace(lamp, inrush_resistor=float(ohms), bleeder=None)
        result = settle(with_fault(warm, _NO_DROPPER))
        ohms = ohms * result.string_current_mean / wanted
    fails = (
        f"{show(float(ohms), 'Ω')} burn {show(result.heat['inrush_resistor'], 'W')}: a power resistor, and a case that"
        " gets rid of that"
    )
    return _of("plain resistor dropper", "network solver, no dropper", warm, result, fails, _count(warm) - 1)
