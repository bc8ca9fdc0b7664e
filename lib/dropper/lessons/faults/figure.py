"""Faults figure: one period of a broken lamp over the healthy one's, and what the parts must stand, side by side."""

import numpy as np

from ...circuit.numerals import show_times
from ...circuit.values import show_reading
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from .view import View, capital, light_clause, reason

PICTURE = Picture(
    (780, 440),
    Axes((86, 32, 330, 104), "line, mA", zero=0.5),
    Axes((86, 152, 330, 104), "bus, V"),
    Axes((86, 272, 330, 104), "string, mA", "time, ms (one period of the mains)"),
    Axes((560, 32, 180, 344), "", "times the healthy lamp's", across=(0, 0.25, 0.5, 0.75, 1), up=()),
)
backdrop = PICTURE.backdrop
_CURVES = (("line_current", 0), ("bus_voltage", 1), ("string_current", 2))
_STRESSES = (
    ("light", "string_current_mean", "string_current"),
    ("watts", "real_power", "power"),
    ("line amperes", "line_current_rms", "line_current"),
    ("bus peak", "bus_voltage_peak", "bus_voltage"),
    ("dropper peak", "dropper_voltage_peak", "dropper_voltage"),
)
SIGNS = {"dark": "○", "dim": "◔", "same": "◑", "brighter": "◕", "over": "●"}


def scales(*views) -> tuple[float, ...]:
    """A scale for each of the axes that holds all the views, healthy and broken."""
    tops = [1e-3, 1.0, 1e-3]
    most = 2.0
    for view in views:
        for state in (view.healthy, view.now):
            for name, axes in _CURVES:
                tops[axes] = max(tops[axes], float(np.abs(getattr(state, name)).max()))
        most = max(most, *(_times(view, name) for _, name, _ in _STRESSES))
    return (*(nice_scale(top, 1e-3) for top in tops), nice_scale(min(most, 100.0), 2.0))


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves and bars of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = PICTURE.overlay(_spans(view, scale))
    for axes, write in enumerate((milli, number, milli)):
        layer.numbers(axes, number if axes == 2 else None, write)
    layer.numbers(3, number, None)
    for name, axes in _CURVES:
        if view.fault:
            layer.curve(axes, 1e3 * view.healthy.time, getattr(view.healthy, name), LOOKS["ideal"])
        layer.curve(axes, 1e3 * view.now.time, getattr(view.now, name), LOOKS[name])
    light = light_clause(view.now, view.healthy)
    text = f"{SIGNS[view.now.word]} {view.fault}: the lamp {light}" if view.fault else "the healthy lamp"
    layer.words(0, 0, scale[0], text, "start", INK, True, 135, (0, -80))
    low = -scale[0]
    layer.words(
        0,
        layer.spans[0][0].high,
        low,
        "dashed: the healthy lamp" if view.fault else "",
        "end",
        LOOKS["ideal"].colour,
        False,
        100,
        (-40, -40),
    )
    for row, (name, key, look) in enumerate(_STRESSES):
        y, times = len(_STRESSES) - 1 - row, _times(view, key)
        layer.bar(3, (0, y + 0.25), (min(times, scale[3]), y + 0.75), LOOKS[look], hatch=row % 2 == 1)
        layer.words(3, 0, y + 0.5, name, "end", INK, False, 110, (-60, 40))
        layer.words(3, min(times, 0.7 * scale[3]), y + 0.5, show_times(times), "start", INK, True, 110, (50, 40))
    layer.line(3, (1, 0), (1, len(_STRESSES)), LOOKS["ideal"])
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    layer = PICTURE.overlay(_spans(view, scale), ghost=True)
    for name, axes in _CURVES:
        layer.curve(axes, 1e3 * view.now.time, getattr(view.now, name), LOOKS[name])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    now = view.now
    head = "Even the healthy lamp is dark" if now.word == "dark" else "The healthy lamp"
    beside = ""
    if view.fault:
        head = f"{capital(view.fault)}. The lamp {light_clause(now, view.healthy)}"
        beside = f" ({show_times(_times(view, 'string_current_mean'))} of the healthy lamp's)"
    (reverse,) = (reading for reading in view.readings if reading.key == "diode_reverse")
    most = " up to" if reverse.name.endswith("at most") else ""
    words = (
        f"{head}: {show_reading(now.string_current_mean, 'A')} on average in the string{beside},"
        f" {show_reading(now.real_power, 'W')} and {show_reading(now.line_current_rms, 'A')} rms from the mains. The"
        f" bus reaches {show_reading(now.bus_voltage_peak, 'V')}, the dropper"
        f" {show_reading(now.dropper_voltage_peak, 'V')}, and the worst diode blocks{most}"
        f" {show_reading(reverse.value, 'V')}. {reason(view.setting.fault)}"
    ).strip()
    if not now.settled:
        words += " No repeating cycle was found; these are the last cycle's figures."
    if now.word == "dark":
        words += " Dark is not dead: every part is still on the mains."
    return words


def _times(view, name):
    healthy = getattr(view.healthy, name)
    times = getattr(view.now, name) / healthy if healthy > 0 else 1.0
    return times if times > 1e-4 else 0.0


def _spans(view, scale):
    time = Span(0, 1e3 * max(view.now.time[-1], view.healthy.time[-1]))
    return [
        (time, Span(-scale[0], scale[0])),
        (time, Span(0, scale[1])),
        (time, Span(0, scale[2])),
        (Span(0, scale[3]), Span(0, len(_STRESSES))),
    ]
