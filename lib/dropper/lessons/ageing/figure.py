"""Ageing figure: temperatures as bars, the current over the years, the electrolytic's life by its temperature."""

import numpy as np

from ...circuit.numerals import counted
from ...circuit.parts import BY_KEY
from ...circuit.values import show_reading
from ...results.compare import why_dark
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from .view import View, years_of_use

_LIFE = Span(1e2, 1e6, log=True)
PICTURE = Picture(
    (780, 560),
    Axes((150, 34, 200, 440), "", "°C", up=()),
    Axes((470, 34, 230, 170), "string current,\nmean, mA", "years", across=(0, 0.25, 0.5, 0.75, 1)),
    Axes((470, 290, 230, 184), "life of C2, h", "its temperature, °C", up=tuple(k / 4 for k in range(5))),
    lead=1,
)
backdrop = PICTURE.backdrop


def scales(*views) -> tuple[float, ...]:
    """Degrees and amperes that hold all the views."""
    degrees = max(max(view.warm_lamp.temperatures.parts.values()) for view in views)
    amperes = max(view.film_years.string_current.max() for view in views)
    return 40.0 * np.ceil(max(1.25 * degrees, 40.0) / 40), nice_scale(amperes, 1e-4)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Bars and curves of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = PICTURE.overlay(_spans(view, scale))
    for axes, write in ((0, None), (1, milli), (2, number)):
        layer.numbers(axes, number, write)
    corner = layer.spans[0][0].low, layer.spans[0][1].high
    layer.words(0, *corner, "temperature by part", "start", INK, True, 115, (0, -60))
    layer.words(1, 0, scale[1], "as the dropper fades", "start", INK, True, 115, (0, -60))
    layer.words(2, 20, _LIFE.high, f"rule of thumb: {view.grade.name}", "start", INK, True, 105, (0, -60))
    rows = _rows(view)
    foot = layer.spans[0][0].low
    for place, (name, degrees) in enumerate(rows):
        y = len(rows) - 1 - place
        layer.bar(0, (foot, y + 0.2), (degrees, y + 0.8), LOOKS["power"], hatch=place % 2 == 1)
        layer.words(0, foot, y + 0.5, name, "end", INK, False, 105, (-60, 40))
        layer.words(0, degrees, y + 0.5, f"{round(degrees)} °C".replace("-", "−"), "start", INK, True, 110, (50, 40))
    room = view.setting.room
    layer.line(0, (room, 0), (room, len(rows)), LOOKS["moment"])
    _curves(layer, view)
    layer.dot(1, view.setting.years, view.current, LOOKS["string_current"])
    layer.dot(2, view.warm_lamp.temperatures.air, view.life.hours, LOOKS["bus_voltage"])
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    layer = PICTURE.overlay(_spans(view, scale), ghost=True)
    _curves(layer, view)
    layer.dot(2, view.warm_lamp.temperatures.air, view.life.hours, LOOKS["bus_voltage"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting, temperatures = view.setting, view.warm_lamp.temperatures
    years = years_of_use(setting, view.life)
    span = show_reading(years, "years")
    first = float(view.film_years.string_current[0])
    if view.warm_lamp.result.dark:
        return f"This lamp stays dark: {why_dark(view.warm_lamp.lamp, view.warm_lamp.result)}. {temperatures.words}"
    hot = [BY_KEY[key].name for key, degrees in temperatures.parts.items() if degrees > 155]
    fire = f" Above 155 °C film resistors are rated for nothing: the {hot[0]} is a fire risk." if hot else ""
    lost = (
        f"Losing {setting.loss:.3g} % a year, a scenario without a source, the dropper after"
        f" {counted(setting.years, 'year')} gives the string {show_reading(view.current, 'A')} instead of"
        f" {show_reading(first, 'A')}."
    )
    new = f"The dropper loses nothing, and gives the string {show_reading(first, 'A')}."
    return (
        f"{temperatures.words}{fire} {view.warm_lamp.words.split(';')[0]}. At"
        f" {counted(setting.hours, 'hour')} a day the smoothing capacitor would last {span} ({view.grade.name}, ten"
        f" degrees less for twice the life). {lost if setting.loss and setting.years else new}"
    )


def _rows(view):
    parts = view.warm_lamp.temperatures.parts
    return sorted(((BY_KEY[key].name, degrees) for key, degrees in parts.items()), key=lambda row: -row[1])


def _spans(view, scale):
    low = min(0.0, view.setting.room)
    return [
        (Span(low, scale[0]), Span(0, len(_rows(view)))),
        (Span(0, float(view.film_years.years[-1])), Span(0, scale[1])),
        (Span(20, 120), _LIFE),
    ]


def _curves(layer, view):
    layer.curve(1, view.film_years.years, view.film_years.string_current, LOOKS["string_current"])
    layer.curve(2, *view.life_curve, LOOKS["bus_voltage"])
