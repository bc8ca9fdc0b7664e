"""Bleeders: the largest that empties a capacitor in time, in as many pieces as its volts and watts ask for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from .. import theory
from ..circuit.fields import about, documented
from ..circuit.series import preferred
from ..circuit.values import show
from ..components.kinds import CARBON_FILM, COMMON_USE
from ..standards import touch_rule
from .infeasible import Infeasible

if TYPE_CHECKING:
    from .brief import Brief

_MOST = 12  # pieces in series; more is no bleeder any more
_FEWEST_OHMS = 100.0


@documented
@dataclass(frozen=True)
class Emptying:
    """What a bleeder has to do, at the worst of the tolerances."""

    capacitance: float = about("F, tolerance added.")
    start: float = about("V.")
    limit: float = about("V.")
    seconds: float
    lasting: float = about("V across it in use that lasts (rms) and at worst with a fault.")
    fault: float = about("V across it in use that lasts (rms) and at worst with a fault.")
    peak: float = about("V, the greatest in use that lasts.")

    @property
    def values(self) -> dict[str, float]:
        """What `theory.largest_bleeder` asks for."""
        return {
            "time": self.seconds,
            "dropper": self.capacitance,
            "initial_voltage": self.start,
            "limit_voltage": self.limit,
        }

    @property
    def needed(self) -> bool:
        """Whether anything has to be emptied."""
        return self.capacitance > 0 and self.start > self.limit

    @property
    def most_ohms(self) -> float:
        """The largest bleeder, Ω, its own tolerance not yet taken off."""
        return theory.largest_bleeder(**self.values)

    def left(self, ohms: float) -> float:
        """V left at the rule's moment with a bleeder of so many ohms."""
        return theory.residual_voltage(
            time=self.seconds, bleeder=ohms, dropper=self.capacitance, initial_voltage=self.start
        )


def for_dropper(brief: Brief, dropper: float) -> Emptying:
    """What the dropper's bleeder has to do.

    It may be unplugged at the crest of the mains' upper end with a fault that leaves the dropper all of it. A rule's
    exemption of small capacitors is not made use of.

    Parameters
    ----------
    dropper
        F, nominal.
    """
    rule, peak = touch_rule(brief.rule), math.sqrt(2) * brief.supply.high
    farads = (1 + brief.dropper_tolerance) * dropper
    return Emptying(farads, peak, rule.limit_for(farads, peak), rule.seconds, brief.supply.high, peak, peak)


def for_smoothing(brief: Brief, smoothing: float, bus: float, held: float) -> Emptying:
    """What the smoothing bleeder has to do.

    Parameters
    ----------
    smoothing
        F, nominal; 0 for none.
    bus
        V, the greatest in use.
    held
        V that the bus reaches with the string open.
    """
    rule = touch_rule(brief.bus_rule)
    farads = (1 + brief.smoothing_tolerance) * smoothing
    return Emptying(farads, held, rule.limit, rule.seconds, bus, held, bus)


def pieces(brief: Brief, emptying: Emptying, fewest: int = 1) -> tuple[int, float]:
    """How many resistors in series, and of how many ohms each: as few as their kinds stand, as large as the rule lets.

    Parameters
    ----------
    fewest
        So many at least.

    Raises
    ------
    Infeasible
        If a dozen are too few.
    """
    most = emptying.most_ohms / (1 + brief.resistor_tolerance)
    for count in range(fewest, _MOST + 1):
        if most / count < _FEWEST_OHMS:
            break
        each = preferred(brief.resistor_series, most / count / 4, most / count)[-1]
        if stands(count, each, emptying):
            return count, each
    raise Infeasible(
        "bus_rule" if emptying.seconds > 10 else "rule",
        f"A bleeder of at most {show(most, 'Ω')} has to turn {show(emptying.fault**2 / most, 'W')} to heat, too much"
        f" for {_MOST} small resistors in series.",
    )


def stands(count: int, each: float, emptying: Emptying) -> bool:
    """Whether some kind of small resistor stands its share.

    Parameters
    ----------
    each
        Ω.
    """
    ohms = count * each
    volts = max(emptying.fault, emptying.peak / COMMON_USE.voltage) / count
    watts = max(emptying.lasting**2 / ohms / COMMON_USE.power, emptying.fault**2 / ohms) / count
    return any(kind.limiting_voltage >= volts and kind.rated_power >= watts for kind in CARBON_FILM)
