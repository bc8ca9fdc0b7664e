"""Bridged view: what bridging some LEDs does in a short string and in a long one, as the outcome of a guess."""

from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show
from ...solver.steady import steady_state
from .view import POINTS

_HARDLY, _ALIKE = 5.0, 1.5  # % more, and times one another


def bridged_case(lamp: Lamp, count: int, longer: int) -> tuple[str, str]:
    """How much more the other LEDs get, in a lamp and in one with more LEDs on the same dropper.

    Parameters
    ----------
    count
        LEDs that are bridged in each.
    longer
        LEDs in series of the second lamp.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "none", "alike" or "apart".
    """
    parts, rises = [], []
    for whole in (lamp.string.in_series, longer):
        before, after = (_current(lamp, number) for number in (whole, whole - count))
        rises.append(100 * (after / before - 1))
        parts.append(f"Of {whole}: from {show(before, 'A')} to {show(after, 'A')}, {rises[-1]:.0f} % more")
    short, long = rises
    right = "none" if long < _HARDLY else "alike" if long < _ALIKE * short else "apart"
    return f"{'. '.join(parts)}. The same dropper, the same repair.", right


def _current(lamp, number):
    return steady_state(replace_at(lamp, "string.in_series", number), POINTS).string_current_mean
