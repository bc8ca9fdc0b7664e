"""Frame: the still part of a picture: axes drawn once by matplotlib, without numbers.

Drawing axes and type costs tens of milliseconds, curves laid over them one or two. So the
frame is drawn once, with its grid at fixed places; when the scale changes, only the numbers
beside the grid do, and they are part of the overlay (see `overlay`).
"""

import base64
import functools
import io
from dataclasses import dataclass

import numpy as np

from ...results.style import GRID, INK, PAPER

STEPS = (1, 2, 4, 6, 8, 10)
QUARTERS = (0.0, 0.25, 0.5, 0.75, 1.0)


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
    """A drawn frame."""

    axes: tuple
    size: tuple
    image: str  # a PNG as a data address

    @property
    def view_box(self) -> str:
        """The view box of an SVG laid over the frame, in tenths of a pixel."""
        return f"0 0 {self.size[0] * 10} {self.size[1] * 10}"

    def backdrop(self) -> str:
        """The frame as an HTML image that says nothing: the overlay carries the words."""
        style = "display:block;width:100%;height:auto;border-radius:6px"
        return f'<img alt="" src="{self.image}" style="{style}">'


@functools.lru_cache(maxsize=16)
def draw_frame(axes: tuple[Axes, ...], size: tuple, dpi: int = 200) -> Frame:
    """Draw the still part of a picture.

    Parameters
    ----------
    size
        Width and height in pixels.
    dpi
        Sharpness of the picture; its size on the page does not depend on it.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    width, height = size
    figure = Figure(figsize=(width / 100, height / 100), dpi=dpi, facecolor=PAPER)
    FigureCanvasAgg(figure)
    for one in axes:
        if one.bare:
            continue
        left, top, wide, high = one.box
        plot = figure.add_axes((left / width, 1 - (top + high) / height, wide / width, high / height))
        plot.set_xlim(0, 1)
        plot.set_ylim(0, 1)
        plot.set_xticks(one.across, [""] * len(one.across))
        plot.set_yticks(one.up, [""] * len(one.up))
        plot.grid(color=GRID, linewidth=0.8)
        plot.tick_params(color=INK, length=4)
        plot.set_axisbelow(True)
        if one.zero is not None:
            plot.axhline(one.zero, color=INK, linewidth=0.8)
        plot.set_ylabel(one.label, fontsize=9.5, color=INK)
        plot.yaxis.set_label_coords(-62 / wide, 0.5)
        plot.set_xlabel(one.below, fontsize=9.5, color=INK)
        plot.xaxis.set_label_coords(0.5, -27 / high)
        for spine in plot.spines.values():
            spine.set_color(INK)
    stream = io.BytesIO()
    figure.savefig(stream, format="png", dpi=dpi)
    image = "data:image/png;base64," + base64.b64encode(stream.getvalue()).decode()
    return Frame(axes, size, image)


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
