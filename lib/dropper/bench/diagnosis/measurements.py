"""Measurements: what can be measured on a lamp, which readings it gives, how dangerous it is, what it costs in time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented

if TYPE_CHECKING:
    from ...circuit.lamp import Lamp

# The safer, the lower; within a class nothing is said of what is safest. None of them is leave to touch anything.
HAZARDS = (
    "unplugged, every capacitor discharged and proved empty across its own leads by people trained for it",
    "case closed, read at a plug-in meter or seen from outside",
    "unplugged but not yet proved empty: for people trained and allowed to measure that, as local codes ask",
    "live parts under the probes: licensed practice only, insulated probes, one hand; may be declined",
)
LIVE = 3


def _always(lamp: Lamp) -> str:
    """Every lamp allows it."""
    return ""


@documented
@dataclass(frozen=True)
class Measurement:
    """One thing to do on the bench, and what it lets one read."""

    key: str
    words: str
    readings: tuple = about("Fields of `Evidence`.")
    hazard: int = about("Place in `HAZARDS`, 0 the least dangerous.")
    cost: float = about("Time and trouble, one for what is read at a glance. Typical practice, no source.")
    why_not: Callable = about('Why a lamp does not allow it, in words; "" where it does.', default=_always)

    def __repr__(self) -> str:
        return f"<Measurement {self.key!r}: {self.words}>"

    @property
    def danger(self) -> str:
        """Its hazard in words."""
        return HAZARDS[self.hazard]


def _fitted(part, name):
    return lambda lamp: "" if getattr(lamp, part) else f"the lamp has no {name}"


_SMOOTHED = _fitted("smoothing", "smoothing capacitor")
MEASUREMENTS = {
    measurement.key: measurement
    for measurement in (
        Measurement("light", "look at the light, and wave a pencil before it", ("light",), 1, 1),
        Measurement("leds", "count the LEDs that are dark while the lamp is on", ("leds_dark",), 1, 1),
        Measurement(
            "plug-in",
            "read volts, amperes, watts and power factor at a plug-in meter",
            ("voltage", "current", "power", "power_factor"),
            1,
            1,
        ),
        Measurement(
            "inrush",
            "measure the inrush resistor",
            ("inrush_resistance",),
            0,
            2,
            _fitted("inrush_resistor", "inrush resistor"),
        ),
        Measurement("bridge", "test the four diodes", ("bridge",), 0, 3),
        Measurement(
            "dropper", "lift one lead of the dropper and measure its capacitance", ("dropper_capacitance",), 0, 4
        ),
        Measurement(
            "bleeder",
            "lift one lead of the dropper's bleeder and measure it",
            ("bleeder_resistance",),
            0,
            3,
            _fitted("bleeder", "bleeder across its dropper"),
        ),
        Measurement(
            "smoothing",
            "lift one lead of the smoothing capacitor and measure its capacitance",
            ("smoothing_capacitance",),
            0,
            4,
            _SMOOTHED,
        ),
        Measurement(
            "leak",
            "measure the ohms of the smoothing capacitor, one lead lifted",
            ("smoothing_resistance",),
            0,
            4,
            _SMOOTHED,
        ),
        Measurement(
            "smoothing bleeder",
            "lift one lead of the smoothing bleeder and measure it",
            ("smoothing_bleeder_resistance",),
            0,
            3,
            _fitted("smoothing_bleeder", "smoothing bleeder"),
        ),
        Measurement("string", "test the string group by group with a small current", ("string",), 0, 5),
        Measurement(
            "pins",
            "let a closed test box read the volts on the plug's pins, a second after the pull",
            ("pins_residual",),
            2,
            3,
        ),
        Measurement(
            "bus left",
            "clip a meter across the smoothing capacitor before power, and read the volts left ten seconds"
            " after the plug is pulled",
            ("bus_residual",),
            LIVE,
            4,
            _SMOOTHED,
        ),
        Measurement("bus", "read the dc volts across the string", ("bus_voltage",), LIVE, 4),
        Measurement("ripple", "read the ac volts across the string", ("bus_ripple",), LIVE, 4),
    )
}
BY_READING = {name: measurement for measurement in MEASUREMENTS.values() for name in measurement.readings}


def measurements_for(lamp: Lamp, live: bool = True) -> tuple[Measurement, ...]:
    """What can be measured on a lamp.

    Parameters
    ----------
    live
        False: no probes on live parts.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> [measurement.key for measurement in measurements_for(lamp, live=False)][:4]
    ['light', 'leds', 'plug-in', 'inrush']
    """
    return tuple(
        measurement
        for measurement in MEASUREMENTS.values()
        if not measurement.why_not(lamp) and (live or measurement.hazard < LIVE)
    )


def measurement_named(key: str) -> Measurement:
    """A measurement by its key.

    Raises
    ------
    ValueError
        If there is none of that key.
    """
    if key not in MEASUREMENTS:
        raise ValueError(
            f"measurement: {excerpt(key)} is unknown; it must be one of {', '.join(map(repr, MEASUREMENTS))}"
        )
    return MEASUREMENTS[key]
