"""Single faults of a lamp: which there are, which apply, and a lamp that has one."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from ..lamp import Lamp
from ..values import show
from .circuit import OPEN, SHORT, SHORT_RESISTANCE, Circuit

# Share of its capacitance that a dried-out electrolytic keeps unless told, and the tangent of its
# loss angle then, at 100 Hz. Typical practice, no source.
_DRIED_LOSS, _DRIED_TANGENT = 0.9, 1.0


@dataclass(frozen=True)
class _Kind:
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


_SHARE = ("share of the capacitance lost", "", 0.01, 0.999)
_KINDS = {
    ("open", "dropper"): _Kind("dropper open", _always, lambda c, a: {"dropper": 0.0}),
    ("short", "dropper"): _Kind("dropper short", _always, lambda c, a: {"dropper_short": True}),
    ("lost", "dropper"): _Kind(
        "dropper has lost {amount}", _always, lambda c, a: {"dropper": (1 - a) * c.dropper}, (*_SHARE, 0.5)),
    ("open", "bleeder"): _Kind(
        "dropper's bleeder open", _fitted("bleeder", "bleeder across its dropper"), lambda c, a: {"bleeder": math.inf}),
    ("short", "bleeder"): _Kind(
        "dropper's bleeder short", _fitted("bleeder", "bleeder across its dropper"),
        lambda c, a: {"dropper_short": True}),
    ("open", "smoothing_bleeder"): _Kind(
        "smoothing bleeder open", _fitted("smoothing_bleeder", "smoothing bleeder"),
        lambda c, a: {"smoothing_bleeder": math.inf}),
    ("open", "inrush_resistor"): _Kind(
        "inrush resistor open", _fitted("inrush_resistor", "inrush resistor"), lambda c, a: {"line_open": True}),
    ("short", "inrush_resistor"): _Kind(
        "inrush resistor short", _fitted("inrush_resistor", "inrush resistor"), lambda c, a: {"inrush_resistor": 0.0}),
    ("drifted", "inrush_resistor"): _Kind(
        "inrush resistor drifted to {amount} times", _fitted("inrush_resistor", "inrush resistor"),
        lambda c, a: {"inrush_resistor": a * c.inrush_resistor},
        ("how many times its value the resistor has", "", 0.001, 1000, 10.0)),
    **{("open", f"D{n}"): _Kind(f"diode D{n} open", _always, _bridge(**{f"D{n}": OPEN})) for n in range(1, 5)},
    **{("short", f"D{n}"): _Kind(f"diode D{n} short", _always, _bridge(**{f"D{n}": SHORT})) for n in range(1, 5)},
    ("short", "D1 and D2"): _Kind(
        "diodes D1 and D2 short: the mains shorted through the dropper", _always, _bridge(D1=SHORT, D2=SHORT)),
    ("short", "D3 and D4"): _Kind(
        "diodes D3 and D4 short: the mains shorted through the dropper", _always, _bridge(D3=SHORT, D4=SHORT)),
    ("short", "D1 and D3"): _Kind(
        "diodes D1 and D3 short: the bus shorted", _always, _bridge(D1=SHORT, D3=SHORT)),
    ("short", "D2 and D4"): _Kind(
        "diodes D2 and D4 short: the bus shorted", _always, _bridge(D2=SHORT, D4=SHORT)),
    ("open", "smoothing"): _Kind(
        "smoothing capacitor open", _fitted("smoothing", "smoothing capacitor"), lambda c, a: {"smoothing": 0.0}),
    ("dried out", "smoothing"): _Kind(
        "smoothing capacitor dried out, {amount} lost", _fitted("smoothing", "smoothing capacitor"), _dried,
        (*_SHARE, _DRIED_LOSS)),
    ("leaky", "smoothing"): _Kind(
        "smoothing capacitor leaky, {amount} across it", _fitted("smoothing", "smoothing capacitor"),
        lambda c, a: {"smoothing_leak": a},
        ("resistance across it", "Ω", 1, 1e9, _twice_the_string)),
    ("short", "smoothing"): _Kind(
        "smoothing capacitor short", _fitted("smoothing", "smoothing capacitor"),
        lambda c, a: {"smoothing": 0.0, "smoothing_leak": SHORT_RESISTANCE}),
    ("open", "string"): _Kind("string open", _always, lambda c, a: {"string_open": True}),
    ("open", "LED"): _Kind(
        "one LED of a parallel group open", _side_by_side,
        lambda c, a: {"groups": c.groups - 1, "odd_parallel": c.in_parallel - 1}),
    ("short", "LED"): _Kind(
        "one LED of a parallel group short, and so its group",
        lambda lamp: _side_by_side(lamp) or _groups_to_spare(lamp), lambda c, a: {"groups": c.groups - 1}),
    ("short", "group"): _Kind("one group short", _groups_to_spare, lambda c, a: {"groups": c.groups - 1}),
    ("short", "groups"): _Kind(
        "{amount} groups short", _groups_to_spare, lambda c, a: {"groups": c.groups - a},
        ("how many groups are short", "", 1, 999, lambda lamp: max(1, lamp.string.in_series // 2)), whole=True),
}  # fmt: skip


@dataclass(frozen=True)
class Fault:
    """One fault of one part: `Fault("open", "dropper")`, `Fault("short", "groups", 5)`.

    `kind` is "open", "short", "lost" (capacitance), "drifted", "dried out" or "leaky"; `part` is
    named as in a lamp ("dropper", "bleeder", "inrush_resistor", "smoothing", "smoothing_bleeder"),
    or is "D1" to "D4", "D1 and D2", "D3 and D4" (they short the mains through the dropper),
    "D1 and D3", "D2 and D4" (they short the bus), "string", "LED" (one of a parallel group),
    "group" or "groups". D1 and D2 lead to plus, from the dropper and from neutral; D3 and D4 lead
    from minus to the same two.

    `amount`, where a kind has one: the share of capacitance lost (0.01 to 0.999; 0.5 of a dropper
    and 0.9 of a smoothing capacitor unless told), how many times its value the inrush resistor has
    (10), ohms across a leaky capacitor (twice those of the string at its stated current), how many
    groups are short (half). A ValueError tells what is allowed.
    """

    kind: str
    part: str
    amount: float | None = None

    def __post_init__(self):
        known = _KINDS.get((self.kind, self.part))
        if known is None:
            parts = [part for kind, part in _KINDS if kind == self.kind]
            kinds = [kind for kind, part in _KINDS if part == self.part]
            if kinds:
                raise ValueError(f"Fault.kind: {self.kind!r} of {self.part!r} is unknown; it can be {_list(kinds)}")
            if parts:
                raise ValueError(f"Fault.part: {self.part!r} cannot be {self.kind!r}; that can be {_list(parts)}")
            raise ValueError(f"Fault.kind: {self.kind!r} is unknown; it can be {_list(k for k, _ in _KINDS)}")
        if self.amount is None:
            return
        if known.amount is None:
            raise ValueError(f"Fault.amount: {known.words!r} takes no amount, not {self.amount!r}")
        meaning, unit, low, high, _ = known.amount
        number = self.amount
        wrong = isinstance(number, bool) or not isinstance(number, int | float) or not low <= number <= high
        if wrong or (known.whole and number != int(number)):
            what = "a whole number from " if known.whole else ""
            raise ValueError(
                f"Fault.amount: {meaning} is {number!r}; allowed is {what}{show(low, unit)} to {show(high, unit)}"
            )

    def why_not(self, lamp):
        """Why the fault cannot happen to a lamp, in words; "" if it can."""
        reason = _KINDS[self.kind, self.part].needs(lamp)
        if not reason and self.part == "groups" and (self.amount or 0) >= lamp.string.in_series:
            reason = f"the string has {lamp.string.in_series} groups, and at least one must be left"
        return reason

    def amount_in(self, lamp):
        """The amount as it holds for a lamp: the one given, or the usual one; None if there is none."""
        known = _KINDS[self.kind, self.part].amount
        if known is None or self.amount is not None:
            return self.amount
        return known[4](lamp) if callable(known[4]) else known[4]

    def words(self, lamp=None):
        """The fault in words; with a lamp, a usual amount is filled in."""
        kind = _KINDS[self.kind, self.part]
        amount = self.amount if lamp is None else self.amount_in(lamp)
        if amount is None:
            usual = kind.amount and kind.amount[4]
            if kind.amount is None:
                return kind.words
            if callable(usual):
                return kind.words.replace("{amount}", "half of the" if kind.whole else "a resistance")
            amount = usual
        if kind.amount[0] == _SHARE[0]:
            return kind.words.format(amount=f"{100 * amount:.3g} %")
        return kind.words.format(amount=show(amount, kind.amount[1], 3) if kind.amount[1] else f"{amount:g}")


FAULTS = (
    Fault("open", "dropper"), Fault("short", "dropper"), Fault("lost", "dropper"),
    Fault("open", "bleeder"), Fault("open", "smoothing_bleeder"),
    Fault("open", "inrush_resistor"), Fault("drifted", "inrush_resistor"),
    Fault("open", "D1"), Fault("short", "D1"), Fault("short", "D1 and D2"), Fault("short", "D1 and D3"),
    Fault("open", "smoothing"), Fault("dried out", "smoothing"), Fault("leaky", "smoothing"),
    Fault("short", "smoothing"),
    Fault("open", "string"), Fault("open", "LED"), Fault("short", "LED"),
    Fault("short", "group"), Fault("short", "groups"),
)  # fmt: skip


@dataclass(frozen=True)
class Faulty:
    """A lamp with one fault; taken wherever this package takes a lamp."""

    lamp: Lamp
    fault: Fault

    def __post_init__(self):
        if not isinstance(self.lamp, Lamp):
            raise TypeError(f"Faulty.lamp: {self.lamp!r:.60} is not a Lamp")
        if not isinstance(self.fault, Fault):
            raise TypeError(f"Faulty.fault: {self.fault!r:.60} is not a Fault")
        reason = self.fault.why_not(self.lamp)
        if reason:
            raise ValueError(f"Faulty.fault: {self.fault.words()!r} does not apply: {reason}")

    @property
    def name(self):
        """The lamp's name and the fault in words."""
        return f"{self.lamp.name}, {self.fault.words(self.lamp)}"


