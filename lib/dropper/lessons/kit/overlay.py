"""Overlay: the moving part of a picture: curves, bars, dots and words as SVG, laid over a frame."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.html import Markup
from ...circuit.numerals import short as number
from ...results.style import GHOST, INK, PAPER, Look, on_page
from .frame import ROOT

if TYPE_CHECKING:
    from .frame import Frame

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
        self._pieces = []

    def place(self, axes: int, x: np.ndarray, y: np.ndarray) -> tuple[np.ndarray, ...]:
        """Points in tenths of a pixel from the top left; what lies outside is held at the edge."""
        left, top, width, height = self.frame.axes[axes].box
        across, up = self.spans[axes]
        return 10 * (left + width * across.share(x)), 10 * (top + height * (1 - up.share(y)))

    def curve(self, axes: int, x: np.ndarray, y: np.ndarray, look: Look) -> None:
        """A curve."""
        self._pieces.append(f'<polyline points="{self._points(axes, x, y)}" fill="none" {self._stroke(look)}/>')

    def area(self, axes: int, x: np.ndarray, y: np.ndarray, foot: float, colour: str, opacity: float = 0.18) -> None:
        """The area between a curve and a level, tinted."""
        if not self.ghost:
            ends = self._points(axes, [x[0]], [foot]), self._points(axes, [x[-1]], [foot])
            points = f"{ends[0]} {self._points(axes, x, y)} {ends[1]}"
            self._pieces.append(f'<polygon points="{points}" fill="{on_page(colour)}" fill-opacity="{opacity}"/>')

    def between(
        self, axes: int, x: np.ndarray, low: np.ndarray, high: np.ndarray, colour: str, opacity: float = 0.18
    ) -> None:
        """The area between two curves, tinted, with a thin edge so that it shows where both meet."""
        points, colour = f"{self._points(axes, x, high)} {self._points(axes, x[::-1], low[::-1])}", on_page(colour)
        self._pieces.append(
            f'<polygon points="{points}" fill="{colour}" fill-opacity="{opacity}" stroke="{colour}" stroke-width="8"'
            f' stroke-opacity="{opacity}"/>'
        )

    def line(self, axes: int, start: tuple[float | int, ...], end: tuple[float | int, ...], look: Look) -> None:
        """A straight line between two points."""
        (x1, x2), (y1, y2) = self.place(axes, np.array([start[0], end[0]]), np.array([start[1], end[1]]))
        self._pieces.append(f'<line x1="{x1:.0f}" y1="{y1:.0f}" x2="{x2:.0f}" y2="{y2:.0f}" {self._stroke(look)}/>')

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
        self._pieces.append(
            f'<line x1="{x[0]:.0f}" y1="{y[0]:.0f}" x2="{x[0] + stop * (x[1] - x[0]):.0f}"'
            f' y2="{y[0] + stop * (y[1] - y[0]):.0f}" {self._stroke(look)}/>'
            f'<path d="M0,0L{-head:.0f},{-head * 0.38:.0f}L{-head:.0f},{head * 0.38:.0f}z" fill="{colour}"'
            f' transform="translate({x[1]:.0f},{y[1]:.0f}) rotate({turn:.1f})"/>'
        )

    def dot(self, axes: int, x: float, y: float, look: Look, shape: str = "circle", hollow: bool = False) -> None:
        """A mark at a point."""
        a, b = self.place(axes, x, y)
        colour = on_page(GHOST if self.ghost else look.colour)
        fill = on_page(PAPER) if hollow or self.ghost else colour
        self._pieces.append(
            f'<path d="{_SHAPES[shape]}" transform="translate({a:.0f},{b:.0f})" fill="{fill}"'
            f' stroke="{colour}" stroke-width="22"/>'
        )

    def bar(self, axes: int, start: tuple[int, float], end: tuple[float, ...], look: Look, hatch: bool = False) -> None:
        """A rectangle between two corners."""
        (x1, x2), (y1, y2) = self.place(axes, np.array([start[0], end[0]]), np.array([start[1], end[1]]))
        box = f'x="{min(x1, x2):.0f}" y="{min(y1, y2):.0f}" width="{abs(x2 - x1):.0f}" height="{abs(y2 - y1):.0f}"'
        if self.ghost:
            self._pieces.append(f'<rect {box} fill="none" {self._stroke(look)}/>')
            return
        self._pieces.append(f'<rect {box} fill="{on_page(look.colour)}" stroke="{on_page(INK)}" stroke-width="8"/>')
        if hatch:
            self._pieces.append(f'<rect {box} fill="url(#hatched)"/>')

    def band(self, axes: int, low: float, high: float, colour: str, opacity: float = 0.15) -> None:
        """A tinted stripe from one place across to another, all the way up."""
        up = self.spans[axes][1]
        (x1, x2), (y1, y2) = self.place(axes, np.array([low, high]), np.array([up.low, up.high]))
        self._pieces.append(
            f'<rect x="{x1:.0f}" y="{y2:.0f}" width="{x2 - x1:.0f}" height="{y1 - y2:.0f}" fill="{on_page(colour)}"'
            f' fill-opacity="{opacity}"/>'
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
        self._pieces.append(_text(a + shift[0], b + shift[1], text, anchor, colour, bold, size, _HALO))

    def numbers(self, axes: int, across: Callable | None = None, up: Callable | None = None) -> None:
        """The numbers at the grid; `across` and `up` turn a value into text, none where left out."""
        one = self.frame.axes[axes]
        left, top, width, height = one.box
        horizontal, vertical = self.spans[axes]
        for share in one.across if across else ():
            text = across(horizontal.at(share))
            self._pieces.append(_text(10 * (left + width * share), 10 * (top + height) + 165, text, "middle"))
        for share in one.up if up else ():
            text = up(vertical.at(share))
            self._pieces.append(_text(10 * left - 60, 10 * (top + height * (1 - share)) + 45, text, "end"))

    def names(self, axes: int, ends: list[tuple[float, Look]]) -> None:
        """Names of curves beside the right edge, pushed apart where they would meet.

        ends : list of (height in the axes' unit, look)
        """
        left, top, width, height = self.frame.axes[axes].box
        places = [[10 * (top + height * (1 - float(self.spans[axes][1].share(y)))), look] for y, look in ends]
        tall = [130 * len(look.name.split("\n")) + 30 for _, look in places]
        order = sorted(range(len(places)), key=lambda k: places[k][0])
        floor = 10 * top + 90
        for k in order:
            places[k][0] = floor = max(places[k][0], floor)
            floor += tall[k]
        excess = floor - 10 * (top + height) - 60
        for k in order:
            y = places[k][0] - max(excess, 0)
            for n, line in enumerate(places[k][1].name.split("\n")):
                self._pieces.append(
                    _text(10 * (left + width) + 60, y + 130 * n, line, "start", places[k][1].colour, True)
                )

    def svg(self, sentence: str = "") -> Markup:
        """The overlay as SVG text.

        sentence : the picture in words, its text alternative; a ghost has none and is silent.
        """
        says = (
            'aria-hidden="true"'
            if self.ghost
            else f'class="dropper-curves" role="img" aria-label="{escape(sentence, quote=True)}"'
        )
        inner = f"{_HATCH}{''.join(self._pieces)}"
        return Markup(f'<svg {says} viewBox="{self.frame.view_box}" {ROOT}>{inner}</svg>')

    def _points(self, axes, x, y):
        across, up = self.place(axes, *_thinned(x, y))
        pairs = zip(across.astype(int).tolist(), up.astype(int).tolist(), strict=True)
        return " ".join([f"{a},{b}" for a, b in pairs])

    def _stroke(self, look):
        if self.ghost:
            return f'stroke="{on_page(GHOST)}" stroke-width="14" stroke-dasharray="40 30"'
        dashes = f' stroke-dasharray="{look.dashes}"' if look.dashes else ""
        return f'stroke="{on_page(look.colour)}" stroke-width="{look.width}"{dashes}'


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
