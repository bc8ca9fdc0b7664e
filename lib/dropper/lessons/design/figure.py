"""Design figure: current over the mains' band, and flicker against the smoothing."""

import numpy as np

from ...circuit.values import show, show_reading
from ...design import Design, Infeasible
from ...results.style import INK, LOOKS, SKY
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from .view import FARADS, LEAST, MOST, View

_FARAD = Span(LEAST, MOST, log=True)
_DEPTH = Span(0.1, 100, log=True)  # %
_ASK = "ask the data sheet"
PICTURE = Picture(
    (780, 310),
    Axes((82, 46, 280, 210), "string current, mA", "mains, V rms", across=(0, 0.5, 1)),
    Axes(
        (466, 46, 284, 210),
        "percent flicker,\nworst corner",
        "smoothing capacitor",
        across=tuple(float(_FARAD.share(c)) for c in (1e-6, 1e-5, 1e-4, 1e-3)),
        up=tuple(float(_DEPTH.share(y)) for y in (0.1, 1, 10, 100)),
    ),
)
backdrop = PICTURE.backdrop


def scales(*views) -> tuple[float, ...]:
    """Volts and amperes that hold all the views."""
    amperes = max(max(view.currents["most"].max(), view.setting.current, 1e-4) for view in views)
    low, high = min(view.volts[0] for view in views), max(view.volts[-1] for view in views)
    return float(low), float(high), nice_scale(1.1 * amperes, 1e-4)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves and lines of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = PICTURE.overlay(_spans(view, scale))
    layer.numbers(0, number, milli)
    layer.numbers(1, lambda farads: show(farads, "F"), number)
    _current(layer, view, scale)
    _flicker(layer, view)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    layer = PICTURE.overlay(_spans(view, scale), ghost=True)
    layer.curve(0, view.volts, view.currents["nominal"], LOOKS["string_current"])
    layer.curve(1, FARADS, np.maximum(view.flickers, _DEPTH.low), LOOKS["string_current"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting, currents = view.setting, view.currents
    if isinstance(view.answer, Infeasible):
        return f"This cannot be met. {view.answer.why}"
    if view.result.dark:
        return f"The lamp stays dark: {setting.in_series} groups take more than the mains' peak."
    ends = f"{show_reading(float(currents['least'].min()), 'A')} to {show_reading(float(currents['most'].max()), 'A')}"
    text = (
        f"{show(view.lamp.dropper, 'F')} give the string {show_reading(view.result.string_current_mean, 'A')} on"
        f" average; {show(setting.current, 'A')} is the wish. Over the mains' band, tolerance and LEDs it is {ends};"
        f" the LEDs are allowed {show(view.limit, 'A')} in use."
    )
    smoothing = show(view.lamp.smoothing, "F") if view.lamp.smoothing else "no smoothing"
    if not isinstance(view.answer, Design):
        return f"{text} By the formulas, with {smoothing}; the parts are worked out when the sliders rest."
    rated = [part for part in _rated(view) if part.rating.verdict != _ASK]
    tight = max(rated, key=lambda part: part.rating.tightest.use)
    open_parts = ", ".join(part.name for part in _rated(view) if part.rating.verdict == _ASK)
    aside = f" All but the {open_parts}, whose rush its data sheet must answer," if open_parts else " All parts"
    return (
        f"{text} With {smoothing} its flicker is {view.answer.sizing.flicker:.3g} % at most;"
        f" {setting.flicker_limit:.3g} % is allowed.{aside} stand their worst; of them the {tight.name} has least"
        f" to spare: {100 * tight.rating.tightest.use:.3g} % of what its kind stands is needed."
    )


def _spans(view, scale):
    return [(Span(scale[0], scale[1]), Span(0, scale[2])), (_FARAD, _DEPTH)]


def _current(layer, view, scale):
    low, high, top = scale
    look, most, least = LOOKS["string_current"], view.currents["most"], view.currents["least"]
    layer.words(0, low, top, "string current, mean; tinted: all corners", "start", INK, True, 112, (-300, -70))
    around = np.concatenate([view.volts, view.volts[::-1]]), np.concatenate([most, least[::-1]])
    layer.area(0, *around, float(most[0]), SKY, 0.35)
    layer.curve(0, view.volts, most, look.solid(12))
    layer.curve(0, view.volts, least, look.solid(12))
    layer.curve(0, view.volts, view.currents["nominal"], look)
    layer.line(0, (low, view.setting.current), (high, view.setting.current), LOOKS["advice"])
    layer.words(0, low, view.setting.current, "wish", "start", LOOKS["advice"].colour, True, 115, (40, -40))
    if view.limit <= top:
        below = 130 if view.limit > 0.9 * top else -40  # clear of the picture's title
        layer.line(0, (low, view.limit), (high, view.limit), LOOKS["limit"])
        layer.words(0, low, view.limit, "LEDs' limit in use", "start", LOOKS["limit"].colour, True, 105, (40, below))
    layer.dot(0, view.lamp.mains.voltage, max(view.result.string_current_mean, 0.0), look)


def _flicker(layer, view):
    look, limit = LOOKS["string_current"], view.setting.flicker_limit
    layer.words(1, LEAST, _DEPTH.high, "what smoothing does", "start", INK, True, 112, (0, -70))
    layer.curve(1, FARADS, np.maximum(view.flickers, _DEPTH.low), look)
    layer.line(1, (LEAST, limit), (MOST, limit), LOOKS["advice"])
    layer.words(1, LEAST, limit, "wish", "start", LOOKS["advice"].colour, True, 115, (40, 130))
    if isinstance(view.answer, Design):
        depth = view.answer.sizing.flicker
    else:  # between the points on the picture's own scales, so that the dot is on the curve
        deep = np.log(np.maximum(view.flickers, 1e-6))
        depth = float(np.exp(np.interp(np.log(max(view.lamp.smoothing, LEAST)), np.log(FARADS), deep)))
    layer.dot(1, max(view.lamp.smoothing, LEAST), max(depth, _DEPTH.low), look)
    if not view.lamp.smoothing:
        below = 260 if abs(np.log(depth / limit)) < 0.5 else -60  # clear of the wish and its word
        layer.words(1, LEAST, depth, "none fitted", "start", look.colour, True, 115, (90, below))


def _rated(view):
    if not isinstance(view.answer, Design):
        return []
    return [part for part in view.answer.parts if part.rating is not None]
