"""Parts list: a design's parts, what to mind, and designs side by side, as HTML."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ...circuit.html import items, joined, table, tag
from ...design import compare
from ...design.comparison import changes
from ...design.ratings.wording import OPENS
from ...design.result import NEEDED

if TYPE_CHECKING:
    from ...design.result import Design


def parts_and_notes(design: Design) -> str:
    """The parts, advice and warnings of a design."""
    rows = [(f"{sign} {name}", *rest) for sign, name, *rest in design.rows()]
    notes = tag("ul", items((*design.warnings, *design.advice, *_beyond(design))), css="dropper-parts")
    return joined(
        _table("The parts, and what each has to stand", design.header[1:], rows, words=(3, 4)),
        tag("div", tag("p", NEEDED), tag("p", design.rule_check.words), notes, css="dropper-words"),
    )


def _beyond(design):
    """The faults that no part is chosen for, what must help against them said once."""
    faults = (fault.removesuffix(OPENS).strip() for fault in design.ratings.beyond)
    faults = [fault.replace(": no part is chosen for that.", ":") for fault in faults]
    return [f"No part is chosen for these faults. {OPENS}", *faults] if faults else []


def comparison(designs: Sequence[Design]) -> str:
    """Designs that were kept, side by side; nothing where there is none."""
    if not designs:
        return ""
    first = designs[0].brief
    numbered = []
    for place, design in enumerate(designs, start=1):
        other = "".join(f"; {name} {new}" for name, _, new in changes(first, design.brief))
        numbered.append(design.named(f"{place}. {design.brief.name}{other}"[:80]))
    header, rows = compare(numbered)
    return _table("Kept, side by side; changes against the first", ["quantity", *header[1:]], rows)


def _table(caption, heads, rows, words=()):
    """A table as wide as its place; columns of words stand to the left and wrap, those of numbers to the right."""
    rows = [(head, *(text if n in words else _whole(text) for n, text in enumerate(rest, 1))) for head, *rest in rows]
    columns = {n: _align("left" if n == 0 or n in words else "right") for n in range(len(heads))}
    return table(caption, heads, rows, css="dropper-table", style="width:100%", columns=columns)


def _whole(text):
    """A number does not wrap in itself; what a comparison says of it may go below."""
    number, bracket, change = text.partition(" (")
    return joined(tag("span", number, style="white-space:nowrap"), bracket, change)


def _align(side):
    return f'style="white-space:normal;text-align:{side}"'
