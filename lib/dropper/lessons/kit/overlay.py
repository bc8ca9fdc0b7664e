"""Overlay: the moving part of a picture: curves, bars, dots and words as SVG, laid over a frame."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from html import escape
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.html import Markup
from ...circuit.numerals import short as number
from ...results.style import GHOST, INK, PAPER, Look, on_page
from .room import here

if TYPE_CHECKING:
    from .frame import Frame

_LETTER = 0.62  # width of a letter, of its height
_BELOW_NAME = 0.62  # of a bar's row: what is left below its name
_POINTS = 256  # as many as a curve needs at the size of the picture
_SHAPES = {
    "circle": "M-60,0c0,-33 27,-60 60,-60c33,0 60,27 60,60c0,33 -27,60 -60,60c-33,0 -60,-27 -60,-60z",
    "square": "M-55,-55h110v110h-110z",
    "diamond": "M0,-75L75,0L0,75L-75,0z",
    "triangle": "M0,-75L70,55L-70,55z",
}


@dataclass(frozen=True)
class Span:
    """What an axis covers, in the quantity's own unit."""

    low: float
    high: float
    log: bool = False

    def share(self, values: float | np.ndarray) -> float | np.ndarray:
        """Where values stand, from 0 at the low end to 1 at the high end; held at the ends."""
        low, high = self.low, self.high
        if self.log:
            values = np.log(np.maximum(values, low))
            low, high = np.log(low), np.log(high)
        return np.clip((np.asarray(values, float) - low) / (high - low), 0, 1)

    def at(self, share: float) -> float:
        """The value that stands at a share of the axis."""
        if self.log:
            return self.low * (self.high / self.low) ** share
        return self.low + (self.high - self.low) * share


