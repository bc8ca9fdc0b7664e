"""SVG shapes: the outlines that pictures are made of, as paths of matplotlib; imported only where one is saved."""

import re
from collections.abc import Callable

from matplotlib.patches import FancyBboxPatch
from matplotlib.path import Path


def _polygon(attributes):
    return _polyline(attributes, closed=True)


def _polyline(attributes, closed=False):
    points = [tuple(map(float, pair.split(","))) for pair in attributes["points"].split()]
    return Path([*points, points[0]], closed=True) if closed else Path(points)


def _line(attributes):
    x1, y1, x2, y2 = (float(attributes[key]) for key in ("x1", "y1", "x2", "y2"))
    return Path([(x1, y1), (x2, y2)])


def _rect(attributes):
    x, y, width, height = (float(attributes[key]) for key in ("x", "y", "width", "height"))
    if "rx" in attributes:
        style = f"round,pad=0,rounding_size={attributes['rx']}"
        return FancyBboxPatch((x, y), width, height, boxstyle=style).get_path()
    corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y)]
    return Path(corners, closed=True)


def _circle(attributes):
    return Path.circle((float(attributes["cx"]), float(attributes["cy"])), float(attributes["r"]))


def _path(attributes):
    """The path of an SVG: straight lines, quarters of a circle as curves, absolute and relative."""
    points, codes, here, start = [], [], (0.0, 0.0), (0.0, 0.0)
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", attributes["d"]):
        numbers = [float(number) for number in re.findall(r"-?[\d.]+", rest)]
        kind = letter.upper()
        if kind == "Z":
            points.append(start)
            codes.append(Path.CLOSEPOLY)
            here = start
            continue
        if kind not in _STEPS:
            raise ValueError(f"a path with {letter} in it cannot be saved")
        wide = {"H": 1, "V": 1, "C": 6}.get(kind, 2)
        for at in range(0, len(numbers), wide):
            base = here if letter.islower() else (0.0, 0.0)
            places = _STEPS[kind](numbers[at : at + wide], base, here)
            points += places
            codes += [{"M": Path.MOVETO, "C": Path.CURVE4}.get(kind, Path.LINETO)] * len(places)
            here = places[-1]
            if kind == "M":
                start, kind = here, "L"
    return Path(points, codes)


def _pairs(numbers, base, here):
    return [(base[0] + x, base[1] + y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]


_STEPS: dict[str, Callable] = {
    "M": _pairs,
    "L": _pairs,
    "C": _pairs,
    "H": lambda numbers, base, here: [(base[0] + numbers[0], here[1])],
    "V": lambda numbers, base, here: [(here[0], base[1] + numbers[0])],
}
SHAPES: dict[str, Callable] = {
    "polyline": _polyline,
    "polygon": _polygon,
    "line": _line,
    "rect": _rect,
    "circle": _circle,
    "path": _path,
}
