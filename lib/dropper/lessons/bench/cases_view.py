"""Cases against the belief that a resistor sets the light: other parts and other lamps, as outcomes of a guess."""

from functools import partial

from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show, show_reading
from ...results.compare import signed_percent
from ...solver.steady import steady_states
from .view import POINTS

_read = partial(show_reading, full=True)  # zeros stay, so that figures side by side have the same digits


def inrush_case(lamp: Lamp, ohms: float) -> tuple[str, str]:
    """Another inrush resistor in a lamp.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "ohms", "half" or "little".
    """
    before, after = _currents(lamp, replace_at(lamp, "inrush_resistor", ohms))
    lost = 1 - after / before
    right = "little" if lost < 0.1 else "half" if lost < 0.6 else "ohms"
    return (
        f"With {show(lamp.inrush_resistor, 'Ω')} the string gets {_read(before, 'A')}, with {show(ohms, 'Ω')}"
        f" {_read(after, 'A')}: {signed_percent(before, after)}."
    ), right


def two_in_series_case(lamp: Lamp) -> tuple[str, str]:
    """Two droppers in series in place of one of the same value.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "twice", "same" or "half".
    """
    two = replace_at(lamp, "dropper", lamp.dropper / 2)
    before, after = _currents(lamp, two)
    right = "half" if after < 0.7 * before else "same" if after < 1.3 * before else "twice"
    return (
        f"Two of {show(lamp.dropper, 'F')} in series are {show(two.dropper, 'F')}, and the string gets"
        f" {_read(after, 'A')} in place of {_read(before, 'A')}: {signed_percent(before, after)}."
    ), right


def _currents(*lamps: Lamp) -> list[float]:
    return [float(current) for current in steady_states(list(lamps), POINTS).string_current_mean]
