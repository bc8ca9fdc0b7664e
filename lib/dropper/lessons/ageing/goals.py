"""Goals of lesson 8's panel: what fades, what dries out, and what gets too hot."""

from ...circuit.values import show, show_reading
from ..kit.goals import Goal

_HALF = 0.5  # of the first view's light
_KEPT = 0.9
_LONG = 10.0  # years
_WORN = 0.55  # of the first view's life
_HOT = 155.0  # °C, above which film resistors are rated for nothing (practice, no source)


def _new(view):
    return float(view.film_years.string_current[0])


def _faded(view, first, kept):
    return view.current <= _HALF * _new(view)


def _faded_words(view, first, kept):
    left = next(reading for reading in view.readings if reading.key == "left").value
    factors = f"{view.aged.power_factor:.2f}, new {view.warm_lamp.result.power_factor:.2f}"
    return (
        f"{show(left, 'F')} are left, and {show(view.current, 'A')} instead of {show(_new(view), 'A')}: the light goes"
        f" with the farads. The power factor: {factors}."
    )


def _bright(view, first, kept):
    return view.setting.loss > 0 and view.setting.years >= _LONG and view.current >= _KEPT * _new(view)


def _bright_words(view, first, kept):
    return (
        f"{show(view.current, 'A')} of {show(_new(view), 'A')} after {view.setting.years:.0f} years, at"
        f" {view.setting.loss:.3g} % a year. What one buys for that is a grade against damp, on the data sheet."
    )


def _worn(view, first, kept):
    return view.life.hours < _WORN * first.life.hours


def _worn_words(view, first, kept):
    air, before = view.warm_lamp.temperatures.air, first.warm_lamp.temperatures.air
    return (
        f"Air inside {show_reading(air, '°C')} instead of {show_reading(before, '°C')}, and C2 lasts"
        f" {view.life.hours / first.life.hours:.2g} times as long: each ten degrees more halve it."
    )


def _hot(view, first, kept):
    return max(view.warm_lamp.temperatures.parts.values()) > _HOT


def _hot_words(view, first, kept):
    parts = view.warm_lamp.temperatures.parts
    hottest = max(parts, key=parts.get)
    return (
        f"{show_reading(parts[hottest], '°C')}: film resistors are rated for nothing there, a fire risk. And all the"
        f" others sit in air of {show_reading(view.warm_lamp.temperatures.air, '°C')}."
    )


GOALS = (
    Goal("faded", "Halve the light by age alone. Watch the power factor.", _faded, _faded_words),
    Goal("bright", "Keep nine tenths of the light for ten years, with some loss.", _bright, _bright_words),
    Goal("worn", "Halve the life of the smoothing capacitor C2.", _worn, _worn_words),
    Goal("hot", "Bring a part above 155 °C.", _hot, _hot_words),
)
