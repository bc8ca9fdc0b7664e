"""Hunt figure: the odds of the likeliest causes as bars, now and before the last measurement."""

from ...bench.diagnosis.wording import percent
from ...results.style import INK, LOOKS
from ..kit.frame import Axes
from ..kit.overlay import Span
from ..kit.picture import Picture
from .hunt_view import DRAWN, Bar, View, leading, longest

PICTURE = Picture(
    (780, 260), Axes((250, 36, 440, 170), "", "probability, %", across=(0.0, 0.25, 0.5, 0.75, 1.0), up=(), rows=DRAWN)
)
_ENDS = (8, 20, 40, 60, 80, 100)  # per cent
_INSIDE = 0.85  # of the axis: a longer bar has its figure beyond it
backdrop = PICTURE.backdrop


def scales(*views) -> int:
    """Where the axis ends, in per cent: not far beyond the longest bar."""
    shown = [bar for view in views for bar in longest(view.bars)]
    most = max((max(bar.now, bar.before) for bar in shown), default=1.0)
    return next((end for end in _ENDS if 100 * most <= end), _ENDS[-1])


def overlay(view: View, scale: int, sentence: str) -> str:
    """The bars of one view; nothing where the odds are not shown.

    Parameters
    ----------
    sentence
        The text alternative.
    """
    return odds_bars(view.bars, sentence, "before the last measurement", scale) if view.bars else ""


def odds_bars(bars: tuple[Bar, ...], sentence: str, before: str, end: int) -> str:
    """The longest bars, over the axes.

    Parameters
    ----------
    sentence
        The text alternative.
    before
        What the dashed lines stand for.
    end
        Where the axis ends, from `scales`.
    """
    bars = longest(bars)
    rows, most = len(bars), bars[0].now
    layer = PICTURE.overlay([(Span(0, end), Span(0, rows))])
    layer.numbers(0, lambda value: f"{value:.0f}", None)
    layer.words(0, 0, rows, f"bar: now; dashed line: {before}", "start", INK, False, 110, (0, -80))
    for place, bar in enumerate(bars):
        foot = rows - 1 - place
        first = bar.now == most >= 0.005
        layer.bar(0, (0, foot + 0.18), (100 * bar.now, foot + 0.82), LOOKS["line_current"], hatch=not first)
        layer.line(0, (100 * bar.before, foot + 0.08), (100 * bar.before, foot + 0.92), LOOKS["ideal"])
        layer.words(0, 0, foot + 0.5, bar.name, "end", INK, first, 110, (-60, 40))
        if bar.now >= 0.005:
            reach = 100 * max(bar.now, bar.before)
            beside = reach if reach < _INSIDE * end else end
            layer.words(0, beside, foot + 0.5, percent(bar.now), "start", INK, first, 110, (60, 40))
    return layer.svg(f"{sentence} The longest bars: {', '.join(leading(bars)) or 'none above 1 %'}.")


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
    return f"{measurements} {view.verdict}".rstrip()
