"""The still part of a picture: axes drawn once by matplotlib, and where things go on them.

Drawing axes and type costs tens of milliseconds, curves laid over them one or two. So the
frame is drawn once, with its grid at fixed places; when the scale changes, only the numbers
beside the grid do, and they are part of the overlay.
"""

import base64
import functools
import io
from dataclasses import dataclass

import numpy as np

from .style import GRID, INK, PAPER

STEPS = (1, 2, 4, 6, 8, 10)


@dataclass(frozen=True)
class Panel:
    """One set of axes: its label, and whether the scale goes below zero.

    `rows` is its share of the height.
    """

    label: str
    signed: bool
    rows: int = 1

    @property
    def marks(self):
        """Where the horizontal grid stands, as fractions of the scale."""
        return (-1.0, -0.5, 0.0, 0.5, 1.0) if self.signed else (0.0, 0.25, 0.5, 0.75, 1.0)


@dataclass(frozen=True)
class Frame:
    """A drawn frame and the places of its axes, in tenths of a pixel from the top left."""

    image: str  # a PNG as a data address
    size: tuple
    boxes: tuple  # (left, bottom, width, height) of each panel, y downwards
    lowest: tuple  # the lower end of each panel's scale, as a fraction of it

    @property
    def view(self):
        """The view box of an SVG laid over the frame."""
        return f"0 0 {self.size[0] * 10} {self.size[1] * 10}"

    def points(self, panel, values, scale):
        """The curve's points as SVG text; values are spread evenly over the width.

        Values outside the panel are held at its edge.
        """
        left, bottom, width, height = self.boxes[panel]
        low, high = bottom - height, bottom
        lowest = self.lowest[panel]
        x = _even(left, width, len(values))
        share = (np.asarray(values) / scale - lowest) / (1 - lowest)
        y = np.clip(bottom - height * share, low, high).astype(np.int64)
        return " ".join([f"{a},{b}" for a, b in zip(x, y.tolist(), strict=True)])

    def level(self, panel, fraction):
        """The height, in the overlay's units, of a fraction of the scale."""
        _, bottom, _, height = self.boxes[panel]
        lowest = self.lowest[panel]
        return bottom - height * (fraction - lowest) / (1 - lowest)


@functools.lru_cache(maxsize=32)
def _even(left, width, count):
    return tuple(int(left + width * (k + 0.5) / count) for k in range(count))


@functools.lru_cache(maxsize=8)
def draw_frame(panels, size, x_label, columns=4, dpi=200):
    """Draw the axes of stacked panels that share their x axis.

    Parameters
    ----------
    panels : tuple of Panel
    size : tuple
        Width and height in pixels.
    x_label : str
    columns : int
        How many equal parts the x axis is divided into.
    dpi : int
        Sharpness of the picture; its size on the page does not depend on it.

    Returns
    -------
    Frame
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    width, height = size
    figure = Figure(figsize=(width / 100, height / 100), dpi=dpi, facecolor=PAPER)
    FigureCanvasAgg(figure)
    grid = figure.add_gridspec(
        len(panels), 1, height_ratios=[panel.rows for panel in panels],
        left=86 / width, right=1 - 118 / width, top=1 - 14 / height, bottom=58 / height, hspace=0.16,
    )  # fmt: skip
    boxes, lowest = [], []
    for number, panel in enumerate(panels):
        axes = figure.add_subplot(grid[number, 0])
        axes.set_xlim(0, 1)
        axes.set_ylim(-1 if panel.signed else 0, 1)
        axes.set_xticks(np.linspace(0, 1, columns + 1), [""] * (columns + 1))
        axes.set_yticks(panel.marks, [""] * len(panel.marks))
        axes.grid(color=GRID, linewidth=0.8)
        axes.tick_params(color=INK, length=4)
        axes.set_axisbelow(True)
        if panel.signed:
            axes.axhline(0, color=INK, linewidth=0.8)
        axes.set_ylabel(panel.label, fontsize=9.5, color=INK)
        axes.yaxis.set_label_coords(-62 / (width - 204), 0.5)
        for spine in axes.spines.values():
            spine.set_color(INK)
        place = axes.get_position()
        boxes.append(
            tuple(
                round(part)
                for part in (
                    place.x0 * width * 10, (1 - place.y0) * height * 10,
                    place.width * width * 10, place.height * height * 10,
                )
            )
        )  # fmt: skip
        lowest.append(-1.0 if panel.signed else 0.0)
    axes.set_xlabel(x_label, fontsize=9.5, color=INK, labelpad=18)
    stream = io.BytesIO()
    figure.savefig(stream, format="png", dpi=dpi)
    image = "data:image/png;base64," + base64.b64encode(stream.getvalue()).decode()
    return Frame(image, size, tuple(boxes), tuple(lowest))


def nice_scale(largest, least):
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
