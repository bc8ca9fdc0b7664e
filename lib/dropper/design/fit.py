"""Fit: how large the parts of a design are, and whether they go into the case of its brief.

Sizes are typical practice, no source: a part that is bought has its own, on its data sheet.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..circuit.fields import about, documented
from ..components.kinds import Chain
from ..components.kinds.resistors import Resistor
from . import constraints

if TYPE_CHECKING:
    from .result import Design

PRACTICE = "typical practice, no source"
_FILLED = 0.4  # share of a case's room that parts, with board and distances, may take; PRACTICE
_RESISTORS = ((0.25, (6.5, 2.5, 2.5)), (0.5, (9.0, 3.2, 3.2)), (1.0, (11.0, 4.5, 4.5)), (2.0, (15.0, 5.5, 5.5)))
_DIODE, _LED, _CLAMP = (5.0, 2.7, 2.7), (8.7, 5.6, 5.6), (5.0, 2.7, 2.7)
# mm³ of a capacitor to each joule that it could hold at its rating: film far more than electrolytic. PRACTICE
_FILM_DENSITY, _ELECTROLYTIC_DENSITY = 73_000.0, 1_600.0
_LEAST_VOLUME = 150.0
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


@documented
@dataclass(frozen=True)
class PartSize:
    """How much room a part takes."""

    symbol: str
    name: str
    count: int
    value: str
    kind: str
    edges: tuple[float, float, float] = about("of one piece, the longest first", "mm")

    @property
    def volume(self) -> float:
        """Of all pieces, mm³."""
        length, width, height = self.edges
        return self.count * length * width * height

    @property
    def words(self) -> str:
        """The size of one piece."""
        return " × ".join(f"{edge:.3g}" for edge in self.edges) + " mm"


def part_sizes(design: Design) -> tuple[PartSize, ...]:
    """The size of each part of a design, typical practice without a source."""
    return tuple(_size(design, part) for part in design.parts)


def _size(design, part):
    kind = part.rating.kind if part.rating else None
    count = kind.count if isinstance(kind, Chain) else 1
    string = design.lamp.string
    if part.part == "diodes":
        count, edges = 4, _DIODE
    elif part.part == "leds":
        count, edges = string.in_series * string.in_parallel, _LED
    elif part.part == "clamp":
        edges = _CLAMP
    elif part.part in ("dropper", "smoothing"):
        edges = _capacitor(part, kind)
    else:
        resistor = kind.part if isinstance(kind, Chain) else kind
        watts = resistor.rated_power if isinstance(resistor, Resistor) else 1.0
        edges = next((size for limit, size in _RESISTORS if watts <= limit * 1.001), _RESISTORS[-1][1])
    return PartSize(part.symbol, part.name, count, part.value_text, part.kind_text, edges)


def _capacitor(part, kind):
    volts = max(kind.ratings.get("ac_voltage", 0.0) * 2**0.5, kind.ratings.get("voltage", 0.0)) or 400.0
    film = part.part == "dropper" or "film" in kind.name.lower()
    joules = part.value * volts**2 / 2
    volume = max(_LEAST_VOLUME, joules * (_FILM_DENSITY if film else _ELECTROLYTIC_DENSITY))
    short = (volume / (2.2 if film else 1.8)) ** (1 / 3)
    return (2.2 * short, short, short) if film else (1.8 * short, short, short)


def fit_words(design: Design) -> str:
    """Whether the parts go into the case of the brief, in a sentence."""
    sizes = part_sizes(design)
    size = constraints.read_enclosure(design.brief.enclosure).size
    inside = [part for part in sizes if part.name != "LEDs"]
    taken = sum(part.volume for part in inside)
    total = f"The parts without the LEDs take {taken / 1e3:.3g} cm³ ({PRACTICE})"
    if size is None:
        return f"{total}. Write the case as a size, like 120 × 60 × 40 mm plastic, to see whether they fit."
    edges = tuple(1e3 * edge for edge in size)
    too_long = [part for part in inside if any(own > of for own, of in zip(part.edges, edges, strict=True))]
    room = edges[0] * edges[1] * edges[2] * _FILLED
    case = " × ".join(f"{edge:.3g}" for edge in edges) + " mm"
    if too_long:
        part = too_long[0]
        return f"{total}. {part.symbol}, {part.name}, of {part.words} does not go into a case of {case}."
    verdict = "They fit" if taken <= room else "They do not fit"
    return (
        f"{total}. {verdict} a case of {case}: {100 * _FILLED:.0f} % of it, {room / 1e3:.3g} cm³, is counted on, the"
        " rest is board, wires and the distances that a standard asks for."
    )


def order_list(design: Design) -> str:
    """The parts to order as CSV: symbol, part, pieces, value, kind, size; a row a part."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(("symbol", "part", "pieces", "value", "kind", f"size of one ({PRACTICE})"))
    for part in part_sizes(design):
        cells = (part.symbol, part.name, part.count, part.value, part.kind, part.words)
        writer.writerow([_text(str(cell)) for cell in cells])
    return text.getvalue()


def _text(cell):
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if cell.lstrip().startswith(_FORMULA) or cell.startswith(_FORMULA) else cell
