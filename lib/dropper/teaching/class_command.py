"""Command `python -m dropper class`: makes tables of a folder of pupils' progress files."""

from __future__ import annotations

import argparse
from pathlib import Path

from ..sheet.page import PAPERS
from .class_files import pupils_in
from .class_page import class_page, prediction_table, task_table
from .folder import folder_for, write


def add_options(parser: argparse.ArgumentParser) -> None:
    """Say what may be typed."""
    parser.add_argument(
        "folder", help="of progress files: NAME.json, or NAME/my_progress.json; folders inside count too"
    )
    parser.add_argument("--to", default="", help="where the tables go, if not there")
    parser.add_argument("--paper", choices=PAPERS, default=PAPERS[0])


def run(known: argparse.Namespace) -> None:
    """Write the tables; say where they are, and which files were left out."""
    folder = Path(known.folder).expanduser()
    if not folder.is_dir():
        raise SystemExit(f"{known.folder}: there is no such folder.")
    target = folder_for(known.to or folder)
    pupils, said = pupils_in(folder)
    for sentence in said:
        print(sentence)
    if not pupils:
        raise SystemExit(f"No progress file that can be read is in {known.folder}.")
    write(target / "class.html", class_page(pupils, said, known.paper))
    write(target / "class_tasks.csv", task_table(pupils))
    write(target / "class_predictions.csv", prediction_table(pupils))
