"""Excess: readings that pass what their part stands, each with a few words that say so."""

import math
from collections.abc import Iterable
from dataclasses import replace

from ..circuit.lamp import Lamp
from ..circuit.values import show
from ..components import kinds
from .reading import Reading

_OF_THE_STRING = ("string_current_mean", "greatest_current", "current")
_OF_A_RESISTOR = ("inrush_resistor", "series_resistor", "inrush_resistor_heat")


def marked(readings: Iterable[Reading], lamp: Lamp, current_limit: float | None = None) -> tuple[Reading, ...]:
    """Readings of a lamp, with `excess` where one passes what its part stands.

    The string against the current of its LEDs; a resistor against the watts and the °C of the largest kind that is
    kept; the dropper against the volts of the highest class that is kept.

    Parameters
    ----------
    current_limit
        What a string's LEDs stand together, A; None for the current at which the lamp's are stated.

    Examples
    --------
    >>> from dropper.circuit.lamp import Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.020), 22), dropper="1 µF")
    >>> current = Reading("string_current_mean", "string current, mean", 0.0505, "A", "")
    >>> [row.excess for row in marked([current, replace(current, value=0.0167)], lamp)]
    ['above the 20 mA of its LEDs', '']
    """
    return tuple(_marked(row, lamp, current_limit) for row in readings)


def _marked(row, lamp, current_limit):
    limit, words = _limit(row, lamp, current_limit)
    return replace(row, excess=words.format(show(limit, row.unit))) if row.value > limit * (1 + 1e-9) else row


def _limit(row, lamp, current_limit):
    """What the part of a reading stands, and the words for more than that; infinity where none is kept."""
    if row.key in _OF_THE_STRING and row.unit == "A":
        limit = current_limit or lamp.string.led.at_current * lamp.string.in_parallel
        return limit, "above the {} of its LEDs"
    if row.key in _OF_A_RESISTOR and row.unit == "W":
        family = kinds.FUSIBLE if row.key.startswith("inrush") else kinds.FILM
        return max(kind.rated_power for kind in family), "above {}, the most that resistors kept here stand"
    if row.key == "inrush_resistor" and row.unit == "°C":
        return max(kind.no_power_from for kind in kinds.FUSIBLE), "above {}: a resistor stands no power there"
    if row.key == "dropper_voltage_peak" and row.unit == "V":
        highest = max(kind.rated_ac_voltage for kind in (*kinds.X1, *kinds.X2))
        return math.sqrt(2) * highest, "above {}, the peak that dropper kinds kept here stand"
    return math.inf, ""
