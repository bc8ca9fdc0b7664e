"""Current path: the circuit with every diode drawn, and the path that conducts at the moment lit."""

from __future__ import annotations

import functools
import itertools
from html import escape
from typing import TYPE_CHECKING

from ...circuit import symbols
from ...circuit.html import Markup
from ...circuit.numerals import counted
from ...circuit.parts import value_of
from ...results.style import GHOST, INK, LOOKS, on_page

if TYPE_CHECKING:
    from ...circuit.lamp import Lamp

_LIT, _DIM = LOOKS["line_current"].colour, GHOST
_DIODES = {"positive": ("D1", "D4"), "negative": ("D2", "D3"), "": ()}


def draw(lamp: Lamp, conducting: str, filling: bool, lit: bool, label: str = "") -> Markup:
    """The circuit as SVG text; the parts that carry current are drawn thick, with arrowheads.

    Parameters
    ----------
    conducting
        "positive", "negative" or "" for none of the diodes.
    filling
        The smoothing capacitor takes current rather than gives it.
    lit
        The string carries current.
    label
        What is read out in place of the path.
    """
    keys = tuple(key for key in ("inrush_resistor", "dropper", "smoothing", "leds") if value_of(lamp, key))
    svg = _template(keys, conducting, filling, lit)
    captions = {key: value_of(lamp, key) for key in keys}
    groups, abreast = lamp.string.in_series, lamp.string.in_parallel
    captions["leds"] = counted(groups, "LED") if abreast == 1 else f"{groups} × {abreast} LEDs"
    for key, caption in captions.items():
        svg = svg.replace(f"@{key}@", escape(caption))
    head, body = svg.split(">", 1)
    label = escape(label or reading(lamp, conducting, filling, lit), quote=True)
    return Markup(f'{head} role="img" aria-label="{label}">{body}')


def reading(lamp: Lamp, conducting: str, filling: bool, lit: bool) -> str:
    """The path in words."""
    if conducting:
        first, second = _DIODES[conducting]
        through = f"the dropper and {first}" if conducting == "positive" else first
        words = f"{first} and {second} conduct: the current flows through {through}"
        words += (
            " into the smoothing capacitor and the string"
            if filling
            else " into the string, and the smoothing capacitor helps"
            if lamp.smoothing
            else " into the string"
        )
        back = second if conducting == "positive" else f"{second} and the dropper"
        return f"{words}, and back through {back}."
    words = "No diode conducts; the dropper holds its voltage."
    if lit:
        return words + " The smoothing capacitor alone feeds the string."
    return words + " The string is dark."


@functools.lru_cache(maxsize=64)
def _template(keys, conducting, filling, lit):
    elm = symbols.elements()
    drawing = symbols.new_drawing(fontsize=13, lw=1.4, inches_per_unit=0.44, margin=0.15, unit=3)
    forward = conducting == "positive"
    line, diodes = bool(conducting), _DIODES[conducting]

    def part(element, on, start, end, label=None, **where):
        element = element.at(start).to(end).color(_LIT if on else _DIM).linewidth(3.2 if on else 1.4)
        if label:
            element = element.label(label, color=INK, **where)
        drawing.add(element)

    def wire(on, *points, way=True):
        """A wire through points; an arrowhead in the middle of its first stretch where it is on."""
        points = points if way else points[::-1]
        for start, end in itertools.pairwise(points):
            part(elm.Line(), on, start, end)
        if on:
            (x1, y1), (x2, y2) = points[0], points[1]
            middle = ((x1 + x2) / 2, (y1 + y2) / 2)
            near = (middle[0] - (x2 - x1) * 1e-3, middle[1] - (y2 - y1) * 1e-3)
            drawing.add(elm.Line(arrow="->", arrowwidth=0.35, arrowlength=0.45).at(near).to(middle).color(_LIT))

    top, high, low, foot = 7.0, 4.6, 1.6, -0.8
    part(elm.SourceSin(), line, (0, low), (0, high), "V1", loc="top", ofst=0.2)
    wire(line, (0, high), (1.2, high), way=forward)
    if "inrush_resistor" in keys:
        part(elm.ResistorIEC(), line, (1.2, high), (4.0, high), "R1\n@inrush_resistor@", loc="top")
    else:
        wire(line, (1.2, high), (4.0, high), way=forward)
    part(elm.Capacitor(), line, (4.0, high), (6.6, high), "C1\n@dropper@", loc="top", ofst=0.15)
    wire(line, (6.6, high), (8.0, high), way=forward)
    wire(line, (0, low), (11.0, low), way=not forward)
    for name, start, end in (
        ("D1", (8.0, high), (8.0, top)),
        ("D3", (8.0, 2.2), (8.0, high)),
        ("D2", (11.0, low), (11.0, top)),
        ("D4", (11.0, foot), (11.0, low)),
    ):
        part(elm.Diode(), name in diodes, start, end, name, loc="bottom", ofst=0.15)
    wire(forward, (8.0, top), (11.0, top))
    backward = conducting == "negative"
    wire(backward, (8.0, foot), (8.0, 2.2))
    wire(backward, (11.0, foot), (8.0, foot))
    wire(line, (11.0, top), (13.6, top))
    wire(line, (13.6, foot), (11.0, foot))
    if "smoothing" in keys:
        busy = line or lit
        part(elm.Capacitor(polar=True), busy, (13.6, top), (13.6, foot), "C2\n@smoothing@", loc="bottom", ofst=0.2)
        wire(busy, (13.6, top), (13.6, top - 1.6), way=filling)
        wire(busy, (13.6, foot + 1.6), (13.6, foot), way=filling)
    wire(lit, (13.6, top), (17.0, top))
    part(elm.LED(), lit, (17.0, top), (17.0, foot), "@leds@", loc="bottom", ofst=0.2)
    wire(lit, (17.0, foot), (13.6, foot))
    nodes = [(8.0, high), (11.0, low), (11.0, top), (8.0, foot)] + [(13.6, top), (13.6, foot)] * ("smoothing" in keys)
    for place in nodes:
        drawing.add(elm.Dot().at(place).color(INK))
    text = drawing.get_imagedata("svg").decode()
    head, body = text.split(">", 1) if text.startswith("<svg") else text[text.index("<svg") :].split(">", 1)
    left, top_edge, width, height = (float(part) for part in head.split('viewBox="')[1].split('"')[0].split())
    view = f"{left:.0f} {top_edge:.0f} {width + 60:.0f} {height:.0f}"  # room for the words beside the LEDs
    style = "width:100%;max-width:690px;height:auto"
    for colour in (_LIT, _DIM, INK):
        body = body.replace(colour, on_page(colour))
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}" style="{style}">{body}'
