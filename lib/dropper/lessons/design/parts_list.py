"""A design's parts, what to mind, and designs side by side, as HTML."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import TYPE_CHECKING

from ...design import compare
from ...design.constraints import changes
from ...design.ratings.wording import OPENS

if TYPE_CHECKING:
    from ...design.result import Design


def whole(made: Design) -> str:
    """The parts, advice and warnings of a design."""
    signed = [(f"{sign} {name}", *rest) for sign, name, *rest in made.rows()]
    told = "".join(f"<li>{escape(each)}</li>" for each in (*made.warnings, *made.advice, *_beyond(made)))
    return _table("The parts, and what each has to stand", made.header[1:], signed, words=(3, 4)) + (
        f'<div class="dropper-words"><p>{escape(made.kept.words)}</p><ul class="dropper-parts">{told}</ul></div>'
    )


def _beyond(made):
    """The faults that no part is chosen for, what must help against them said once."""
    faults = (told.removesuffix(OPENS).strip() for told in made.ratings.beyond)
    faults = [told.replace(": no part is chosen for that.", ":") for told in faults]
    return [f"No part is chosen for these faults. {OPENS}", *faults] if faults else []


def beside(designs: Sequence[Design]) -> str:
    """Designs that were kept, side by side; nothing where there is none."""
    if not designs:
        return ""
    first = designs[0].brief
    numbered = []
    for place, made in enumerate(designs, start=1):
        other = "".join(f"; {name} {new}" for name, _, new in changes(first, made.brief))
        numbered.append(made.named(f"{place}. {made.brief.name}{other}"[:80]))
    header, rows = compare(numbered)
    return _table("Kept, side by side; changes against the first", ["quantity", *header[1:]], rows)


def _table(caption, heads, rows, words=()):
    """A table as wide as its place; columns of words stand to the left and wrap, those of numbers to the right."""
    left = (0, *words)
    head = "".join(f'<th scope="col"{_set(place in left)}>{escape(text)}</th>' for place, text in enumerate(heads))
    body = "".join(f'<tr><th scope="row">{escape(first)}</th>{_cells(rest, words)}</tr>' for first, *rest in rows)
    return (
        f'<table class="dropper-table" style="width:100%"><caption>{escape(caption)}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    )


def _cells(texts, words):
    """Numbers do not wrap in themselves; what a comparison says of them may go below."""
    return "".join(
        f"<td{_set(place in words)}>{escape(text) if place in words else _whole(text)}</td>"
        for place, text in enumerate(texts, start=1)
    )


def _whole(text):
    number, bracket, change = escape(text).partition(" (")
    return f'<span style="white-space:nowrap">{number}</span>{bracket}{change}'


def _set(words):
    return f' style="white-space:normal;text-align:{"left" if words else "right"}"'
