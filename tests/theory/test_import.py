"""Theory stands on the lowest floor, and costs nothing before it is used."""

import ast
import subprocess
import sys
from pathlib import Path

import dropper.theory
import pytest
from for_every import for_every

FOLDER = Path(dropper.theory.__file__).parent
FLOOR_0 = {"circuit.values", "circuit.lamp", "circuit.parts", "standards"}
OUTSIDE = {"sympy", "numpy"}


def run(code):
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip()


@pytest.mark.slow
def test_importing_theory_does_not_import_sympy():
    code = f"import sys; sys.path.insert(0, {str(FOLDER.parents[1])!r}); from dropper import theory; "
    assert run(code + "theory.ALL; dir(theory); print('sympy' in sys.modules)") == "False"
    assert run(code + "theory.peak_voltage; print('sympy.physics.units' in sys.modules)") == "False"


@for_every(sorted(FOLDER.rglob("*.py")))
def test_floor(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            top = {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            top = {node.module.split(".")[0]}
        elif isinstance(node, ast.ImportFrom) and node.level == 2:
            assert node.module in FLOOR_0
            continue
        else:
            continue
        assert top <= OUTSIDE | set(sys.stdlib_module_names), f"{path.name} imports {top}"


def test_everything_listed_can_be_had():
    for name in dir(dropper.theory):
        assert getattr(dropper.theory, name) is not None
    assert len(dropper.theory.ALL) == len(list(dropper.theory.ALL)) == len(dict(dropper.theory.ALL))
    assert "mean_string_current" in repr(dropper.theory.ALL)
