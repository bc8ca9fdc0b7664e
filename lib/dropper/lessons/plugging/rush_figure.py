"""Rush figure: the rush of current at plugging in, and its peak at every angle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...circuit.values import show, show_reading
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, number
from ..kit.picture import Picture

if TYPE_CHECKING:
    from .rush_view import View

PICTURE = Picture(
    (780, 330),
    Axes((86, 34, 290, 230), "line current, A", "time since plugging in, µs", zero=0.5),
    Axes((456, 34, 290, 230), "peak, A", "angle at which it is plugged in"),
)
backdrop = PICTURE.backdrop


def scales(*views) -> tuple[float, ...]:
    """Amperes and microseconds that hold all the views."""
    amperes = max(max(view.peak, view.peaks.max()) for view in views)
    return nice_scale(amperes, 1e-3), nice_scale(max(view.window for view in views), 5e-5)


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
    layer.words(0, 0, scale[0], "the first rush", "start", INK, True, 115, (0, -60))
    layer.words(1, 0, scale[0], "its peak, by the moment of plugging in", "start", INK, True, 115, (0, -60))
    layer.dot(1, view.setting.angle, view.peak, LOOKS["line_current"])
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    return _curves(view, scale, True).svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting, lamp = view.setting, view.setting.lamp
    charged = f" with {show_reading(setting.precharge, 'V')} left on the dropper" if setting.precharge else ""
    start = f"Plugged in at {setting.angle:.0f}°{charged}"
    peak, worst = show(view.peak, "A"), show(float(view.peaks.max()), "A")
    if lamp.inrush_resistor:
        ohms, heat = show(lamp.inrush_resistor, "Ω"), show(view.rush.inrush_energy, "J")
        return (
            f"{start}, the lamp draws up to {peak}; the worst moment would give {worst}. The rush puts {heat} into the"
            f" inrush resistor of {ohms}, which takes {show(view.heat_in_use, 'W')} in use."
        )
    return (
        f"{start}, with no inrush resistor, the lamp draws up to {peak}: only the mains' own impedance limits the rush,"
        f" and it rings; the dropper goes to {show(view.rush.dropper_voltage_peak, 'V')}."
    )


def _curves(view, scale, ghost=False):
    spans = [(Span(0, 1e6 * scale[1]), Span(-scale[0], scale[0])), (Span(0, 360), Span(0, scale[0]))]
    layer = PICTURE.overlay(spans, ghost)
    visible = (view.rush.time >= 0) & (view.rush.time <= scale[1])
    layer.curve(0, 1e6 * view.rush.time[visible], view.rush.line_current[visible], LOOKS["line_current"])
    layer.curve(1, view.angles, view.peaks, LOOKS["ideal"])
    return layer
