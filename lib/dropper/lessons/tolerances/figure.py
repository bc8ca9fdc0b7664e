"""Tolerances figure: the weight of each part, ranked, and the currents of many lamps with corners and limits."""

import numpy as np

from ...circuit.values import show, show_reading
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from .view import CURRENT, NAMES, View

PICTURE = Picture(
    (780, 520),
    Axes((126, 46, 210, 420), "", "change of the current, %", across=(0, 0.5, 1), up=(), zero=None, letters=70),
    Axes((430, 46, 326, 420), "lamps in each step, %", "string current, mean, mA", letters=70),
    lead=1,
)
backdrop = PICTURE.backdrop
_BINS = 40
_ROUND = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8)
_PARTS = {"mains": "line_current", "dropper": "dropper_voltage", "led": "bus_voltage", "frequency": "power"}


def scales(*views) -> tuple[float, ...]:
    """Per cent of change, the two ends of the currents, and per cent of lamps that hold all the views."""
    most = max((abs(effect) for view in views for _, pair in _ranked(view) for effect in pair), default=0.0)
    ends = [end for view in views for end in (view.ends.least, view.ends.greatest, *_limits(view).values())]
    low, high = _round_about(max(min(ends), 0.0), max(*ends, 1e-4))
    tops = [_steps(view, low, high)[1].max() for view in views]
    return nice_scale(110 * most, 1.0), low, high, min(nice_scale(1.5 * max(tops), 5.0), 100.0)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Bars, steps and lines of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = PICTURE.overlay(_spans(scale))
    layer.numbers(0, number, None)
    layer.numbers(1, milli, number)
    layer.words(0, -scale[0], 4, "what each part does by itself", "start", INK, True, 115, (-600, -200))
    layer.words(0, -scale[0], 4, "solid: more; hatched: less", "start", INK, False, 105, (-600, -60))
    _bars(layer, view)
    where = scale[1], scale[3]
    count = f"{number(view.sample.count)} lamps at random, {view.spread.place}"
    layer.words(1, *where, count, "start", INK, True, 115, (0, -200))
    if view.within_limit:
        share = f"{view.within_limit.percent} keep within ±{view.setting.limit:g} % (red lines)"
        layer.words(1, *where, share, "start", LOOKS["limit"].colour, True, 115, (0, -60))
        limits = _limits(view)
        layer.band(1, limits["least"], limits["greatest"], LOOKS["advice"].colour, 0.08)
    x, y = _steps(view, scale[1], scale[2])
    layer.area(1, x, y, 0.0, LOOKS["string_current"].colour, 0.3)
    layer.curve(1, x, y, LOOKS["string_current"].solid(22))
    for end in _limits(view).values():
        layer.line(1, (end, 0), (end, 0.86 * scale[3]), LOOKS["limit"])
    _corners(layer, view, scale)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's steps."""
    layer = PICTURE.overlay(_spans(scale), ghost=True)
    layer.curve(1, *_steps(view, scale[1], scale[2]), LOOKS["string_current"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    ends, sample, setting = view.ends, view.sample, view.setting
    where = f"{view.spread.words} "
    if view.within_limit is None:
        return (
            f"{where}As designed the lamp is dark: the mains does not reach its string's voltage. There is no current"
            " to keep to."
        )
    text = [where]
    ranked = _ranked(view)
    if ranked:
        first, weight = ranked[0][0], view.formula.weights[ranked[0][0]]
        low, high = sorted(ranked[0][1])
        text.append(
            f"Most is done by the {NAMES[first]}: {_signed(weight)} per cent of current for one per cent, from"
            f" {_signed(100 * low)} to {_signed(100 * high)} % between its ends. "
        )
    low, middle, high = (show_reading(value, "A") for value in sample.quantiles(CURRENT))
    text.append(
        f"Of {number(sample.count)} lamps drawn at random, each with the mains of one moment, half get less than"
        f" {middle}, and nine in ten between {low} and {high}. {number(view.within_limit.passing)} of them,"
        f" {view.within_limit.percent}, keep within {setting.limit:g} % of the designed"
        f" {show(view.design_current, 'A')}. In the worst corners the string gets {show_reading(ends.least, 'A')} and"
        f" {show_reading(ends.greatest, 'A')}."
    )
    dark = int(sample.dark.sum())
    if dark:
        text.append(f" {dark} of the lamps are dark.")
    return "".join(text)


def _signed(value):
    return f"{value:+.3g}".replace("-", "−") if abs(value) > 1e-9 else "0"


def _ranked(view):
    """Each part and what its low and its high end do to the current, as fractions; the weightiest first."""
    if view.formula is None:
        return []
    pairs = [(key, view.formula.effect(key)) for key in _PARTS]
    return sorted(pairs, key=lambda pair: -max(map(abs, pair[1])))


def _limits(view):
    if view.limits is None:
        return {}
    return {"least": view.limits.current_least, "greatest": view.limits.current_greatest}


def _steps(view, low, high):
    """Outline of the share of lamps, in %, in each of the steps of current."""
    values = np.clip(view.sample.readings[CURRENT], low, high)
    counts, edges = np.histogram(values, _BINS, (low, high))
    shares = np.repeat(100 * counts / max(len(values), 1), 2)
    return np.repeat(edges, 2)[1:-1], shares


def _round_about(low, high):
    """Ends of an axis of four even steps about two values, each step a round number."""
    decade = 10.0 ** np.floor(np.log10((high - low) / 4 + high / 1000))
    for step in decade * np.outer((1, 10), _ROUND).ravel():
        start = np.floor(low / step + 1e-9) * step
        if start + 4 * step >= high * (1 - 1e-9):
            break
    return float(start), float(start + 4 * step)


def _spans(scale):
    return [(Span(-scale[0], scale[0]), Span(0, 4)), (Span(scale[1], scale[2]), Span(0, scale[3]))]


def _bars(layer, view):
    ranked = _ranked(view)
    layer.line(0, (0, 0), (0, 4), LOOKS["ideal"].solid(10))
    for row, (key, (low, high)) in enumerate(ranked):
        y = 3 - row
        look = LOOKS[_PARTS[key]]
        for effect, hatched in ((low, True), (high, False)):
            if effect:
                layer.bar(0, (0, y + 0.42), (100 * effect, y + 0.78), look, hatch=hatched)
        layer.words(0, layer.spans[0][0].low, y + 0.6, NAMES[key], "end", INK, True, 110, (-60, 40))
        least, most = (_signed(100 * effect) for effect in sorted((low, high)))
        ends = f"±{most.lstrip('+')} %" if least.lstrip("−") == most.lstrip("+") else f"{least} to {most} %"
        text = f"× {view.formula.weights[key]:.3g}".replace("× -", "× −")
        layer.words(0, 0, y + 0.2, text, "end", INK, True, 105, (-60, 20))
        layer.words(0, 0, y + 0.2, ends, "start", INK, False, 105, (60, 20))
    if not ranked:
        layer.words(0, 0, 2, "dark: no formula holds", "middle", INK, True, 110)


def _corners(layer, view, scale):
    """The designed current as a line; both corners as marks on the axis, for no lamps are counted there."""
    ends, top = view.ends, scale[3]
    if view.within_limit is None:
        layer.words(1, (scale[1] + scale[2]) / 2, top / 2, "dark as designed", "middle", INK, True, 130)
        return
    layer.line(1, (view.design_current, 0), (view.design_current, 0.92 * top), LOOKS["moment"])
    layer.words(1, view.design_current, 0.94 * top, "designed", "middle", INK, False, 100)
    middle = (scale[1] + scale[2]) / 2
    for end, words in ((ends.least, "dimmest corner"), (ends.greatest, "brightest corner")):
        layer.dot(1, end, 0, LOOKS["ideal"], "diamond")
        side, shift = ("start", -60) if end < middle else ("end", 60)
        layer.words(1, end, 0, words, side, LOOKS["ideal"].colour, True, 105, (shift, -130))
