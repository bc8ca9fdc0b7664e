"""Moved settings: whether one thing alone is moved, so that what came of it is due to that."""

from typing import Any

from ...circuit.lamp import replace_at, value_at


def only_moved(path: str, setting: Any, first: Any) -> bool:
    """Whether two settings differ in one field and in nothing else.

    Parameters
    ----------
    path
        Of the field: "dropper", "string.in_series".

    Examples
    --------
    >>> from dropper.circuit.lamp import Mains
    >>> first = Mains(voltage=230.0, frequency=50.0)
    >>> only_moved("voltage", Mains(240.0, 50.0), first), only_moved("voltage", Mains(240.0, 60.0), first)
    (True, False)
    """
    value = value_at(first, path)
    return value_at(setting, path) != value and replace_at(setting, path, value) == first
