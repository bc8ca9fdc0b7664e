"""The house keeps its floors: a module imports only from below, and never in a loop."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "lib" / "dropper"
# Floor by module or package, as DEVELOPERS.md lists them. Within a floor the order of this
# list counts too: a module imports only from those before it.
FLOORS = [
    ("values", 0), ("marks", 0), ("table", 0), ("fields", 0), ("lampfile", 0), ("lamp", 0), ("parts", 0), ("kinds", 0),
    ("standards", 0), ("cautions", 0),
    ("theory", 1),
    ("kernel", 2), ("power", 2), ("flicker", 2), ("steady", 2), ("transient", 2), ("sharing", 2),
    ("meter", 3), ("compare", 3), ("reading", 3), ("explain", 3), ("residual", 3), ("heat", 3), ("ratings", 3),
    ("ledfit", 3), ("tolerance", 3), ("design", 3), ("waveform", 3), ("diagnosis", 3), ("checklist", 3),
    ("lessons", 3), ("exercises", 3),
    ("schematic", 4), ("figures", 4), ("sheet", 4),
    ("panels", 5),
    ("lab", 6), ("__init__", 6), ("__main__", 6),
]  # fmt: skip
RANK = {name: rank for rank, (name, _) in enumerate(FLOORS)}
MODULES = sorted(PACKAGE.rglob("*.py"))


def house_of(path):
    """The name on the list above under which a file stands."""
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def imported(path):
    """Names on the list above that a file imports."""
    package = ["dropper", *path.relative_to(PACKAGE).parts[:-1]]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            dotted = [*base, *(node.module or "").split(".")] if node.module else base
            if dotted and dotted[0] == "dropper":
                names = dotted[1:2] or [alias.name for alias in node.names]
                yield from (name for name in names if name in RANK)
        elif isinstance(node, ast.Import):
            for alias in node.names:
                parts = alias.name.split(".")
                if parts[0] == "dropper" and len(parts) > 1:
                    yield parts[1]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_run_downward_only(path):
    own = house_of(path)
    assert own in RANK, f"{own} stands on no floor: add it to the list here and in DEVELOPERS.md"
    for name in imported(path):
        assert RANK[name] <= RANK[own], f"{path.name} on {own} imports {name} from above"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_modules_stay_small_enough_to_read(path):
    lines = len(path.read_text(encoding="utf-8").splitlines())
    assert lines <= 400, f"{path.name} has {lines} lines; does it have one reason to change?"


def test_figures_hold_no_widgets_and_panels_no_artists_nor_physics():
    for path in MODULES:
        source = path.read_text(encoding="utf-8")
        if house_of(path) != "panels":
            assert "ipywidgets" not in source, path.name
        else:
            assert "matplotlib" not in source, path.name
            assert "import math" not in source and "numpy" not in source, path.name
        if house_of(path) not in ("figures", "theory"):
            assert "pyplot" not in source, path.name
        if house_of(path) != "theory":
            assert "import sympy" not in source and "from sympy" not in source, path.name


def test_no_code_runs_text_that_a_learner_wrote():
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("eval", "exec", "compile"), path.name
            if isinstance(node, ast.Import | ast.ImportFrom):
                names = [alias.name for alias in node.names] + [getattr(node, "module", "") or ""]
                assert not {"pickle", "marshal", "shelve"} & {name.split(".")[0] for name in names}, path.name


def test_a_first_panel_does_not_load_sympy():
    """Symbolic work is lazy: it must not stand between a learner and the first picture."""
    code = (
        "import sys; from dropper.panels import Bench; b = Bench('notebooks/lamps/stair_marker.toml');"
        "b.circuit(); print('sympy' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "False"
