"""The house keeps its floors: a room imports only from rooms below it, and nothing imports in a circle."""

import ast
import functools
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "lib" / "dropper"
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
# The table of floors in the guide is the list: a room, or several on one line, from the bottom up.
ROOMS = re.findall(r"^\| `([a-z_]+)` \|", GUIDE.split("## The house")[1].split("\n## ")[0], flags=re.M)
MODULES = {}
for path in sorted(PACKAGE.rglob("*.py")):
    parts = path.relative_to(PACKAGE).with_suffix("").parts
    MODULES[".".join(part for part in parts if part != "__init__")] = path
LESSONS = {
    name.split(".")[1]
    for name in MODULES
    if name.startswith("lessons.") and MODULES[name].name == "__init__.py" and name.count(".") == 1
} - {"kit", "tasks"}


@functools.cache
def tree(path):
    return ast.parse(path.read_text(encoding="utf-8"))


def imports(name):
    """Modules of the house that a module imports, wherever in the file: by name, "" for the house itself."""
    path = MODULES[name]
    package = name.split(".") if path.name == "__init__.py" else name.split(".")[:-1]
    package = [part for part in package if part]
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.ImportFrom) and node.level:
            base = package[: len(package) - node.level + 1]
            base = [*base, *(node.module or "").split(".")] if node.module else base
        elif isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "dropper":
            base = node.module.split(".")[1:]
        elif isinstance(node, ast.Import):
            for alias in node.names:
                if alias.name.split(".")[0] == "dropper":
                    yield ".".join(alias.name.split(".")[1:])
            continue
        else:
            continue
        for alias in node.names:
            inner = ".".join([*base, alias.name])
            yield inner if inner in MODULES else ".".join(base)


@functools.cache
def arrows():
    """What each module imports of the house."""
    return {name: sorted(set(imports(name)) - {name}) for name in MODULES}


def room(name):
    return name.split(".")[0]


def test_the_guide_lists_the_rooms_there_are():
    folders = {path.name for path in PACKAGE.iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert set(ROOMS) == folders, "the table of rooms in DEVELOPERS.md and the folders of lib/dropper differ"
    names = {path.name for path in PACKAGE.iterdir() if path.name != "__pycache__"}
    assert len(names) <= 15, f"{len(names)} names at the package's root: {sorted(names)}"


def test_imports_run_downward_only():
    rank = {name: place for place, name in enumerate(ROOMS)}
    up = [
        f"{name} imports {other}"
        for name, others in arrows().items()
        if room(name) in rank
        for other in others
        if rank.get(room(other), len(ROOMS)) > rank[room(name)]
    ]
    assert not up, "imports that run up:\n" + "\n".join(up)


def test_no_lesson_knows_another():
    """What two lessons need stands in their kit."""
    wrong = [
        f"{name} imports {other}"
        for name, others in arrows().items()
        for other in others
        if name.startswith("lessons.")
        and other.startswith("lessons.")
        and {name.split(".")[1], other.split(".")[1]} <= LESSONS
        and name.split(".")[1] != other.split(".")[1]
    ]
    assert not wrong, "\n".join(wrong)


def circles(arrows):
    """Groups of modules that import one another in a circle (Tarjan's strongly connected components)."""
    index, low, stack, groups = {}, {}, [], []

    def visit(name):
        index[name] = low[name] = len(index)
        stack.append(name)
        for other in arrows[name]:
            if other not in index:
                visit(other)
            if other in stack:
                low[name] = min(low[name], low[other])
        if low[name] == index[name]:
            group = []
            while not group or group[-1] != name:
                group.append(stack.pop())
            if len(group) > 1:
                groups.append(sorted(group))

    for name in arrows:
        if name not in index:
            visit(name)
    return groups


def test_no_module_imports_in_a_circle():
    """Inside a room too, and imports inside functions count."""
    assert circles({"a": ["b"], "b": ["a"], "c": ["a"]}) == [["a", "b"]], "the search itself"
    inside = {name: [other for other in others if other in MODULES] for name, others in arrows().items()}
    assert circles(inside) == []


def test_modules_stay_small_enough_to_read():
    long = {name: len(path.read_text(encoding="utf-8").splitlines()) for name, path in MODULES.items()}
    assert not [(name, lines) for name, lines in long.items() if lines > 400], "has it one reason to change?"


HELD = {
    # what a file of this name in a lesson's room holds nothing of
    "view": ("ipywidgets", "matplotlib", "overlay", "frame"),
    "figure": ("ipywidgets", "solver", "theory"),
    "panel": ("matplotlib", "numpy", "solver", "theory"),
    "tasks": ("ipywidgets", "matplotlib"),
}


def test_views_hold_no_widgets_figures_no_physics_and_panels_neither():
    """By file name, in every lesson's room."""
    wrong = []
    for name, path in MODULES.items():
        parts = name.split(".")
        if parts[0] != "lessons" or len(parts) != 3 or parts[1] not in LESSONS:
            continue
        kind = parts[2].split("_")[-1]
        imported = " ".join(arrows()[name]) + " " + " ".join(foreign(path))
        wrong += [f"{name} imports {word}" for word in HELD.get(kind, ()) if re.search(rf"\b{word}\b", imported)]
    assert not wrong, "\n".join(wrong)


def foreign(path):
    """Packages that a file imports from elsewhere."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield node.module


@pytest.mark.parametrize(
    ("package", "rooms"),
    [("sympy", {"theory"}), ("ipywidgets", {"lessons"}), ("matplotlib", {"lessons", "solver"}), ("numba", {"solver"})],
)
def test_a_package_stays_in_its_room(package, rooms):
    users = {room(name) for name, path in MODULES.items() if any(p.split(".")[0] == package for p in foreign(path))}
    assert users <= rooms


def test_no_code_runs_text_that_a_learner_wrote():
    for path in MODULES.values():
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("eval", "exec", "compile"), path.name
            if isinstance(node, ast.Import | ast.ImportFrom):
                names = [alias.name for alias in node.names] + [getattr(node, "module", "") or ""]
                assert not {"pickle", "marshal", "shelve"} & {name.split(".")[0] for name in names}, path.name


@pytest.mark.slow
def test_a_first_panel_does_not_load_sympy():
    """Symbolic work is lazy: it must not stand between a learner and the first picture; what may wait is left out."""
    code = (
        "import sys; from dropper.lessons.kit.deferred import Deferred; Deferred.call_later = lambda *call: None;"
        "from dropper.lessons import Bench; b = Bench('notebooks/lamps/stair_marker.toml');"
        "b.circuit(); print('sympy' in sys.modules)"
    )
    answer = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert answer.stdout.strip() == "False"
