"""Faulty circuit: every part of the lamp by its name, the broken one drawn as it is and marked, and its light."""

from __future__ import annotations

import functools
import itertools
from html import escape
from typing import TYPE_CHECKING

from ...circuit import symbols
from ...circuit.html import Markup
from ...circuit.parts import fitted_parts, value_of
from ...results.style import INK, LOOKS, SUN, on_page

if TYPE_CHECKING:
    from ...circuit.lamp import Lamp
    from ...solver.steady import SteadyState
    from ...solver.transient import Fault

_MARK = "#f0b400"
_UNSEEN = "#fefdfc"  # of what is only there for its label
_THROUGH, _PAST = LOOKS["string_current"].colour, LOOKS["line_current"].colour
_TOP, _MIDDLE, _LOW, _FOOT = 5.0, 3.0, 1.0, -0.6  # heights: line, dc nodes, neutral, minus
_LINE, _MINUS, _PLUS = 13.4, 11.2, 15.6  # across: the bridge's ac nodes, and its dc nodes
_NODES = {"line": (_LINE, _TOP), "neutral": (_LINE, _LOW), "plus": (_PLUS, _MIDDLE), "minus": (_MINUS, _MIDDLE)}
_DIODES = {"D1": ("line", "plus"), "D2": ("neutral", "plus"), "D3": ("minus", "line"), "D4": ("minus", "neutral")}
_LEDS = ("string", "LED", "group", "groups")
_RAIL, _END = 5.0, 27.4  # height of plus behind the bridge, and where the string stands
# With one diode short: the diodes of the half cycle through the string, and of the one past it.
_WAYS = {
    "D1": (("D1", "D4"), ("D2", "D1")),
    "D2": (("D2", "D3"), ("D1", "D2")),
    "D3": (("D2", "D3"), ("D3", "D4")),
    "D4": (("D1", "D4"), ("D4", "D3")),
}


def draw(lamp: Lamp, fault: Fault | None, now: SteadyState | None = None) -> Markup:
    """The circuit as SVG text.

    Parameters
    ----------
    fault
        Whose part is drawn as it is, an open one as a gap and a short one as a wire, on a marked ground; None for the
        healthy lamp.
    now
        The lamp's cycle, by which its LEDs glow, and the ways of the current are drawn where one diode is short; None
        to show neither, while the light is still to be guessed.
    """
    keys = tuple(part.key for part in fitted_parts(lamp))
    svg = _template(keys, fault and fault.kind, broken_parts(fault), ways_of(fault) if now is not None else ())
    captions = {key: value_of(lamp, key) for key in keys}
    captions["mains"] = captions["mains"].split(", ")[0]
    captions["leds"] = f"{lamp.string.in_series} × {lamp.string.in_parallel}"
    for key, caption in captions.items():
        svg = svg.replace(f"@{key}@", escape(caption))
    light = 0.0 if now is None or now.dark else min(now.relative_current, 1.6)
    svg = svg.replace("@light@", f"{min(0.75 * light, 1.0):.2f}").replace("@glow@", f"{16 + 22 * light:.0f}")
    label = escape(reading(lamp, fault, now), quote=True)
    head, body = svg.split(">", 1)
    return Markup(f'{head} role="img" aria-label="{label}">{body}')


def reading(lamp: Lamp, fault: Fault | None, now: SteadyState | None = None) -> str:
    """The drawing in words."""
    names = [f"{part.symbol} {part.name}" for part in fitted_parts(lamp)]
    words = f"Circuit of {lamp.name}: {', '.join(names)}. D1 and D3 meet at the dropper, D2 and D4 at the neutral."
    if fault is None:
        return words
    words += f" Marked: {fault.words(lamp)}."
    ways = ways_of(fault) if now is not None else ()
    if ways:
        through, past = (" and ".join(diodes) for diodes in ways)
        words += f" In one half cycle the current goes through {through} and the string, in the other through {past}."
    return words


def broken_parts(fault: Fault | None) -> tuple[str, ...]:
    """Keys of the drawn parts that a fault has: diodes by their names."""
    if fault is None:
        return ()
    if fault.part in _LEDS:
        return ("leds",)
    return tuple(fault.part.split(" and "))


