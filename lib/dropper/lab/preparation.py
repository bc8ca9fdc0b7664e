"""Preparation: what a lesson's cells need is loaded in its kernel before the page runs them."""

import ast
import json
from collections.abc import Iterator, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any

# What a room loads only when it is first at work, by a word of what is imported.
_LOADED_LATE = {
    "Measurement": ("pandas",),
    "LedCurve": ("pandas",),
    "waveform": ("pandas", "scipy.special"),
    "diagnosis": ("scipy.special",),
    "Sharing": ("scipy.special",),
}


def solve_once() -> None:
    """Have both solvers compiled and in their cache, or loaded from it."""
    from ..circuit.lamp import Lamp, Led, LedString, Mains
    from ..solver.steady import steady_state
    from ..solver.transient import worst_plug_in

    lamp = Lamp(mains=Mains(230, 50), string=LedString(Led(3, 0.02), 20), dropper=1e-6, smoothing=1e-5)
    steady_state(lamp)
    worst_plug_in(lamp, periods=0.5)  # settles it first


def _nodes(notebook: Mapping[str, Any]) -> Iterator[ast.AST]:
    for cell in notebook["cells"]:
        if cell["cell_type"] == "code":
            try:
                yield from ast.walk(ast.parse("".join(cell["source"])))  # a text, or its lines as they are in the file
            except SyntaxError:  # a learner's half-done line
                continue


def imports_of(notebook: Mapping[str, Any]) -> list[tuple[str, str]]:
    """What a notebook's cells import, each once, in order: a module and a name in it, "" for the module itself."""
    pairs = []
    for node in _nodes(notebook):
        if isinstance(node, ast.Import):
            pairs += [(alias.name, "") for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            pairs += [(node.module, alias.name) for alias in node.names]
    return list(dict.fromkeys(pairs))


def late_imports_of(notebook: Mapping[str, Any]) -> list[tuple[str, str]]:
    """What that will come to import when it is first at work, each once, in their order."""
    words = {word for module, name in imports_of(notebook) for word in (*module.split("."), name)}
    pairs = ((name, "") for word, names in _LOADED_LATE.items() if word in words for name in names)
    return list(dict.fromkeys(pairs))


def formulas_of(notebook: Mapping[str, Any]) -> list[str]:
    """The formulas that a notebook's cells name, `theory.NAME`, each once, in their order."""
    names = (
        node.attr
        for node in _nodes(notebook)
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "theory"
    )
    return list(dict.fromkeys(names))


def prepare(path: str | Path) -> None:
    """Load what a notebook imports, the solvers and the formulas it names; none of its cells is run.

    Parameters
    ----------
    path
        A notebook that is trusted: modules that it imports are loaded.
    """
    # nbformat takes two seconds to load, and a kernel has no other use for it
    notebook = json.loads(Path(path).read_text(encoding="utf-8"))
    for module, name in (*imports_of(notebook), *late_imports_of(notebook)):
        try:
            loaded = import_module(module)
            if name and not hasattr(loaded, name):
                import_module(f"{module}.{name}")
        except ImportError:  # the cell says so when it is run
            continue
    solve_once()
    from .. import theory

    for name in formulas_of(notebook):
        formula = getattr(theory, name, None)
        if hasattr(formula, "_repr_markdown_"):
            formula._repr_markdown_()
