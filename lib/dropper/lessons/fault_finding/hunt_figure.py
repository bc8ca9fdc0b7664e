"""Hunt figure: the odds of every cause as bars, now and before the last measurement."""

from ...bench.diagnosis.wording import percent
from ...results.style import INK, LOOKS
from ..kit.frame import Axes
from ..kit.overlay import Span
from ..kit.picture import Picture
from .hunt_view import Bar, View, leading

PICTURE = Picture(
    (780, 520), Axes((250, 36, 440, 430), "", "probability, %", across=(0.0, 0.2, 0.4, 0.6, 0.8, 1.0), up=(), rows=21)
)
backdrop = PICTURE.backdrop


def scales(*views) -> None:
    """Odds have one scale."""


def overlay(view: View, scale: None, sentence: str) -> str:
    """The bars of one view; nothing where the odds are not shown.

    Parameters
    ----------
    sentence
        The text alternative.
    """
    return odds_bars(view.bars, sentence, "before the last measurement") if view.bars else ""


def odds_bars(bars: tuple[Bar, ...], sentence: str, before: str) -> str:
    """Odds as bars, over the axes.

    Parameters
    ----------
    sentence
        The text alternative.
    before
        What the dashed lines stand for.
    """
    rows = len(bars)
    layer = PICTURE.overlay([(Span(0, 100), Span(0, rows))])
    layer.numbers(0, lambda value: f"{value:.0f}", None)
    most = max(bar.now for bar in bars)
    layer.words(0, 0, rows, f"bar: now; dashed line: {before}", "start", INK, False, 110, (0, -80))
    for place, bar in enumerate(bars):
        foot = rows - 1 - place
        first = bar.now == most >= 0.005
        layer.bar(0, (0, foot + 0.18), (100 * bar.now, foot + 0.82), LOOKS["line_current"], hatch=not first)
        layer.line(0, (100 * bar.before, foot + 0.08), (100 * bar.before, foot + 0.92), LOOKS["ideal"])
        layer.words(0, 0, foot + 0.5, bar.name, "end", INK, first, 110, (-60, 40))
        if bar.now >= 0.005:
            layer.words(0, 100, foot + 0.5, percent(bar.now), "start", INK, first, 110, (60, 40))
    return layer.svg(sentence)


def sentence(view: View) -> str:
    """The picture in words."""
    count = len(view.rows)
    measurements = (
        "Nothing has been measured yet."
        if not count
        else (f"{count} measurement{'s' * (count > 1)} of cost {view.cost:g} and danger {view.danger:g}.")
    )
    if not view.bars:
        return f"{measurements} The odds are not shown; they can be asked for, which is help and costs points."
    listed = ", ".join(leading(view.bars)) or "no cause of its own above 2 %"
    return f"{measurements} The odds: {listed}. {view.verdict}".rstrip()
