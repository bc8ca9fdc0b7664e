"""Bleeders: the largest that empties a capacitor in time, in as many pieces as its volts and watts ask for."""

from __future__ import annotations

from dataclasses import dataclass

from .. import theory
from ..circuit.fields import about, documented
from ..circuit.parts import BY_KEY
from ..circuit.values import show
from ..components.kinds import CARBON_FILM, COMMON_USE
from ..standards import touch_rule
from . import stock
from .brief import Brief
from .infeasible import Infeasible
from .sizing import Sizing

_MOST = 12  # pieces in series; more is no bleeder any more
_FEWEST_OHMS = 100.0


@documented
@dataclass(frozen=True)
class Emptying:
    """What a bleeder has to do, at the worst of the tolerances."""

    capacitance: float = about("tolerance added", "F")
    start: float = about("voltage at the moment of unplugging", "V")
    limit: float = about("voltage that the rule allows to be left", "V")
    seconds: float = about("when the rule looks", "s")
    lasting: float = about("across the bleeder in use that lasts, rms", "V")
    fault: float = about("across the bleeder at worst with a fault", "V")
    peak: float = about("the greatest across the bleeder in use that lasts", "V")

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


def dropper_emptying(brief: Brief, dropper: float) -> Emptying:
    """What the dropper's bleeder has to do.

    It may be unplugged at the crest of the mains' upper end with a fault that leaves the dropper all of it. A rule's
    exemption of small capacitors is not made use of.

    Parameters
    ----------
    dropper
        F, nominal.
    """
    rule, peak = touch_rule(brief.rule), brief.greatest_peak
    farads = (1 + brief.dropper_tolerance) * dropper
    return Emptying(farads, peak, rule.limit_for(farads, peak), rule.seconds, brief.supply.high, peak, peak)


def emptying(sizing: Sizing, part: str) -> Emptying:
    """What a bleeder has to do, by its key: "bleeder" or "smoothing_bleeder"."""
    brief, lamp = sizing.brief, sizing.lamp
    if part == "bleeder":
        return dropper_emptying(brief, lamp.dropper)
    rule, bus, open_bus = touch_rule(brief.bus_rule), sizing.greatest_bus_voltage, sizing.open_bus_voltage
    farads = (1 + brief.smoothing_tolerance) * lamp.smoothing
    return Emptying(farads, open_bus, rule.limit, rule.seconds, bus, open_bus, bus)


def choose_bleeder(sizing: Sizing, part: str = "bleeder") -> Sizing:
    """The largest bleeder that empties its capacitor in time; none where nothing has to be emptied.

    Parameters
    ----------
    part
        "bleeder" or "smoothing_bleeder".

    Raises
    ------
    Infeasible
        If a dozen pieces are too few, or one that is fixed does not empty it.
    """
    brief, task, fewest = sizing.brief, emptying(sizing, part), sizing.floors.get(part, 1)
    if part in brief.fixed:
        ohms = getattr(sizing.lamp, part)
        if task.needed:
            _check_fixed(brief, part, ohms, task)
        if not ohms:
            return sizing.with_bleeder(part, ohms, None)
        count = next((n for n in range(fewest, 100) if _some_kind_stands(n, ohms / n, task)), fewest)
        return sizing.with_bleeder(part, ohms, (count, ohms / count))
    if not task.needed:
        return sizing.with_bleeder(part, None, None)
    count, each = _pieces(brief, part, task, fewest)
    return sizing.with_bleeder(part, count * each, (count, each))


def choose_smoothing_bleeder(sizing: Sizing) -> Sizing:
    """`choose_bleeder` for the one across the smoothing capacitor."""
    return choose_bleeder(sizing, "smoothing_bleeder")


def _pieces(brief, part, task, fewest):
    """How many resistors in series, and of how many ohms each: as few as their kinds stand, as large as the rule lets.

    Parameters
    ----------
    fewest
        So many at least.
    """
    most = task.most_ohms / (1 + brief.resistor_tolerance)
    for count in range(fewest, _MOST + 1):
        if most / count < _FEWEST_OHMS:
            break
        each = stock.values(brief, part, most / count / (1000 if part in brief.stock else 4), most / count)[-1]
        if _some_kind_stands(count, each, task):
            return count, each
    raise Infeasible(
        "bus_rule" if task.seconds > 10 else "rule",
        f"A bleeder of at most {show(most, 'Ω')} has to turn {show(task.fault**2 / most, 'W')} to heat, too much"
        f" for {_MOST} small resistors in series.",
    )


def _some_kind_stands(count, each, task):
    """Whether some kind of small resistor, of so many ohms each, stands its share."""
    ohms = count * each
    volts = max(task.fault, task.peak / COMMON_USE.voltage) / count
    watts = max(task.lasting**2 / ohms / COMMON_USE.power, task.fault**2 / ohms) / count
    return any(kind.limiting_voltage >= volts and kind.rated_power >= watts for kind in CARBON_FILM)


def _check_fixed(brief, part, ohms, task):
    """Raise `Infeasible` if a fixed bleeder, or none, leaves too much."""
    left = task.start if ohms is None else task.left((1 + brief.resistor_tolerance) * ohms)
    if left <= task.limit * (1 + 1e-9):
        return
    raise Infeasible(
        "fixed",
        f"With a {BY_KEY[part].name} of {show(ohms, 'Ω')} up to {show(left, 'V')} are left after"
        f" {show(task.seconds, 's')}; {show(task.limit, 'V')} is the limit.",
        brief.without_fixed(part),
    )
