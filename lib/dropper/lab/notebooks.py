"""Notebooks of the workbook: in which folder they lie."""

from pathlib import Path

from . import HERE

FIRST = "00_start_here.ipynb"


def notebooks_folder() -> Path:
    """The folder of notebooks: below the current one, or beside this library."""
    for folder in (Path.cwd() / "notebooks", Path.cwd(), HERE.parents[2] / "notebooks"):
        if (folder / FIRST).is_file():
            return folder
    raise SystemExit(f"No notebooks/{FIRST} here. Run this in the folder that holds README.md.")
