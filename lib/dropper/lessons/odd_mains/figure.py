"""Odd-mains figure: the mains and the line current of a period, and what light, line and resistor do against a sine."""

import numpy as np

from ...circuit.values import show
from ...results.compare import why_dark
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from .view import View

_EIGHTHS = tuple(k / 8 for k in range(9))
_HALVES = (0.0, 0.25, 0.5, 0.75, 1.0)
PICTURE = Picture(
    (780, 484),
    Axes((86, 26, 576, 130), "voltage, V", across=_EIGHTHS, zero=0.5),
    Axes((86, 172, 576, 110), "line current, mA", "angle, from where a sine rises", across=_EIGHTHS, zero=0.5),
    Axes((206, 350, 456, 78), "", "times what a sine makes of it", across=_HALVES, up=()),
)
backdrop = PICTURE.backdrop
_WAVES = {
    "sine": "On a sine",
    "stepped": "On the stepped wave of an inverter",
    "leading": "On a dimmer that cuts {angle:g}° off the leading edge",
    "trailing": "On a dimmer that cuts {angle:g}° off the trailing edge",
    "flat": "On a mains with a flat top",
}
_ROWS = ("light (string current)", "line current, rms", "heat of R1")


def scales(*views) -> tuple[float, ...]:
    """Volts, amperes and a ratio that hold all the views."""
    volts = max(np.abs([view.result.mains_voltage, view.sine]).max() for view in views)
    amperes = max(np.abs(view.result.line_current).max() for view in views)
    ratio = max(np.nanmax([1.5, view.light, view.line, view.heat]) for view in views)
    return nice_scale(volts, 10.0), nice_scale(amperes, 1e-3), nice_scale(ratio, 2.0)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Waves and bars of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _shapes(view, scale)
    layer.numbers(0, None, number)
    layer.numbers(1, lambda x: f"{x:.0f}°", milli)
    layer.numbers(2, number, None)
    layer.names(
        0,
        [(view.result.mains_voltage[-4:].mean(), LOOKS["mains_voltage"]), (-scale[0], LOOKS["ideal"].called("a sine"))],
    )
    layer.names(1, [(view.result.line_current[-4:].mean(), LOOKS["line_current"])])
    for row, (name, ratio) in enumerate(zip(_ROWS, _ratios(view), strict=True)):
        layer.words(2, 0, 2.5 - row, name, "end", INK, False, 115, (-60, 40))
        if ratio == ratio:
            layer.words(2, ratio, 2.5 - row, f"{ratio:.2f}", "start", INK, True, 120, (60, 40))
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    return _shapes(view, scale, True).svg()


def sentence(view: View) -> str:
    """The picture in words."""
    lamp, result = view.supply.lamp, view.result
    if result.dark or view.on_sine.dark:
        return f"This lamp stays dark: {why_dark(lamp, view.on_sine)}. There is nothing to compare."
    wave = _WAVES[view.supply.kind].format(angle=view.supply.angle)
    words = (
        f"{wave} the string gets {show(result.string_current_mean, 'A')}, and the line carries"
        f" {show(result.line_current_rms, 'A')} rms with peaks of {show(result.line_current_peak, 'A')}."
    )
    if lamp.inrush_resistor:
        words += f" R1 turns {show(result.heat['inrush_resistor'], 'W')} to heat."
    if view.supply.kind != "sine":
        words += f" Against a sine that is {view.light:.2f} times the light and {view.line:.2f} times the line current"
        words += f", and {view.heat:.1f} times the heat of R1." if view.heat == view.heat else "."
    return words


def _ratios(view):
    return view.light, view.line, view.heat


def _shapes(view, scale, ghost=False):
    turn = Span(0, 360)
    spans = [(turn, Span(-scale[0], scale[0])), (turn, Span(-scale[1], scale[1])), (Span(0, scale[2]), Span(0, 3))]
    layer = PICTURE.overlay(spans, ghost)
    layer.curve(0, view.angle, view.sine, LOOKS["ideal"])
    layer.curve(0, view.angle, view.result.mains_voltage, LOOKS["mains_voltage"])
    layer.curve(1, view.angle, view.result.line_current, LOOKS["line_current"])
    for row, (look, ratio) in enumerate(zip(("string_current", "line_current", "power"), _ratios(view), strict=True)):
        if ratio == ratio:
            layer.bar(2, (0.0, 2.25 - row), (ratio, 2.75 - row), LOOKS[look])
    if not ghost:
        layer.line(2, (1.0, 0.0), (1.0, 3.0), LOOKS["moment"])
    return layer
