"""Kinds of faults: which part, what it needs in a lamp, and what it changes in the circuit."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from ...circuit.lamp import Lamp
from .circuit import OPEN, SHORT, SHORT_RESISTANCE, Circuit

# Share of its capacitance that a dried-out electrolytic has lost unless told, and the tangent of its
# loss angle then, at 100 Hz. Typical practice, no source.
_DRIED_LOSS, _DRIED_TANGENT = 0.9, 1.0


@dataclass(frozen=True)
class FaultKind:
    """One kind of fault: in words, what it needs, what it changes, and its amount if it has one."""

    words: str
    needs: Callable[[Lamp], str]  # "" or why the fault does not apply
    change: Callable[[Circuit, float], dict]
    amount: tuple | None = None  # meaning, unit, low, high, default: a number or a function of the lamp
    whole: bool = False


def _always(lamp):
    return ""


def _fitted(part, name):
    return lambda lamp: "" if getattr(lamp, part) else f"the lamp has no {name}"


def _groups_to_spare(lamp):
    return "" if lamp.string.in_series > 1 else "the string has one group only; short, it is a short across the bus"


def _side_by_side(lamp):
    return "" if lamp.string.in_parallel > 1 else "the LEDs stand alone, none in parallel: an open one opens the string"


def _bridge(**states):
    def change(circuit, amount):
        bridge = list(circuit.bridge)
        for diode, state in states.items():
            bridge[int(diode[1]) - 1] = state
        return {"bridge": tuple(bridge)}

    return change


def _dried(circuit, amount):
    left = (1 - amount) * circuit.smoothing
    return {"smoothing": left, "smoothing_series": _DRIED_TANGENT / (2 * math.pi * 100 * left)}


def _twice_the_string(lamp):
    current = lamp.string.led.at_current * lamp.string.in_parallel
    return 2 * lamp.string.voltage_at(current) / current


SHARE = ("share of the capacitance lost", "", 0.01, 0.999)
KINDS = {
    ("open", "dropper"): FaultKind("dropper open", _always, lambda c, a: {"dropper": 0.0}),
    ("short", "dropper"): FaultKind("dropper short", _always, lambda c, a: {"dropper_short": True}),
    ("lost", "dropper"): FaultKind(
        "dropper has lost {amount}", _always, lambda c, a: {"dropper": (1 - a) * c.dropper}, (*SHARE, 0.5)
    ),
    ("open", "bleeder"): FaultKind(
        "dropper's bleeder open", _fitted("bleeder", "bleeder across its dropper"), lambda c, a: {"bleeder": math.inf}
    ),
    ("short", "bleeder"): FaultKind(
        "dropper's bleeder short",
        _fitted("bleeder", "bleeder across its dropper"),
        lambda c, a: {"dropper_short": True},
    ),
    ("open", "smoothing_bleeder"): FaultKind(
        "smoothing bleeder open",
        _fitted("smoothing_bleeder", "smoothing bleeder"),
        lambda c, a: {"smoothing_bleeder": math.inf},
    ),
    ("open", "inrush_resistor"): FaultKind(
        "inrush resistor open", _fitted("inrush_resistor", "inrush resistor"), lambda c, a: {"line_open": True}
    ),
    ("short", "inrush_resistor"): FaultKind(
        "inrush resistor short", _fitted("inrush_resistor", "inrush resistor"), lambda c, a: {"inrush_resistor": 0.0}
    ),
    ("drifted", "inrush_resistor"): FaultKind(
        "inrush resistor drifted to {amount} times its value",
        _fitted("inrush_resistor", "inrush resistor"),
        lambda c, a: {"inrush_resistor": a * c.inrush_resistor},
        ("how many times its value the resistor has", "", 0.001, 1000, 10.0),
    ),
    **{("open", f"D{n}"): FaultKind(f"diode D{n} open", _always, _bridge(**{f"D{n}": OPEN})) for n in range(1, 5)},
    **{("short", f"D{n}"): FaultKind(f"diode D{n} short", _always, _bridge(**{f"D{n}": SHORT})) for n in range(1, 5)},
    ("short", "D1 and D2"): FaultKind(
        "diodes D1 and D2 short (the dropper alone is across the mains)", _always, _bridge(D1=SHORT, D2=SHORT)
    ),
    ("short", "D3 and D4"): FaultKind(
        "diodes D3 and D4 short (the dropper alone is across the mains)", _always, _bridge(D3=SHORT, D4=SHORT)
    ),
    ("short", "D1 and D3"): FaultKind(
        "diodes D1 and D3 short (the bus is shorted)", _always, _bridge(D1=SHORT, D3=SHORT)
    ),
    ("short", "D2 and D4"): FaultKind(
        "diodes D2 and D4 short (the bus is shorted)", _always, _bridge(D2=SHORT, D4=SHORT)
    ),
    ("open", "smoothing"): FaultKind(
        "smoothing capacitor open", _fitted("smoothing", "smoothing capacitor"), lambda c, a: {"smoothing": 0.0}
    ),
    ("dried out", "smoothing"): FaultKind(
        "smoothing capacitor dried out, {amount} lost",
        _fitted("smoothing", "smoothing capacitor"),
        _dried,
        (*SHARE, _DRIED_LOSS),
    ),
    ("leaky", "smoothing"): FaultKind(
        "smoothing capacitor leaky, {amount} across it",
        _fitted("smoothing", "smoothing capacitor"),
        lambda c, a: {"smoothing_leak": a},
        ("resistance across it", "Ω", 1, 1e9, _twice_the_string),
    ),
    ("short", "smoothing"): FaultKind(
        "smoothing capacitor short",
        _fitted("smoothing", "smoothing capacitor"),
        lambda c, a: {"smoothing": 0.0, "smoothing_leak": SHORT_RESISTANCE},
    ),
    ("open", "string"): FaultKind("string open", _always, lambda c, a: {"string_open": True}),
    ("open", "LED"): FaultKind(
        "one LED of a parallel group open",
        _side_by_side,
        lambda c, a: {"groups": c.groups - 1, "odd_parallel": c.in_parallel - 1},
    ),
    ("short", "LED"): FaultKind(
        "one LED of a parallel group short, and so its group",
        lambda lamp: _side_by_side(lamp) or _groups_to_spare(lamp),
        lambda c, a: {"groups": c.groups - 1},
    ),
    ("short", "group"): FaultKind("one group short", _groups_to_spare, lambda c, a: {"groups": c.groups - 1}),
    ("short", "groups"): FaultKind(
        "{amount} groups short",
        _groups_to_spare,
        lambda c, a: {"groups": c.groups - a},
        ("how many groups are short", "", 1, 999, lambda lamp: max(1, lamp.string.in_series // 2)),
        whole=True,
    ),
}
