"""Frame: the still part of a picture, as SVG in the page's own colours: axes, grid and labels, without numbers.

It is drawn once, with its grid at fixed places; when the scale changes, only the numbers beside the grid do, and they
are part of the overlay (see `overlay`).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from html import escape

import numpy as np

from ...circuit.html import Markup
from ...results.style import FONT, GRID, INK, on_page
from .room import here

STEPS = (1, 1.2, 1.6, 2, 2.4, 3.2, 4, 5, 6, 8, 10)  # whose quarters are short numbers
QUARTERS = (0.0, 0.25, 0.5, 0.75, 1.0)
_TYPE, _LINE = 132, 158  # of labels: size and distance of lines, in tenths of a pixel
_TICK = 50
_NAMES = 100  # pixels left of axes without a grid up, from which on names of bars stand there


@dataclass(frozen=True)
class Axes:
    """One set of axes: where it stands, its labels, and where its grid is.

    box: left, top, width, height in pixels. across, up: where the grid stands, as fractions
    of the width and of the height. zero: the height of the zero line as a fraction, where
    that is not an edge. bare: no axes at all, only a place to draw on. rows: how many bars
    with names at their left are drawn there at most, where that is known. letters: of the
    title above, where it is a long one. above: whether the
    label stands above, in a line, over a title of so many pixels.
    """

    box: tuple
    label: str = ""
    below: str = ""
    across: tuple = QUARTERS
    up: tuple = QUARTERS
    zero: float | None = None
    bare: bool = False
    rows: int = 0
    letters: int = 0
    above: bool = False
    title: int = 0

    @property
    def named(self) -> bool:
        """Whether names of bars stand left of them."""
        if self.bare or self.above:
            return self.above and bool(self.rows)
        return not self.up and not self.label and self.box[0] >= _NAMES


@dataclass(frozen=True)
class Frame:
    """The frame of a picture: its axes, and its width and height in pixels.

    cut: how far down the first axes reach, which are an SVG of their own; None where all is one. laid: whether
    everything stands as wide as it is on the page.
    """

    axes: tuple[Axes, ...]
    size: tuple[int, int]
    cut: int | None = None
    laid: bool = False

    @property
    def view_box(self) -> str:
        """The view box of an SVG of this size, in tenths of a pixel."""
        return f"0 0 {self.size[0] * 10} {self.size[1] * 10}"

    @cached_property
    def svg(self) -> Markup:
        """The axes as SVG that says nothing: the overlay carries the words."""
        pieces = [(place, _drawn(one)) for place, one in enumerate(self.axes) if not one.bare]
        return self.in_parts(pieces, 'class="dropper-frame" aria-hidden="true"', 'class="dropper-frame dropper-more"')

    def in_parts(self, pieces: Iterable[tuple[int, str]], role: str, role_of_more: str, always: str = "") -> Markup:
        """Pieces, each with the place of its axes, as one SVG; or as two, the first axes' and the others'.

        Parameters
        ----------
        role, role_of_more
            Attributes of the first and of the second.
        always
            Stands in the first.
        """
        pieces = list(pieces)
        if self.cut is None:
            return Markup(_svg(role, self.view_box, always + "".join([piece for _, piece in pieces])))
        width, height, cut = 10 * self.size[0], 10 * self.size[1], 10 * self.cut
        parts = ["", ""]
        for place, piece in pieces:
            parts[10 * self.axes[place].box[1] >= cut] += piece
        first = _svg(role, f"0 0 {width} {cut}", always + parts[0])
        more = _svg(f'{role_of_more} aria-hidden="true"', f"0 {cut} {width} {height - cut}", parts[1])
        return Markup(first + more)


def _svg(role, view_box, inner):
    return f'<svg {role} viewBox="{view_box}" {ROOT}>{inner}</svg>'


# What holds of all in the frame and in the overlay.
ROOT = (
    f'style="display:block;width:100%;height:auto" font-family="{FONT}" font-size="120" fill="{on_page(INK)}"'
    ' stroke-linejoin="round"'
)


def nice_scale(largest: float, least: float) -> float:
    """The first of `STEPS` times a power of ten that holds `largest`; in a room that keeps scales the last one, while
    it serves (see `room`).

    `least` is the smallest scale wanted, for a quantity that is zero.
    """
    largest = max(float(largest), least)
    if not np.isfinite(largest):
        return least
    decade = 10.0 ** np.floor(np.log10(largest))
    top = next((step * decade for step in STEPS if largest <= step * decade * (1 + 1e-9)), 10 * decade)
    return here().steady(largest, top)


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
    if one.above:
        return _with_labels_across(one, grid, ink)
    labels = [
        f'<text x="{at}" y="{y}" transform="rotate(-90 {at} {y})" {_LABEL}>{escape(line)}</text>'
        for at, line in zip(range(left - 650, left - 650 - _LINE * len(lines), -_LINE), reversed(lines), strict=True)
    ]
    if one.below:
        labels.append(f'<text x="{round(left + width / 2)}" y="{foot + 375}" {_LABEL}>{escape(one.below)}</text>')
    return _lines(grid, ink) + "".join(labels)


def _with_labels_across(one, grid, ink):
    """Axes with their label above and what stands below in as many lines as it takes."""
    left, top, width, height = (10 * side for side in one.box)
    at = max(left - 460, 40)
    labels = [f'<text x="{at}" y="{top - 80 - 10 * one.title}">{escape(one.label)}</text>'] if one.label else []
    for row, line in enumerate(one.below.split("\n") if one.below else ()):
        labels.append(
            f'<text x="{left + width // 2}" y="{top + height + 320 + 150 * row}" {_LABEL}>{escape(line)}</text>'
        )
    return _lines(grid, ink) + "".join(labels)


def _lines(grid, ink):
    grid = grid and f'<path d="{grid}" {_GRID_LINE}/>'
    return f'{grid}<path d="{ink}" {_INK_LINE}/>'


_GRID_LINE = f'fill="none" stroke="{on_page(GRID)}" stroke-width="11"'
_INK_LINE = f'fill="none" stroke="{on_page(INK)}" stroke-width="11"'
_LABEL = f'text-anchor="middle" font-size="{_TYPE}"'
