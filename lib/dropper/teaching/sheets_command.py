"""Command `python -m dropper sheets`: writes a class's sheets, their key, and progress files that ask the same."""

from __future__ import annotations

import argparse

from ..lessons.tasks import progress_file
from ..lessons.tasks.progress import FILE
from ..sheet.page import PAPERS
from .folder import folder_for, write
from .handout import Handout


def add_options(parser: argparse.ArgumentParser) -> None:
    """Say what may be typed."""
    parser.add_argument("folder", help="where the pages go; not the folder of notebooks, for pupils see that")
    parser.add_argument("--lesson", type=int, required=True, help="1 to 14")
    parser.add_argument("--seed", type=int, default=1, help="of the class: the same seed gives the same sheets")
    parser.add_argument(
        "--pupils", type=int, default=0, help="a sheet with numbers of its own for each; else one for all"
    )
    parser.add_argument("--tasks", nargs="+", default=[], metavar="N.M", help="such as 4.1 4.6; else the first six")
    parser.add_argument("--paper", choices=PAPERS, default=PAPERS[0])
    parser.add_argument(
        "--progress", action="store_true", help=f"also a {FILE} for each pupil, with the sheet's numbers"
    )


def run(known: argparse.Namespace) -> None:
    """Write the pages and say where they are."""
    try:
        handout = Handout(known.lesson, known.seed, known.pupils, tuple(known.tasks))
    except ValueError as error:
        raise SystemExit(str(error)) from None
    folder = folder_for(known.folder)
    name = f"lesson_{known.lesson:02}_seed_{known.seed}"
    write(folder / f"{name}_sheets.html", handout.sheets(known.paper))
    write(folder / f"{name}_key.html", handout.key(known.paper))
    if known.progress:
        for whose, seed in handout.seeds.items():
            place = folder_for(folder / whose.replace(" ", "_"))
            if (place / FILE).exists():
                print(f"{place / FILE} is there already, and stays.")
            else:
                progress_file.write(place / FILE, seed, {})
