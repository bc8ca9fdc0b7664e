"""Bench page: the check-list of one lamp for the printer, a box to tick and room to write for every step."""

from dataclasses import dataclass, field
from pathlib import Path

from ..bench.checklist import WHO, CheckList
from ..circuit.excerpt import excerpt
from ..circuit.fields import documented
from ..circuit.html import items, joined, tag
from ..circuit.lamp import Lamp
from ..standards.cautions import caution_texts
from .entries import clean_entry
from .files import write_text
from .page import day, document, origin, table

LONGEST_NAME = 60
_STYLE = """
main { display: block; }
.head { border-bottom: 2px solid #1a1a1a; padding-bottom: .2rem; margin-bottom: .5rem; }
.head h1 { font-size: 1.9rem; }
section { padding-top: .6rem; }
section > p { padding-bottom: .15rem; }
.steps caption { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
.steps th:first-child { width: 6.4rem; }
.steps td:nth-child(2) { width: 25%; }
.steps td:nth-child(3) { width: 25%; }
.steps td:last-child, .steps thead th:last-child { border-left: 1px solid #d0d0d0; padding-left: .4rem; width: 10rem; }
.cautions { border: 2px solid #1a1a1a; padding: .3rem .5rem; }
.cautions li { padding-left: 1rem; text-indent: -1rem; }
.cautions li::before { content: "⚠"; display: inline-block; width: 1rem; text-indent: 0; }
@media print { main { min-height: 0; break-inside: auto; } section > h2, section > p { break-after: avoid; } }
"""
_HEADS = ("done", "do", "expect", "because", "found")


@documented
@dataclass(frozen=True)
class BenchPage:
    """A check-list as a page."""

    lamp: Lamp
    html: str = field(repr=False)

    def write(self, path: str | Path) -> Path:
        """Write the page, whole or not at all; `SheetError` if it cannot be."""
        return write_text(path, self.html)


def bench_page(checklist: CheckList, *, builder: str = "", date: str | None = None, paper: str = "A4") -> BenchPage:
    """A lamp's check-list for the printer.

    Parameters
    ----------
    builder
        As typed, at most 60 characters.
    date
        "2026-03-09"; None: today.
    paper
        "A4" or "Letter".

    Raises
    ------
    TypeError
        If it is no CheckList.
    ValueError
        For a name that is too long, or a date or paper that will not do.
    """
    if not isinstance(checklist, CheckList):
        raise TypeError(f"checklist: {excerpt(checklist)} is not a CheckList")
    lamp = checklist.lamp
    name = lamp.name.strip() or "lamp without a name"
    who = clean_entry("builder", builder, LONGEST_NAME)
    by = joined(" At the bench: ", tag("bdi", who), ".") if who else ""
    rows, parts = iter(checklist.rows()), []
    for stage in checklist.stages:
        steps = [next(rows) for _ in stage.steps]
        caution = tag("p", f"⚠ {stage.caution}") if stage.caution else ""
        boxed = [
            (f"☐ {number}\n{name}", do, "\n".join(filter(None, (expect, stop and f"STOP: {stop}"))), why, "")
            for number, name, do, expect, stop, why in steps
        ]
        listed = table(f"Steps: {stage.title}", _HEADS, boxed, css="steps")
        parts.append(tag("section", tag("h2", stage.title), caution, listed))
    before = tag("ul", items(caution_texts(lamp)))
    head = tag("header", tag("h1", f"{name}: on the bench"), tag("p", origin(day(date)), by, f" {WHO}"), css="head")
    first = tag("section", tag("h2", "Before anything else"), before, css="cautions")
    body = "\n".join([head, first, *parts])
    return BenchPage(lamp, document(f"{name} – bench check-list", body, paper=paper, style=_STYLE))
