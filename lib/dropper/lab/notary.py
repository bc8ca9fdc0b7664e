"""Notary: the workbook's own notebooks are trusted on sight; any other is once a person has run it.

A trusted notebook runs when it is opened; one that came from elsewhere asks first. The list of the workbook's own
stands beside this file, one fingerprint a line. After an edit of a notebook it is written anew, from the folder that
holds `notebooks`:

    python -m dropper.lab.notary
"""

import hashlib
import json
from functools import cache
from pathlib import Path

import nbformat
from nbformat.sign import NotebookNotary, yield_code_cells

from . import HERE

LIST = HERE / "own_notebooks.txt"
_WHAT = ("cell_type", "source", "attachments", "outputs")


def fingerprint(notebook: nbformat.NotebookNode) -> str:
    """SHA-256 of all that a notebook's cells run or show: code, text, pictures in the text, outputs."""
    cells = [[cell.get(name) or "" for name in _WHAT] for cell in notebook.cells]
    return hashlib.sha256(json.dumps(cells, ensure_ascii=False).encode()).hexdigest()


@cache
def own_notebooks() -> dict[str, str]:
    """The workbook's own notebooks: names by fingerprint."""
    lines = LIST.read_text(encoding="utf-8").splitlines()
    return dict(line.split(maxsplit=1) for line in lines)


def list_of(folder: Path) -> str:
    """The text of the list for a folder's lessons."""
    books = [(path.name, nbformat.read(path, 4)) for path in sorted(folder.glob("[0-9][0-9]_*.ipynb"))]
    return "".join(f"{fingerprint(book)}  {name}\n" for name, book in books)


class WorkbookNotary(NotebookNotary):
    """Jupyter's notary, which knows the workbook's own notebooks, and signs no cell that nobody trusts."""

    def check_signature(self, nb: nbformat.NotebookNode) -> bool:
        """Whether a notebook is trusted; one of the workbook's own is signed on sight."""
        if super().check_signature(nb):
            return True
        if nb.nbformat != 4 or fingerprint(nb) not in own_notebooks():
            return False
        self.sign(nb)
        return True

    def check_cells(self, nb: nbformat.NotebookNode) -> bool:
        """Whether a notebook may be signed when it is saved: every cell of code was trusted on loading, or run since.

        A cell without outputs is no exception: it would run by itself at the next opening.
        """
        explicit = all(cell["metadata"].get("trusted") for cell in yield_code_cells(nb))
        return super().check_cells(nb) and explicit


if __name__ == "__main__":
    LIST.write_text(list_of(Path("notebooks")), encoding="utf-8", newline="\n")
