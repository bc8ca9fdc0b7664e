"""What a kernel loads before the page runs a lesson's cells is what they need; no cell is run for it."""

import subprocess
import sys
from pathlib import Path

import nbformat
import pytest
from dropper.lab.preparation import formulas_of, imports_of, late_imports_of, prepare


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
    assert imports_of(book) == [("dropper", "theory"), ("numpy", ""), ("dropper.circuit.values", "show")]
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


def test_late_imports_go_with_the_panels_that_need_them():
    assert late_imports_of(notebook("from dropper.lessons import Smoothing, Tasks")) == []
    assert late_imports_of(notebook("from dropper.lessons import Measurement")) == [("pandas", "")]
    assert late_imports_of(notebook("from dropper.bench import table, waveform")) == [
        ("pandas", ""),
        ("scipy.special", ""),
    ]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("lesson", "cell"),
    [
        ("04_smoothing_and_flicker.ipynb", "panel = Smoothing('lamps/stair_marker.toml')"),
        ("12_measure_and_compare.ipynb", "panel = Measurement('lamps/stair_marker.toml')"),
    ],
)
def test_a_panel_of_a_prepared_kernel_loads_no_library_any_more(lesson, cell):
    code = f"""
import sys
from dropper.lab.preparation import prepare
prepare({lesson!r})
from dropper.lessons import Measurement, Smoothing
before = {{name.split('.')[0] for name in sys.modules}}
{cell}
after = {{name.split('.')[0] for name in sys.modules}}
print(sorted((after - before) & {{'numba', 'sympy', 'pandas', 'scipy', 'matplotlib'}}))
"""
    run = subprocess.run([sys.executable, "-c", code], cwd=Path("notebooks"), capture_output=True, text=True)
    assert run.stdout.strip() == "[]", run.stdout + run.stderr
