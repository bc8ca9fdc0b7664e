"""Bets of a lesson: what its notebook asks before it shows, what holds, and what to say to the other answers.

They are taken from the panels and guesses of the notebook itself, run from top to bottom, so that a plan and a page
cannot differ.
"""

from __future__ import annotations

import contextlib
import io
import json
import re
from dataclasses import dataclass
from pathlib import Path

from ..circuit.fields import about, documented
from ..lessons.kit.guess import Guess
from ..lessons.kit.question_panel import QuestionPanel

_NO_BETS = re.compile(r"\b(Tasks|Recall|Scorecard|BenchList|SheetBox)\b")


@documented
@dataclass(frozen=True)
class Bet:
    """A question that is asked before it is shown."""

    question: str
    answers: dict = about("by key")
    right: str = about("the key of the answer that holds; empty where none is called so")
    outcome: str = about("what is seen, in a sentence with numbers")
    causes: dict = about("what to say to whoever chose another answer, by key")


def notebook_of(lesson: int, notebooks: Path) -> Path:
    """The notebook of a lesson; FileNotFoundError if the folder has none."""
    for path in sorted(notebooks.glob(f"{lesson:02}_*.ipynb")):
        return path
    raise FileNotFoundError(f"no notebook of lesson {lesson:02} in {notebooks.name}")


def bets_of(lesson: int, notebooks: Path) -> list[Bet]:
    """What a lesson asks, in the order of its page; RuntimeError if a cell of its notebook fails."""
    from IPython.core.interactiveshell import InteractiveShell
    from traitlets.config import Config

    path = notebook_of(lesson, notebooks)
    page = json.loads(path.read_text(encoding="utf-8"))
    cells = ["".join(cell["source"]) for cell in page["cells"] if cell["cell_type"] == "code"]
    shell = InteractiveShell(config=Config({"HistoryManager": {"enabled": False}}), colors="nocolor")
    bets = []
    with contextlib.chdir(notebooks), contextlib.redirect_stdout(io.StringIO()):
        for cell in cells:
            if not _NO_BETS.search(cell):
                ran = shell.run_cell(cell, store_history=False)
                if not ran.success:
                    error = ran.error_before_exec or ran.error_in_exec
                    raise RuntimeError(f"{path.name}: a cell fails ({type(error).__name__}): {cell[:60]}")
                bets += _bets_in(ran.result)
    return bets


def _bets_in(shown):
    if isinstance(shown, Guess):
        yield Bet(shown.question, shown.answers, shown.right, shown.outcome, dict(shown.causes))
    elif isinstance(shown, QuestionPanel) and (asked := shown.question()):
        right, outcome = shown.verdict()
        yield Bet(*asked, right, outcome, dict(shown.causes))
