"""Wording: causes and readings in words, what a fault is called here, and which readings speak for and against it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.values import show
from .cause_table import CauseTable
from .evidence import WORDS, Evidence, is_over, unit_of
from .likelihood import joint_gaussian
from .meters import Meters, scale_of
from .prediction import NUMBERS, prediction_of, pulls_of
from .word_readings import word_probabilities

if TYPE_CHECKING:
    from .posterior import Posterior

NAMES = {
    "voltage": "mains volts",
    "current": "line current",
    "power": "watts",
    "power_factor": "power factor",
    "light": "the light",
    "leds_dark": "dark LEDs",
    "bus_voltage": "dc on the string",
    "bus_ripple": "ripple",
    "pins_residual": "volts left on the pins",
    "bus_residual": "volts left on the smoothing capacitor",
    "dropper_capacitance": "the dropper's capacitance",
    "bleeder_resistance": "the bleeder",
    "inrush_resistance": "the inrush resistor",
    "smoothing_capacitance": "the smoothing capacitor's capacitance",
    "smoothing_resistance": "the smoothing capacitor's ohms",
    "smoothing_bleeder_resistance": "the smoothing bleeder",
    "bridge": "the diode test",
    "string": "the test of the string",
}
_CAUSES = {
    None: "nothing worse than parts within their tolerances",
    ("lost", "dropper"): "a dropper that has lost {}",
    ("open", "dropper"): "an open dropper",
    ("short", "dropper"): "a shorted dropper",
    ("open", "bleeder"): "an open bleeder across the dropper",
    ("short", "bleeder"): "a shorted bleeder across the dropper",
    ("open", "smoothing_bleeder"): "an open smoothing bleeder",
    ("open", "inrush_resistor"): "an open inrush resistor",
    ("short", "inrush_resistor"): "a shorted inrush resistor",
    ("drifted", "inrush_resistor"): "an inrush resistor that has drifted to {} its value",
    ("open", "D1"): "one open diode in the bridge",
    ("short", "D1"): "one shorted diode in the bridge",
    ("short", "D1 and D2"): "two shorted diodes that put the dropper alone across the mains",
    ("short", "D1 and D3"): "two shorted diodes that short the bus",
    ("open", "smoothing"): "an open smoothing capacitor",
    ("dried out", "smoothing"): "a smoothing capacitor that has dried out and lost {}",
    ("leaky", "smoothing"): "a leaky smoothing capacitor with {} across it",
    ("short", "smoothing"): "a shorted smoothing capacitor",
    ("open", "string"): "an open string",
    ("open", "LED"): "one open LED in a parallel group",
    ("short", "group"): "one shorted group",
    ("short", "groups"): "{} shorted groups",
}
_UNKNOWN_AMOUNT = {
    ("lost", "dropper"): "capacitance",
    ("drifted", "inrush_resistor"): "many times",
    ("leaky", "smoothing"): "ohms",
    ("dried out", "smoothing"): "capacitance",
    ("short", "groups"): "several",
}
_FAR, _NEAR = 2.0, 1.5  # standard uncertainties: further off speaks against, nearer may speak for


def cause_words(kind: tuple | None, amount: float | tuple | None = None) -> str:
    """A cause as a noun with its article: "a dropper that has lost 51 %".

    Parameters
    ----------
    amount
        A number, or a median with the ends of a range.

    Examples
    --------
    >>> cause_words(("lost", "dropper"), 0.51), cause_words(("short", "groups"))
    ('a dropper that has lost 51 %', 'several shorted groups')
    """
    text = _CAUSES[kind]
    if "{" not in text:
        return text
    if amount is None:
        return text.format(_UNKNOWN_AMOUNT[kind])
    middle, low, high = amount if isinstance(amount, tuple) else (amount,) * 3
    first, last, median = (_amount(kind, value) for value in (low, high, middle))
    if kind == ("short", "groups") and first != last:
        return text.format(f"{first} to {last}")
    return text.format(median) + (f", between {first} and {last}" if first != last else "")


def _amount(kind, value):
    if kind[0] in ("lost", "dried out"):
        return f"{100 * value:.0f} %"
    if kind[0] == "short":
        return f"{value:.0f}"
    return show(value, "Ω", 2) if kind[0] == "leaky" else f"{value:.2g} times"


def reading_words(name: str, value: float | str, meters: Meters) -> str:
    """A reading as its meter writes it."""
    if isinstance(value, str):
        return WORDS[name][value]
    if is_over(value):
        return "over the meter's range"
    scale = scale_of(name, meters)
    return f"{value:g}" if scale is None else scale.reading_text(value)


def readings_for_and_against(posterior: Posterior, kind: tuple | None) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What the readings say of a cause: names of those that speak for it, and of those that speak against.

    For: near what the cause predicts, and not near what the healthy lamp does. Against: far from
    what it predicts, each reading taken alone.
    """
    point, sound = posterior.best_point(kind), posterior.best_point(None)
    speak_for, against = [], []
    for name in posterior.evidence.reading_names():
        if name == "voltage":
            continue
        here, there = (_distance(posterior, name, place) for place in (point, sound))
        if here > _FAR:
            against.append(name)
        elif here < _NEAR and (kind is None or there > _FAR):
            speak_for.append(name)
    return tuple(speak_for), tuple(against)


