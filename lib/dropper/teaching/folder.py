"""Folder of what a teacher has made: never the one that pupils' pages serve."""

from __future__ import annotations

from pathlib import Path

from ..lab.notebooks import FIRST
from ..sheet import SheetError, write_text


def folder_for(path: str | Path) -> Path:
    """A folder to write in, made if it is not there; SystemExit in words if it will not do."""
    folder = Path(path).expanduser().absolute()
    for place in (folder, *folder.parents):
        if (place / FIRST).is_file():
            raise SystemExit(f"{folder} lies in the folder of notebooks, which every pupil's page shows. Name another.")
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise SystemExit(f"{folder}: no such folder can be made ({error.strerror})") from None
    return folder


def write(path: Path, text: str) -> None:
    """Write one page and say so; SystemExit in words if it cannot be."""
    try:
        print(write_text(path, text))
    except SheetError as error:
        raise SystemExit(str(error)) from None
