"""Shapes: curves, areas, bars, arrows and dots of a picture as SVG, each in the units of its axes."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.html import Markup
from ...results.style import GHOST, INK, PAPER, Look, on_page

if TYPE_CHECKING:
    from .frame import Frame
    from .span import Span

_BELOW_NAME = 0.62  # of a bar's row: what is left below its name
_POINTS = 256  # as many as a curve needs at the size of the picture
_SHAPES = {
    "circle": "M-60,0c0,-33 27,-60 60,-60c33,0 60,27 60,60c0,33 -27,60 -60,60c-33,0 -60,-27 -60,-60z",
    "square": "M-55,-55h110v110h-110z",
    "diamond": "M0,-75L75,0L0,75L-75,0z",
    "triangle": "M0,-75L70,55L-70,55z",
}
_HATCH = (
    '<defs><pattern id="hatched" width="60" height="60" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<rect width="20" height="60" fill="#000" fill-opacity="0.35"/></pattern></defs>'
)


class Shapes:
    """Collects the shapes of one overlay; every place is given in the axes' own units.

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


def _thinned(x, y):
    """Means of neighbours, at most as many as the picture has room for: less to send and to parse."""
    x, y = np.asarray(x, float), np.asarray(y, float)
    together = len(y) // _POINTS
    if together < 2:
        return x, y
    whole = len(y) // together * together
    return x[:whole].reshape(-1, together).mean(axis=1), y[:whole].reshape(-1, together).mean(axis=1)
