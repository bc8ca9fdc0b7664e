"""Typed value: a text with a unit, read and checked; where it is a thousand times too much, that is said."""

from ...circuit.fields import Spec, check_value
from ...circuit.parsing import parse
from ...circuit.values import show


def typed_value(name: str, text: str, unit: str, spec: Spec) -> float:
    """A typed value in SI units, within its limits.

    Parameters
    ----------
    name
        On the panel.
    unit
        What a number without a unit is taken in.

    Raises
    ------
    ValueError
        In words, with the name; where the same in thousandths would do, that is offered.

    Examples
    --------
    >>> typed_value("line current", "22 mA", "A", Spec("A", 0, 10))
    0.022
    >>> typed_value("line current", "22", "A", Spec("A", 0, 10))
    Traceback (most recent call last):
    ValueError: line current: 22 A is too much; did you mean 22 mA?
    """
    value = parse(text, unit, name)
    if value > spec.high and unit and value / 1e3 <= spec.high:
        raise ValueError(f"{name}: {show(value, unit, 4)} is too much; did you mean {show(value / 1e3, unit, 4)}?")
    return check_value(name, value, spec)
