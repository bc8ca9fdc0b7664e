"""Conduction figure: one period of the mains with its conduction, and the moment at which we stop to look."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...circuit.values import show
from ...results.compare import why_dark
from ...results.style import INK, LOOKS, SKY, SUN
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from . import path

if TYPE_CHECKING:
    from .view import View

_EIGHTHS = tuple(k / 8 for k in range(9))
PICTURE = Picture(
    (780, 360),
    Axes((86, 26, 576, 150), "voltage, V", across=_EIGHTHS, zero=0.5),
    Axes((86, 192, 576, 110), "line current, mA", "angle from the mains' rise", across=_EIGHTHS, zero=0.5),
)
backdrop = PICTURE.backdrop


def scales(*views) -> tuple[float, ...]:
    """Volts and amperes that hold all the views."""
    volts = max(np.abs(view.result.mains_voltage).max() for view in views)
    amperes = max(np.abs(view.result.line_current).max() for view in views)
    return nice_scale(volts, 10.0), nice_scale(amperes, 1e-3)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves, conduction and moment of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _curves(view, scale)
    layer.numbers(0, None, number)
    layer.numbers(1, lambda x: f"{x:.0f}°", milli)
    phase = view.moment.phase
    for axes in (0, 1):
        up = layer.spans[axes][1]
        layer.line(axes, (phase, up.low), (phase, up.high), LOOKS["moment"])
    layer.dot(0, phase, view.mains_voltage, LOOKS["mains_voltage"])
    layer.dot(0, phase, view.dropper_voltage, LOOKS["dropper_voltage"], "diamond")
    layer.dot(1, phase, view.line_current, LOOKS["line_current"])
    layer.words(0, phase, scale[0], f"{phase:.0f}°", "middle", INK, True, 130, (0, -40))
    names = (0, "mains_voltage", "mains_voltage"), (0, "dropper_voltage", "dropper_voltage")
    ends = [(getattr(view.result, name)[-4:].mean(), LOOKS[look]) for _, name, look in names]
    layer.names(0, ends)
    layer.names(1, [(view.result.line_current[-4:].mean(), LOOKS["line_current"])])
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    return _curves(view, scale, True).svg()


def circuit(view: View, covered: bool = False) -> str:
    """The circuit with the path of the moment lit, as SVG text; covered: with no path and no word of one."""
    if covered:
        return path.draw(view.moment.lamp, "", False, False, "The circuit; its path is not shown yet.")
    return path.draw(view.moment.lamp, view.conducting, view.filling, view.lit)


def sentence(view: View) -> str:
    """The picture in words."""
    path_words = path.reading(view.moment.lamp, view.conducting, view.filling, view.lit)
    words = (
        f"At {view.moment.phase:.0f}° the mains stands at {show(view.mains_voltage, 'V')} and the dropper at"
        f" {show(view.dropper_voltage, 'V')}. {path_words}"
    )
    if view.result.dark:
        words += f" The lamp stays dark: {why_dark(view.moment.lamp, view.result)}."
        return words.replace(" -", " −")
    if view.conducting:
        words += (
            f" {show(abs(view.line_current), 'A')} flow, and of the {show(view.charge_whole, 'C')} of this half cycle"
            f" {show(view.charge, 'C')} have been moved."
        )
    words += (
        f" In the positive half cycle conduction starts at {view.start:.0f}° from the rise through zero and ends at"
        f" {view.end:.0f}°."
    )
    return words.replace(" -", " −")


def _curves(view, scale, ghost=False):
    turn = Span(0, 360)
    spans = [(turn, Span(-top, top)) for top in scale]
    layer = PICTURE.overlay(spans, ghost)
    if not ghost and view.start == view.start:
        for shift, tint in ((0, SUN), (180, SKY)):
            for low, high in _inside(view.start + shift, view.end + shift):
                layer.band(0, low, high, tint)
                layer.band(1, low, high, tint)
    for axes, name in ((0, "mains_voltage"), (0, "dropper_voltage"), (1, "line_current")):
        layer.curve(axes, view.angle, getattr(view.result, name), LOOKS[name])
    if not ghost and view.start == view.start:
        middle = (view.start + view.end) / 2
        layer.words(1, max(middle, 0), -scale[1], "D1, D4", "middle", INK, True, 110, (0, -50))
        layer.words(1, middle + 180, scale[1], "D2, D3", "middle", INK, True, 110, (0, 140))
    return layer


def _inside(start, end):
    """A stretch of angle as the pieces that lie between 0 and 360 degrees."""
    start, width = start % 360, end - start
    if start + width <= 360:
        return [(start, start + width)]
    return [(start, 360.0), (0.0, start + width - 360)]
