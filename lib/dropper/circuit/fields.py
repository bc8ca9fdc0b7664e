"""Fields: what a dataclass field may hold and means, the check that says so in words, and docstrings made of it."""

import dataclasses
import inspect
import math
from dataclasses import MISSING, dataclass
from typing import Any

from . import slips
from .excerpt import excerpt, unprintable
from .parsing import parse, plainly
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

    def holds(self, number: float) -> bool:
        """Whether a number may stand there."""
        return self.low <= number <= self.high or (self.zero and number == 0)

    def allowed(self) -> str:
        """The range in words, for an error or a glossary."""
        if self.whole:
            return f"a whole number from {self.low:g} to {self.high:g}"
        words = f"{show(self.low, self.unit)} to {show(self.high, self.unit)}"
        if self.zero and self.low > 0:
            words = "0 or " + words
        return f"none, or {words}" if self.none else words


@dataclass(frozen=True)
class About:
    """What a field is that is not checked: in words, its unit, and the shape of an array."""

    meaning: str
    unit: str = ""
    shape: str = ""


def quantity(
    unit: str,
    low: float,
    high: float,
    default: Any = MISSING,
    *,
    meaning: str,
    zero: bool = False,
    none: bool = False,
    whole: bool = False,
) -> Any:
    """A dataclass field that carries its own `Spec`, and takes text such as "330 nF" as well as numbers."""
    spec = Spec(unit, low, high, zero, none, whole, meaning)
    return dataclasses.field(default=default, metadata={"spec": spec})


def about(meaning: str, unit: str = "", *, shape: str = "", **options: Any) -> Any:
    """A dataclass field that is not checked but says what it is: its meaning, its unit, the shape of an array.

    `options` are those of `dataclasses.field`: default, default_factory, repr …
    """
    return dataclasses.field(**options, metadata={"about": About(meaning, unit, shape)})


def documented(cls: type) -> type:
    """Class decorator, above `@dataclass`: adds every field to the docstring, with type, unit, shape and meaning."""
    entries = []
    for field in dataclasses.fields(cls):
        words = _described(field)
        if words and not field.name.startswith("_"):
            kind = field.type if isinstance(field.type, str) else getattr(field.type, "__name__", str(field.type))
            entries.append(f"{field.name} : {kind}\n    {words}")
    if entries:
        cls.__doc__ = "\n".join([inspect.cleandoc(cls.__doc__), "", "Fields", "------", *entries, ""])
    return cls


def _described(field):
    """A field in a line of words, or "" where nothing is said of it."""
    spec, note = spec_of(field), field.metadata.get("about")
    if spec is not None:
        return f"{spec.meaning}{f', {spec.unit}' if spec.unit else ''}; allowed is {spec.allowed()}"
    if note is None:
        return ""
    return ", ".join(part for part in (note.meaning, note.unit, note.shape) if part)


def unit_of(field: dataclasses.Field) -> str:
    """The unit of a dataclass field, "" for a plain number or for what is no number."""
    note = spec_of(field) or field.metadata.get("about")
    return note.unit if note else ""


def spec_of(field: dataclasses.Field) -> Spec | None:
    """The `Spec` of a dataclass field, or None for a name, a note or a part of its own."""
    return field.metadata.get("spec")


def check_value(name: str, value: Any, spec: Spec) -> float | int | None:
    """A value as a float (or int, or None), read from text where it is text; else `ValueError` in words."""
    if value is None and spec.none:
        return None
    typed, value = value, parse(value, spec.unit, name) if isinstance(value, str) else value
    try:
        number = float(value)
    except (TypeError, ValueError, OverflowError):
        number = math.nan
    if isinstance(value, bool | bytes) or not math.isfinite(number):
        unit = f" in {spec.unit}" if spec.unit else ""
        raise ValueError(f"{name}: {excerpt(value)} is not a finite number{unit}; allowed is {spec.allowed()}")
    if spec.whole and number != int(number):
        raise ValueError(f"{name}: {number:g} is not whole; allowed is {spec.allowed()}")
    if not spec.holds(number):
        shown = f"{number:g}" if spec.whole else show(number, spec.unit, 4)
        hint = slips.meant(plainly(typed), spec.unit, spec.holds, show) if isinstance(typed, str) else ""
        raise ValueError(f"{name}: {shown} is out of range; allowed is {spec.allowed()}{hint}")
    return int(number) if spec.whole else number


def check(instance: Any) -> None:
    """Check every field of a frozen dataclass; called from its `__post_init__`."""
    part = type(instance).__name__
    for field in dataclasses.fields(instance):
        spec = spec_of(field)
        if spec is not None:
            given = getattr(instance, field.name)
            value = check_value(f"{part}.{field.name}", given, spec)
            object.__setattr__(instance, field.name, value)


def check_part(instance: Any, name: str, kind: type) -> None:
    """Raise `TypeError` in words unless the field holds a part of the right kind."""
    value = getattr(instance, name)
    if not isinstance(value, kind):
        part = type(instance).__name__
        raise TypeError(f"{part}.{name}: {excerpt(value)} is not a {kind.__name__}")


def check_text(instance: Any, name: str, longest: int) -> None:
    """Raise `ValueError` unless the field is one printable line of text."""
    value = getattr(instance, name)
    place = f"{type(instance).__name__}.{name}"
    if not isinstance(value, str) or len(value.splitlines()) > 1:
        raise ValueError(f"{place}: {excerpt(value)} must be one line of text, at most {longest} characters")
    if len(value) > longest:
        raise ValueError(f"{place}: {excerpt(value)} has {len(value)} characters; at most {longest} are allowed")
    bad = next((at for at, sign in enumerate(value) if unprintable(sign)), None)
    if bad is not None:
        sign = f"U+{ord(value[bad]):04X}"
        raise ValueError(f"{place}: character {bad + 1} of {excerpt(value)} cannot be printed ({sign}); leave it out")
