"""Load-line figure: the load line with the string's curve across it, and the power, over the clamped voltage."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...circuit.numerals import counted, significant
from ...circuit.values import show
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture

if TYPE_CHECKING:
    from .view import View

_FIFTHS = tuple(k / 5 for k in range(6))
PICTURE = Picture(
    (780, 580),
    Axes((86, 24, 576, 270), "string current, mean, mA", across=_FIFTHS),
    Axes((86, 330, 576, 190), "power into the bridge, W", "clamped voltage D of the bridge, V", across=_FIFTHS),
)
backdrop = PICTURE.backdrop


def scales(*views) -> tuple[float, ...]:
    """Volts, amperes and watts that hold all the views."""
    volts = max(view.clamped[-1] for view in views)
    amperes = max(max(view.bridge[0], view.rule, view.crossing[1]) for view in views)
    watts = max(max(view.power.max(), view.watts) for view in views)
    return 50.0 * np.ceil(volts / 50), nice_scale(amperes, 1e-4), nice_scale(watts, 1e-3)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Lines and operating point of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _lines(view, scale)
    layer.numbers(0, None, milli)
    layer.numbers(1, number, number)
    string, rule = LOOKS["string_current"], LOOKS["limit"]
    layer.curve(0, *view.string, string)
    layer.line(0, (0, view.rule), (view.clamped[-1], view.rule), rule)
    half, bridge = LOOKS["other"], LOOKS["line_current"]
    end = view.clamped[-1]
    layer.words(0, 0.99 * scale[0], view.rule, "mains over reactance", "end", rule.colour, True, shift=(0, -45))
    layer.words(
        0,
        0.30 * end,
        np.interp(0.30 * end, view.clamped, view.bridge),
        "load line",
        "start",
        bridge.colour,
        True,
        shift=(60, -20),
    )
    layer.words(
        0,
        0.88 * end,
        np.interp(0.88 * end, view.clamped, view.half_wave),
        "half wave",
        "start",
        half.colour,
        True,
        shift=(0, -60),
    )
    volts, amperes = view.string
    layer.words(0, volts[-1], min(amperes[-1], scale[1]), "string", "start", string.colour, True, shift=(60, 130))
    middle = end / 2
    layer.line(1, (middle, 0), (middle, view.power.max()), LOOKS["ideal"])
    layer.words(1, middle, 0, "half the mains' peak", "start", LOOKS["ideal"].colour, False, 105, (60, -60))
    if not view.dark:
        layer.line(0, (view.crossing[0], 0), view.crossing, LOOKS["moment"])
        layer.line(1, (view.crossing[0], view.watts), (view.crossing[0], scale[2]), LOOKS["moment"])
        layer.dot(0, *view.crossing, string)
        layer.dot(1, view.crossing[0], view.watts, LOOKS["power"])
        here = counted(view.lamp.string.in_series, "LED")
        layer.words(1, view.crossing[0], view.watts, here, "start", INK, True, shift=(110, 45))
    if view.double_point[0] == view.double_point[0]:
        layer.dot(0, *view.double_point[:2], string, "square", hollow=True)
        layer.dot(1, view.double_point[0], view.double_point[2], LOOKS["power"], "square", hollow=True)
        layer.words(
            1,
            view.double_point[0],
            view.double_point[2],
            counted(2 * view.lamp.string.in_series, "LED"),
            "start",
            INK,
            shift=(0, 190),
        )
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's lines and operating point."""
    layer = _lines(view, scale, True)
    layer.curve(0, *view.string, LOOKS["string_current"])
    if not view.dark:
        layer.dot(0, *view.crossing, LOOKS["string_current"])
        layer.dot(1, view.crossing[0], view.watts, LOOKS["power"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    lamp = view.lamp
    if view.dark:
        return f"This lamp stays dark: {view.why_dark}. The string's curve does not meet the load line above nothing."
    words = (
        f"The load line falls straight from {show(view.bridge[0], 'A')} into a short circuit to nothing at the mains'"
        f" peak of {show(lamp.mains.peak, 'V')}. The curve of {counted(lamp.string.in_series, 'LED')} crosses it at"
        f" {show(view.crossing[0], 'V')}: {show(view.crossing[1], 'A')} on average and {show(view.watts, 'W')} into the"
        f" bridge. The mains over the reactance, {show(view.rule, 'A')}, is"
        f" {_excess(view.rule / view.crossing[1])} what the LEDs get."
    )
    if view.double_point[0] != view.double_point[0]:
        return words + " Twice as many LEDs would stay dark."
    change = view.double_point[2] / view.watts
    return words + (
        f" With twice as many LEDs {show(view.double_point[2], 'W')} go into the bridge, {change:.2f} times as much,"
        f" and the LEDs get {show(view.double_point[1], 'A')}."
    )


def _excess(times):
    return f"{significant(times)} times" if times < 100 else "more than a hundred times"


def _lines(view, scale, ghost=False):
    across = Span(0, scale[0])
    spans = [(across, Span(0, scale[1])), (across, Span(0, scale[2]))]
    layer = PICTURE.overlay(spans, ghost)
    layer.curve(0, view.clamped, view.bridge, LOOKS["line_current"])
    layer.curve(0, view.clamped, view.half_wave, LOOKS["other"])
    layer.curve(1, view.clamped, view.power, LOOKS["power"])
    return layer