def ways_of(fault: Fault | None) -> tuple[tuple[str, str], ...]:
    """With one diode short: the diodes of the half cycle through the string, and of the one past it; else nothing."""
    if fault is None or fault.kind != "short":
        return ()
    return _WAYS.get(fault.part, ())


@functools.lru_cache(maxsize=64)
def _template(keys, kind, broken, ways):
    """The drawing with a token @key@ for each value and for the light."""
    elm = symbols.elements()
    drawing = symbols.new_drawing(fontsize=13, lw=1.5, inches_per_unit=0.38, margin=0.15, unit=3, color=INK)
    marks = []

    def wire(*points):
        for start, end in itertools.pairwise(points):
            drawing.add(elm.Line().at(start).to(end))

    def part(key, element, start, end, label="", **where):
        """A part between two places; a broken one as it is."""
        text = label and f"{label}\n@{key}@" if key not in _DIODES else label
        open_part, short = (key in broken and kind == state for state in ("open", "short"))
        short = short and not (key == "leds" and fault_leaves_leds)
        if key in broken:
            marks.append((start, end))
        if open_part or short:
            where = where | {"ofst": 0.3}
        if open_part:
            element = elm.Line().color(_UNSEEN)
        elif short:
            element = elm.Line().linewidth(4)
        drawing.add(element.at(start).to(end).label(text, color=INK, **where))
        if open_part:
            for place, other in ((start, end), (end, start)):
                near = tuple(a + 0.3 * (b - a) for a, b in zip(place, other, strict=True))
                drawing.add(elm.Line().at(place).to(near))
                drawing.add(elm.Dot(open=True).at(near))

    fault_leaves_leds = kind == "short" and broken == ("leds",)
    for look, diodes in zip(((_THROUGH, "-", 0.16), (_PAST, "--", -0.16)), ways, strict=bool(ways)):
        _way(drawing, elm, diodes, *look)
    drawing.add(elm.SourceSin().at((0, _LOW)).to((0, _TOP)).label("V1\n@mains@", loc="top", ofst=0.15))
    wire((0, _TOP), (0.8, _TOP))
    if "inrush_resistor" in keys:
        part("inrush_resistor", elm.ResistorIEC(), (0.8, _TOP), (3.8, _TOP), "R1", loc="bottom")
    else:
        wire((0.8, _TOP), (3.8, _TOP))
    wire((3.8, _TOP), (5.4, _TOP))
    part("dropper", elm.Capacitor(), (5.4, _TOP), (8.4, _TOP), "C1", loc="bottom", ofst=0.1)
    wire((8.4, _TOP), _NODES["line"])
    if "bleeder" in keys:
        high = _TOP + 1.5
        wire((4.8, _TOP), (4.8, high), (5.4, high))
        part("bleeder", elm.ResistorIEC(), (5.4, high), (8.4, high), "R2", loc="top", ofst=0.05)
        wire((8.4, high), (9.0, high), (9.0, _TOP))
        for x in (4.8, 9.0):
            drawing.add(elm.Dot().at((x, _TOP)))
    wire((0, _LOW), (_MINUS - 0.3, _LOW))
    drawing.add(elm.Arc2(k=-1.0).at((_MINUS - 0.3, _LOW)).to((_MINUS + 0.3, _LOW)))  # it crosses, and does not meet
    wire((_MINUS + 0.3, _LOW), _NODES["neutral"])
    for name, (start, end) in _DIODES.items():
        side = "top" if name in ("D1", "D3") else "bottom"
        part(name, elm.Diode(), _NODES[start], _NODES[end], name, loc=side, ofst=0.05)
    wire(_NODES["minus"], (_MINUS, _FOOT), (_END, _FOOT))
    wire(_NODES["plus"], (_PLUS + 0.9, _MIDDLE), (_PLUS + 0.9, _RAIL), (_PLUS + 0.9, _RAIL))
    x = _PLUS + 0.9
    for key, element, name in (
        ("smoothing", elm.Capacitor(polar=True), "C2"),
        ("smoothing_bleeder", elm.ResistorIEC(), "R3"),
    ):
        if key in keys:
            wire((x, _RAIL), (x + 1.6, _RAIL))
            x += 1.6
            part(key, element, (x, _RAIL), (x, _FOOT), name, loc="bottom", ofst=0.1)
            drawing.add(elm.Dot().at((x, _RAIL)))
            drawing.add(elm.Dot().at((x, _FOOT)))
            wire((x, _RAIL), (x + 1.2, _RAIL))
            x += 1.2
    if "series_resistor" in keys:
        wire((x, _RAIL), (_END - 3.6, _RAIL))
        part("series_resistor", elm.ResistorIEC(), (_END - 3.6, _RAIL), (_END - 0.6, _RAIL), "R4", loc="top")
        wire((_END - 0.6, _RAIL), (_END, _RAIL))
    else:
        wire((x, _RAIL), (_END, _RAIL))
    part("leds", elm.LED(), (_END, _RAIL), (_END, _FOOT), "LEDs", loc="bottom", ofst=0.2)
    return _framed(drawing, marks)


