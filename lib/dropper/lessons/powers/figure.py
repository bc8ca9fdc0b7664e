"""Powers figure: voltage and current of a period, apparent power as two triangles, and the power factor's curve."""

import numpy as np

from ...circuit.values import show
from ...results.compare import why_dark
from ...results.style import INK, LOOKS
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, number
from ..kit.picture import Picture
from .view import View

_EIGHTHS = tuple(k / 8 for k in range(9))
_TENTHS = (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
PICTURE = Picture(
    (780, 530),
    Axes((86, 20, 576, 150), "mains voltage, V", "angle from the mains' rise", across=_EIGHTHS, zero=0.5),
    Axes((30, 270, 150, 150), bare=True),
    Axes((240, 270, 150, 150), bare=True),
    Axes((30, 464, 360, 50), bare=True),
    Axes((472, 254, 290, 206), "power factor", "clamped voltage over mains' peak, D/Vp", across=_TENTHS, up=_TENTHS),
)
backdrop = PICTURE.backdrop
_WAVES, _FIRST, _SECOND, _SQUARES, _CURVE = range(5)
_PARTS = ("power", "reactive", "distortion")
_LOW = 80  # pixels: in axes that are no higher the words would meet those below
_EDGE = LOOKS["moment"].solid()


def scales(*views) -> tuple[float, ...]:
    """Volts, amperes and volt-amperes that hold all the views."""
    volts = max(np.abs(view.result.mains_voltage).max() for view in views)
    amperes = max(np.abs(view.result.line_current).max() for view in views)
    both = nice_scale(volts, 10.0), nice_scale(amperes, 1e-3)
    return (*both, nice_scale(max(view.result.apparent_power for view in views), 1e-3))


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Waves, triangles and curve of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = _shapes(view, scale)
    layer.numbers(_WAVES, lambda x: f"{x:.0f}°", number)
    layer.numbers(_CURVE, number, number)
    layer.words(_CURVE, 0, 1, "ideal lamp; dot: this one", "start", INK, False, 110, (0, -60))
    _name_waves(layer, view, scale)
    if view.parts is None:
        return layer.svg(sentence)
    _name_sides(layer, view, scale)
    _squares(layer, view)
    factor = view.result.power_factor
    layer.dot(_CURVE, view.fraction, factor, LOOKS["power"])
    layer.words(_CURVE, view.fraction, factor, f"{factor:.2f}", "start", LOOKS["power"].colour, True, 120, (110, 190))
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves, triangles and operating point."""
    layer = _shapes(view, scale, True)
    if view.parts is not None:
        layer.dot(_CURVE, view.fraction, view.result.power_factor, LOOKS["power"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    if view.parts is None:
        return f"This lamp stays dark: {why_dark(view.lamp, view.result)}. There is no lamp's power to take apart."
    result = view.result
    way = "ahead of" if view.lead > 0 else "behind"
    return (
        f"The current flows for {100 * result.conduction_fraction:.0f} % of the time, and its fundamental is"
        f" {abs(view.lead):.0f}° {way} the voltage. Of {show(result.apparent_power, 'VA')},"
        f" {show(view.parts.real, 'W')} are power: a power factor of {result.power_factor:.2f}."
        f" {view.led_share:.0f} % of the watts reach the LEDs. A plug-in meter shows {view.meter_texts['power']},"
        f" {view.meter_texts['apparent_power']} and {view.meter_texts['power_factor']}."
    )


def _corners(view):
    """Ends of the sides from the upper left corner: P and S1 of the fundamental, S1 and S of the whole."""
    parts = view.parts
    real, down = parts.fundamental_real, -np.hypot(parts.fundamental_real, parts.reactive)
    return np.array([real, 0.0]), np.array([real, parts.reactive]), np.array([0.0, down]), parts.current_distortion


def _shapes(view, scale, ghost=False):
    volts, amperes, top = scale
    turn, side = Span(0, 360), (Span(0, top), Span(-top, 0))
    share = Span(0, 1), Span(0, 1)
    layer = PICTURE.overlay([(turn, Span(-volts, volts)), side, side, share, share], ghost)
    current, fundamental = (volts / amperes * wave for wave in (view.result.line_current, view.fundamental))
    layer.curve(_WAVES, view.angle, view.result.mains_voltage, LOOKS["mains_voltage"])
    if view.parts is not None:
        layer.area(_WAVES, view.angle, current, 0.0, LOOKS["line_current"].colour)
        layer.curve(_WAVES, view.angle, fundamental, LOOKS["ideal"])
        origin = np.zeros(2)
        first, second, down, distortion = _corners(view)
        last = down + np.array([distortion, 0.0])
        for axes, corner, ways in ((_FIRST, first, (-1, -1)), (_SECOND, down, (1, 1))):
            _right_angle(layer, axes, corner, ways, 0.05 * top)
        layer.arrow(_FIRST, origin, first, LOOKS["power"])
        layer.arrow(_FIRST, first, second, LOOKS["reactive"])
        layer.arrow(_FIRST, origin, second, LOOKS["ideal"])
        layer.arrow(_SECOND, origin, down, LOOKS["ideal"])
        layer.arrow(_SECOND, down, last, LOOKS["distortion"])
        layer.arrow(_SECOND, origin, last, LOOKS["apparent"])
    layer.curve(_WAVES, view.angle, current, LOOKS["line_current"])
    layer.curve(_CURVE, view.fractions, view.factors, LOOKS["power"].solid())
    return layer


def _right_angle(layer, axes, corner, ways, size):
    """The small square that marks a right angle; `ways` say on which side of the corner it stands."""
    x, y = corner
    across, up = x + ways[0] * size, y + ways[1] * size
    layer.line(axes, (across, y), (across, up), _EDGE)
    layer.line(axes, (x, up), (across, up), _EDGE)


def _name_waves(layer, view, scale):
    """Names at the right, and how far the fundamental's is from the voltage's."""
    volts, amperes, _ = scale
    ends = [(view.result.mains_voltage[-4:].mean(), LOOKS["mains_voltage"])]
    if view.parts is None:
        layer.names(_WAVES, ends)
        return
    current, fundamental = (volts / amperes * wave for wave in (view.result.line_current, view.fundamental))
    named = LOOKS["line_current"], LOOKS["ideal"].called("its\nfundamental")
    waves = (current, fundamental)
    layer.names(_WAVES, [*ends, *((wave[-4:].mean(), look) for wave, look in zip(waves, named, strict=True))])
    # Between the two crests, below them, where neither curve runs.
    level = -0.5 * volts
    for angle in (90.0, 90.0 - view.lead):
        layer.line(_WAVES, (angle, -volts), (angle, volts), LOOKS["moment"])
    layer.arrow(_WAVES, np.array([90.0, level]), np.array([90.0 - view.lead, level]), LOOKS["apparent"])
    way = "ahead" if view.lead > 0 else "behind"
    words = f"{abs(view.lead):.0f}° {way}"
    if layer.frame.axes[_WAVES].box[3] > _LOW:
        layer.words(_WAVES, 90.0, level, words, "start", INK, True, 120, (60, 40))


def _name_sides(layer, view, scale):
    first, second, down, distortion = _corners(view)
    parts = view.parts
    # Right of the upright side; where that stands too far right for them, left of it.
    anchor, aside = ("start", 60) if first[0] < 0.62 * scale[2] else ("end", -60)
    slanted = (down + np.array([distortion, 0.0])) / 2
    for axes, at, text, look, where, shift in (
        (_FIRST, first / 2, (f"P {show(parts.fundamental_real, 'W')}",), "power", "start", (-100, -70)),
        (
            _FIRST,
            (first + second) / 2,
            ("reactive", f"Q₁ {show(abs(parts.reactive), 'var')}"),
            "reactive",
            anchor,
            (aside, 0),
        ),
        (_FIRST, second, (f"S₁ {show(parts.fundamental_apparent, 'VA')}",), "ideal", "middle", (0, 150)),
        (_SECOND, down / 2, ("S₁",), "ideal", "end", (-60, 40)),
        (_SECOND, slanted, (f"S {show(view.result.apparent_power, 'VA')}",), "apparent", "start", (90, -60)),
        (_SECOND, down, (f"distortion {show(parts.current_distortion, 'var')}",), "distortion", "start", (-60, 170)),
    ):
        for line, words in enumerate(text):
            place = shift[0], shift[1] + 130 * line
            layer.words(axes, *at, words, where, LOOKS[look].colour, True, 120, place)
    layer.words(_FIRST, 0, 0, "of the fundamental", "start", INK, False, 110, (0, -220))
    layer.words(_SECOND, 0, 0, "of the whole current", "start", INK, False, 110, (0, -220))


def _squares(layer, view):
    """A bar of the squares, which add up to the square of the apparent power."""
    parts, start = view.parts, 0.0
    squares = np.array([parts.real, parts.reactive, parts.current_distortion]) ** 2
    shares = squares / squares.sum()
    layer.words(_SQUARES, 0, 1, "their squares add up: P² + Q₁² + distortion² = S²", "start", INK, False, 110, (0, -60))
    for place, (look, share) in enumerate(zip(_PARTS, shares, strict=True)):
        layer.bar(_SQUARES, (start, 0.4), (start + share, 1), LOOKS[look], hatch=place == 1)
        start += share
    letters = ("P²", "Q₁²", "rest" if layer.frame.laid else "distortion²")
    text = " · ".join(f"{letter} {100 * share:.0f} %" for letter, share in zip(letters, shares, strict=True))
    layer.words(_SQUARES, 0, 0, text, "start", INK, True, 115, (0, -20))
