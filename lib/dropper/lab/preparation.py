"""Preparation: what a lesson's cells need is loaded in its kernel before the page runs them."""

import ast
from collections.abc import Iterator
from pathlib import Path

import nbformat

# What a room loads only when it is first at work, by a word of the statement that imports it.
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
    from ..solver.transient import settle

    lamp = Lamp(mains=Mains(230, 50), string=LedString(Led(3, 0.02), 20), dropper=1e-6, smoothing=1e-5)
    steady_state(lamp)
    settle(lamp)


def _nodes(notebook: nbformat.NotebookNode) -> Iterator[ast.AST]:
    for cell in notebook.cells:
        if cell.cell_type == "code":
            try:
                yield from ast.walk(ast.parse(cell.source))
            except SyntaxError:  # a learner's half-done line
                continue


def imports_of(notebook: nbformat.NotebookNode) -> list[str]:
    """The import statements of a notebook's cells, each once, in their order."""
    found = (ast.unparse(node) for node in _nodes(notebook) if isinstance(node, ast.Import | ast.ImportFrom))
    return list(dict.fromkeys(found))


def late_imports_of(notebook: nbformat.NotebookNode) -> list[str]:
    """The import statements that what a notebook imports will come to, each once, in their order."""
    statements = imports_of(notebook)
    words = {word for statement in statements for word in statement.replace(",", " ").replace(".", " ").split()}
    found = (f"import {name}" for word, names in _LOADED_LATE.items() if word in words for name in names)
    return list(dict.fromkeys(found))


def formulas_of(notebook: nbformat.NotebookNode) -> list[str]:
    """The formulas that a notebook's cells name, `theory.NAME`, each once, in their order."""
    found = (
        node.attr
        for node in _nodes(notebook)
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "theory"
    )
    return list(dict.fromkeys(found))


def prepare(path: str | Path) -> None:
    """Load what a notebook imports, the solvers and the formulas it names; none of its cells is run.

    Parameters
    ----------
    path
        A notebook that is trusted: modules that it imports are loaded.
    """
    notebook = nbformat.read(path, 4)
    for statement in (*imports_of(notebook), *late_imports_of(notebook)):
        try:
            exec(statement, {})
        except (ImportError, AttributeError):  # the cell says so when it is run
            continue
    solve_once()
    from .. import theory

    for name in formulas_of(notebook):
        formula = getattr(theory, name, None)
        if hasattr(formula, "_repr_markdown_"):
            formula._repr_markdown_()
