"""Touch-current figure: volts against earth and the current over one period, and how it stands to what harms people."""

from __future__ import annotations

import numpy as np

from ...circuit.values import show, show_reading
from ...results.style import INK, LOOKS
from ...standards import BODY_THRESHOLDS, HOUSEHOLD_DEVICE
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from . import path
from .view import View, device_words, effect, isolation_words, path_words

PICTURE = Picture(
    (780, 660),
    Axes((86, 200, 330, 175), "volts against earth, V", zero=0.5),
    Axes((86, 425, 330, 175), "through the person, mA", "time, ms (one period of the mains)", zero=0.5),
    Axes((530, 200, 220, 400), "", "through the person, mA", up=()),
    Axes((10, 10, 760, 150), bare=True),
)
backdrop = PICTURE.backdrop
_LOW, _HIGH = 1e-4, 1.0  # A, the ends of the scale of the bars
_ROWS = 8.0  # height of the bars' axes: three bars, and above them a line for each threshold
_BODY = LOOKS["warm"].solid()
_SHORT = {
    "reaction": "can be felt",
    "let-go of everybody": "not all let go",
    "let-go": "hand stays shut",
    "fibrillation": "heart at risk",
}


def scales(*views) -> tuple[float, ...]:
    """Volts and amperes that hold all the views."""
    volts = max(np.abs(wave).max() for view in views for wave in (view.meter.live_voltage, view.meter.minus_voltage))
    amperes = max(view.now.current_peak for view in views)
    return nice_scale(volts, 10.0), nice_scale(amperes, 1e-3)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves, bars and thresholds of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = PICTURE.overlay(_spans(view, scale))
    layer.numbers(0, None, number)
    layer.numbers(1, number, milli)
    layer.numbers(2, milli, None)
    meter, now = view.meter, view.now
    layer.curve(0, 1e3 * meter.time, meter.live_voltage, LOOKS["mains_voltage"])
    layer.curve(0, 1e3 * meter.time, meter.minus_voltage, LOOKS["bus_voltage"])
    bus = meter.bus_voltage_mean
    for level in (bus, -bus):
        layer.line(0, (0, level), (layer.spans[0][0].high, level), LOOKS["ideal"])
    layer.words(
        0, 0, scale[0], "bus minus, and live (dashed)", "start", LOOKS["bus_voltage"].colour, True, 120, (0, -80)
    )
    layer.words(
        0,
        layer.spans[0][0].high,
        -scale[0],
        "level lines: ± the string's volts",
        "end",
        LOOKS["ideal"].colour,
        False,
        110,
        (-30, -40),
    )
    layer.curve(1, 1e3 * now.time, now.current, _BODY)
    layer.words(
        1,
        0,
        scale[1],
        f"{show(now.current_rms, 'A')} rms, {show(now.current_peak, 'A')} peak",
        "start",
        _BODY.colour,
        True,
        120,
        (0, -80),
    )
    _bars(layer, view)
    path.draw(layer, 3, view.setting)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    layer = PICTURE.overlay(_spans(view, scale), ghost=True)
    layer.curve(0, 1e3 * view.meter.time, view.meter.minus_voltage, LOOKS["bus_voltage"])
    layer.curve(1, 1e3 * view.now.time, view.now.current, _BODY)
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting, now = view.setting, view.now
    words = (
        f"{setting.words} Through"
        f" {show(setting.resistance, 'Ω')} flow {show(now.current_rms, 'A')} rms, {show(now.current_peak, 'A')} at the"
        f" peak, {show_reading(abs(now.current_mean), 'A')} of it direct. {path_words(setting)} With nobody near, the"
        f" bus's minus stands up to {show(view.meter.minus_voltage_peak, 'V')} from earth; the string's own volts are"
        f" {show(view.meter.bus_voltage_mean, 'V')}."
    )
    words += isolation_words(setting.lamp)
    if setting.short:
        words += " The LEDs are taken as whole here, which real ones would not stay."
    if view.light == "dark":
        words += " The lamp is dark, and dark is not dead."
    if not now.settled:
        words += " No repeating cycle was found; these are the last cycle's figures."
    return f"{words} {device_words(view)} {effect(view)}"


def _bars(layer, view):
    now = view.now
    rows = (
        ("rms", now.current_rms, _BODY, False),
        ("peak", now.current_peak, _BODY, True),
        ("direct", abs(now.current_mean), LOOKS["string_current"], False),
    )
    for row, (name, amperes, look, hatch) in enumerate(rows):
        y = 2 - row
        if amperes > _LOW:
            layer.bar(2, (_LOW, y + 0.2), (min(amperes, _HIGH), y + 0.8), look, hatch=hatch)
        layer.words(2, _LOW, y + 0.5, name, "end", INK, False, 110, (-60, 40))
    marks = [(threshold.current, _SHORT[threshold.key], "limit") for threshold in BODY_THRESHOLDS]
    marks.append((HOUSEHOLD_DEVICE.trips, "device trips", "advice"))
    layer.words(2, _LOW, _ROWS, "lines: what an ac current does", "start", INK, True, 120, (0, -80))
    tops = [_ROWS - 0.5 - 0.85 * place for place in range(len(marks))]
    for (amperes, _, look), top in zip(sorted(marks), tops, strict=True):
        layer.line(2, (amperes, 0), (amperes, top), LOOKS[look])
    for (amperes, words, look), top in zip(sorted(marks), tops, strict=True):
        anchor, shift = ("end", -30) if amperes > 20e-3 else ("start", 30)
        text, colour = f"{milli(amperes)} mA: {words}", LOOKS[look].colour
        layer.words(2, amperes, top, text, anchor, colour, True, 110, (shift, 60))


def _spans(view, scale):
    time = Span(0, 1e3 * view.meter.time[-1])
    return [
        (time, Span(-scale[0], scale[0])),
        (time, Span(-scale[1], scale[1])),
        (Span(_LOW, _HIGH, log=True), Span(0, _ROWS)),
        path.SPANS,
    ]
