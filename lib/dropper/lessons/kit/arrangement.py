"""Arrangement: the axes of a picture put anew for another width: margins and type stay, plots take what is left.

From 600 pixels on everything stands as it was drawn, only wider or narrower. Below that labels stand above their axes,
names of bars above their bars, and axes that have no room beside each other go below each other.
"""

from __future__ import annotations

import math
import textwrap
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .frame import Axes

COMPACT = 600  # pixels: below this width labels stand above their axes
_ROW = 34  # pixels that a bar with its name above it takes
_LETTER = 7.6  # pixels of a letter of a label
_LEAST_PLOT = 120
_LABELS = 42  # pixels that numbers and a label below take
_TITLE_ROOM = 25  # pixels above axes from which on a title stands there


def arranged(
    axes: Sequence[Axes], size: tuple[int, int], width: int, first: int | None, lead: int
) -> tuple[tuple[Axes, ...], tuple[int, int], int | None]:
    """Axes for a width in pixels, the picture's size, and how far down the first axes reach where they stand apart.

    Parameters
    ----------
    first
        How tall the first axes may be; None where all stand together.
    lead
        Which axes come first where they stand apart.
    """
    boxes = [one.box for one in axes]
    tree = _split(list(range(len(axes))), boxes)
    if width >= COMPACT and first is None:
        wider = {}
        _stretch(tree, axes, 0, width - size[0], wider)
        if all(wider[place][2] >= min(_LEAST_PLOT, boxes[place][2]) for place in wider):
            placed = tuple(replace(one, box=wider[place]) for place, one in enumerate(axes))
            return placed, (width, size[1]), None
    page = _Page(axes, size, first, lead)
    cut = None
    if first is not None:
        cut = page.put(lead, 0, 0, width)
        rest = [place for place in range(len(axes)) if place != lead]
        tree = _split(rest, boxes) if rest else None
    foot = page.put(tree, 0, cut or 0, width) if tree is not None else cut
    return tuple(page.placed), (width, round(foot)), None if foot == cut else cut


def _split(places, boxes):
    """Axes as rows of columns of rows …: ("rows" or "columns", parts), or the place of one."""
    for side, name in ((1, "rows"), (0, "columns")):
        groups, end = [], None
        for place in sorted(places, key=lambda place: boxes[place][side]):
            if groups and boxes[place][side] < end:
                groups[-1].append(place)
            else:
                groups.append([place])
            end = max(end or 0, boxes[place][side] + boxes[place][side + 2])
        if len(groups) > 1:
            return name, [_split(group, boxes) for group in groups]
    return places[0]


def _places(tree):
    return [tree] if isinstance(tree, int) else [place for part in tree[1] for place in _places(part)]


def _extent(tree, boxes):
    """How wide the plots of a part are, from the first edge to the last."""
    ends = [(boxes[place][0], boxes[place][0] + boxes[place][2]) for place in _places(tree)]
    return max(right for _, right in ends) - min(left for left, _ in ends)


def _stretch(tree, axes, shift, more, wider):
    """The same axes with so many pixels more across, which the plots share; a bare place keeps its shape."""
    if isinstance(tree, int):
        left, top, width, height = axes[tree].box
        new = min(width + more, width) if axes[tree].bare else width + more
        high = height * new / width if axes[tree].bare else height
        wider[tree] = (round(left + shift + max(width + more - new, 0) / 2), top, round(new), round(high))
        return
    boxes = [one.box for one in axes]
    extents = [_extent(part, boxes) for part in tree[1]]
    for part, extent in zip(tree[1], extents, strict=True):
        share = more * extent / sum(extents) if tree[0] == "columns" else more
        _stretch(part, axes, shift, share, wider)
        shift += share if tree[0] == "columns" else 0


