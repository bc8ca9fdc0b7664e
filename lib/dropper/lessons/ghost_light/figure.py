"""Ghost-light figure: current of an LED against the length of the cable, with what people notice."""

import numpy as np

from ...circuit.values import show
from ...results.style import LOOKS
from ..kit.frame import Axes
from ..kit.overlay import Span
from ..kit.picture import Picture
from .view import LEAST, MOST, SEEN, View

_LENGTH, _CURRENT = Span(LEAST, MOST, log=True), Span(1e-8, 1e-2, log=True)
_TENS = (1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2)
PICTURE = Picture(
    (780, 360),
    Axes(
        (86, 24, 576, 270),
        "current of an LED",
        "length of the cable, m",
        across=tuple(float(_LENGTH.share(x)) for x in (2, 5, 10, 20, 50, 100, 200)),
        up=tuple(float(_CURRENT.share(y)) for y in _TENS),
    ),
)
backdrop = PICTURE.backdrop
_LED = LOOKS["string_current"].called("an LED")


def scales(*views) -> tuple[float, ...]:
    """One scale serves all."""
    return (_CURRENT.high,)


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """The curve, the lamp's place on it, and what is noticed.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _curves(view)
    layer.numbers(0, lambda x: f"{x:.0f}", lambda y: show(y, "A"))
    layer.line(0, (_LENGTH.low, SEEN), (_LENGTH.high, SEEN), LOOKS["advice"])
    layer.words(0, _LENGTH.low, SEEN, "seen in the dark", "start", LOOKS["advice"].colour, True, 110, (60, -50))
    whole = min(view.whole.led_current_mean, _CURRENT.high)
    layer.line(0, (_LENGTH.low, whole), (_LENGTH.high, whole), LOOKS["ideal"])
    layer.words(0, _LENGTH.low, whole, "lamp on", "start", LOOKS["ideal"].colour, True, 110, (60, -50))
    layer.dot(0, view.setting.length, float(np.clip(view.led, _CURRENT.low, _CURRENT.high)), _LED)
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curve."""
    return _curves(view, True).svg()


def sentence(view: View) -> str:
    """The picture in words."""
    setting = view.setting
    switch = f" and {show(setting.leakage, 'F')} in the switch" if setting.leakage else ""
    cure = f", with {show(setting.cure, 'F')} across the lamp," if setting.cure else ""
    seen = "In a dark room that is seen." if view.seen else "It looks dark."
    return (
        f"The switch is off. {show(setting.length, 'm')} of cable{switch}{cure} let {show(view.led, 'A', 2)} through"
        f" each LED; on, it has {show(view.whole.led_current_mean, 'A')}. {seen}"
    )


def _curves(view, ghost=False):
    layer = PICTURE.overlay([(_LENGTH, _CURRENT)], ghost)
    layer.curve(0, view.lengths, np.clip(view.currents, _CURRENT.low, _CURRENT.high), _LED)
    return layer
