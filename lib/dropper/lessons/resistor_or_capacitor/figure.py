"""Two-ways figure: resistor and capacitor side by side: voltage, power and phasors of one and the same load."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...circuit.values import show, show_reading
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, number
from ..kit.picture import Picture

if TYPE_CHECKING:
    from .view import View

_LEFT, _RIGHT = (86, 270), (450, 270)
PICTURE = Picture(
    (780, 640),
    Axes((_LEFT[0], 34, _LEFT[1], 130), "volts across it", zero=0.5),
    Axes((_RIGHT[0], 34, _RIGHT[1], 130), "", zero=0.5),
    Axes((_LEFT[0], 182, _LEFT[1], 130), "power in it, W", "angle from the current's rise", zero=0.5),
    Axes((_RIGHT[0], 182, _RIGHT[1], 130), "", "angle from the current's rise", zero=0.5),
    Axes((_LEFT[0], 392, _LEFT[1], 240), bare=True),
    Axes((_RIGHT[0], 392, _RIGHT[1], 240), bare=True),
)
backdrop = PICTURE.backdrop
_TURN = Span(0, 360)
_NAMES = ("a resistor", "a capacitor")


def scales(*views) -> tuple[float, ...]:
    """Volts and watts that hold all the views, and the length of the phasors."""
    volts = max(np.abs(curve).max() for view in views for curve in view.voltages)
    watts = max(np.abs(curve).max() for view in views for curve in view.powers)
    return nice_scale(volts, 10.0), nice_scale(watts, 1e-3), max(view.setting.voltage for view in views)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves, phasors and numbers of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _curves(view, scale)
    setting, moment = view.setting, view.setting.phase
    for side in (0, 1):
        layer.numbers(side, None, number)
        layer.numbers(2 + side, lambda x: f"{x:.0f}°", number)
        volts = np.interp(moment, view.angle, view.voltages[side])
        for axes, value, look in ((side, volts, "dropper_voltage"), (2 + side, view.now[side], "power")):
            up = layer.spans[axes][1]
            layer.line(axes, (moment, up.low), (moment, up.high), LOOKS["moment"])
            layer.dot(axes, moment, value, LOOKS[look])
        layer.words(side, 180, scale[0], f"dropped by {_NAMES[side]}", "middle", INK, True, 140, (0, -60))
        layer.words(
            2 + side,
            354,
            -scale[1],
            f"mean {show(view.heat[side], 'W')}",
            "end",
            LOOKS["power"].colour,
            True,
            120,
            (0, -50),
        )
    crest = np.sqrt(2) * setting.current
    layer.words(
        0,
        354,
        scale[0],
        f"- - current, {show(crest, 'A')} at its crest",
        "end",
        LOOKS["line_current"].colour,
        False,
        105,
        (0, 120),
    )
    _phasors(layer, view, scale[2])
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    return _curves(view, scale, True).svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting = view.setting
    still = "neither takes nor gives"
    flow = "takes energy in" if view.now[1] > 0 else "gives energy back" if view.now[1] < 0 else still
    loss = f"so that only {show_reading(view.heat[1], 'W')} of loss turn to heat"
    if not view.heat[1]:
        loss = "and without loss nothing turns to heat"
    return (
        f"The load keeps {show(setting.load_voltage, 'V')} of {show(setting.voltage, 'V')} and takes"
        f" {show(setting.current, 'A')}. Dropped by a resistor of {show(view.resistor, 'Ω')},"
        f" {show(setting.voltage - setting.load_voltage, 'V')} stand across it, in step with the current, and"
        f" {show(view.heat[0], 'W')} turn to heat; its power never goes below zero. Dropped by a capacitor of"
        f" {show(view.dropper, 'F')}, {show(view.dropper_voltage, 'V')} stand across it, a quarter of a period behind"
        f" the current; its power swings as far below zero as above, {loss}. At {setting.phase:.0f}° the"
        f" capacitor {flow} ({show_reading(view.now[1], 'W')}). The current leads the mains"
        f" by {np.degrees(view.phase_lead):.0f}°."
    )


def _curves(view, scale, ghost=False):
    volts, watts = Span(-scale[0], scale[0]), Span(-scale[1], scale[1])
    square = Span(-1, 1)
    spans = [(_TURN, volts)] * 2 + [(_TURN, watts)] * 2 + [(square, square)] * 2
    layer = PICTURE.overlay(spans, ghost)
    for side in (0, 1):
        if not ghost:
            shape = view.current / np.abs(view.current).max() * 0.5 * scale[0]
            layer.curve(side, view.angle, shape, LOOKS["mains_voltage"].like("line_current"))
        layer.curve(side, view.angle, view.voltages[side], LOOKS["dropper_voltage"])
        layer.area(2 + side, view.angle, view.powers[side], 0.0, LOOKS["power"].colour)
        layer.curve(2 + side, view.angle, view.powers[side], LOOKS["power"])
    return layer


def _phasors(layer, view, longest):
    """Volts as arrows: the load's along the current, the dropper's in step with it or a quarter behind."""
    setting = view.setting
    turn = np.radians(setting.phase)
    wide, high = PICTURE.axes[4].box[2], PICTURE.axes[4].box[3]
    drops = (setting.voltage - setting.load_voltage, 0.0), (view.dropper_voltage, np.pi / 2)
    for side, (across, lag) in enumerate(drops):
        length = 0.92 / longest

        def at(volts, angle, length=length):
            return np.array([volts * length * np.cos(angle) * high / wide, volts * length * np.sin(angle)])

        start = np.zeros(2)
        load = at(setting.load_voltage, turn)
        end = load + at(across, turn - lag)
        axes = 4 + side
        layer.line(axes, at(-0.6 * longest, turn), at(longest, turn), LOOKS["moment"])
        layer.words(axes, *at(-0.75 * longest, turn), "current", "middle", INK, False, 100, (0, 35))
        layer.arrow(axes, start, end, LOOKS["mains_voltage"].solid(60))
        layer.arrow(axes, start, load, LOOKS["load_voltage"])
        layer.arrow(axes, load, end, LOOKS["dropper_voltage"])
        words = (
            (f"mains {show(setting.voltage, 'V')}", "mains_voltage"),
            (f"load {show(setting.load_voltage, 'V')}", "load_voltage"),
            (f"{_NAMES[side][2:]} {show(across, 'V')}", "dropper_voltage"),
        )
        for place, (text, look) in zip((-1.0, -0.32, 0.22), words, strict=True):
            layer.words(axes, place, 1, text, "start", LOOKS[look].colour, True, 110, (0, -40))
