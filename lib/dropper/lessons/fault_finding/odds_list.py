"""Odds list: the causes below the longest bars, folded."""

from collections.abc import Sequence

from ...bench.diagnosis.wording import percent
from ...circuit.html import Markup, items, tag
from .hunt_view import Bar, longest


def others_folded(bars: Sequence[Bar]) -> Markup:
    """The causes without a bar of their own, as a list that can be opened; "" where there are none."""
    shown = longest(bars)
    rest = sorted((bar for bar in bars if bar not in shown), key=lambda bar: -bar.now)
    if not rest:
        return Markup()
    rows = items(f"{bar.name} {percent(bar.now)}" for bar in rest)
    fold = tag("details", tag("summary", f"The other {len(rest)} causes"), tag("ul", rows, css="dropper-parts"))
    return tag("div", fold, css="dropper-words")
