"""Goals of the smoothing panel: a steady light by capacitor, resistor or string, and at twice the current."""

from ...circuit.values import show
from ..kit.goals import Goal


def _flicker(view):
    return view.result.percent_flicker


def _lit(view):
    return not view.result.dark


def _low(view, first, kept):
    return _lit(view) and _flicker(view) <= view.low_risk and view.lamp.smoothing > first.lamp.smoothing


def _lowered(view, first, kept):
    return (
        f"{show(view.lamp.smoothing, 'F')} did it. The bus ripples by {show(view.result.bus_ripple, 'V')} now, where it"
        f" was {show(first.result.bus_ripple, 'V')}; the light flickers by {_flicker(view):.2g} %."
    )


def _same_capacitor(view, first):
    return _lit(view) and view.lamp.smoothing == first.lamp.smoothing and _flicker(view) <= _flicker(first) / 2


def _resisted(view, first, kept):
    return _same_capacitor(view, first) and view.lamp.series_resistor >= first.lamp.series_resistor + 100


def _resistor_cost(view, first, kept):
    return (
        f"{_both(view, first)} with the same capacitor. The price: R4 turns"
        f" {show(view.result.heat['series_resistor'], 'W')} to heat, all the time."
    )


def _lengthened(view, first, kept):
    more = view.lamp.string.in_series > first.lamp.string.in_series
    return _same_capacitor(view, first) and more and view.lamp.series_resistor == first.lamp.series_resistor


def _longer(view, first, kept):
    return (
        f"{_both(view, first)}. {view.lamp.string.in_series} LEDs have more ohms in all around their working point, so"
        " more of each pulse takes the way through the capacitor."
    )


def _doubled(view, first, kept):
    now, before = view.result, first.result
    return _lit(view) and now.string_current_mean >= 1.9 * before.string_current_mean and _flicker(view) <= 20


def _bright(view, first, kept):
    return (
        f"{show(view.result.string_current_mean, 'A')} with {_flicker(view):.2g} % flicker took"
        f" {show(view.lamp.smoothing, 'F')}. More current makes the LEDs steeper, so a bright lamp needs more."
    )


def _both(view, first):
    return f"The flicker went from {_flicker(first):.2g} % to {_flicker(view):.2g} %"


GOALS = (
    Goal("low", "Bring the flicker to the low-risk line with the capacitor.", _low, _lowered),
    Goal("resistor", "Cut the flicker to half with a resistor alone. What does it cost?", _resisted, _resistor_cost),
    Goal("string", "Cut the flicker to half with the number of LEDs alone.", _lengthened, _longer),
    Goal("bright", "Double the current of the LEDs and keep the flicker below 20 %.", _doubled, _bright),
)
