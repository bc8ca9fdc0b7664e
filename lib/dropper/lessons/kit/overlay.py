"""Overlay: the moving part of a picture: its shapes, and words that are placed where they meet no others."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Sequence
from dataclasses import replace
from html import escape
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.numerals import short as number
from ...results.style import INK, PAPER, Look, on_page
from .room import here
from .shapes import Shapes
from .span import Span

if TYPE_CHECKING:
    from .frame import Frame

_LETTER = 0.62  # width of a letter, of its height
_CHANGED = "↕ other scale"
_HALO = f' paint-order="stroke" stroke="{on_page(PAPER)}" stroke-width="30"'  # keeps curves off type


class Overlay(Shapes):
    """Shapes and words that are laid over a frame; every place is given in the axes' own units.

    Parameters
    ----------
    spans
        Across and up, for each of the frame's axes.
    ghost
        Everything thin, dashed and grey, and silent: the kept curves.
    """

    def __init__(self, frame: Frame, spans: Sequence[tuple[Span, Span]], ghost: bool = False):
        super().__init__(frame, spans, ghost)
        self._taken = {}  # by axes: left, right and foot of each text there

    def words(
        self,
        axes: int,
        x: float,
        y: float,
        text: str,
        anchor: str = "start",
        colour: str = INK,
        bold: bool = False,
        size: int = 120,
        shift: tuple[int, ...] = (0, 0),
    ) -> None:
        """Text at a point, shifted by so many tenths of a pixel."""
        if self.ghost:
            return
        a, b = self.place(axes, x, y)
        if not self.frame.laid:
            self._add(axes, _text(a + shift[0], b + shift[1], text, anchor, colour, bold, size, _HALO))
            return
        look = colour, bold, max(size, 120)
        for across, down, side, line in self._lines(axes, a + shift[0], b + shift[1], text, anchor, look[2]):
            self._put(axes, across, down, line, side, *look)

    def _lines(self, axes, x, y, text, anchor, size):
        """A text as lines that keep inside the picture; the name of a bar stands above it."""
        one = self.frame.axes[axes]
        left, top, _, high = (10 * side for side in one.box)
        if one.above and one.rows and anchor == "end" and x < left:
            up = self.spans[axes][1]
            row = high / (up.high - up.low)
            yield left + 20, y - 0.5 * row, "start", text
            return
        if not one.above:
            yield x, y, anchor, text
            return
        if y < top and one.title == 0 and not one.bare:
            return  # no room for a title
        letter = _LETTER * size
        ends = max(40, left - 460) if y < top else 40, 10 * self.frame.size[0] - 40
        most = max(int((ends[1] - ends[0]) / letter), 8)
        lines = textwrap.wrap(text, most) or [""]
        long = letter * max(map(len, lines))
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
        begin = min(max(x - share * long, ends[0]), max(ends[1] - long, ends[0]))
        above = y < top
        for row, line in enumerate(lines):
            down = 1.2 * size * (row - len(lines) + 1 if above else row)
            yield begin + share * long, y + down, anchor, line

    def numbers(self, axes: int, across: Callable | None = None, up: Callable | None = None) -> None:
        """The numbers at the grid; `across` and `up` turn a value into text, none where left out."""
        one = self.frame.axes[axes]
        left, top, width, height = one.box
        horizontal, vertical = self.spans[axes]
        if one.above and one.label:
            self._take(axes, max(10 * left - 460, 40), 10 * top - 80 - 10 * one.title, one.label, "start")
        free = -np.inf
        for share in sorted(one.across) if across else ():
            text = across(horizontal.at(share))
            at, half = 10 * (left + width * share), 37 * len(text)
            if self.frame.laid and at - half < free:
                continue  # it would meet the one before
            free = at + half + 40
            self._take(axes, at, 10 * (top + height) + 165, text, "middle")
            self._add(axes, _text(at, 10 * (top + height) + 165, text, "middle"))
        free = np.inf
        for share in sorted(one.up) if up else ():
            text = up(vertical.at(share))
            at = 10 * (top + height * (1 - share)) + 45
            if self.frame.laid and at > free:
                continue
            free = at - 140
            right = max(10 * left - 60, 70 * len(text)) if one.above else 10 * left - 60
            self._take(axes, right, at, text, "end")
            self._add(axes, _text(right, at, text, "end"))
        if up and here().has_changed(axes, (vertical.low, vertical.high)):
            self._add(axes, _text(10 * left + 60, 10 * top + 150, _CHANGED, "start", INK, True, 120, _HALO))

    def names(self, axes: int, ends: list[tuple[float, Look]]) -> None:
        """Names of curves beside the right edge, pushed apart where they would meet.

        ends : list of (height in the axes' unit, look)
        """
        one = self.frame.axes[axes]
        left, top, width, height = one.box
        if one.above:
            ends = [(y, replace(look, name=look.name.replace("\n", " "))) for y, look in ends]
        lift = 60 if one.above else 0  # clear of the curve that it stands on
        places = [[10 * (top + height * (1 - float(self.spans[axes][1].share(y)))) - lift, look] for y, look in ends]
        tall = [130 * len(look.name.split("\n")) + 30 for _, look in places]
        order = sorted(range(len(places)), key=lambda k: places[k][0])
        floor = 10 * top + 90
        for k in order:
            places[k][0] = floor = max(places[k][0], floor)
            floor += tall[k]
        excess = floor - 10 * (top + height) - 60
        for k in order:
            y = places[k][0] - max(excess, 0)
            look = places[k][1]
            if one.above:  # inside, at the curve's end
                self._put(axes, 10 * (left + width) - 50, y, look.name, "end", look.colour, True, 120)
                continue
            for n, line in enumerate(look.name.split("\n")):
                self._add(axes, _text(10 * (left + width) + 60, y + 130 * n, line, "start", look.colour, True))

    def _put(self, axes, x, y, text, anchor, colour=INK, bold=False, size=120):
        """A text where it meets no other one: where it is to stand, or a line or two above or below."""
        high, low = 10 * self.frame.size[1], 1.1 * size
        for down in (0, -140, 140, -280, 280, -420, 420):
            if low <= y + down <= high and self._is_free(axes, x, y + down, text, anchor, size):
                y += down
                break
        self._take(axes, x, y, text, anchor, size)
        self._add(axes, _text(x, y, text, anchor, colour, bold, size, _HALO))

    def _sides(self, x, text, anchor, size):
        long = _LETTER * size * len(text)
        left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * long
        return left, left + long

    def _is_free(self, axes, x, y, text, anchor, size):
        left, right = self._sides(x, text, anchor, size)
        return not any(left < b and a < right and abs(y - foot) < 115 for a, b, foot in self._taken.get(axes, ()))

    def _take(self, axes, x, y, text, anchor, size=120):
        self._taken.setdefault(axes, []).append((*self._sides(x, text, anchor, size), y))


def milli(value: float) -> str:
    """A number in thousandths, for an axis in mA or mW."""
    return number(1e3 * value)


def _text(x, y, words, anchor="start", colour=INK, bold=False, size=120, halo=""):
    """Text; what the drawing as a whole has, size and colour, is not said again."""
    more = "" if anchor == "start" else f' text-anchor="{anchor}"'
    more += "" if size == 120 else f' font-size="{size}"'
    more += ' font-weight="bold"' if bold else ""
    more += "" if colour == INK else f' fill="{on_page(colour)}"'
    return f'<text x="{x:.0f}" y="{y:.0f}"{more}{halo}>{escape(words)}</text>'
