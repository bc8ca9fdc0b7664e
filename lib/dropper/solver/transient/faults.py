"""Single faults: which there are, which apply to a lamp, and a lamp that has one."""

from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.lamp import Lamp
from ...circuit.values import show
from .circuit import Circuit
from .fault_kinds import KINDS, SHARE


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
        entry = KINDS.get((self.kind, self.part))
        if entry is None:
            parts = [part for kind, part in KINDS if kind == self.kind]
            kinds = [kind for kind, part in KINDS if part == self.part]
            if kinds:
                raise ValueError(
                    f"Fault.kind: {excerpt(self.kind)} of {excerpt(self.part)} is unknown; it can be {_quoted(kinds)}"
                )
            if parts:
                raise ValueError(
                    f"Fault.part: {excerpt(self.part)} cannot be {excerpt(self.kind)}; that can be {_quoted(parts)}"
                )
            raise ValueError(f"Fault.kind: {excerpt(self.kind)} is unknown; it can be {_quoted(k for k, _ in KINDS)}")
        if self.amount is None:
            return
        if entry.amount is None:
            raise ValueError(f"Fault.amount: {excerpt(entry.words)} takes no amount, not {excerpt(self.amount)}")
        meaning, unit, low, high, _ = entry.amount
        number = self.amount
        wrong = isinstance(number, bool) or not isinstance(number, int | float) or not low <= number <= high
        if wrong or (entry.whole and number != int(number)):
            what = "a whole number from " if entry.whole else ""
            raise ValueError(
                f"Fault.amount: {meaning} is {excerpt(number)}; allowed is"
                f" {what}{show(low, unit)} to {show(high, unit)}"
            )

    def why_not(self, lamp: Lamp) -> str:
        """Why the fault cannot happen to a lamp, in words; "" if it can."""
        reason = KINDS[self.kind, self.part].needs(lamp)
        if not reason and self.part == "groups" and (self.amount or 0) >= lamp.string.in_series:
            reason = f"the string has {lamp.string.in_series} groups, and at least one must be left"
        return reason

    def amount_in(self, lamp: Lamp) -> float | None:
        """The amount as it holds for a lamp: the one given, or the usual one; None if there is none."""
        entry = KINDS[self.kind, self.part].amount
        if entry is None or self.amount is not None:
            return self.amount
        return entry[4](lamp) if callable(entry[4]) else entry[4]

    def words(self, lamp: Lamp | None = None) -> str:
        """The fault in words; with a lamp, a usual amount is filled in."""
        kind = KINDS[self.kind, self.part]
        amount = self.amount if lamp is None else self.amount_in(lamp)
        if amount is None:
            usual = kind.amount and kind.amount[4]
            if kind.amount is None:
                return kind.words
            if callable(usual):
                return kind.words.replace("{amount}", "half of the" if kind.whole else "a resistance")
            amount = usual
        if kind.amount[0] == SHARE[0]:
            return kind.words.format(amount=f"{100 * amount:.3g} %")
        return kind.words.format(amount=show(amount, kind.amount[1], 3) if kind.amount[1] else f"{amount:g}")


FAULTS = (
    Fault("open", "dropper"),
    Fault("short", "dropper"),
    Fault("lost", "dropper"),
    Fault("open", "bleeder"),
    Fault("short", "bleeder"),
    Fault("open", "smoothing_bleeder"),
    Fault("open", "inrush_resistor"),
    Fault("short", "inrush_resistor"),
    Fault("drifted", "inrush_resistor"),
    Fault("open", "D1"),
    Fault("short", "D1"),
    Fault("short", "D1 and D2"),
    Fault("short", "D1 and D3"),
    Fault("open", "smoothing"),
    Fault("dried out", "smoothing"),
    Fault("leaky", "smoothing"),
    Fault("short", "smoothing"),
    Fault("open", "string"),
    Fault("open", "LED"),
    Fault("short", "LED"),
    Fault("short", "group"),
    Fault("short", "groups"),
)


@dataclass(frozen=True)
class Faulty:
    """A lamp with one fault; taken wherever this package takes a lamp."""

    lamp: Lamp
    fault: Fault

    def __post_init__(self):
        if not isinstance(self.lamp, Lamp):
            raise TypeError(f"Faulty.lamp: {excerpt(self.lamp)} is not a Lamp")
        if not isinstance(self.fault, Fault):
            raise TypeError(f"Faulty.fault: {excerpt(self.fault)} is not a Fault")
        reason = self.fault.why_not(self.lamp)
        if reason:
            raise ValueError(f"Faulty.fault: {excerpt(self.fault.words())} does not apply: {reason}")

    @property
    def name(self) -> str:
        """The lamp's name and the fault in words."""
        return f"{self.lamp.name}, {self.fault.words(self.lamp)}"


def faults_of(lamp: Lamp) -> tuple[Fault, ...]:
    """The faults of `FAULTS` that can happen to a lamp.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> len(faults_of(lamp)), faults_of(lamp)[0].words()
    (19, 'dropper open')
    """
    return tuple(fault for fault in FAULTS if not fault.why_not(lamp))


def with_fault(lamp: Lamp, fault: Fault) -> Faulty:
    """A lamp with one fault.

    Raises
    ------
    ValueError
        If the fault cannot happen to this lamp.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> with_fault(lamp, Fault("lost", "dropper", 0.3)).name
    'lamp, dropper has lost 30 %'
    """
    return Faulty(lamp, fault)


def circuit_of(lamp: Lamp | Faulty) -> Circuit:
    """The circuit of a lamp, healthy or faulty.

    Raises
    ------
    TypeError
        If it is neither.
    """
    if isinstance(lamp, Lamp):
        return Circuit.of(lamp)
    if not isinstance(lamp, Faulty):
        raise TypeError(f"lamp: {excerpt(lamp)} is neither a Lamp nor one with a fault")
    kind = KINDS[lamp.fault.kind, lamp.fault.part]
    return Circuit.of(lamp.lamp).replace(**kind.change(Circuit.of(lamp.lamp), lamp.fault.amount_in(lamp.lamp)))


def _quoted(names):
    return ", ".join(repr(name) for name in dict.fromkeys(names))
