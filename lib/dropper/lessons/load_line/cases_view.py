"""Cases against the rules of thumb: other lamps and other strings, as outcomes of a guess."""

from functools import partial

from ... import theory
from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show, show_reading
from ...results.compare import signed_percent
from ...solver.steady import steady_states
from .view import POINTS, View, view_of

_SAME = 0.02  # what counts as no change
_read = partial(show_reading, full=True)  # zeros stay, so that figures side by side have the same digits


def rule_case(lamp: Lamp) -> tuple[str, str]:
    """The rule of so many milliamperes a microfarad on a lamp: the way from it to the string current.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "rule", "mean" or "less".
    """
    view, peak = view_of(lamp), lamp.mains.peak
    shorted, current = view.bridge[0], view.crossing[1]
    share = 1 - view.crossing[0] / peak
    nearest = min((view.rule, "rule"), (shorted, "mean"), (share * shorted, "less"), key=lambda x: abs(x[0] - current))
    return (
        f"Into a short circuit it would be {_read(view.rule, 'A')} rms, or {_read(shorted, 'A')} on average. The string"
        f" and the diodes hold back {_read(view.crossing[0], 'V')} of the {show(peak, 'V')} peak, so that"
        f" {100 * share:.0f} % of it are left. This lamp's string gets {_read(current, 'A')}."
    ), nearest[1]


def doubled_case(lamp: Lamp) -> tuple[str, str]:
    """Twice the LEDs, and twice again: the power of each.

    Returns
    -------
    (str, str)
        What comes of the second doubling, and the key of the answer that holds: "twice", "some", "same" or "less".
    """
    views = [view_of(_with_leds(lamp, times * lamp.string.in_series)) for times in (1, 2, 4)]
    once, twice, again = views
    ratio = 0.0 if again.dark else again.watts / twice.watts
    right = "twice" if ratio > 1.8 else "some" if ratio > 1 + _SAME else "same" if ratio >= 1 - _SAME else "less"
    powers = "; ".join(_power(view) for view in (once, twice, again))
    return f"{powers}. Power is volts times current: the volts rise, the current falls.", right


def mains_case(lamp: Lamp, rise: float) -> tuple[str, str]:
    """A rise of the mains, in per cent, on a lamp.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "none", "alike" or "more".
    """
    more = replace_at(lamp, "mains.voltage", lamp.mains.voltage * (1 + rise / 100))
    before, after = (float(current) for current in steady_states([lamp, more], POINTS).string_current_mean)
    change = 100 * (after / before - 1)
    right = "none" if change < 0.2 * rise else "alike" if change < 1.3 * rise else "more"
    left = theory.peak_voltage(voltage=lamp.mains.voltage) - view_of(lamp).crossing[0]
    added = more.mains.peak - lamp.mains.peak
    return (
        f"From {_read(before, 'A')} to {_read(after, 'A')}, {signed_percent(before, after)}. The peak rises by"
        f" {_read(added, 'V')}, and all of it is added to the {_read(left, 'V')} that the string has left over."
    ), right


def _with_leds(lamp: Lamp, count: int) -> Lamp:
    return replace_at(lamp, "string.in_series", min(count, 1000))


def _power(view: View) -> str:
    if view.dark:
        return f"{view.lamp.string.in_series} LEDs stay dark"
    return f"{view.lamp.string.in_series} LEDs take {_read(view.watts, 'W')} at {_read(view.crossing[1], 'A')}"
