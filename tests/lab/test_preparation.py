"""What a kernel loads before the page runs a lesson's cells is what they need; no cell is run for it."""

import nbformat
from dropper.lab.preparation import formulas_of, imports_of, prepare


def notebook(*cells):
    book = nbformat.v4.new_notebook()
    book.cells = [nbformat.v4.new_code_cell(cell) for cell in cells]
    return book


def test_imports_and_formulas_are_those_of_the_cells():
    book = notebook(
        "from dropper import theory\nimport numpy as np\ntheory.power_factor.working(clamped_fraction=0.3)",
        "from dropper import theory\nif True:\n    from dropper.circuit.values import show\ntheory.line_current_rms",
        "a half-done line (",
    )
    book.cells.append(nbformat.v4.new_markdown_cell("import this"))
    assert imports_of(book) == [
        "from dropper import theory",
        "import numpy as np",
        "from dropper.circuit.values import show",
    ]
    assert formulas_of(book) == ["power_factor", "line_current_rms"]


def test_a_notebook_is_prepared_without_running_a_cell(tmp_path):
    path = tmp_path / "lesson.ipynb"
    mark = tmp_path / "was_run"
    book = notebook(
        f"import no_such_module\nfrom dropper import theory\nopen({str(mark)!r}, 'w')\ntheory.no_such_formula"
    )
    nbformat.write(book, path)
    prepare(path)
    assert not mark.exists()