class Overlay:
    """Collects the pieces of one overlay; every place is given in the axes' own units.

    Parameters
    ----------
    spans
        Across and up, for each of the frame's axes.
    ghost
        Everything thin, dashed and grey, and silent: the kept curves.
    """

    def __init__(self, frame: Frame, spans: Sequence[tuple[Span, Span]], ghost: bool = False):
        self.frame, self.spans, self.ghost = frame, spans, ghost
        self._pieces = []  # each with its axes
        self._taken = {}  # by axes: left, right and foot of each text there

    def place(self, axes: int, x: np.ndarray, y: np.ndarray) -> tuple[np.ndarray, ...]:
        """Points in tenths of a pixel from the top left; what lies outside is held at the edge."""
        left, top, width, height = self.frame.axes[axes].box
        across, up = self.spans[axes]
        one = self.frame.axes[axes]
        if one.above and one.rows:  # each bar leaves room for its name above it
            y = np.floor(y) + _BELOW_NAME * (y - np.floor(y))
        return 10 * (left + width * across.share(x)), 10 * (top + height * (1 - up.share(y)))

    def curve(self, axes: int, x: np.ndarray, y: np.ndarray, look: Look) -> None:
        """A curve."""
        self._add(axes, f'<polyline points="{self._points(axes, x, y)}" fill="none" {self._stroke(look)}/>')

    def area(self, axes: int, x: np.ndarray, y: np.ndarray, foot: float, colour: str, opacity: float = 0.18) -> None:
        """The area between a curve and a level, tinted."""
        if not self.ghost:
            ends = self._points(axes, [x[0]], [foot]), self._points(axes, [x[-1]], [foot])
            points = f"{ends[0]} {self._points(axes, x, y)} {ends[1]}"
            self._add(axes, f'<polygon points="{points}" fill="{on_page(colour)}" fill-opacity="{opacity}"/>')

    def between(
        self, axes: int, x: np.ndarray, low: np.ndarray, high: np.ndarray, colour: str, opacity: float = 0.18
    ) -> None:
        """The area between two curves, tinted, with a thin edge so that it shows where both meet."""
        points, colour = f"{self._points(axes, x, high)} {self._points(axes, x[::-1], low[::-1])}", on_page(colour)
        self._add(
            axes,
            f'<polygon points="{points}" fill="{colour}" fill-opacity="{opacity}" stroke="{colour}" stroke-width="8"'
            f' stroke-opacity="{opacity}"/>',
        )

    def line(self, axes: int, start: tuple[float | int, ...], end: tuple[float | int, ...], look: Look) -> None:
        """A straight line between two points."""
        (x1, x2), (y1, y2) = self.place(axes, np.array([start[0], end[0]]), np.array([start[1], end[1]]))
        self._add(axes, f'<line x1="{x1:.0f}" y1="{y1:.0f}" x2="{x2:.0f}" y2="{y2:.0f}" {self._stroke(look)}/>')

    def arrow(self, axes: int, start: np.ndarray, end: np.ndarray, look: Look) -> None:
        """A straight line with a head at its end; none where it has no length."""
        x, y = self.place(axes, np.array([start[0], end[0]]), np.array([start[1], end[1]]))
        long = np.hypot(x[1] - x[0], y[1] - y[0])
        if long < 20:
            return
        turn = np.degrees(np.arctan2(y[1] - y[0], x[1] - x[0]))
        head = min(150.0, 0.6 * long)
        stop = 1 - 0.7 * head / long
        colour = on_page(GHOST if self.ghost else look.colour)
        self._add(
            axes,
            f'<line x1="{x[0]:.0f}" y1="{y[0]:.0f}" x2="{x[0] + stop * (x[1] - x[0]):.0f}"'
            f' y2="{y[0] + stop * (y[1] - y[0]):.0f}" {self._stroke(look)}/>'
            f'<path d="M0,0L{-head:.0f},{-head * 0.38:.0f}L{-head:.0f},{head * 0.38:.0f}z" fill="{colour}"'
            f' transform="translate({x[1]:.0f},{y[1]:.0f}) rotate({turn:.1f})"/>',
        )

    def dot(self, axes: int, x: float, y: float, look: Look, shape: str = "circle", hollow: bool = False) -> None:
        """A mark at a point."""
        a, b = self.place(axes, x, y)
        colour = on_page(GHOST if self.ghost else look.colour)
        fill = on_page(PAPER) if hollow or self.ghost else colour
        self._add(
            axes,
            f'<path d="{_SHAPES[shape]}" transform="translate({a:.0f},{b:.0f})" fill="{fill}"'
            f' stroke="{colour}" stroke-width="22"/>',
        )

    def bar(self, axes: int, start: tuple[int, float], end: tuple[float, ...], look: Look, hatch: bool = False) -> None:
        """A rectangle between two corners."""
        (x1, x2), (y1, y2) = self.place(axes, np.array([start[0], end[0]]), np.array([start[1], end[1]]))
        box = f'x="{min(x1, x2):.0f}" y="{min(y1, y2):.0f}" width="{abs(x2 - x1):.0f}" height="{abs(y2 - y1):.0f}"'
        if self.ghost:
            self._add(axes, f'<rect {box} fill="none" {self._stroke(look)}/>')
            return
        self._add(axes, f'<rect {box} fill="{on_page(look.colour)}" stroke="{on_page(INK)}" stroke-width="8"/>')
        if hatch:
            self._add(axes, f'<rect {box} fill="url(#hatched)"/>')

    def band(self, axes: int, low: float, high: float, colour: str, opacity: float = 0.15) -> None:
        """A tinted stripe from one place across to another, all the way up."""
        up = self.spans[axes][1]
        (x1, x2), (y1, y2) = self.place(axes, np.array([low, high]), np.array([up.low, up.high]))
        self._add(
            axes,
            f'<rect x="{x1:.0f}" y="{y2:.0f}" width="{x2 - x1:.0f}" height="{y1 - y2:.0f}" fill="{on_page(colour)}"'
            f' fill-opacity="{opacity}"/>',
        )

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

    def svg(self, sentence: str = "") -> Markup:
        """The overlay as SVG text.

        sentence : the picture in words, its text alternative; a ghost has none and is silent.
        """
        says = (
            'aria-hidden="true"'
            if self.ghost
            else f'class="dropper-curves" role="img" aria-label="{escape(sentence, quote=True)}"'
        )
        more = "dropper-more" if self.ghost else "dropper-curves dropper-more"
        return self.frame.in_parts(self._pieces, says, f'class="{more}"', _HATCH)

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

    def _add(self, axes, piece):
        self._pieces.append((axes, piece))

    def _points(self, axes, x, y):
        across, up = self.place(axes, *_thinned(x, y))
        pairs = zip(across.astype(int).tolist(), up.astype(int).tolist(), strict=True)
        return " ".join([f"{a},{b}" for a, b in pairs])

    def _stroke(self, look):
        if self.ghost:
            return f'stroke="{on_page(GHOST)}" stroke-width="14" stroke-dasharray="40 30"'
        dashes = f' stroke-dasharray="{look.dashes}"' if look.dashes else ""
        return f'stroke="{on_page(look.colour)}" stroke-width="{look.width}"{dashes}'


_CHANGED = "↕ other scale"
_HALO = f' paint-order="stroke" stroke="{on_page(PAPER)}" stroke-width="30"'  # keeps curves off type
_HATCH = (
    '<defs><pattern id="hatched" width="60" height="60" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<rect width="20" height="60" fill="#000" fill-opacity="0.35"/></pattern></defs>'
)


def milli(value: float) -> str:
    """A number in thousandths, for an axis in mA or mW."""
    return number(1e3 * value)


def _thinned(x, y):
    """Means of neighbours, at most as many as the picture has room for: less to send and to parse."""
    x, y = np.asarray(x, float), np.asarray(y, float)
    together = len(y) // _POINTS
    if together < 2:
        return x, y
    whole = len(y) // together * together
    return x[:whole].reshape(-1, together).mean(axis=1), y[:whole].reshape(-1, together).mean(axis=1)


def _text(x, y, words, anchor="start", colour=INK, bold=False, size=120, halo=""):
    """Text; what the drawing as a whole has, size and colour, is not said again."""
    more = "" if anchor == "start" else f' text-anchor="{anchor}"'
    more += "" if size == 120 else f' font-size="{size}"'
    more += ' font-weight="bold"' if bold else ""
    more += "" if colour == INK else f' fill="{on_page(colour)}"'
    return f'<text x="{x:.0f}" y="{y:.0f}"{more}{halo}>{escape(words)}</text>'
