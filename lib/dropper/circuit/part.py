"""Part: what all data of the circuit can do, and how one field anywhere in it is read and changed."""

from __future__ import annotations

import dataclasses
import operator
from typing import Any, Self

from .excerpt import excerpt
from .fields import Spec, spec_of


class Part:
    """What all data of the circuit can do."""

    def replace(self, **changes: Any) -> Self:
        """The same with some fields changed; `mains__voltage=240` reaches into a part.

        >>> from dropper import Lamp, Led, LedString, Mains
        >>> led = Led(3.1, 0.020)
        >>> lamp = Lamp(Mains(230, 50), LedString(led, 22), dropper="330 nF")
        >>> lamp.replace(dropper="470 nF", mains__voltage=240).mains.voltage
        240.0
        """
        result = self
        for path, value in changes.items():
            result = replace_at(result, path.replace("__", "."), value)
        return result


def value_at(lamp: Any, path: str) -> Any:
    """One field anywhere in a lamp; the path is written as for `replace_at`."""
    return operator.attrgetter(path)(lamp)


def spec_at(lamp: Any, path: str) -> Spec | None:
    """What one field anywhere in a lamp may hold; the path is written as for `replace_at`.

    >>> from dropper import Led
    >>> spec_at(Led(3.1, 0.020), "forward_voltage").unit
    'V'
    """
    head, _, name = path.rpartition(".")
    return spec_of(type(value_at(lamp, head) if head else lamp).__dataclass_fields__[name])


def replace_at(lamp: Any, path: str, value: Any) -> Any:
    """Change one field anywhere in a lamp.

    Parameters
    ----------
    path
        "dropper", "mains.voltage", "string.in_series", "string.led.forward_voltage" …
    value
        In SI units, or text such as "330 nF"; None where nothing is fitted, a dict for harmonics.

    Raises
    ------
    ValueError
        If the value is not allowed there.
    AttributeError
        If a lamp has no such field.
    """
    head, _, rest = path.partition(".")
    if rest:
        value = replace_at(getattr(lamp, head), rest, value)
    elif head not in {item.name for item in dataclasses.fields(lamp)}:
        raise AttributeError(f"{type(lamp).__name__} has no field {excerpt(head)}")
    return dataclasses.replace(lamp, **{head: value})
