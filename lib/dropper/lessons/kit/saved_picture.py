"""Saved picture: what a panel shows, drawn once more by matplotlib for a file: PNG, SVG or PDF.

It is drawn from the SVG that the page has, layer upon layer, on white paper. matplotlib is loaded here, and at no
other moment of a panel's life.
"""

from __future__ import annotations

import io
import re
import textwrap
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING
from xml.etree import ElementTree

from ...results.style import FONT, INK, PAPER, on_paper

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.path import Path
    from matplotlib.transforms import Affine2D

KINDS = {"png": "image/png", "svg": "image/svg+xml", "pdf": "application/pdf"}
_DPI = 200
_POINT = 0.72  # points in a pixel, a hundred of which are an inch
_HEAD, _LINE, _FOOT = 34, 17, 16  # pixels: title, a line of the caption, what is left below
_MARGIN, _LETTER = 16, 7.2  # pixels: beside the words, and of a letter of the caption


def save(layers: Iterable[str], size: tuple[int, int], title: str, caption: str, sentence: str, kind: str) -> bytes:
    """The file of a picture.

    Parameters
    ----------
    layers
        The SVG of each, from the lowest up; "" for none.
    size
        Width and height of the picture in pixels.
    title
        Stands above it.
    caption
        Stands below it, in as many lines as it takes.
    sentence
        The picture in words; goes into the file as its description.
    kind
        One of `KINDS`.

    Raises
    ------
    ValueError
        For another kind; for a picture with something in it that is not drawn here.
    """
    if kind not in KINDS:
        raise ValueError(f"kind: {kind!r} is not known; choose {', '.join(KINDS)}")
    from matplotlib import rc_context
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    width, height = size
    lines = textwrap.wrap(caption, int((width - 2 * _MARGIN) / _LETTER))
    whole = _HEAD + height + _LINE * len(lines) + _FOOT
    with rc_context({"font.family": FONT.split(",")[0], "lines.scale_dashes": False}):
        figure = Figure(figsize=(width / 100, whole / 100), facecolor=PAPER)
        FigureCanvasAgg(figure)
        axes = figure.add_axes((0, 1 - (_HEAD + height) / whole, 1, height / whole))
        axes.axis("off")
        for layer in filter(None, layers):
            _draw(axes, layer, width)
        rows = [(24, title, 16, "bold")]
        rows += [(_HEAD + height + _LINE * (row + 1), line, 12, "normal") for row, line in enumerate(lines)]
        for down, text, letters, weight in rows:
            place = _MARGIN / width, 1 - down / whole
            figure.text(*place, _plain(text), fontsize=letters * _POINT, weight=weight, color=INK)
        stream = io.BytesIO()
        about = {"Title": title, "Subject" if kind == "pdf" else "Description": sentence}
        figure.savefig(stream, format=kind, dpi=_DPI, metadata=about)
    return stream.getvalue()


def _draw(axes: Axes, layer: str, width: int):
    """One layer of SVG, put into axes that are measured as the layer is."""
    from matplotlib.transforms import Affine2D

    root = ElementTree.fromstring(on_paper(layer))
    left, top, wide, high = (float(side) for side in root.get("viewBox").split())
    axes.set(xlim=(left, left + wide), ylim=(top + high, top))
    _draw_inside(axes, root, dict(root.attrib), Affine2D(), width / wide * _POINT)


def _draw_inside(axes, parent, inherited, moved, point):
    """The pieces of an element, each with what it has of its parents; `point`: points in a unit of the drawing."""
    from .svg_shapes import SHAPES

    for piece in parent:
        name = piece.tag.rpartition("}")[2]
        if name == "defs":
            continue
        style = inherited | piece.attrib
        place = _moved(piece.get("transform", "")) + moved
        if name == "g":
            _draw_inside(axes, piece, style, place, point)
        elif name == "text":
            _write(axes, piece, style, place, point)
        elif name in SHAPES:
            _fill(axes, SHAPES[name](piece.attrib), style, place, point)
        else:
            raise ValueError(f"a picture with <{name}> in it cannot be saved")


def _fill(axes: Axes, path: Path, style: Mapping[str, str], place: Affine2D, point: float):
    """A shape, with its edge and what it is filled with."""
    from matplotlib.colors import to_rgba
    from matplotlib.patches import PathPatch

    width = float(style.get("stroke-width", 1)) * point
    dashes = [float(part) * point for part in style.get("stroke-dasharray", "").replace(",", " ").split()]
    fill, stroke = style.get("fill", "#000000"), style.get("stroke", "none")
    patch = PathPatch(path, linewidth=width if stroke != "none" else 0, joinstyle="round", clip_on=False)
    patch.set_transform(place + axes.transData)
    patch.set_capstyle(style.get("stroke-linecap", "butt"))
    if dashes:
        patch.set_linestyle((0, dashes))
    if stroke != "none":
        patch.set_edgecolor(to_rgba(stroke, float(style.get("stroke-opacity", 1))))
    if fill.startswith("url("):  # the one pattern there is
        patch.set(hatch="////", facecolor="none", edgecolor=(0, 0, 0, 0.35))
    else:
        patch.set_facecolor("none" if fill == "none" else to_rgba(fill, float(style.get("fill-opacity", 1))))
    axes.add_patch(patch)


def _write(axes: Axes, piece: ElementTree.Element, style: Mapping[str, str], place: Affine2D, point: float):
    """A line of text, with its halo where it has one."""
    from matplotlib.patheffects import withStroke

    turn = re.search(r"rotate\((-?[\d.]+)", piece.get("transform", ""))
    text = axes.text(
        *place.transform((float(piece.get("x")), float(piece.get("y")))),
        _plain(piece.text or ""),
        color=style.get("fill", INK),
        fontsize=float(style["font-size"]) * point,
        weight=style.get("font-weight", "normal"),
        ha={"middle": "center", "end": "right"}.get(style.get("text-anchor"), "left"),
        va="baseline",
        rotation=-float(turn[1]) if turn else 0,
        rotation_mode="anchor",
    )
    if "stroke" in style:
        halo = withStroke(linewidth=float(style["stroke-width"]) * point, foreground=style["stroke"])
        text.set_path_effects([halo])


def _plain(text):
    """A text in which a dollar sign is no formula's."""
    return text.replace("$", r"\$")


def _moved(transform: str) -> Affine2D:
    """What SVG writes as a list of moves, the first of which is the outermost."""
    from matplotlib.transforms import Affine2D

    moves = Affine2D()
    for name, numbers in reversed(re.findall(r"(\w+)\(([^)]*)\)", transform)):
        values = [float(number) for number in re.split(r"[\s,]+", numbers.strip())]
        if name == "translate":
            moves = moves.translate(*values)
        elif name == "rotate":
            moves = moves.rotate_deg_around(*(values[1:] or (0, 0)), values[0])
        else:
            raise ValueError(f"a picture with the transform {name} in it cannot be saved")
    return moves
