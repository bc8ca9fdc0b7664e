"""Frame: the still part of a picture, as SVG in the page's own colours: axes, grid and labels, without numbers.

It is drawn once, with its grid at fixed places; when the scale changes, only the numbers beside the grid do, and they
are part of the overlay (see `overlay`).
"""

from dataclasses import dataclass
from functools import cached_property
from html import escape

import numpy as np

from ...circuit.html import Markup
from ...results.style import FONT, GRID, INK, on_page

STEPS = (1, 2, 4, 6, 8, 10)
QUARTERS = (0.0, 0.25, 0.5, 0.75, 1.0)
_TYPE, _LINE = 132, 158  # of labels: size and distance of lines, in tenths of a pixel
_TICK = 50


@dataclass(frozen=True)
class Axes:
    """One set of axes: where it stands, its labels, and where its grid is.

    box: left, top, width, height in pixels. across, up: where the grid stands, as fractions
    of the width and of the height. zero: the height of the zero line as a fraction, where
    that is not an edge. bare: no axes at all, only a place to draw on.
    """

    box: tuple
    label: str = ""
    below: str = ""
    across: tuple = QUARTERS
    up: tuple = QUARTERS
    zero: float | None = None
    bare: bool = False


@dataclass(frozen=True)
class Frame:
    """The frame of a picture: its axes, and its width and height in pixels."""

    axes: tuple[Axes, ...]
    size: tuple[int, int]

    @property
    def view_box(self) -> str:
        """The view box of an SVG of this size, in tenths of a pixel."""
        return f"0 0 {self.size[0] * 10} {self.size[1] * 10}"

    @cached_property
    def svg(self) -> Markup:
        """The axes as SVG that says nothing: the overlay carries the words."""
        return Markup(
            f'<svg class="dropper-frame" aria-hidden="true" viewBox="{self.view_box}" {ROOT}>'
            f"{''.join([_drawn(one) for one in self.axes if not one.bare])}</svg>"
        )


# What holds of all in the frame and in the overlay.
ROOT = (
    f'style="display:block;width:100%;height:auto" font-family="{FONT}" font-size="120" fill="{on_page(INK)}"'
    ' stroke-linejoin="round"'
)


def nice_scale(largest: float, least: float) -> float:
    """The first of 1, 2, 4, 6, 8, 10 times a power of ten that holds `largest`.

    `least` is the smallest scale wanted, for a quantity that is zero.
    """
    largest = max(float(largest), least)
    if not np.isfinite(largest):
        return least
    decade = 10.0 ** np.floor(np.log10(largest))
    for step in STEPS:
        if largest <= step * decade * (1 + 1e-9):
            return step * decade
    return 10 * decade


def _drawn(one):
    """One set of axes: grid, ticks, edge, zero line and labels."""
    left, top, width, height = (10 * side for side in one.box)
    right, foot = left + width, top + height
    columns = [round(left + width * share) for share in one.across]
    rows = [round(foot - height * share) for share in one.up]
    grid = "".join([f"M{x},{top}V{foot}" for x in columns] + [f"M{left},{y}H{right}" for y in rows])
    ink = "".join([f"M{x},{foot}v{_TICK}" for x in columns] + [f"M{left},{y}h{-_TICK}" for y in rows])
    ink += f"M{left},{top}H{right}V{foot}H{left}z"
    if one.zero is not None:
        ink += f"M{left},{round(foot - height * one.zero)}H{right}"
    lines = one.label.split("\n") if one.label else []
    y = round(top + height / 2)
    labels = [
        f'<text x="{at}" y="{y}" transform="rotate(-90 {at} {y})" {_LABEL}>{escape(line)}</text>'
        for at, line in zip(range(left - 650, left - 650 - _LINE * len(lines), -_LINE), reversed(lines), strict=True)
    ]
    if one.below:
        labels.append(f'<text x="{round(left + width / 2)}" y="{foot + 375}" {_LABEL}>{escape(one.below)}</text>')
    grid = grid and f'<path d="{grid}" {_GRID_LINE}/>'
    return f'{grid}<path d="{ink}" {_INK_LINE}/>{"".join(labels)}'


_GRID_LINE = f'fill="none" stroke="{on_page(GRID)}" stroke-width="11"'
_INK_LINE = f'fill="none" stroke="{on_page(INK)}" stroke-width="11"'
_LABEL = f'text-anchor="middle" font-size="{_TYPE}"'
