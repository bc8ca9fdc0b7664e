"""Parts list: a design's parts in a line each, what to mind, and designs side by side, as HTML."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ...circuit.html import items, joined, table, tag
from ...circuit.values import show_reading
from ...design import compare
from ...design.comparison import changes
from ...design.fit import fit_words
from ...design.ratings import QUANTITIES
from ...design.ratings.wording import OPENS
from ...design.result import NEEDED
from ...design.topologies import HEADER, topologies
from ...results.style import LOOKS, on_page

if TYPE_CHECKING:
    from ...design.chosen_part import ChosenPart
    from ...design.result import Design

CAPTION = "The parts, and what each has to stand"
_BEFORE = "The parts before the last move; the new ones are worked out when the sliders rest"
_NOTES_BEFORE = "These notes are of the wishes before the last move; the new ones follow when the sliders rest."
_ASK = "ask the data sheet"
_HEADS = ("part", "value", "kind", "worst found", "stands", "share of what it stands")
_FOLDED = "Fuse, varistor, margins, and the faults that no part is chosen for"
_TRACK = (
    "display:inline-block;width:110px;height:12px;margin-right:8px;vertical-align:-1px;border:1px solid currentColor"
)


def parts(design: Design, current: bool = True) -> str:
    """A line for each part of a design: the kind, the worst that it has to stand, and how much of its rating that is.

    Parameters
    ----------
    current
        Whether it is the design of the wishes that are shown; else the caption says that another is worked out.
    """
    rows = [(f"{part.symbol} {part.name}", part.value_text, part.kind_text, *_stress(part)) for part in design.parts]
    return _table(CAPTION if current else _BEFORE, _HEADS, rows, words=(2, 3, 5))


def notes(design: Design, current: bool = True) -> str:
    """What to mind of a design: warnings in sight, what goes to data sheets folded.

    Parameters
    ----------
    current
        As for `parts`.
    """
    seen = [*(() if current else (_NOTES_BEFORE,)), design.rule_check.words, *design.warnings, fit_words(design)]
    folded = [NEEDED, *design.advice, *_beyond(design)]
    fold = tag("details", tag("summary", _FOLDED), tag("ul", items(folded), css="dropper-parts"))
    return tag("div", tag("ul", items(seen), css="dropper-parts"), fold, css="dropper-words")


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


def other_circuits(design: Design) -> str:
    """The design beside other circuits for the same LEDs."""
    return _table("Other circuits for these LEDs", HEADER, [other.row for other in topologies(design)], words=(7,))


def _beyond(design):
    """The faults that no part is chosen for, what must help against them said once."""
    faults = (fault.removesuffix(OPENS).strip() for fault in design.ratings.beyond)
    faults = [fault.replace(": no part is chosen for that.", ":") for fault in faults]
    return [f"No part is chosen for these faults. {OPENS}", *faults] if faults else []


def _stress(part: ChosenPart):
    """The worst, what the kind stands, and the share of it that is needed, as a bar and in figures."""
    if part.rating is None:
        return "–", "–", "–"
    check = part.rating.tightest
    worst = f"{QUANTITIES[check.quantity][0]} {check.worst.text}"
    if part.rating.verdict == _ASK:
        return worst, "–", _ASK
    if check.needed > 1.001 * check.worst.value:  # a margin is kept in what lasts
        worst += f"; {show_reading(check.needed, check.worst.unit)} with its margin"
    return worst, check.limit_text, _bar(check.use)


def _bar(share):
    filled = f"display:block;height:10px;width:{100 * min(share, 1.0):.0f}%;background:{on_page(LOOKS['power'].colour)}"
    track = tag("span", tag("span", style=f"{filled};forced-color-adjust:none"), style=_TRACK, aria_hidden="true")
    return joined(track, f"{100 * share:.0f} %")


def _table(caption, heads, rows, words=()):
    """A table as wide as its place; columns of words stand to the left and wrap, those of numbers to the right."""
    rows = [(head, *(text if n in words else _whole(text) for n, text in enumerate(rest, 1))) for head, *rest in rows]
    columns = {n: _align("left" if n == 0 or n in words else "right") for n in range(len(heads))}
    return table(caption, heads, rows, css="dropper-table", style="width:100%;max-width:none", columns=columns)


def _whole(text):
    """A number does not wrap in itself; what a comparison says of it may go below."""
    number, bracket, change = text.partition(" (")
    return joined(tag("span", number, style="white-space:nowrap"), bracket, change)


def _align(side):
    return f'style="white-space:normal;text-align:{side}"'
