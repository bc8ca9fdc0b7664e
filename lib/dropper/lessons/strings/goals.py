"""Goals of the strings: how many LEDs take most, what a single one gets, and LEDs that bring no watts."""

from ...circuit.values import show
from ..kit.goals import Goal
from ..kit.moved import only_moved

_AT_THE_TOP = 0.998  # of the greatest power


def _alone(path, view, first):
    return not (view.dark or first.dark) and only_moved(path, view.lamp, first.lamp)


def _is_best(view, first, kept):
    return _alone("string.in_series", view, first) and view.point[2] >= _AT_THE_TOP * view.power.max()


def _best(view, first, kept):
    count, _, watts = view.point
    return (
        f"{count} LEDs in series take {show(watts, 'W')}; {first.point[0]} took {show(first.point[2], 'W')}. The string"
        " then holds half of the mains' peak. Another dropper changes the watts, but not this number."
    )


def _is_single(view, first, kept):
    return not view.dark and view.lamp.string.in_series == 1 < first.lamp.string.in_series


def _single(view, first, kept):
    return (
        f"It gets {show(view.point[1], 'A')} on average; {first.point[0]} got {show(first.point[1], 'A')}. So the"
        f" current is not constant, but no short string makes it much more. Its peak is {show(view.led_swing[1], 'A')};"
        f" the data sheet speaks of {show(view.lamp.string.led.at_current, 'A')}."
    )


def _is_shared(view, first, kept):
    return _alone("string.in_parallel", view, first) and view.lamp.string.in_parallel >= 3


def _shared(view, first, kept):
    string = view.lamp.string
    return (
        f"{string.in_series * string.in_parallel} LEDs take {show(view.point[2], 'W')}, and"
        f" {first.lamp.string.in_series * first.lamp.string.in_parallel} took {show(first.point[2], 'W')}. Side by side"
        f" they share one current: {show(view.led_point[1], 'A')} each."
    )


GOALS = (
    Goal("best", "Find the number of LEDs in series that takes most watts.", _is_best, _best),
    Goal("single", "Light a single LED.", _is_single, _single),
    Goal("shared", "Put three LEDs in parallel in each group. Is there more light?", _is_shared, _shared),
)