def why(posterior: Posterior, kind: tuple | None) -> str:
    """What the readings say of a cause, in a sentence."""
    speak_for, against = readings_for_and_against(posterior, kind)
    parts = []
    if speak_for:
        parts.append("for it: " + ", ".join(expectation(posterior, name, kind) for name in speak_for))
    if against:
        parts.append("against it: " + ", ".join(expectation(posterior, name, kind) for name in against))
    if not parts:
        return "Nothing read so far speaks for it more than for the healthy lamp, nor against it."
    text = "; ".join(parts)
    return f"{text[0].upper()}{text[1:]}."


def expectation(posterior: Posterior, name: str, kind: tuple | None) -> str:
    """A reading beside what a cause would give: "watts 1.1 W (1.2 W to 1.4 W expected)"."""
    value, point = getattr(posterior.evidence, name), posterior.best_point(kind)
    read = f"{NAMES[name]} {reading_words(name, value, posterior.meters)}"
    if name in WORDS:
        likeliest = list(WORDS[name])[int(np.argmax(word_probabilities(posterior.table, name)[point]))]
        return read if likeliest == value else f"{read} ({WORDS[name][likeliest]} expected)"
    expected = expected_words(posterior.table, name, point, posterior.meters, posterior.evidence)
    return read if read.endswith(f" {expected}") else f"{read} ({expected} expected)"


def expected_words(table: CauseTable, name: str, point: int, meters: Meters, evidence: Evidence) -> str:
    """Between which two readings a meter should stand for one point of a table, in words.

    Parameters
    ----------
    name
        One of `prediction.NUMBERS`.
    evidence
        For the times of residual volts.
    """
    ends = []
    for pull in pulls_of([name]):
        middle, spread = _middle_and_spread(table, name, point, meters, evidence, pull)
        ends += [middle - 1.65 * spread, middle + 1.65 * spread]
    low, high = min(ends), max(ends)
    if unit_of(name) == "Ω":
        low, high = 10**low, 10**high
        if low > 0.6 * meters.multimeter.most_ohms:
            return "over the meter's range"
        if high < 1:
            return "below 1 Ω"
    if name == "power_factor":
        high = min(high, 1.0)
    if name == "leds_dark":
        return f"{middle:.0f}"
    scale = scale_of(name, meters)
    texts = [scale.reading_text(scale.reading(max(value, 0.0))) for value in (low, high)]
    return texts[0] if texts[0] == texts[1] else " to ".join(texts)


def _middle_and_spread(table, name, point, meters, evidence, pull):
    mean, covariance = joint_gaussian([prediction_of(table, name, meters, evidence, pull)])
    return float(mean[point, 0]), math.sqrt(covariance[point, 0, 0])


def _distance(posterior, name, point):
    """How many standard uncertainties a reading is from what a point predicts, at the likeliest moment of a pull."""
    value = getattr(posterior.evidence, name)
    if name in WORDS:
        row = word_probabilities(posterior.table, name)[point]
        return math.sqrt(2 * math.log(row.max() / row[list(WORDS[name]).index(value)]))
    assert name in NUMBERS
    table, meters, evidence = posterior.table, posterior.meters, posterior.evidence
    places = [_middle_and_spread(table, name, point, meters, evidence, pull) for pull in pulls_of([name])]
    read = value
    if unit_of(name) == "Ω":
        most = meters.multimeter.most_ohms
        if is_over(value) and places[0][0] >= math.log10(most):
            return 0.0
        read = math.log10(min(max(value, 0.3), 30 * most))
        digit = 0.0
    else:
        scale = scale_of(name, meters)
        digit = 1.0 if scale is None else scale.step(value)
    return min(abs(read - middle) / math.hypot(spread, digit / math.sqrt(12)) for middle, spread in places)


def percent(chance: float) -> str:
    """A probability in per cent: never 0 or 100 of what is only probable."""
    if chance > 0.99:
        return "over 99 %"
    return "below 1 %" if chance < 0.01 else f"{100 * chance:.0f} %"
