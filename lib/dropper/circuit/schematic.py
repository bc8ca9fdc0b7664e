"""Schematic: the circuit drawn from the lamp, IEC symbols, every value, one part marked."""

from __future__ import annotations

import functools
import re
from html import escape
from typing import TYPE_CHECKING

from . import symbols
from .html import Markup
from .parts import BY_KEY, fitted_parts, value_of

if TYPE_CHECKING:
    from .lamp import Lamp

_INK = "#1a1a1a"
INK = f"var(--jp-content-font-color1, {_INK})"  # the page's own; on paper, where there is none, black
MARK = "#f0b400"
MORE = {"fuse": "F1", "clamp": "D5"}  # what a lamp has no field for


def draw(lamp: Lamp, marked: str | None = None, captions: dict[str, str] | None = None) -> Markup:
    """The lamp's circuit as SVG text, with its reading in a sentence as text alternative.

    Parameters
    ----------
    marked
        Key of a part (see `parts`) to stand on a marked ground.
    captions
        Captions in place of the lamp's values, by the part's key: {"bleeder": "2 × 510 kΩ"}. "fuse" and "clamp" are
        drawn where they have one.
    """
    captions = captions or {}
    keys = tuple(part.key for part in fitted_parts(lamp))
    svg, boxes = _template(keys + tuple(key for key in MORE if key in captions))
    texts = {key: value_of(lamp, key) for key in keys}
    texts["volts"], texts["hertz"] = texts["mains"].split(", ")
    texts["leds"] = f"{lamp.string.in_series} × {lamp.string.in_parallel}"
    for key, caption in (texts | captions).items():
        svg = svg.replace(f"@{key}@", escape(caption))
    mark = ""
    if marked in boxes:
        x, y, width, height = boxes[marked]
        mark = (
            f'<rect x="{x:.0f}" y="{y:.0f}" width="{width:.0f}" height="{height:.0f}" rx="8"'
            f' fill="{MARK}" fill-opacity="0.45" stroke="{INK}" stroke-width="2" stroke-dasharray="6 4"/>'
        )
    head, body = svg.split(">", 1)
    label = escape(reading(lamp, marked, captions), quote=True)
    return Markup(f'{head} role="img" aria-label="{label}">{mark}{body}')


def reading(lamp: Lamp, marked: str | None = None, captions: dict[str, str] | None = None) -> str:
    """The drawing in words, part after part in the order of the current."""
    captions, names = captions or {}, []
    for part in fitted_parts(lamp):
        names.append(f"{part.name} {part.symbol}, {captions.get(part.key) or value_of(lamp, part.key)}")
        if part.key == "mains" and "fuse" in captions:
            names.append(f"fuse {MORE['fuse']}")
        if part.key == "smoothing" and "clamp" in captions:
            names.append(f"clamp {MORE['clamp']}, {captions['clamp']}")
    words = f"Circuit of {lamp.name}, in the order of the current: {'; '.join(names)}."
    if marked in BY_KEY:
        words += f" Marked: {BY_KEY[marked].name}."
    return words


@functools.lru_cache(maxsize=64)
def _template(keys):
    """The drawing with a token @key@ for each value, and the box of each part in its units."""
    elm = symbols.elements()
    drawing = symbols.new_drawing(fontsize=15, color=_INK, lw=1.8, inches_per_unit=0.5, margin=0.2)
    placed = {}

    def part(key, element, text=True, **where):
        symbol = MORE[key] if key in MORE else BY_KEY[key].symbol
        if text:
            element = element.label(f"{symbol}\n@{key}@", **where)
        placed[key] = drawing.add(element)
        return placed[key]

    def across(key, element):
        return part(key, element, loc="bottom", ofst=0.15)

    drawing.config(unit=3)
    long = 7
    if "fuse" in keys:
        long = 4.8
    source = elm.SourceSin().up().length(long).label("V1\n@volts@\n@hertz@", loc="top", ofst=0.2)
    source = placed["mains"] = drawing.add(source)
    if "fuse" in keys:
        part("fuse", elm.FuseIEC().up().length(7 - long), loc="top", ofst=0.2)
    drawing.add(elm.Line().right().length(0.7))
    if "inrush_resistor" in keys:
        part("inrush_resistor", elm.ResistorIEC().right(), loc="top")
    else:
        drawing.add(elm.Line().right())
    drawing.add(elm.Line().right().length(0.5))
    if "bleeder" in keys:
        drawing.push()
        drawing.add(elm.Dot())
        drawing.add(elm.Line().up().length(1.6))
        part("bleeder", elm.ResistorIEC().right(), loc="top")
        drawing.add(elm.Line().down().length(1.6))
        drawing.add(elm.Dot())
        drawing.pop()
    part("dropper", elm.Capacitor().right(), loc="bottom", ofst=0.25)
    drawing.add(elm.Line().right().length(2.2))
    bridge = drawing.add(elm.Rectifier().anchor("N").label("D1–D4", loc="center", fontsize=13))
    placed["diodes"] = bridge
    drawing.add(elm.Line().at(bridge.S).toy(source.start))
    drawing.add(elm.Line().tox(source.start))
    # The dc side: plus to the right along the top, minus round the bottom.
    drawing.add(elm.Line().at(bridge.W).left().length(0.6))
    corner = drawing.add(elm.Line().down().length(4.6)).end
    x, top, low = bridge.E[0] + 1.2, bridge.E[1], corner[1]
    drawing.add(elm.Line().at(bridge.E).to((x, top)))
    drawing.add(elm.Line().at(corner).to((x, low)))
    dc_side = (
        ("smoothing", elm.Capacitor(polar=True)),
        ("clamp", elm.Zener().reverse()),
        ("smoothing_bleeder", elm.ResistorIEC()),
    )
    for key, element in dc_side:
        if key in keys:
            drawing.add(elm.Dot().at((x, top)))
            drawing.add(elm.Dot().at((x, low)))
            across(key, element.at((x, top)).to((x, low)))
            drawing.add(elm.Line().at((x, top)).to((x + 3.0, top)))
            drawing.add(elm.Line().at((x, low)).to((x + 3.0, low)))
            x += 3.0
    if "series_resistor" in keys:
        part("series_resistor", elm.ResistorIEC().at((x, top)).to((x + 3.0, top)), loc="top")
    else:
        drawing.add(elm.Line().at((x, top)).to((x + 3.0, top)))
    across("leds", elm.LED().at((x + 3.0, top)).to((x + 3.0, low)))
    drawing.add(elm.Line().at((x, low)).to((x + 3.0, low)))
    text = drawing.get_imagedata("svg").decode()
    left, top, width, height = (float(x) for x in re.search(r'viewBox="([^"]+)"', text)[1].split())
    view = f"{left - 30:.0f} {top - 10:.0f} {width + 70:.0f} {height + 20:.0f}"
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}" style="width:100%;max-width:1080px;height:auto">'
    body = text[text.index(">", text.index("<svg")) + 1 :]
    return head + re.sub(rf"{_INK}|\bblack\b", INK, body), _boxes(drawing, placed, (left, top, width))


def _boxes(drawing, placed, view):
    left, top, width = view
    whole = drawing.get_bbox()
    scale = width / (whole.xmax - whole.xmin) if whole.xmax > whole.xmin else 1
    boxes = {}
    for key, element in placed.items():
        box = element.get_bbox(transform=True)
        boxes[key] = (
            left + (box.xmin - whole.xmin) * scale - 8,
            top + (whole.ymax - box.ymax) * scale - 8,
            (box.xmax - box.xmin) * scale + 16,
            (box.ymax - box.ymin) * scale + 20,
        )
    return boxes
