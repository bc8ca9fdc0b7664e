"""Sharing figure: curves of branches with the voltage they have in common, their currents, many sets at random."""

import numpy as np

from ...circuit.values import show, show_reading
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from .view import DRAWS, View

_BINS = 24
PICTURE = Picture(
    (780, 560),
    Axes((86, 38, 330, 250), "current of a branch, mA", "its voltage, V"),
    Axes((510, 38, 246, 250), "current of each branch, mA", across=()),
    Axes(
        (86, 384, 670, 120),
        "of them, %",
        f"hottest over its share, in {DRAWS} sets drawn at random",
        up=(0.0, 0.5, 1.0),
    ),
)
backdrop = PICTURE.backdrop


def scales(*views) -> tuple[float, ...]:
    """Volts from and to, amperes, and times the share that hold all the views."""
    low = min(_reach(view)[0] for view in views)
    high = max(_reach(view)[1] for view in views)
    width = nice_scale(high - low, 0.04)
    while np.floor(low / (width / 4)) * (width / 4) + width < high:
        width = nice_scale(1.01 * width, 0.04)
    low = float(np.floor(low / (width / 4)) * (width / 4))
    amperes = max(max(view.shared.currents) for view in views)
    times = max(float(view.many.hottest.max()) for view in views)
    return low, low + width, nice_scale(1.12 * amperes, 1e-5), 1 + nice_scale(times - 1, 0.1)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves, bars and histogram of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = PICTURE.overlay(_spans(view, scale))
    layer.numbers(0, number, milli)
    layer.numbers(1, None, milli)
    layer.numbers(2, number, _per_cent(view, scale))
    _curves(layer, view)
    volts = view.shared.voltage
    layer.line(0, (volts, 0), (volts, scale[2]), LOOKS["bus_voltage"].solid(20))
    layer.words(
        0,
        scale[0],
        scale[2],
        f"{show(volts, 'V', 4)} in common",
        "start",
        LOOKS["bus_voltage"].colour,
        True,
        130,
        (0, -90),
    )
    for branch, current in zip(view.branches, view.shared.currents, strict=True):
        if not branch.open:
            layer.dot(0, volts, current, LOOKS["string_current"])
    _bars(layer, view, scale)
    _histogram(layer, view, scale)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves and bars."""
    layer = PICTURE.overlay(_spans(view, scale), ghost=True)
    _curves(layer, view)
    for place, current in enumerate(view.shared.currents):
        layer.bar(1, (place + 0.2, 0), (place + 0.8, current), LOOKS["ideal"])
    heights, edges = _counted(view, scale)
    layer.curve(2, np.repeat(edges, 2)[1:-1], np.repeat(heights, 2), LOOKS["ideal"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting, currents = view.setting, view.shared.currents
    dark = ""
    if view.dark:
        dark = f"This lamp stays dark: {view.why_dark}. Its LEDs are shown at the current that the panel gives them. "
    kind = "LEDs" if setting.in_branch == 1 else f"branches of {setting.in_branch} LEDs"
    step = f", each with {show(setting.resistor, 'Ω')}" if setting.resistor else ""
    odd = f", {view.odd}" if view.odd else ""
    words = (
        f"{dark}{setting.in_parallel} {kind} side by side{step}{odd}: of {show(setting.total, 'A')} together they carry"
        f" {', '.join(show_reading(current, 'A') if current else 'none' for current in currents)}. Even shares would be"
        f" {show(view.even_share, 'A')}."
    )
    if view.wire:
        return words + " The short takes all, and the LEDs beside it are dark."
    many = view.many
    return words + (
        f" Of {DRAWS} such sets drawn at random the hottest branch carries {many.hottest.mean():.2f} times its share on"
        f" average, and in one of twenty more than {many.percentile(95):.2f} times."
    )


def _reach(view):
    """Volts from where the first curve leaves the ground to where each has its own current."""
    floor, top = view.shared.voltage, view.shared.voltage
    for curve in view.curves:
        if curve is not None:
            volts, amperes = curve
            floor = min(floor, float(np.interp(0.03 * max(view.shared.currents), amperes, volts)))
            top = max(top, float(np.interp(view.even_share, amperes, volts)))
    return floor, top


def _spans(view, scale):
    count = view.setting.in_parallel
    return [
        (Span(scale[0], scale[1]), Span(0, scale[2])),
        (Span(0, count), Span(0, scale[2])),
        (Span(1, scale[3]), Span(0, 1)),
    ]


def _curves(layer, view):
    low, high = layer.spans[0][0].low, layer.spans[0][0].high
    top = layer.spans[0][1].high
    for place, curve in enumerate(view.curves):
        if curve is None:
            continue
        volts, amperes = curve
        visible = (volts >= low) & (volts <= high) & (amperes <= top)
        odd = view.setting.odd and place == len(view.curves) - 1
        if visible.sum() > 1:
            layer.curve(0, volts[visible], amperes[visible], LOOKS["other"] if odd else LOOKS["line_current"].solid(18))


def _bars(layer, view, scale):
    count, currents = view.setting.in_parallel, view.shared.currents
    size, digits = (130, 3) if count < 5 else (110, 2)
    layer.line(1, (0, view.even_share), (count, view.even_share), LOOKS["ideal"])
    for place, current in enumerate(currents):
        odd = view.setting.odd and place == count - 1
        if current:
            layer.bar(1, (place + 0.2, 0), (place + 0.8, current), LOOKS["string_current"], hatch=bool(odd))
        text = milli(float(f"{current:.{digits}g}")) if current > 1e-5 else "≈ 0" if current else "none"
        layer.words(1, place + 0.5, current, text, "middle", INK, True, size, (0, -50))
        layer.words(1, place + 0.5, 0, "odd" if odd else f"{place + 1}", "middle", INK, False, size, (0, 165))
    layer.words(1, 0, scale[2], "dashed: even shares", "start", LOOKS["ideal"].colour, False, 125, (0, -90))


def _histogram(layer, view, scale):
    heights, edges = _counted(view, scale)
    for height, low, high in zip(heights, edges[:-1], edges[1:], strict=True):
        if height:
            layer.bar(2, (low, 0), (high, height), LOOKS["power"])
    many = view.many
    edge = many.percentile(95)
    layer.line(2, (edge, 0), (edge, 1), LOOKS["limit"])
    right = edge > 1 + 0.6 * (scale[3] - 1)
    layer.words(
        2,
        edge,
        1,
        "one in twenty lies beyond",
        "end" if right else "start",
        LOOKS["limit"].colour,
        False,
        125,
        (20 if right else -20, -60),
    )


def _counted(view, scale):
    """Heights over the highest bar, and the edges of the bars."""
    counted, edges = np.histogram(view.many.hottest, bins=_BINS, range=(1, scale[3]))
    return counted / max(counted.max(), 1), edges


def _per_cent(view, scale):
    most = np.histogram(view.many.hottest, bins=_BINS, range=(1, scale[3]))[0].max()
    return lambda share: f"{100 * share * most / DRAWS:.0f}"
