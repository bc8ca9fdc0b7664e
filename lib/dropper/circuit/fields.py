"""What each field of the circuit may hold, and the check that says so in words."""

import dataclasses
import math
from dataclasses import MISSING, dataclass

from .values import show


@dataclass(frozen=True)
class Spec:
    """What a field may hold: its unit, its range, and whether zero or None is allowed."""

    unit: str
    low: float
    high: float
    zero: bool = False
    none: bool = False
    whole: bool = False
    meaning: str = ""

    def allowed(self):
        """The range in words, for an error or a glossary."""
        if self.whole:
            return f"a whole number from {self.low:g} to {self.high:g}"
        words = f"{show(self.low, self.unit)} to {show(self.high, self.unit)}"
        if self.zero and self.low > 0:
            words = "0 or " + words
        return f"none, or {words}" if self.none else words


def quantity(unit, low, high, default=MISSING, *, meaning, zero=False, none=False, whole=False):
    """A dataclass field that carries its own `Spec`."""
    spec = Spec(unit, low, high, zero, none, whole, meaning)
    return dataclasses.field(default=default, metadata={"spec": spec})


def spec_of(field):
    """The `Spec` of a dataclass field, or None for a name, a note or a part of its own."""
    return field.metadata.get("spec")


def check_value(name, value, spec):
    """Return the value as a float (or int, or None), or raise `ValueError` in words."""
    if value is None and spec.none:
        return None
    try:
        number = float(value)
    except (TypeError, ValueError, OverflowError):
        number = math.nan
    if isinstance(value, bool | str | bytes) or not math.isfinite(number):
        unit = f" in {spec.unit}" if spec.unit else ""
        what = f"{value!r} is not a finite number{unit}"
        raise ValueError(f"{name}: {what}; allowed is {spec.allowed()}")
    if spec.whole and number != int(number):
        raise ValueError(f"{name}: {number:g} is not whole; allowed is {spec.allowed()}")
    if not (spec.low <= number <= spec.high or (spec.zero and number == 0)):
        shown = f"{number:g}" if spec.whole else show(number, spec.unit, 4)
        raise ValueError(f"{name}: {shown} is out of range; allowed is {spec.allowed()}")
    return int(number) if spec.whole else number


def check(instance):
    """Check every field of a frozen dataclass; called from its `__post_init__`."""
    part = type(instance).__name__
    for field in dataclasses.fields(instance):
        spec = spec_of(field)
        if spec is not None:
            given = getattr(instance, field.name)
            value = check_value(f"{part}.{field.name}", given, spec)
            object.__setattr__(instance, field.name, value)


def check_part(instance, name, kind):
    """Raise `TypeError` in words unless the field holds a part of the right kind."""
    value = getattr(instance, name)
    if not isinstance(value, kind):
        part = type(instance).__name__
        raise TypeError(f"{part}.{name}: {value!r} is not a {kind.__name__}")


def check_text(instance, name, longest):
    """Raise `ValueError` unless the field is one printable line of text."""
    value = getattr(instance, name)
    part = type(instance).__name__
    if not isinstance(value, str) or len(value) > longest or not value.isprintable():
        raise ValueError(
            f"{part}.{name}: {value!r:.60} must be one line of text, at most {longest} characters"
        )
