"""What can be measured on a lamp: which readings an act gives, how dangerous it is, what it costs in time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.fields import about, documented

if TYPE_CHECKING:
    from ...circuit.lamp import Lamp

# The safer, the lower; within a class nothing is said of what is safest. No class is safe to touch.
HAZARDS = (
    "unplugged, every capacitor discharged and proved empty by measuring",
    "case closed, read at a plug-in meter or seen from outside",
    "unplugged but not yet proved empty: insulated probes, for those who know how, as local codes ask",
    "live parts under the probes: licensed practice only, insulated probes, one hand; may be declined",
)
LIVE = 3


def _always(lamp):
    """Every lamp allows it."""
    return ""


@documented
@dataclass(frozen=True)
class Act:
    """One thing to do, and what it lets one read."""

    key: str
    words: str
    readings: tuple = about("Fields of `Observed`.")
    hazard: int = about("Place in `HAZARDS`, 0 the least dangerous.")
    cost: float = about("Time and trouble, one for what is read at a glance. Typical practice, no source.")
    why_not: Callable = about('Why a lamp does not allow it, in words; "" where it does.', default=_always)

    @property
    def danger(self) -> str:
        """Its hazard in words."""
        return HAZARDS[self.hazard]


def _fitted(part, name):
    return lambda lamp: "" if getattr(lamp, part) else f"the lamp has no {name}"


_SMOOTHED = _fitted("smoothing", "smoothing capacitor")
ACTS = {
    act.key: act
    for act in (
        Act("light", "look at the light, and wave a pencil before it", ("light",), 1, 1),
        Act("leds", "count the LEDs that are dark while the lamp is on", ("leds_dark",), 1, 1),
        Act(
            "plug-in",
            "read volts, amperes, watts and power factor at a plug-in meter",
            ("voltage", "current", "power", "power_factor"),
            1,
            1,
        ),
        Act(
            "inrush",
            "measure the inrush resistor",
            ("inrush_resistance",),
            0,
            2,
            _fitted("inrush_resistor", "inrush resistor"),
        ),
        Act("bridge", "test the four diodes", ("bridge",), 0, 3),
        Act("dropper", "lift one lead of the dropper and measure its capacitance", ("dropper_capacitance",), 0, 4),
        Act(
            "bleeder",
            "lift one lead of the dropper's bleeder and measure it",
            ("bleeder_resistance",),
            0,
            3,
            _fitted("bleeder", "bleeder across its dropper"),
        ),
        Act(
            "smoothing",
            "lift one lead of the smoothing capacitor and measure its capacitance",
            ("smoothing_capacitance",),
            0,
            4,
            _SMOOTHED,
        ),
        Act(
            "leak",
            "measure the ohms of the smoothing capacitor, one lead lifted",
            ("smoothing_resistance",),
            0,
            4,
            _SMOOTHED,
        ),
        Act(
            "smoothing bleeder",
            "lift one lead of the smoothing bleeder and measure it",
            ("smoothing_bleeder_resistance",),
            0,
            3,
            _fitted("smoothing_bleeder", "smoothing bleeder"),
        ),
        Act("string", "test the string group by group with a small current", ("string",), 0, 5),
        Act(
            "pins",
            "pull the plug ten times and read the volts on its pins, a second after each",
            ("pins_residual",),
            2,
            3,
        ),
        Act(
            "bus left",
            "clip a meter across the smoothing capacitor before power, and read the volts left ten seconds"
            " after the plug is pulled",
            ("bus_residual",),
            LIVE,
            4,
            _SMOOTHED,
        ),
        Act("bus", "read the dc volts across the string", ("bus_voltage",), LIVE, 4),
        Act("ripple", "read the ac volts across the string", ("bus_ripple",), LIVE, 4),
    )
}
BY_READING = {name: act for act in ACTS.values() for name in act.readings}


def acts_for(lamp: Lamp, live: bool = True) -> tuple[Act, ...]:
    """What can be measured on a lamp.

    Parameters
    ----------
    live
        False: no probes on live parts.
    """
    return tuple(act for act in ACTS.values() if not act.why_not(lamp) and (live or act.hazard < LIVE))


def act_named(key: str) -> Act:
    """An act by its key.

    Raises
    ------
    ValueError
        If there is no such act.
    """
    if key not in ACTS:
        raise ValueError(f"measurement: {key!r} is unknown; it must be one of {', '.join(map(repr, ACTS))}")
    return ACTS[key]
