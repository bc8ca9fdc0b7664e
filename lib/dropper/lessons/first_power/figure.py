"""First-power figure: the filament's balance of the current that is let through and that which it needs."""

from ...circuit.values import show_reading
from ...results.style import INK, LOOKS, SUN
from ..kit.frame import Axes, nice_scale
from ..kit.overlay import Span, milli, number
from ..kit.picture import Picture
from .view import SEEN_FROM, View

PICTURE = Picture(
    (780, 470),
    Axes((86, 40, 420, 350), "rms current, mA", "temperature of the filament, K", across=(0, 0.2, 0.4, 0.6, 0.8, 1)),
    Axes((640, 40, 110, 350), "temperature of the filament, K", "", across=()),
)
backdrop = PICTURE.backdrop
_HOTTEST = 3000.0
_BARS = (("whole", "lamp\nwhole", "ideal"), ("now", "as it\nis set", "line_current"))


def scales(*views) -> tuple[float, ...]:
    """A scale for the current that holds all the views."""
    return (
        nice_scale(
            max(float(max(view.lamp_current.max(), view.filament_current.max() / 3)) for view in views) * 1.05, 1e-3
        ),
    )


def overlay(view: View, scale: tuple, sentence: str) -> str:
    """Curves, the meeting point and bars of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    layer = PICTURE.overlay(_spans(scale))
    layer.band(0, SEEN_FROM, _HOTTEST, SUN, 0.13)
    layer.numbers(0, number, milli)
    layer.numbers(1, None, number)
    inside = view.filament_current <= scale[0]
    layer.curve(0, view.kelvins[inside], view.filament_current[inside], LOOKS["power"])
    layer.curve(0, view.temperatures, view.lamp_current, LOOKS["line_current"])
    layer.words(0, SEEN_FROM, scale[0], "seen to glow from here on", "start", INK, False, 115, (0, -50))
    ends = float(view.lamp_current[-1])
    layer.words(
        0,
        float(view.temperatures[-1]),
        ends,
        "let through by the lamp",
        "end",
        LOOKS["line_current"].colour,
        True,
        115,
        (0, 190 if ends > 0.07 * scale[0] else -60),
    )
    place = _free(view, inside)
    late = view.kelvins[place] > 1500
    layer.words(
        0,
        view.kelvins[place],
        float(view.filament_current[place]),
        "keeps the filament so warm",
        "end" if late else "start",
        LOOKS["power"].colour,
        True,
        115,
        (-60, -80) if late else (90, 150),
    )
    layer.dot(0, view.whole.temperature, view.whole.state.line_current_rms, LOOKS["ideal"], "square", True)
    layer.dot(0, view.now.temperature, view.now.state.line_current_rms, LOOKS["line_current"], "circle")
    for column, (name, words, look) in enumerate(_BARS):
        one = getattr(view, name)
        layer.bar(1, (column + 0.15, 0), (column + 0.85, one.temperature), LOOKS[look], hatch=column == 0)
        layer.words(1, column + 0.5, one.temperature, one.glow, "middle", INK, True, 105, (0, -50))
        for line, text in enumerate(words.split("\n")):
            layer.words(1, column + 0.5, 0, text, "middle", INK, False, 110, (0, 170 + 130 * line))
    layer.line(1, (0, SEEN_FROM), (2, SEEN_FROM), LOOKS["limit"])
    return layer.svg(sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's curves."""
    layer = PICTURE.overlay(_spans(scale), ghost=True)
    inside = view.filament_current <= scale[0]
    layer.curve(0, view.kelvins[inside], view.filament_current[inside], LOOKS["power"])
    layer.curve(0, view.temperatures, view.lamp_current, LOOKS["line_current"])
    return layer.svg()


def sentence(view: View) -> str:
    """The picture in words."""
    marked = view.setting.filament.marked
    words = f"A filament lamp of {marked} in series. {view.now.sentence}"
    if view.setting.fault is not None:
        same = view.now.glow == view.whole.glow
        words += (
            " So it is with the whole lamp too: the filament does not show this fault"
            + ("; the LEDs do, they are dark." if view.now.state.word == "dark" else ".")
            if same
            else f" The whole lamp leaves it {view.whole.glow}: a glow is a stop."
        )
    elif view.now.glows:
        words += " It glows behind the whole lamp already: no fault can be told from it, and a stronger one is needed."
    volts = view.now.state.line_current_rms * view.now.resistance
    return f"{words} It takes {show_reading(volts, 'V')} of the mains. Dark or not, the lamp is live."


def _free(view, inside):
    """Where on the kept curve, as an index, a name is farthest from both meeting points."""
    places = [int(share * inside.sum()) for share in (0.3, 0.55, 0.85)]
    points = (view.now.temperature, view.whole.temperature)
    return max(places, key=lambda place: min(abs(view.kelvins[place] - kelvins) for kelvins in points))


def _spans(scale):
    return [(Span(0, _HOTTEST), Span(0, scale[0])), (Span(0, 2), Span(0, _HOTTEST))]
