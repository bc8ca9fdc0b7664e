"""Pages of the lessons as a reader meets them: cells, folded sections, the core path and the texts of its panels."""

import ast
import contextlib
import functools
import json
import re
from dataclasses import dataclass
from pathlib import Path

from panels_to_try import new_panel

NOTEBOOKS = Path(__file__).resolve().parents[2] / "notebooks"
PATHS = sorted(NOTEBOOKS.glob("[01][0-9]_*.ipynb"))
HEADING = re.compile(r"^(#{1,6}) +(.*?) *#* *$", re.MULTILINE)
FENCE = re.compile(r"^(```|~~~).*?^\1[^\n]*$", re.MULTILINE | re.DOTALL)
DETAILS = re.compile(r"<details.*?</details>", re.DOTALL | re.IGNORECASE)

# Widgets of the lessons that are no panel: tasks, lists, and questions in the middle of a text.
NO_PANELS = {"BenchList", "Guess", "MyLamp", "Recall", "Scorecard", "SheetBox", "Task", "Tasks"}


@dataclass(frozen=True)
class Cell:
    """A cell with the level of its heading (0 for none), and whether it stands in a folded section.

    The heading cell that folds a section stands in sight itself.
    """

    number: int
    id: str
    kind: str
    source: str
    metadata: dict
    level: int
    folded: bool

    @property
    def hidden(self):
        """Whether the source of a code cell is hidden."""
        return self.metadata.get("jupyter", {}).get("source_hidden") is True

    @property
    def in_sight(self):
        """What of its source is read on opening: text outside `<details>`, code that is not hidden."""
        if self.folded or (self.kind == "code" and self.hidden):
            return ""
        return DETAILS.sub("", self.source) if self.kind == "markdown" else self.source

    def __str__(self):
        first = self.source.strip().splitlines()[0] if self.source.strip() else "(empty)"
        return f"cell {self.number} [{self.id}] {first[:60]!r}"


def headings(text):
    """Level and words of each heading of a Markdown text."""
    return [(len(marks), words) for marks, words in HEADING.findall(FENCE.sub("", text))]


@functools.cache
def cells(path):
    """All cells of a notebook, in order."""
    found, fold = [], 0  # the level of the heading that folds what follows, 0 for none
    for number, raw in enumerate(json.loads(path.read_text(encoding="utf-8"))["cells"]):
        source, metadata = "".join(raw["source"]), raw["metadata"]
        levels = [level for level, _ in headings(source)] if raw["cell_type"] == "markdown" else []
        level = min(levels, default=0)
        if fold and level and level <= fold:
            fold = 0
        found.append(Cell(number, raw.get("id", ""), raw["cell_type"], source, metadata, level, bool(fold)))
        if not fold and level and metadata.get("jp-MarkdownHeadingCollapsed") is True:
            fold = level
    return found


def lesson_calls(path):
    """Each call of something imported from `dropper.lessons`: the cell, the name, the call."""
    names = {}
    for cell in cells(path):
        if cell.kind != "code":
            continue
        tree = ast.parse(cell.source)
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module == "dropper.lessons":
                names |= {alias.asname or alias.name: alias.name for alias in node.names}
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in names:
                yield cell, names[node.func.id], node


def panel_calls(path):
    """The calls that make a panel: the cell, the class, the call."""
    import ipywidgets
    from dropper import lessons

    for cell, name, call in lesson_calls(path):
        kind = getattr(lessons, name)
        if name not in NO_PANELS and isinstance(kind, type) and issubclass(kind, ipywidgets.Widget):
            yield cell, kind, call


def _constant(node):
    try:
        return ast.literal_eval(node)
    except ValueError:
        return None


@functools.cache
def panel_texts(path):
    """Questions, answers and goals of the panels outside folded sections: where each stands, and its text."""
    texts, seen = [], set()
    for cell, kind, call in panel_calls(path):
        if not cell.folded and kind not in seen:
            seen.add(kind)
            texts += _texts_of(kind, call)
    for cell, name, call in lesson_calls(path):
        if name == "Guess" and not cell.folded:
            given = dict(zip(("question", "answers"), call.args, strict=False)) | {
                one.arg: one.value for one in call.keywords
            }
            question, answers = _constant(given.get("question")), _constant(given.get("answers"))
            texts += [("Guess, question", question)] if isinstance(question, str) else []
            texts += [("Guess, answer", str(text)) for text in answers.values()] if isinstance(answers, dict) else []
    return texts


def _texts_of(kind, call):
    """The texts of a panel that is made as the page makes it, where that is said in literals, else of a usual one."""
    arguments = [_constant(node) for node in call.args]
    if None in arguments:
        panel = new_panel(kind.__name__, ask=True)
    else:
        with contextlib.chdir(NOTEBOOKS):
            panel = kind(*arguments)
    name, question = kind.__name__, panel.question() if hasattr(panel, "question") else None
    texts = [(f"{name}, question", question[0])] if question else []
    texts += [(f"{name}, answer", text) for text in question[1].values()] if question else []
    return texts + [(f"{name}, goal", goal.text) for goal in getattr(panel, "goals", ())]
