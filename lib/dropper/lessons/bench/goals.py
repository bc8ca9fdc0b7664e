"""Goals of the bench: what moves the light, and what moves something else."""

from functools import partial

from ...circuit.lamp import value_at
from ...circuit.values import show, show_reading
from ...results.compare import signed_percent
from ..kit.goals import Goal
from ..kit.moved import only_moved

_read = partial(show_reading, full=True)  # zeros stay, so that figures side by side have the same digits
_FAR, _HALF, _TWICE, _DEEP = 1000.0, 0.5, 2.0, 95.0
# What can be moved alone, by path, as it is called on its slider.
_NAMES = {
    "mains.voltage": "the mains voltage",
    "mains.frequency": "the mains frequency",
    "dropper": "the dropper C1",
    "smoothing": "the smoothing capacitor C2",
    "string.in_series": "the number of LEDs in series",
    "series_resistor": "the series resistor R4",
}


def _current(view):
    return view.result.string_current_mean


def _lit(view, first):
    return not (view.result.dark or first.result.dark)


def _moved(view, first):
    """The path of the one thing that was moved, or ""."""
    return next((path for path in _NAMES if only_moved(path, view.lamp, first.lamp)), "")


def _change(view, first, path):
    before, after = (_written(one.lamp, path) for one in (first, view))
    return f"{_NAMES[path]}, {before} to {after}"


def _written(lamp, path):
    value = value_at(lamp, path)
    if path == "string.in_series":
        return str(value)
    unit = {"mains.voltage": "V", "mains.frequency": "Hz", "series_resistor": "Ω"}.get(path, "F")
    return show(value, unit) if value else "none"


def _is_at_its_end(view, first, kept):
    return _lit(view, first) and _moved(view, first) == "series_resistor" and view.lamp.series_resistor >= _FAR


def _at_its_end(view, first, kept):
    return (
        f"{_written(first.lamp, 'series_resistor')} to {_written(view.lamp, 'series_resistor')}, and the string current"
        f" changes by {signed_percent(_current(first), _current(view))}. The slider ends here."
    )


def _is_halved(view, first, kept):
    return _lit(view, first) and _moved(view, first) != "" and _current(view) <= _HALF * _current(first)


def _halved(view, first, kept):
    path = _moved(view, first)
    return f"It was {_change(view, first, path)}: {signed_percent(_current(first), _current(view))} of string current."


def _is_twice(view, first, kept):
    return _lit(view, first) and view.result.real_power >= _TWICE * first.result.real_power


def _twice(view, first, kept):
    string = view.lamp.string
    return (
        f"{_read(first.result.real_power, 'W')} to {_read(view.result.real_power, 'W')}. The string gets"
        f" {_read(_current(view), 'A')}; its LEDs are stated at"
        f" {show(string.led.at_current * string.in_parallel, 'A')}."
    )


def _flickers(view, first, kept):
    return _lit(view, first) and _moved(view, first) == "smoothing" and view.result.percent_flicker >= _DEEP


def _flickered(view, first, kept):
    return (
        f"Flicker {first.result.percent_flicker:.0f} % to {view.result.percent_flicker:.0f} %, the mean current only"
        f" {signed_percent(_current(first), _current(view))}. C2 smooths the light; it does not set it."
    )


GOALS = (
    Goal("end", "Dim the lamp as far as you can with the resistor R4 alone.", _is_at_its_end, _at_its_end),
    Goal("halved", "Halve the string current with one slider.", _is_halved, _halved),
    Goal("flicker", "Make the light flicker by 95 % or more, with one slider.", _flickers, _flickered),
    Goal("twice", "Make the plug-in meter show twice the watts.", _is_twice, _twice),
)
