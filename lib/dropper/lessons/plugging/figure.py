"""Plugging figure: the rush of current, its peak at every angle, and the volts left in the dropper, on bus and pins."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...bench.checklist.proved_dead import volts_text
from ...circuit.values import show, show_reading
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, number
from ..kit.picture import Picture
from .view import METER_OHMS, NO_PROOF, volts_after

if TYPE_CHECKING:
    from .view import View

_THIRDS = tuple(k / 6 for k in range(7))
PICTURE = Picture(
    (780, 560),
    Axes((86, 30, 270, 190), "line current, A", "time since plugging in, µs", zero=0.5),
    Axes((436, 30, 270, 190), "", "angle at which it is plugged in"),
    Axes((86, 300, 576, 190), "volts", "time since unplugging, s", across=_THIRDS),
)
backdrop = PICTURE.backdrop
_LIMITS = ((1.0, 34.0, "34 V, 1 s"), (2.0, 60.0, "60 V, 2 s"), (5.0, 60.0, "60 V, 5 s"))


def scales(*views) -> tuple[float, ...]:
    """Amperes, microseconds and volts that hold all the views."""
    amperes = max(max(view.peak, view.peaks.max()) for view in views)
    volts = max(max(np.abs(view.fade.dropper_voltage).max(), view.fade.bus_voltage.max()) for view in views)
    return nice_scale(amperes, 1e-3), nice_scale(max(view.window for view in views), 5e-5), nice_scale(volts, 10.0)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves and marks of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _curves(view, scale)
    layer.numbers(0, number, number)
    layer.numbers(1, lambda x: f"{x:.0f}°", number)
    layer.numbers(2, number, number)
    setting = view.setting
    layer.words(0, 0, scale[0], "the first rush", "start", INK, True, 115, (0, -60))
    layer.words(1, 0, scale[0], "its peak, A, by the moment", "start", INK, True, 115, (0, -60))
    title = "after pulling the plug; triangles: published limits of what is left"
    layer.words(2, 0, scale[2], title, "start", INK, True, 115, (0, -60))
    layer.dot(1, setting.angle, view.peak, LOOKS["line_current"])
    for seconds, volts, text in _LIMITS:
        layer.dot(2, seconds, volts, LOOKS["limit"], "triangle", hollow=True)
        layer.words(2, seconds, volts, text, "start", LOOKS["limit"].colour, True, 100, (60, -110))
    since = view.fade.time >= 0
    ends = [
        (np.abs(view.fade.dropper_voltage[since])[-1], LOOKS["dropper_voltage"].called("the dropper\nholds")),
        (view.fade.bus_voltage[since][-1], LOOKS["bus_voltage"].called("on the\nbus")),
        (abs(view.metered.pins_voltage[-1]), LOOKS["mains_voltage"].called("the pins,\nby a meter")),
    ]
    layer.names(2, ends)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    return _curves(view, scale, True).svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting, lamp = view.setting, view.setting.lamp
    left, after = (volts_after(view.fade, "dropper", seconds) for seconds in (0.0, 1.0))
    bus, pins = volts_after(view.fade, "bus"), volts_after(view.metered, "pins")
    charged = f" with {show_reading(setting.precharge, 'V')} left on the dropper" if setting.precharge else ""
    rush = (
        f"Plugged in at {setting.angle:.0f}°{charged}, the lamp draws up to {show(view.peak, 'A')}; the worst moment"
        f" would give {show(float(view.peaks.max()), 'A')}. The rush puts {show(view.rush.inrush_energy, 'J')} into the"
        " inrush resistor."
        if lamp.inrush_resistor
        else f"Plugged in at {setting.angle:.0f}°{charged}, with no inrush resistor, the lamp draws up to"
        f" {show(view.peak, 'A')}: only the mains' own impedance limits the rush, and it rings; the dropper goes to"
        f" {show(view.rush.dropper_voltage_peak, 'V')}."
    )
    checks = view.residual
    within = len(checks.of("within"))
    limited = within + len(checks.of("over"))
    emptied = "for no bleeder empties it" if lamp.bleeder is None else f"with a bleeder of {show(lamp.bleeder, 'Ω')}"
    return (
        f"{rush} Pulled out at {setting.pulled:.0f}°, the dropper of {show(lamp.dropper, 'F')} holds"
        f" {show_reading(left, 'V')}, and {show_reading(after, 'V')} a second later, {emptied}; the bus has"
        f" {show_reading(bus, 'V')} then, and a meter of {show(METER_OHMS, 'Ω')} between the pins shows"
        f" {volts_text(pins)}. {NO_PROOF} Pulled out at the worst moment, the dropper keeps {within} of the {limited}"
        " published limits that ask for something. A figure is no leave to touch: measure, if you are trained and"
        " allowed to, as local codes and licensed practice ask."
    )


def _curves(view, scale, ghost=False):
    seconds = view.fade.time[-1]
    spans = [
        (Span(0, 1e6 * scale[1]), Span(-scale[0], scale[0])),
        (Span(0, 360), Span(0, scale[0])),
        (Span(0, float(seconds)), Span(0, scale[2])),
    ]
    layer = PICTURE.overlay(spans, ghost)
    visible = (view.rush.time >= 0) & (view.rush.time <= scale[1])
    layer.curve(0, 1e6 * view.rush.time[visible], view.rush.line_current[visible], LOOKS["line_current"])
    layer.curve(1, view.angles, view.peaks, LOOKS["ideal"])
    since = view.fade.time >= 0
    layer.curve(2, view.fade.time[since], view.fade.bus_voltage[since], LOOKS["bus_voltage"])
    layer.curve(2, view.fade.time[since], np.abs(view.fade.dropper_voltage[since]), LOOKS["dropper_voltage"])
    since = view.metered.time >= 0
    layer.curve(2, view.metered.time[since], np.abs(view.metered.pins_voltage[since]), LOOKS["mains_voltage"])
    return layer