def faults_of(lamp):
    """The faults of `FAULTS` that can happen to a lamp.

    Parameters
    ----------
    lamp : Lamp

    Returns
    -------
    tuple of Fault
    """
    return tuple(fault for fault in FAULTS if not fault.why_not(lamp))


def with_fault(lamp, fault):
    """A lamp with one fault.

    Parameters
    ----------
    lamp : Lamp
    fault : Fault

    Returns
    -------
    Faulty

    Raises
    ------
    ValueError
        If the fault cannot happen to this lamp.
    """
    return Faulty(lamp, fault)


def circuit_of(lamp):
    """The circuit of a lamp, healthy or faulty.

    Parameters
    ----------
    lamp : Lamp or Faulty

    Returns
    -------
    Circuit

    Raises
    ------
    TypeError
        If it is neither.
    """
    if isinstance(lamp, Lamp):
        return Circuit.of(lamp)
    if not isinstance(lamp, Faulty):
        raise TypeError(f"lamp: {lamp!r:.60} is neither a Lamp nor one with a fault")
    kind = _KINDS[lamp.fault.kind, lamp.fault.part]
    return Circuit.of(lamp.lamp).but(**kind.change(Circuit.of(lamp.lamp), lamp.fault.amount_in(lamp.lamp)))


def _list(names):
    return ", ".join(repr(name) for name in dict.fromkeys(names))
