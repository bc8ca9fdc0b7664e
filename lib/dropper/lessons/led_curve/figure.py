"""LED-curve figure: measured points with a curve through them, a kind beside it, how far each is off the curve."""

import numpy as np

from ...circuit.values import show
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from .view import ROOM, View, spread_clause

_FIFTHS = tuple(k / 5 for k in range(6))
PICTURE = Picture(
    (780, 580),
    Axes((86, 24, 500, 330), "current, mA", across=_FIFTHS),
    Axes((86, 386, 500, 136), "off the curve, mV", "volts across the LED, V", across=_FIFTHS, zero=0.5),
    Axes((604, 30, 170, 240), bare=True),
)
backdrop = PICTURE.backdrop
_STEPS = (0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0)
_TOPS = (1, 1.2, 1.6, 2, 2.4, 3.2, 4, 6, 8, 10)  # whose quarters are short numbers
_POINT = LOOKS["moment"]


def scales(*views) -> tuple[float, ...]:
    """Volts from and to, amperes, and volts off the curve that hold all the views."""
    every = [curve for view in views for curve in (view.fit_curve, view.warm_curve, *view.kind_curves.values())]
    every += [np.array([point.volts for point in view.fit.points]) for view in views]
    low, high = min(curve.min() for curve in every), max(curve.max() for curve in every)
    for step in _STEPS:
        bottom = max(step * np.floor(low / step + 1e-9), 0.0)
        if bottom + 5 * step >= high:
            break
    off = max(abs(view.fit.worst_point.residual) for view in views)
    most = max(view.amps[-1] for view in views)
    decade = 10.0 ** np.floor(np.log10(most))
    top = next(step * decade for step in _TOPS if most <= step * decade * (1 + 1e-9))
    return bottom, bottom + 5 * step, top, nice_scale(off, 1e-3)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Points and curves of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = PICTURE.overlay(_spans(scale))
    layer.numbers(0, None, milli)
    layer.numbers(1, number, milli)
    for which, volts in view.kind_curves.items():
        layer.curve(0, volts, view.amps, _look(which))
    current, volts = view.setting.current, view.warm_volts
    layer.line(0, (scale[0], current), (volts, current), LOOKS["moment"])
    layer.line(0, (volts, 0), (volts, current), LOOKS["moment"])
    for point in view.fit.points:
        _mark(layer, view.fit, point, scale)
    _curves(layer, view)
    layer.dot(0, volts, current, _read(view), "square")
    _key(layer, view)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curve and points."""
    layer = PICTURE.overlay(_spans(scale), ghost=True)
    layer.curve(0, view.warm_curve, view.amps, LOOKS["string_current"])
    for point in view.fit.used_points:
        layer.dot(0, point.volts, point.amps, _POINT)
    layer.dot(0, view.warm_volts, view.setting.current, LOOKS["string_current"], "square")
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting, fit = view.setting, view.fit
    low, high = fit.current_range
    sure = f" ± {show(view.uncertainty, 'V', 2)}"
    read = f"At {show(setting.current, 'A')} the curve reads {show(view.volts, 'V', 4)}{sure}"
    if setting.current > 1.001 * high or setting.current < 0.999 * low:
        read += ", a guess beyond the points"
    if setting.junction_temperature != ROOM:
        read += (
            f"; at {setting.junction_temperature:.0f} °C it would be {show(view.warm_volts, 'V')}, by the"
            f" {show(view.kind.coefficient, 'V/K').replace('-', '−')} of the kind for each junction"
        )
    return f"{fit.sentence} {read}. The kind “{view.kind.name}” {spread_clause(view)}."


def _spans(scale):
    across = Span(scale[0], scale[1])
    return [(across, Span(0, scale[2])), (across, Span(-scale[3], scale[3])), (Span(0, 1), Span(0, 8))]


def _look(which):
    """How the kind's three curves are drawn: the typical one wide, the limits thin."""
    return LOOKS["other"] if which == "typical" else LOOKS["ideal"].like("other")


def _read(view):
    return LOOKS["string_current"] if view.setting.junction_temperature == ROOM else LOOKS["warm"]


def _curves(layer, view):
    """The fitted curve: as far as the points reach, beyond them, and warm."""
    low, high = view.fit.current_range
    inside = (view.amps >= 0.999 * low) & (view.amps <= 1.02 * high)
    fitted = LOOKS["string_current"].solid()
    layer.curve(0, view.fit_curve, view.amps, LOOKS["ideal"])
    layer.curve(0, view.fit_curve[inside], view.amps[inside], fitted)
    if view.setting.junction_temperature != ROOM:
        layer.curve(0, view.warm_curve, view.amps, LOOKS["warm"])


def _mark(layer, fit, point, scale):
    """A measured point, and below it how far it is off; one left out is hollow and says its row."""
    shape = "circle" if point.used else "diamond"
    layer.dot(0, point.volts, point.amps, _POINT, shape, hollow=not point.used)
    layer.line(1, (point.volts, 0), (point.volts, point.residual), LOOKS["moment"])
    layer.dot(1, point.volts, point.residual, _POINT, shape, hollow=not point.used)
    if not point.used:
        end = "end" if point.volts > (scale[0] + scale[1]) / 2 else "start"
        aside = -110 if end == "end" else 110
        layer.words(0, point.volts, point.amps, f"{fit.row_word} {point.row}", end, INK, True, 130, (aside, 40))
        text = show(point.residual, "V", 2).replace("-", "−")
        down = 130 if point.residual > 0 else -50
        layer.words(1, point.volts, point.residual, text, end, INK, True, 130, (aside, down))


def _key(layer, view):
    """What is what, beside the picture."""
    fitted = LOOKS["string_current"].solid()
    rows = [
        (_POINT, "circle", f"measured, {len(view.fit.used_points)} points"),
        (_POINT, "diamond", f"left out, {len(view.fit.outliers)}"),
        (fitted, "", "curve through them"),
        (LOOKS["ideal"], "", "… a guess"),
        (LOOKS["warm"], "", f"at {view.setting.junction_temperature:.0f} °C".replace("-", "−")),
        (_look("typical"), "", "kind: typical"),
        (_look("least"), "", "least, greatest"),
    ]
    lines = [row for row in rows if not (row[0] == LOOKS["warm"] and view.setting.junction_temperature == ROOM)]
    lines = [row for row in lines if row[1] != "diamond" or view.fit.outliers]
    for place, (look, shape, words) in enumerate(lines):
        y = 7.5 - place
        if shape:
            layer.dot(2, 0.11, y, look, shape, hollow=shape == "diamond")
        else:
            layer.line(2, (0, y), (0.22, y), look)
        layer.words(2, 0.27, y, words, "start", INK if shape else look.colour, False, 122, (0, 42))
