"""Lamps that tasks ask the solver about: plain white LEDs behind a bridge."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ...circuit.lamp import Lamp
    from ...solver.steady import SteadyState
    from .known import KnownQuantities

_FIELDS = ("voltage", "frequency", "dropper", "in_series", "smoothing", "inrush_resistor", "bleeder")


@lru_cache(maxsize=128)
def lamp(
    voltage: float,
    frequency: float,
    dropper: float,
    in_series: int,
    smoothing: float = 22e-6,
    inrush_resistor: float = 0.0,
    bleeder=None,
) -> Lamp:
    """A lamp of LEDs of 3 V at 20 mA; the rest in SI units."""
    from ...circuit.lamp import Lamp, Led, LedString, Mains

    string = LedString(Led(forward_voltage=3.0, at_current=0.020), in_series=in_series)
    mains = Mains(voltage=voltage, frequency=frequency)
    return Lamp(mains, string, dropper, smoothing, bleeder=bleeder, inrush_resistor=inrush_resistor)


def lamp_of(known: KnownQuantities) -> Lamp:
    """The lamp that a task's values describe."""
    return lamp(**{name: known.values[name] for name in _FIELDS if name in known.values})


@lru_cache(maxsize=128)
def steady_lamp(
    voltage: float,
    frequency: float,
    dropper: float,
    in_series: int,
    smoothing: float = 22e-6,
    inrush_resistor: float = 0.0,
) -> SteadyState:
    """The steady state of such a lamp."""
    from ...solver.steady import steady_state

    return steady_state(lamp(voltage, frequency, dropper, in_series, smoothing, inrush_resistor), 256)


def before_and_after(known: KnownQuantities, *fault: str | float) -> tuple[SteadyState, ...]:
    """The lamp of a task's values without a fault, and with one `transient.Fault`; both settled."""
    from ...solver.transient import Fault, settle, with_fault

    whole = lamp_of(known)
    return settle(whole), settle(with_fault(whole, Fault(*fault)))


def direction(before: float, after: float, least: float) -> str:
    """Whether a quantity "rises", "falls" or, within a fraction `least` of what it was, stays the "same"."""
    if abs(after - before) <= least * before:
        return "same"
    return "rises" if after > before else "falls"