class _Page:
    """Axes put one after the other on a narrow page."""

    def __init__(self, axes, size, first, lead):
        self.axes, self.size, self.first, self.lead = axes, size, first, lead
        self.placed = list(axes)

    def put(self, tree, x, y, width):
        """Put a part at x and y into a width; returns its foot."""
        if isinstance(tree, int):
            return self._put_one(tree, x, y, width)
        if tree[0] == "rows" or not self._fits(tree, width):
            for part in tree[1]:
                y = self.put(part, x, y, width)
            return y
        boxes = [one.box for one in self.axes]
        extents = [_extent(part, boxes) for part in tree[1]]
        least = [self._least(part) for part in tree[1]]
        spare = width - sum(least)
        tops = [self._over(_places(part)[0], width / len(least)) for part in tree[1]]
        feet = []
        for part, extent, need, over in zip(tree[1], extents, least, tops, strict=True):
            wide = need + spare * extent / sum(extents)
            feet.append(self.put(part, x, y + max(tops) - over, wide))
            x += wide
        for part, foot in zip(tree[1], feet, strict=True):
            if isinstance(part, int):  # one alone is as tall as what stands beside it
                left, top, wide, high = self.placed[part].box
                self.placed[part] = replace(self.placed[part], box=(left, top, wide, round(high + max(feet) - foot)))
        return max(feet)

    def _fits(self, tree, width):
        return width >= sum(self._least(part) for part in tree[1])

    def _least(self, tree):
        if isinstance(tree, int):
            one = self.axes[tree]
            plot = min(0.8 * one.box[2], 250) if one.bare else 150 if one.named else _LEAST_PLOT
            return sum(self._sides(tree)) + plot
        least = [self._least(part) for part in tree[1]]
        return sum(least) if tree[0] == "columns" else max(least)

    def _put_one(self, place, x, y, width):
        one = self.axes[place]
        left, right = self._sides(place)
        plot = width - left - right
        if one.bare:  # a drawing keeps its shape
            plot = min(plot, 1.1 * one.box[2])
            left = (width - plot) / 2
        below = textwrap.wrap(one.below, max(int((plot + 2 * min(left, right) + 10) / _LETTER), 8))
        top = y + self._over(place, width)
        height = self._height(place, plot)
        box = tuple(round(side) for side in (x + left, top, plot, height))
        low = self._is_low(place)
        label = "" if low else (one.label or self._label_beside(place)).replace("\n", " ")
        rows = max(one.rows, 1) if one.named else 0
        title = 0 if low else self._title(place, width)
        self.placed[place] = replace(
            one, box=box, label=label, below="\n".join(below), above=True, title=title, rows=rows
        )
        return box[1] + box[3] + self._under(place, len(below))

    def _is_low(self, place):
        return place == self.lead and self.first is not None and self.first < 60

    def _height(self, place, plot):
        one = self.axes[place]
        _, _, width, height = one.box
        if one.bare:
            return max(height * plot / width, min(height, 110))
        if one.named:
            return max(height, _ROW * one.rows)
        height = max(0.8 * height, 72) if height > 60 else height
        return min(height, self.first) if place == self.lead and self.first is not None else height

    def _sides(self, place):
        one = self.axes[place]
        if one.bare:
            return 10, 10
        if one.named:
            return 14, min(self.size[0] - one.box[0] - one.box[2], 60)
        return (50, 16) if one.up else (14, 16)

    def _over(self, place, width):
        if self._is_low(place):
            return 10
        one = self.axes[place]
        label = 18 if one.label or self._label_beside(place) else 0
        return 8 + label + self._title(place, width)

    def _title(self, place, width):
        if self._room_above(place) < _TITLE_ROOM:
            return 0
        lines = max(math.ceil(self.axes[place].letters * _LETTER / (width - 50)), 2 if width < 480 else 1)
        return 3 + 15 * lines

    def _under(self, place, lines):
        one = self.axes[place]
        if one.bare:
            return 4
        if lines:
            return 30 + 15 * lines
        return 38 if self._room_below(place) >= 40 else 6

    def _room_above(self, place):
        """What is free above axes as they were drawn, for a title."""
        left, top, width, _ = self.axes[place].box
        feet = [0]
        for other in self.axes:
            at, start, wide, high = other.box
            if start + high <= top and at < left + width and left < at + wide:
                feet.append(start + high + (_LABELS if other.below else 0))
        return top - max(feet)

    def _room_below(self, place):
        left, top, width, height = self.axes[place].box
        tops = [self.size[1]]
        for other in self.axes:
            at, start, wide, _ = other.box
            if start >= top + height and at < left + width and left < at + wide:
                tops.append(start)
        return min(tops) - top - height

    def _label_beside(self, place):
        """The label that axes share with those at their left, as tall as they are."""
        one = self.axes[place]
        if one.bare or not one.up:
            return ""
        for other in self.axes:
            alike = other.box[1] == one.box[1] and other.box[3] == one.box[3] and other.up
            if alike and other.box[0] < one.box[0]:
                return other.label
        return ""
