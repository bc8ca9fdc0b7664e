"""Bench figure: one mains period of a lamp, its heat by part, and both in words."""

from collections.abc import Mapping

from ...circuit.html import Markup, items, joined, tag
from ...circuit.parts import BY_KEY, Part
from ...circuit.values import show, show_reading
from ...results.compare import why_dark
from ...results.style import HEAT_COLOUR, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from ..kit.readout import marked_name, why_button
from .view import View

PICTURE = Picture(
    (780, 560),
    Axes((86, 14, 576, 184), "voltage, V", zero=0.5),
    Axes((86, 214, 576, 136), "line current, mA", zero=0.5),
    Axes((86, 366, 576, 136), "string current, mA", "time, ms (one period of the mains)"),
)
backdrop = PICTURE.backdrop
CURVES = (("mains_voltage", 0), ("bus_voltage", 0), ("line_current", 1), ("string_current", 2))
_LEAST = (10.0, 1e-3, 1e-3)


def scales(*views: View) -> tuple[float, ...]:
    """A scale for each of the axes that holds all the views."""
    tops = [0.0, 0.0, 0.0]
    for view in views:
        for name, axes in CURVES:
            curve = getattr(view.result, name)
            tops[axes] = max(tops[axes], curve.max(), -curve.min())
    return tuple(nice_scale(top, least) for top, least in zip(tops, _LEAST, strict=True))


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """The curves of one view and the numbers on the axes, as SVG to lie over the frame.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The picture in words: its text alternative.
    """
    layer = _curves(view.result, scale)
    for axes, write in enumerate((number, milli, milli)):
        layer.numbers(axes, number if axes == 2 else None, write)
        ends = [(getattr(view.result, name)[-8:].mean(), LOOKS[name]) for name, where in CURVES if where == axes]
        layer.names(axes, ends)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves, thin and grey, for the layer below."""
    return _curves(view.result, scale, ghost=True).svg()


def heat_bars(
    heat: Mapping[str, float],
    names: Mapping[str, Part] = BY_KEY,
    opened: Mapping[str, bool] | None = None,
    excess: Mapping[str, str] | None = None,
) -> Markup:
    """Watts by part as bars with their numbers, hottest first; a list to a screen reader.

    Parameters
    ----------
    opened
        The parts whose heat explains itself, and whether that is open.
    excess
        What the heat of a part passes, in words.
    """
    opened, excess = opened or {}, excess or {}
    shown = sorted(((watts, key) for key, watts in heat.items() if watts > 0), reverse=True)
    if not shown:
        return tag("div", "Nothing warms: no current flows.", css="dropper-heat")
    most, total = shown[0][0], sum(watts for watts, _ in shown)
    rows = []
    for watts, key in shown:
        share = f"{100 * watts / total:.0f} %" if watts >= total / 200 else "under 1 %"
        bar = tag("span", style=f"width:{100 * watts / most:.1f}%;background-color:{HEAT_COLOUR}")
        rows.append(
            joined(
                tag("span", marked_name(names[key].name, excess.get(key, "")), css="name"),
                tag("span", bar, css="track", aria_hidden="true"),
                tag("span", f"{show_reading(watts, 'W')}, {share}", css="watts"),
                why_button(key, f"heat of the {names[key].name}", opened[key]) if key in opened else "",
            )
        )
    heading = tag("b", f"Heat by part, {show_reading(total, 'W')} in all")
    return joined(
        tag("div", heading, css="dropper-words", style="margin-top:8px"),
        tag("ul", items(rows), css="dropper-heat", aria_label="heat by part"),
    )


def sentence(view: View) -> str:
    """The picture in words."""
    lamp, result = view.lamp, view.result
    if result.dark:
        return f"This lamp stays dark: {why_dark(lamp, result)}."
    share = 100 * result.conduction_fraction
    hottest = max((part for part in result.heat if part != "leds"), key=result.heat.get)
    words = (
        f"From {show(lamp.mains.voltage, 'V')} at {show(lamp.mains.frequency, 'Hz')} the lamp draws"
        f" {show_reading(result.line_current_rms, 'A')} rms and {show_reading(result.real_power, 'W')} at a power"
        f" factor of {result.power_factor:.2f}. The bridge conducts for {share:.0f} % of the time. The LEDs get"
        f" {show_reading(result.string_current_mean, 'A')} on average, swinging from"
        f" {show_reading(result.string_current_min, 'A')} to {show_reading(result.string_current_max, 'A')}"
        f" ({result.percent_flicker:.0f} % flicker), at a bus voltage of"
        f" {show_reading(result.bus_voltage_mean, 'V')}."
    )
    if result.heat[hottest] > 0:
        words += (
            f" Besides the LEDs, the {BY_KEY[hottest].name} is the warmest part,"
            f" {show_reading(result.heat[hottest], 'W')}."
        )
    if not result.settled:
        words += " It has not settled into a repeating cycle: read these figures with care."
    return words


def _curves(result, scale, ghost=False):
    time = Span(0, 1e3 * (result.time[-1] + result.time[0]))
    low = (-1, -1, 0)
    spans = [(time, Span(low[axes] * top, top)) for axes, top in enumerate(scale)]
    layer = PICTURE.overlay(spans, ghost)
    for name, axes in CURVES:
        layer.curve(axes, 1e3 * result.time, getattr(result, name), LOOKS[name])
    return layer
