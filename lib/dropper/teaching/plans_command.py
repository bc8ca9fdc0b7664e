"""Command `python -m dropper plans`: writes a plan for each lesson, and the further pages for whoever teaches."""

from __future__ import annotations

import argparse
from pathlib import Path

from ..circuit import html
from ..lab.notebooks import notebooks_folder
from ..sheet import document, origin
from ..sheet.page import PAPERS
from .bets import bets_of, notebook_of
from .folder import folder_for, write
from .pages import PAGES, page
from .plan import Plan, lessons
from .plan_page import plan_page


def add_options(parser: argparse.ArgumentParser) -> None:
    """Say what may be typed."""
    parser.add_argument("folder", help="where the pages go; not the folder of notebooks, for pupils see that")
    parser.add_argument("--lesson", type=int, choices=lessons(), help="this one alone; else all")
    parser.add_argument("--paper", choices=PAPERS, default=PAPERS[0])


def run(known: argparse.Namespace) -> None:
    """Write the pages and say where they are."""
    notebooks = notebooks_folder().absolute()
    folder = folder_for(known.folder)
    if known.lesson is not None:
        write(folder / f"plan_{known.lesson:02}.html", plan_of(known.lesson, notebooks, known.paper))
        return
    links = []
    for lesson in lessons():
        write(folder / f"plan_{lesson:02}.html", plan_of(lesson, notebooks, known.paper))
        links.append(html.tag("a", f"Plan of lesson {lesson:02}", href=f"plan_{lesson:02}.html"))
    for name in PAGES:
        title, text = page(name, known.paper)
        write(folder / f"{name}.html", text)
        links.append(html.tag("a", title, href=f"{name}.html"))
    body = html.joined(html.tag("h1", "For a class"), html.tag("ul", html.items(links)), html.tag("footer", origin()))
    write(folder / "index.html", document("For a class", body, paper=known.paper))


def plan_of(lesson: int, notebooks: Path, paper: str = "A4") -> str:
    """A lesson's plan as an HTML document, with what its notebook asks."""
    notebook_of(lesson, notebooks)
    return plan_page(Plan.of(lesson, notebooks / "lamps"), bets_of(lesson, notebooks), paper)
