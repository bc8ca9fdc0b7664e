"""Goals of the load line: what moves the string current, and how much."""

from functools import partial

from ...circuit.values import show, show_reading
from ...results.compare import signed_percent
from ..kit.goals import Goal
from ..kit.moved import only_moved

_HALF, _TENTH, _TIMES = 0.5, 1.1, 3.0
_read = partial(show_reading, full=True)  # zeros stay, so that figures side by side have the same digits
_NEAR = 0.02  # of the mains' peak: so near to its half the power is within a per cent of its greatest


def _current(view):
    return view.crossing[1]


def _leds(view):
    return view.lamp.string.in_series


def _alone(path, view, first):
    return not (view.dark or first.dark) and only_moved(path, view.lamp, first.lamp)


def _is_halved(view, first, kept):
    return _alone("dropper", view, first) and _current(view) <= _HALF * _current(first)


def _halved(view, first, kept):
    capacitance, current = view.lamp.dropper / first.lamp.dropper, _current(view) / _current(first)
    return (
        f"{show(view.lamp.dropper, 'F')} is {100 * capacitance:.0f} % of the capacitance, and the current is"
        f" {100 * current:.0f} %. The two go together."
    )


def _is_raised(view, first, kept):
    return _alone("mains.voltage", view, first) and _current(view) >= _TENTH * _current(first)


def _raised(view, first, kept):
    volts = signed_percent(first.lamp.mains.voltage, view.lamp.mains.voltage)
    return (
        f"Mains {volts}, current {signed_percent(_current(first), _current(view))}. No constant current: the LEDs get"
        " more than their share of the rise."
    )


def _is_greatest(view, first, kept):
    half = view.lamp.mains.peak / 2
    return _alone("string.in_series", view, first) and abs(view.crossing[0] - half) < _NEAR * 2 * half


def _greatest(view, first, kept):
    return (
        f"{_leds(view)} LEDs, {_read(view.watts, 'W')}: D is {_read(view.crossing[0], 'V')}, near half of the peak."
        " Further LEDs cost more current than they bring volts."
    )


def _is_less(view, first, kept):
    return _alone("string.in_series", view, first) and _leds(view) > _leds(first) and view.watts < first.watts


def _less(view, first, kept):
    return (
        f"{_leds(view)} LEDs take {_read(view.watts, 'W')}; {_leds(first)} took {_read(first.watts, 'W')}. Beyond the"
        " hump each LED more means fewer watts."
    )


def _is_far_off(view, first, kept):
    return not view.dark and view.rule >= _TIMES * _current(view)


def _far_off(view, first, kept):
    return (
        f"The rule says {_read(view.rule, 'A')}, the LEDs get {_read(_current(view), 'A')}. It knows nothing of"
        f" the {_leds(view)} LEDs."
    )


GOALS = (
    Goal("halved", "Halve the string current with the dropper alone.", _is_halved, _halved),
    Goal("raised", "Raise the current by a tenth with the mains alone.", _is_raised, _raised),
    Goal("greatest", "Find how many LEDs take the most power.", _is_greatest, _greatest),
    Goal("less", "Put on so many LEDs that they take less power than at first.", _is_less, _less),
    Goal("far_off", "Make mains over reactance three times what the LEDs get.", _is_far_off, _far_off),
)