def _way(drawing, elm, diodes, colour, dashes, side):
    """A half cycle's way of the current beside the wires that it takes, and its words at the lower left."""
    string = set(diodes) in ({"D1", "D4"}, {"D2", "D3"})
    first, second = (_DIODES[name] for name in diodes)
    points = [(0.5, _TOP + side), (_LINE, _TOP + side)]
    plus, minus = (_PLUS, _MIDDLE), (_MINUS, _MIDDLE)
    load = [(_PLUS + 0.9, _MIDDLE + side), (_PLUS + 0.9, _RAIL + side), (_END, _RAIL + side), (_END, _FOOT + side)]
    back = [(_MINUS, _FOOT + side)]
    middle = [plus, *load, *back, minus] if string else [plus if "plus" in (*first, *second) else minus]
    if set(diodes) == {"D2", "D3"}:
        middle = middle[::-1]
    points += [*middle, (_LINE, _LOW + side), (0.5, _LOW + side)]
    words, low = ("one half cycle: through the string", 0.1) if string else ("the other half cycle: past it", -0.6)
    drawing.add(elm.Label().at((0.5, low)).label(words, color=colour, halign="left", fontsize=13))
    for start, end in itertools.pairwise(points):
        drawing.add(elm.Line().at(start).to(end).color(colour).linewidth(5).linestyle(dashes))


def _framed(drawing, marks):
    """The drawing as SVG with room around it, a mark behind each broken part and a glow behind the string."""
    text = drawing.get_imagedata("svg").decode()
    text = text[text.index("<svg") :]
    head, body = text.split(">", 1)
    left, top, width, height = (float(side) for side in head.split('viewBox="')[1].split('"')[0].split())
    box = drawing.get_bbox()
    scale = width / (box.xmax - box.xmin)

    def place(point):
        return left + (point[0] - box.xmin) * scale, top + (box.ymax - point[1]) * scale

    ground = []
    x, y = place((_END, (_RAIL + _FOOT) / 2))
    ground.append(f'<circle cx="{x:.0f}" cy="{y:.0f}" r="@glow@" fill="{SUN}" fill-opacity="@light@"/>')
    for start, end in marks:
        x, y = place(tuple((a + b) / 2 for a, b in zip(start, end, strict=True)))
        ground.append(
            f'<rect x="{x - 30:.0f}" y="{y - 30:.0f}" width="60" height="60" rx="10" fill="{_MARK}" fill-opacity="0.4"'
            f' stroke="{on_page(INK)}" stroke-width="1.5" stroke-dasharray="6 4"/>'
        )
    for colour in (_THROUGH, _PAST, INK):
        body = body.replace(colour, on_page(colour))
    body = body.replace(_UNSEEN, "none").replace("stroke-dasharray:7.4,3.2", "stroke-dasharray:12,9")
    view = f"{left - 6:.0f} {top - 14:.0f} {width + 50:.0f} {height + 20:.0f}"
    style = "width:100%;max-width:900px;height:auto"
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}" style="{style}">{"".join(ground)}{body}'
