"""Strings figure: power and current over the number of LEDs in series, and beside them the curve of one LED."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...circuit.values import show
from ...results.style import INK, LOOKS, SKY
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture

if TYPE_CHECKING:
    from .view import View

_SIXTHS = tuple(k / 6 for k in range(7))
PICTURE = Picture(
    (780, 560),
    Axes((86, 38, 398, 236), "power of the LEDs, W", across=_SIXTHS),
    Axes((86, 300, 398, 204), "string current, mean, mA", "LEDs in series", across=_SIXTHS),
    Axes((566, 38, 190, 466), "current of one LED, mA", "its voltage, V", across=(0, 0.5, 1)),
)
backdrop = PICTURE.backdrop


def scales(*views) -> tuple[float, ...]:
    """LEDs, watts, amperes of the string and of an LED, and its volts from and to, that hold all the views."""
    count = max(view.counts[-1] for view in views)
    watts = max(view.power.max() for view in views)
    amperes = max(view.current.max() for view in views)
    led_current = max(view.led_curve[1][-1] for view in views)
    low = 0.5 * np.floor(2 * min(np.interp(1e-3 * led_current, *view.led_curve[::-1]) for view in views))
    high = low + nice_scale(max(view.led_curve[0][-1] for view in views) - low, 1.0)
    return (
        60.0 * np.ceil(count / 60),
        nice_scale(watts, 1e-3),
        nice_scale(amperes, 1e-4),
        nice_scale(led_current, 1e-4),
        float(low),
        float(high),
    )


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves and operating points of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _lines(view, scale)
    layer.numbers(0, None, number)
    layer.numbers(1, number, milli)
    layer.numbers(2, number, milli)
    power, current = LOOKS["power"], LOOKS["string_current"]
    layer.words(0, 0, scale[1], "more and more LEDs", "start", INK, True, 130, (0, -90))
    if view.best == view.best and view.best <= scale[0]:
        ideal = LOOKS["ideal"]
        layer.line(0, (view.best, 0), (view.best, scale[1]), ideal)
        layer.words(0, scale[0], scale[1], "dashed: half the peak", "end", ideal.colour, False, 125, (0, -90))
    if not view.dark:
        _marks(layer, view, scale)
        low, high = view.led_swing
        volts, amperes = view.led_curve
        inside = (amperes >= low) & (amperes <= high)
        if inside.sum() > 1:
            layer.curve(2, volts[inside], amperes[inside], LOOKS["bus_voltage"].solid(70))
        layer.dot(2, *view.led_point, current)
        right = layer.spans[2][0].share(view.led_point[0]) > 0.7
        layer.words(
            2, *view.led_point, "mean", "end" if right else "start", INK, True, 130, (-110 if right else 110, 60)
        )
    led = view.lamp.string.led
    layer.dot(2, led.forward_voltage, led.at_current, power, "square", hollow=True)
    layer.words(2, scale[5], scale[3], "square: data sheet", "end", power.colour, False, 125, (0, -90))
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves and points."""
    layer = _lines(view, scale, True)
    if not view.dark:
        layer.dot(0, view.point[0], view.point[2], LOOKS["power"])
        layer.dot(1, view.point[0], view.point[1], LOOKS["string_current"])
        layer.dot(2, *view.led_point, LOOKS["string_current"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    lamp, (_, amperes, watts) = view.lamp, view.point
    hump = (
        f"By the formula the power is greatest with {view.best:.0f} LEDs, at half of the mains' peak."
        if view.best == view.best
        else "The two diodes alone take half of the mains' peak: there is no best number of LEDs."
    )
    if view.dark:
        return f"This lamp stays dark: {view.why_dark}. {hump}"
    low, high = view.led_swing
    words = (
        f"{_leds(lamp.string)}: {show(amperes, 'A')} on average and {show(watts, 'W')}, {_apiece(lamp.string, watts)}."
        f" {hump} Each LED carries {show(view.led_point[1], 'A')} on average, between"
        f" {show(low, 'A')} and {show(high, 'A')} (the thick stretch); its data sheet speaks of"
        f" {show(lamp.string.led.at_current, 'A')}."
    )
    twice, _, double_point = view.double_point
    if double_point < 0.01 * watts:
        return words + f" With {twice} in series the lamp would stay dark, or all but dark."
    return words + f" With {twice} in series the LEDs would take {double_point / watts:.2f} times the power."


def _leds(string):
    one = string.in_series == 1
    if string.in_parallel > 1:
        return f"{string.in_series} group{'' if one else 's'} of {string.in_parallel} LEDs in series"
    return "One LED alone" if one else f"{string.in_series} LEDs in series"


def _apiece(string, watts):
    return f"{show(watts / string.in_series / string.in_parallel, 'W')} for each LED"


def _marks(layer, view, scale):
    count, amperes, watts = view.point
    for axes, height, look in ((0, watts, LOOKS["power"]), (1, amperes, LOOKS["string_current"])):
        layer.line(axes, (count, 0), (count, height), LOOKS["moment"])
        layer.dot(axes, count, height, look)
    right = count > 0.7 * scale[0]
    layer.words(
        1,
        count,
        amperes,
        f"{count} in series",
        "end" if right else "start",
        INK,
        True,
        130,
        shift=(-110 if right else 110, -60),
    )
    twice, current, power = view.double_point
    if twice <= scale[0]:
        layer.dot(0, twice, power, LOOKS["power"], "square", hollow=True)
        layer.dot(1, twice, current, LOOKS["string_current"], "square", hollow=True)
        low = power < 0.15 * scale[1]
        layer.words(0, twice, power, f"{twice}", "middle", INK, False, 130, (0, -90 if low else 190))


def _lines(view, scale, ghost=False):
    across = Span(0, scale[0])
    spans = [(across, Span(0, scale[1])), (across, Span(0, scale[2])), (Span(*scale[4:]), Span(0, scale[3]))]
    layer = PICTURE.overlay(spans, ghost)
    layer.area(0, view.counts, view.power, 0, SKY, 0.12)
    layer.curve(0, view.counts, view.power, LOOKS["power"])
    layer.curve(1, view.counts, view.current, LOOKS["string_current"])
    layer.curve(2, *view.led_curve, LOOKS["line_current"].called("LED"))
    return layer
