"""Plugging figure: the volts that are left in the dropper, on the bus and between the pins."""

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
PICTURE = Picture((780, 380), Axes((86, 34, 576, 280), "volts", "time since unplugging, s", across=_THIRDS))
backdrop = PICTURE.backdrop
_LIMITS = ((1.0, 34.0, "34 V, 1 s"), (2.0, 60.0, "60 V, 2 s"), (5.0, 60.0, "60 V, 5 s"))


def scales(*views) -> tuple[float, ...]:
    """Volts that hold all the views."""
    volts = max(max(np.abs(view.fade.dropper_voltage).max(), view.fade.bus_voltage.max()) for view in views)
    return (nice_scale(volts, 10.0),)


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
    title = "triangles: published limits"
    layer.words(0, 0, scale[0], title, "start", INK, True, 115, (0, -60))
    for seconds, volts, text in _LIMITS:
        layer.dot(0, seconds, volts, LOOKS["limit"], "triangle", hollow=True)
        layer.words(0, seconds, volts, text, "start", LOOKS["limit"].colour, True, 100, (60, -110))
    since = view.fade.time >= 0
    ends = [
        (np.abs(view.fade.dropper_voltage[since])[-1], LOOKS["dropper_voltage"].called("the dropper\nholds")),
        (view.fade.bus_voltage[since][-1], LOOKS["bus_voltage"].called("on the\nbus")),
        (abs(view.metered.pins_voltage[-1]), LOOKS["mains_voltage"].called("the pins,\nby a meter")),
    ]
    layer.names(0, ends)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    return _curves(view, scale, True).svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting, lamp = view.setting, view.setting.lamp
    left, after = (volts_after(view.fade, "dropper", seconds) for seconds in (0.0, 1.0))
    bus, pins = volts_after(view.fade, "bus"), volts_after(view.metered, "pins")
    checks = view.residual
    within = len(checks.of("within"))
    limited = within + len(checks.of("over"))
    emptied = "for no bleeder empties it" if lamp.bleeder is None else f"with a bleeder of {show(lamp.bleeder, 'Ω')}"
    return (
        f"Pulled out at {setting.pulled:.0f}°, the dropper of {show(lamp.dropper, 'F')} holds"
        f" {show_reading(left, 'V')}, and {show_reading(after, 'V')} a second later, {emptied}; the bus has"
        f" {show_reading(bus, 'V')} then, and a meter of {show(METER_OHMS, 'Ω')} between the pins shows"
        f" {volts_text(pins)}. {NO_PROOF} Pulled out at the worst moment, the dropper meets {within} of {limited}"
        " published limits that apply. A figure is no leave to touch: measure, if you are trained and"
        " allowed to, as local codes and licensed practice ask."
    )


def _curves(view, scale, ghost=False):
    seconds = view.fade.time[-1]
    layer = PICTURE.overlay([(Span(0, float(seconds)), Span(0, scale[0]))], ghost)
    since = view.fade.time >= 0
    layer.curve(0, view.fade.time[since], view.fade.bus_voltage[since], LOOKS["bus_voltage"])
    layer.curve(0, view.fade.time[since], np.abs(view.fade.dropper_voltage[since]), LOOKS["dropper_voltage"])
    since = view.metered.time >= 0
    layer.curve(0, view.metered.time[since], np.abs(view.metered.pins_voltage[since]), LOOKS["mains_voltage"])
    return layer
