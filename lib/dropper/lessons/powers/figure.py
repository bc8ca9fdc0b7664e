"""Powers figure: apparent power as sides of two triangles, the spectrum, and the power factor's curve."""

import numpy as np

from ...circuit.values import show
from ...results.compare import why_dark
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, number
from ..kit.picture import Picture
from .view import ORDERS, View

_TENTHS = (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
PICTURE = Picture(
    (780, 600),
    Axes((20, 30, 360, 330), bare=True),
    Axes((86, 440, 294, 60), bare=True),
    Axes((466, 30, 290, 190), "share of the\nfundamental, %", "harmonic", across=(), up=_TENTHS),
    Axes(
        (466, 300, 290, 200),
        "power factor",
        "clamped voltage over mains' peak, D/Vp",
        across=_TENTHS,
        up=tuple(k / 7 for k in range(8)),
    ),
)
backdrop = PICTURE.backdrop
_PARTS = ("power", "reactive", "distortion")


def scales(*views) -> tuple[float, ...]:
    """Volt-amperes that hold all the views."""
    return (nice_scale(max(view.result.apparent_power for view in views), 1e-3),)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Triangles, bars and curve of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _shapes(view, scale)
    layer.numbers(2, None, number)
    layer.numbers(3, number, number)
    across, up = layer.spans[0]
    text = "at right angles: S² = P² + Q₁² + distortion²"
    layer.words(0, across.low, up.high, text, "start", INK, False, 110, (0, -60))
    layer.words(2, 0, 100, "line current by harmonics", "start", INK, False, 110, (0, -60))
    layer.words(3, 0, 0.7, "curve: ideal lamp, whatever its C; dot: this one", "start", INK, False, 110, (0, -60))
    for place, order in enumerate(ORDERS):
        layer.words(2, place + 0.5, 0, str(order), "middle", INK, shift=(0, 165))
    if view.parts is None:
        return layer.svg(sentence)
    _names(layer, view, scale)
    _squares(layer, view)
    factor = view.result.power_factor
    layer.dot(3, view.fraction, factor, LOOKS["power"])
    layer.words(3, view.fraction, factor, f"{factor:.2f}", "start", LOOKS["power"].colour, True, 120, (110, 190))
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's triangles, bars and operating point."""
    layer = _shapes(view, scale, True)
    if view.parts is not None:
        layer.dot(3, view.fraction, view.result.power_factor, LOOKS["power"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    if view.parts is None:
        return f"This lamp stays dark: {why_dark(view.lamp, view.result)}. There is no lamp's power to take apart."
    result, parts = view.result, view.parts
    worst = int(np.argmax(view.spectrum[1:])) + 1
    return (
        f"Of {show(result.apparent_power, 'VA')} apparent power, {show(parts.real, 'W')} are real: a power factor of"
        f" {result.power_factor:.2f}. {show(abs(parts.reactive), 'var')} swing to and fro at the mains' frequency, with"
        f" the current ahead of the voltage (displacement factor {result.displacement_factor:.2f}), and"
        f" {show(parts.current_distortion, 'var')} belong to harmonics of the current, whose distortion is"
        f" {100 * result.current_thd:.0f} %. The strongest harmonic is the {_nth(ORDERS[worst])} with"
        f" {view.spectrum[worst]:.0f} % of the fundamental. A plug-in meter shows {view.meter_texts['power']},"
        f" {view.meter_texts['apparent_power']} and {view.meter_texts['power_factor']}."
    )


def _nth(order):
    return {3: "3rd"}.get(order, f"{order}th")


def _corners(view):
    """Ends of P, of Q1 upon it, and of DI across the hypotenuse of the two."""
    parts = view.parts
    first = np.array([parts.real, 0.0])
    second = first + np.array([0.0, abs(parts.reactive)])
    along = second / np.hypot(*second)
    third = second + parts.current_distortion * np.array([-along[1], along[0]])
    return first, second, third


def _shapes(view, scale, ghost=False):
    top = scale[0]
    wide, high = PICTURE.axes[0].box[2:]
    # One volt-ampere is as long across as up; the corner may lie left of the start.
    spans = [
        (Span(-0.5 * top * wide / high, 0.55 * top * wide / high), Span(0, 1.05 * top)),
        (Span(0, 1), Span(0, 1)),
        (Span(0, len(ORDERS)), Span(0, 100)),
        (Span(0, 1), Span(0, 0.7)),
    ]
    layer = PICTURE.overlay(spans, ghost)
    if view.parts is not None:
        origin = np.zeros(2)
        first, second, third = _corners(view)
        layer.line(0, origin, second, LOOKS["ideal"])
        layer.arrow(0, origin, first, LOOKS["power"])
        layer.arrow(0, first, second, LOOKS["reactive"])
        layer.arrow(0, second, third, LOOKS["distortion"])
        layer.arrow(0, origin, third, LOOKS["apparent"])
    for place, share in enumerate(view.spectrum):
        layer.bar(2, (place + 0.2, 0), (place + 0.8, share), LOOKS["line_current"], hatch=place > 0)
    layer.curve(3, view.fractions, view.factors, LOOKS["power"].solid())
    return layer


def _names(layer, view, scale):
    first, second, third = _corners(view)
    parts = view.parts
    # Right of the upright side; where that stands too far right for them, left of it.
    anchor, aside = ("start", 60) if second[0] < 0.36 * scale[0] else ("end", -60)
    middle = (first + second) / 2
    lift = max(0.0, 280 - (layer.place(0, *middle)[1] - layer.place(0, *second)[1]))  # two labels of two lines
    for at, text, look, where, shift in (
        (first / 2, ("real P", show(parts.real, "W")), "power", "middle", (0, 170)),
        (middle, ("reactive Q₁", show(abs(parts.reactive), "var")), "reactive", anchor, (aside, 0)),
        (second, ("distortion", show(parts.current_distortion, "var")), "distortion", anchor, (aside, -60 - lift)),
        (third / 2, (f"S {show(view.result.apparent_power, 'VA')}",), "apparent", "end", (-90, 40)),
    ):
        for line, words in enumerate(text):
            place = shift[0], shift[1] + 130 * line
            layer.words(0, *at, words, where, LOOKS[look].colour, True, 120, place)


def _squares(layer, view):
    """A bar of the squares, which add up to the square of the apparent power."""
    parts, start = view.parts, 0.0
    squares = np.array([parts.real, parts.reactive, parts.current_distortion]) ** 2
    shares = squares / squares.sum()
    layer.words(1, 0, 1, "their squares add up to S²", "start", INK, False, 110, (0, -60))
    for place, (look, share) in enumerate(zip(_PARTS, shares, strict=True)):
        layer.bar(1, (start, 0), (start + share, 1), LOOKS[look], hatch=place == 1)
        start += share
    letters = ("P²", "Q₁²", "distortion²")
    text = " · ".join(f"{letter} {100 * share:.0f} %" for letter, share in zip(letters, shares, strict=True))
    layer.words(1, 0, 0, text, "start", INK, True, 115, (0, 170))
