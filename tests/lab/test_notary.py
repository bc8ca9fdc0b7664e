"""Only the workbook's own notebooks are trusted on sight; others once a person has run and saved them."""

from pathlib import Path

import nbformat
import pytest
from dropper.lab.notary import LIST, WorkbookNotary, fingerprint, list_of, own_notebooks
from jupyter_server.services.contents.largefilemanager import LargeFileManager

LESSON = "04_smoothing_and_flicker.ipynb"
FOLDER = Path("notebooks")


@pytest.fixture
def notary(tmp_path):
    with WorkbookNotary(data_dir=str(tmp_path)) as one:
        yield one


@pytest.fixture
def contents(tmp_path, notary):
    """Jupyter's own contents manager with our notary, over a folder of its own."""
    folder = tmp_path / "notebooks"
    folder.mkdir()
    return LargeFileManager(root_dir=str(folder), notary=notary)


def put(contents, name, book):
    nbformat.write(book, Path(contents.root_dir) / name)


def trusted(contents, name):
    """Which cells of code the page is told to trust."""
    cells = contents.get(name, type="notebook")["content"]["cells"]
    return [cell["metadata"]["trusted"] for cell in cells if cell["cell_type"] == "code"]


@pytest.fixture
def lesson(monkeypatch):
    """A lesson that is on the list."""
    book = nbformat.read(FOLDER / LESSON, 4)
    monkeypatch.setitem(own_notebooks(), fingerprint(book), LESSON)
    return book


def test_the_list_names_the_notebooks_as_they_are():
    assert LIST.read_text(encoding="utf-8") == list_of(FOLDER), "write it anew: python -m dropper.lab.notary"


def test_a_lesson_is_trusted_on_sight_and_under_any_name(contents, lesson):
    put(contents, "renamed.ipynb", lesson)
    assert all(trusted(contents, "renamed.ipynb"))


@pytest.mark.parametrize("kind", ["code", "markdown", "output", "new"])
def test_a_lesson_changed_elsewhere_is_not(contents, lesson, kind):
    book = lesson
    cell = next(cell for cell in book.cells if cell.cell_type == ("markdown" if kind == "markdown" else "code"))
    if kind == "output":
        cell.outputs = [nbformat.v4.new_output("display_data", {"text/html": "<img src=x onerror=alert(1)>"})]
    elif kind == "new":
        book.cells.append(nbformat.v4.new_code_cell("import os"))
    else:
        cell.source += "\n<img src=x onerror=alert(1)>"
    for cell in book.cells:
        cell.metadata["trusted"] = True  # what the file itself says counts for nothing
    put(contents, "changed.ipynb", book)
    assert not any(trusted(contents, "changed.ipynb"))


def save(contents, name, trusted_cells):
    """Save a notebook as the page does, with what it says of its cells."""
    model = contents.get(name, type="notebook")
    for cell in model["content"]["cells"]:
        if cell["cell_type"] == "code":
            cell["metadata"]["trusted"] = trusted_cells
    contents.save({"type": "notebook", "format": "json", "content": model["content"]}, name)


def test_a_learners_own_edits_stay_trusted_once_saved(contents, lesson):
    put(contents, LESSON, lesson)
    model = contents.get(LESSON, type="notebook")
    code = next(cell for cell in model["content"]["cells"] if cell["cell_type"] == "code")
    code["source"] += "\nprint('my own line')"
    contents.save({"type": "notebook", "format": "json", "content": model["content"]}, LESSON)
    assert all(trusted(contents, LESSON))


def test_a_foreign_notebook_that_was_saved_and_never_run_still_asks(contents):
    book = nbformat.v4.new_notebook(metadata={"dropper": {"live": True}})
    book.cells = [nbformat.v4.new_code_cell("print('who sent this?')")]
    put(contents, "foreign.ipynb", book)
    save(contents, "foreign.ipynb", trusted_cells=False)
    assert trusted(contents, "foreign.ipynb") == [False]
    save(contents, "foreign.ipynb", trusted_cells=True)  # as after a run
    assert trusted(contents, "foreign.ipynb") == [True]
