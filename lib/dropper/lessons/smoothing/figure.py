"""Smoothing figure: the light of one period, its flicker against the smoothing capacitor, and the published lines."""

import numpy as np

from ... import standards
from ...circuit.values import show
from ...results.style import INK, LOOKS, SUN
from ..kit.frame import Axes
from ..kit.overlay import Span, number
from ..kit.picture import Picture
from .view import LEAST, MOST, View

_SPEED = Span(20, 2000, log=True)  # Hz
_DEPTH = Span(0.1, 100, log=True)  # %
_FARAD = Span(LEAST, MOST, log=True)
PICTURE = Picture(
    (780, 590),
    Axes((86, 20, 576, 180), "light over its mean", "time, ms (one period of the mains)", up=(0, 0.25, 0.5, 0.75, 1)),
    Axes(
        (86, 272, 260, 250),
        "percent flicker",
        "smoothing capacitor",
        across=tuple(float(_FARAD.share(c)) for c in (1e-6, 1e-5, 1e-4, 1e-3)),
        up=tuple(float(_DEPTH.share(y)) for y in (0.1, 1, 10, 100)),
    ),
    Axes(
        (436, 272, 260, 250),
        "",
        "frequency of the light, Hz",
        across=tuple(float(_SPEED.share(f)) for f in (20, 100, 200, 1000, 2000)),
        up=tuple(float(_DEPTH.share(y)) for y in (0.1, 1, 10, 100)),
    ),
)
backdrop = PICTURE.backdrop
_RANGE = np.array([20.0, 89.999, 90.0, 1250.0])  # straight lines between, on these axes
_LINES = (
    ("low risk", "limit", np.array([standards.low_risk_modulation(f) for f in _RANGE])),
    ("no effect", "advice", np.array([standards.no_effect_modulation(f) for f in _RANGE])),
)


def scales(*views) -> tuple[float, ...]:
    """The height of the light's axes: from 0 to 2, or 4 where the light comes in pulses."""
    return (2.0 if max(view.light.max() for view in views) <= 2 else 4.0,)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Light, curve and limits of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _curves(view, scale)
    layer.numbers(0, number, number)
    layer.numbers(1, lambda c: show(c, "F"), number)
    layer.numbers(2, number, number)
    layer.names(0, [(view.light[-8:].mean(), LOOKS["string_current"].called("light"))])
    for name, look, line in _LINES:
        layer.curve(2, _RANGE, line, LOOKS[look])
        level = dict(low=view.low_risk, no=view.no_effect)[name.split()[0]]
        layer.line(1, (_FARAD.low, level), (_FARAD.high, level), LOOKS[look])
        layer.words(1, _FARAD.low, level, name, "start", LOOKS[look].colour, True, 105, (40, 120))
    (_, limit, low), (_, advice, none) = _LINES
    layer.words(2, 300, low[-1] * 300 / 1250, "low risk", "end", LOOKS[limit].colour, True, 105, (-60, -40))
    layer.words(2, 300, none[-1] * 300 / 1250, "no effect", "start", LOOKS[advice].colour, True, 105, (60, 110))
    layer.words(2, 20, 100, "IEEE 1789: depth and speed", "start", INK, False, 105, (0, -50))
    layer.words(1, _FARAD.low, 100, "at this lamp's frequency", "start", INK, False, 105, (0, -50))
    if view.result.dark:
        return layer.svg(sentence)
    depth = view.result.percent_flicker
    for farad, look in zip(view.sufficient, ("limit", "advice"), strict=True):
        if farad == farad:
            level = float(np.interp(np.log(farad), np.log(view.smoothings), view.flickers))
            layer.dot(1, farad, level, LOOKS[look], "triangle", hollow=True)
    layer.dot(1, max(view.lamp.smoothing, _FARAD.low), depth, LOOKS["string_current"])
    if not view.lamp.smoothing:
        layer.words(1, _FARAD.low, depth, "none fitted", "start", LOOKS["string_current"].colour, True, 105, (60, 230))
    layer.dot(2, view.frequency, depth, LOOKS["string_current"])
    layer.words(
        2, view.frequency, depth, f"{depth:.3g} %", "start", LOOKS["string_current"].colour, True, 115, (110, 120)
    )
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    layer = _curves(view, scale, True)
    if not view.result.dark:
        layer.dot(2, view.frequency, view.result.percent_flicker, LOOKS["string_current"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    if view.result.dark:
        return "The string stays dark: there is no light."
    result = view.result
    place = (
        "below both lines of IEEE 1789"
        if result.percent_flicker <= view.no_effect
        else "between the no-effect and the low-risk line of IEEE 1789"
        if result.percent_flicker <= view.low_risk
        else "above the low-risk line of IEEE 1789"
    )
    fitted = show(view.lamp.smoothing, "F") if view.lamp.smoothing else "no smoothing capacitor"
    words = (
        f"With {fitted} the light flickers at {show(view.frequency, 'Hz')} by {result.percent_flicker:.3g} %, {place}:"
        f" {view.low_risk:.3g} % is low risk there and {view.no_effect:.3g} % without effect."
    )
    low, none = (f"{show(farad, 'F')}" if farad == farad else "more than a millifarad" for farad in view.sufficient)
    return words + (
        f" Low risk takes {low}, no effect {none}. Its stroboscopic visibility is {view.visibility:.2g}; from 1 on an"
        " average observer sees it on moving things."
    )


def _curves(view, scale, ghost=False):
    time = Span(0, 1e3 * (view.result.time[-1] + view.result.time[0]))
    spans = [(time, Span(0, scale[0])), (_FARAD, _DEPTH), (_SPEED, _DEPTH)]
    layer = PICTURE.overlay(spans, ghost)
    if not ghost:
        layer.line(0, (0, 1), (time.high, 1), LOOKS["ideal"])
        layer.area(0, 1e3 * view.result.time, view.light, 0.0, SUN)
        layer.area(0, 1e3 * view.result.time, np.maximum(view.light, 1), 1.0, SUN, 0.6)
    layer.curve(0, 1e3 * view.result.time, view.light, LOOKS["string_current"])
    if not view.result.dark:
        layer.curve(1, view.smoothings, view.flickers, LOOKS["string_current"])
    return layer
