"""Constraints: wishes that a brief takes in several forms, read and checked."""

import dataclasses

from ..circuit.excerpt import excerpt, label
from ..circuit.fields import Spec, check_value, spec_of
from ..circuit.lamp import Lamp
from ..circuit.parsing import ValueTextError, parse
from ..circuit.values import show_exactly
from ..components.kinds import LedKind
from ..solver.heat.enclosure import Enclosure
from ..standards import low_risk_modulation, no_effect_modulation

FIXABLE = ("dropper", "bleeder", "inrush_resistor", "smoothing", "smoothing_bleeder", "series_resistor")
FLICKER_WORDS = {"low risk": low_risk_modulation, "no effect": no_effect_modulation}  # IEEE 1789-2015
UNITS = {"dropper": "F", "smoothing": "F"}  # the others are in Ω
BEST = "best"  # as many groups as serve the other wishes best
_GROUPS = Spec("", 1, 1000, whole=True)
_FLICKER = Spec("%", 0.1, 100, meaning="greatest percent flicker")


def groups(count: int) -> str:
    """So many groups, in words."""
    return "1 group" if count == 1 else f"{count} groups"


def text_of(part: str, value: float | None) -> str:
    """A part's value as text that is read back to the same."""
    return show_exactly(value, UNITS.get(part, "Ω"))


def read_groups(given: int | str) -> int | str:
    """So many groups in series, or `BEST`."""
    if isinstance(given, str) and given.strip() == BEST:
        return BEST
    try:
        return check_value("Brief.in_series", given, _GROUPS)
    except ValueError as error:
        raise ValueError(f'{error}, or "{BEST}"') from None


def read_stock(given: dict) -> dict[str, tuple[float, ...]]:
    """What is in the drawer, by part: values in SI units, the least first.

    Parameters
    ----------
    given
        Numbers in SI units or text like "330 nF", a list for each part.
    """
    if not isinstance(given, dict):
        raise ValueError(f"Brief.stock: {excerpt(given)} is not {{part: [values]}}")
    kept = {}
    for part, values in given.items():
        if not isinstance(values, list | tuple) or not values:
            raise ValueError(f"Brief.stock[{excerpt(part)}]: {excerpt(values)} is no list of values")
        read = [read_fixed({part: value}, "stock")[part] for value in values]
        if None in read:
            raise ValueError(f"Brief.stock[{excerpt(part)}]: a drawer holds values, not none")
        kept[part] = tuple(sorted(set(read)))
    return kept


def read_enclosure(given: str) -> Enclosure:
    """The enclosure of a brief: a word, K/W, or a size and a material."""
    try:
        return Enclosure.of(given)
    except ValueError as error:
        raise ValueError(f"enclosure: {str(error).removeprefix('Enclosure.')}") from None


def read_own_led(given: LedKind | dict | None) -> LedKind | None:
    """An LED kind of one's own: None, a `LedKind`, or its fields as a dict."""
    if isinstance(given, dict):
        try:
            return LedKind.from_record(given)
        except TypeError:
            names = ", ".join(LedKind.keys())
            there = label(", ".join(map(str, given)), 72) or "nothing"
            raise ValueError(f"Brief.own_led: needs {names}; there is {there}") from None
    if given is not None and not isinstance(given, LedKind):
        raise ValueError(f"Brief.own_led: {excerpt(given)} is no LedKind")
    return given


def read_flicker(given: str | float) -> float | str | None:
    """A flicker wish: one of `FLICKER_WORDS`, or per cent as a number or text."""
    if isinstance(given, str):
        if given in FLICKER_WORDS:
            return given
        try:
            given = parse(given.strip().removesuffix("%"), "")
        except ValueError:
            words = " or ".join(repr(word) for word in FLICKER_WORDS)
            raise ValueError(f"Brief.flicker: {excerpt(given)} will not do; allowed is {words}, or per cent") from None
    return check_value("Brief.flicker", given, _FLICKER)


def read_fixed(given: dict, field: str = "fixed") -> dict[str, float] | None:
    """Values that are fixed, by part, in SI units.

    Parameters
    ----------
    given
        Numbers in SI units, text like "330 nF", or None where a bleeder is to be left out.
    field
        Of the brief, for complaints.
    """
    if not isinstance(given, dict):
        raise ValueError(f"Brief.{field}: {excerpt(given)} is not {{part: value}}")
    specs = {item.name: spec_of(item) for item in dataclasses.fields(Lamp)}
    values = {}
    for part, value in given.items():
        if part not in FIXABLE:
            raise ValueError(f"Brief.{field}: {excerpt(part)} is not chosen here; allowed are {', '.join(FIXABLE)}")
        name = f"Brief.{field}[{excerpt(part)}]"
        if value == "none":
            value = None
        try:
            number = parse(value, UNITS.get(part, "Ω"), name) if isinstance(value, str) else value
        except ValueTextError as error:
            raise ValueError(str(error)) from None
        values[part] = check_value(name, number, specs[part])
    return values
