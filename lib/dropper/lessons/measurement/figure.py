"""Measurement figure: a measured period under the predicted one, their difference, the whole recording as a strip."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...circuit.numerals import grouped
from ...circuit.values import show
from ...results.compare import why_dark
from ...results.style import INK, LOOKS, Look
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture

if TYPE_CHECKING:
    from .view import View

PICTURE = Picture(
    (780, 640),
    Axes((86, 34, 576, 40), "", across=(), up=()),
    Axes((86, 112, 576, 170), "voltage, V", zero=0.5, letters=68),
    Axes((86, 300, 576, 150), "line current, mA", zero=0.5),
    Axes(
        (86, 482, 576, 96),
        "difference, mA",
        "time, ms (one period of the mains)",
        zero=0.5,
        up=(0.0, 0.5, 1.0),
        letters=74,
    ),
    lead=1,
)
backdrop = PICTURE.backdrop
MEASURED = LOOKS["ideal"].colour
RESIDUAL = Look("measured −\npredicted", "A", "#0072b2", "", 20)
_TYPE = 130  # of a caption, in tenths of the drawing's pixels: eleven on the page
_WHERE = {"mains_voltage": 1, "bus_voltage": 1, "line_current": 2}
_NAMES = {"mains_voltage": "mains voltage", "line_current": "line current", "bus_voltage": "bus voltage"}


def scales(*views) -> tuple[float, ...]:
    """Scales of voltage, current and difference that hold all the views."""
    tops = [1.0, 1e-4, 1e-4]
    for view in views:
        for name, axes in _WHERE.items():
            if name in view.bands:
                _, low, high = view.bands[name]
                tops[axes - 1] = max(tops[axes - 1], high.max(), -low.min(), np.abs(view.waves[name]).max())
        if view.comparison.residual is not None:
            tops[2] = max(tops[2], np.abs(view.comparison.residual).max(), view.difference_error.max())
    return tuple(nice_scale(top, 1e-4) for top in tops)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Measured bands, predicted curves and the difference of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _layer(view, scale)
    name, time, low, high = view.strip
    layer.between(0, time, low, high, MEASURED, 0.7)
    recording = view.setting.measurement.recording
    span = recording.sample_spacing * len(recording)
    layer.words(
        0,
        recording.time[0],
        layer.spans[0][1].high,
        f"the whole recording: {_NAMES[name]}, {_counted(recording)} samples in {show(span, 's')}",
        "start",
        INK,
        False,
        _TYPE,
        (0, -60),
    )
    layer.words(
        1,
        0,
        scale[0],
        "grey: measured, least to greatest of all periods; colour: predicted",
        "start",
        INK,
        False,
        _TYPE,
        (0, -60),
    )
    for axes, write in ((1, number), (2, milli), (3, milli)):
        layer.numbers(axes, _short if axes == 3 else None, write)
    ends = {1: [], 2: [], 3: []}
    for name, axes in _WHERE.items():
        if name in view.bands:
            share, low, high = view.bands[name]
            layer.between(axes, share * _period(view), low, high, MEASURED, 0.6)
            layer.curve(axes, _time(view, name), view.waves[name], LOOKS[name])
            ends[axes].append((view.waves[name][-4:].mean(), LOOKS[name]))
    residual = view.comparison.residual
    if residual is not None:
        layer.between(3, _time(view, "line_current"), -view.difference_error, view.difference_error, MEASURED, 0.35)
        layer.curve(3, _time(view, "line_current"), residual, RESIDUAL)
        row_keys = "measured less predicted; inside the grey band it may be nothing (95 %)"
        layer.words(3, 0, scale[2], row_keys, "start", INK, False, _TYPE, (0, -60))
    else:
        layer.words(3, 0.5 * _period(view), 0, "no line current was recorded", "middle", INK, False, _TYPE, (0, -40))
    for axes in (1, 2):
        layer.names(axes, ends[axes])
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept prediction's curves and its difference."""
    layer = _layer(view, scale, True)
    for name, axes in _WHERE.items():
        if name in view.waves:
            layer.curve(axes, _time(view, name), view.waves[name], LOOKS[name])
    if view.comparison.residual is not None:
        layer.curve(3, _time(view, "line_current"), view.comparison.residual, RESIDUAL)
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    measurement, comparison = view.setting.measurement, view.comparison
    head = (
        f"Measured over {measurement.count} whole period{'s' if measurement.count > 1 else ''} of"
        f" {measurement.frequency.text('Hz')}: "
    )
    visible = [
        (row.name, row.estimate.text(row.unit))
        for row in comparison.rows
        if row.key in ("current", "real", "power_factor", "bus_mean")
    ]
    head += ", ".join(f"{name} {text}" for name, text in visible) + ". " if visible else "only the voltage. "
    if view.result.dark:
        return head + f"The predicted lamp stays dark: {why_dark(comparison.lamp, view.result)}."
    differ = [row for row in comparison.rows if row.verdict == "differs"]
    if not differ:
        words = "Everything agrees with the prediction within what is not known. "
    else:
        row_keys = ", ".join(f"{row.name} {row.difference}" for row in differ[:4])
        words = f"Against the prediction differ: {row_keys}"
        words += f", and {len(differ) - 4} more. " if len(differ) > 4 else ". "
    if comparison.attribution:
        return head + words + comparison.attribution.words
    return head + words + (f"But first: {comparison.warnings[0]}" if comparison.warnings else "")


def _layer(view, scale, ghost=False):
    time = Span(0, _period(view))
    moments = view.setting.measurement.recording.time
    _, _, low, high = view.strip
    reach = max(high.max(), -low.min(), 1e-12)
    spans = [
        (Span(moments[0], moments[-1]), Span(-1.05 * reach, 1.05 * reach)),
        (time, Span(-scale[0], scale[0])),
        (time, Span(-scale[1], scale[1])),
        (time, Span(-scale[2], scale[2])),
    ]
    return PICTURE.overlay(spans, ghost)


def _period(view):
    """One period in ms."""
    return 1e3 / view.setting.measurement.frequency.value


def _time(view, name):
    count = view.waves[name].size
    return (np.arange(count) + 0.5) / count * _period(view)


def _counted(recording):
    return grouped(len(recording))


def _short(value):
    return number(float(f"{value:.3g}"))
