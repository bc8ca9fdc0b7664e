"""Class page: what a class has solved, tried and believed, printed and for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from ..circuit import html
from ..lessons.beliefs import BELIEFS
from ..lessons.catalogue import LESSONS, QUESTIONS, number, of_lesson
from ..sheet import document, origin, table
from .class_files import Pupil

_STYLE = "main { display: block; } table { margin-bottom: 1.2rem; } h1 { font-size: 1.7rem; }"
_RUNS = ("=", "+", "-", "@", "\t", "\r")  # what a spreadsheet would take for the beginning of a formula


def class_page(pupils: Sequence[Pupil], said: Sequence[str], paper: str = "A4") -> str:
    """One HTML document: pupils, lessons, beliefs, tasks that went wrong, and what could not be read."""
    count = len(pupils)
    parts = [
        html.tag("h1", f"The class: {count} {'pupil' if count == 1 else 'pupils'}"),
        table(
            "Pupils",
            ("pupil", "solved", "tries", "hints", "shown", "predictions", "believed"),
            _pupils(pupils),
            (1, 2, 3, 4, 5),
        ),
        table(
            "Solved in each lesson",
            ("pupil", *(f"{lesson:02}" for lesson in LESSONS)),
            _lessons(pupils),
            tuple(range(1, 15)),
        ),
        table("Believed, by predictions that did not hold", ("", "belief", "pupils", "who"), _beliefs(pupils), (2,)),
        table("Tried, and not solved or only with the answer shown", ("task", "title", "pupils"), _stuck(pupils), (2,)),
    ]
    if said:
        parts.append(html.joined(html.tag("h2", "Files"), html.tag("ul", html.items(said))))
    small = (
        "The progress file has no name in it, and nothing of what was typed: a name here is that of the file or folder."
    )
    parts.append(html.tag("footer", html.tag("p", f"{small} {origin()}")))
    return document("The class", html.joined(*parts), paper=paper, style=_STYLE)


def task_table(pupils: Iterable[Pupil]) -> str:
    """Comma-separated: a line for each pupil and task that was begun."""
    rows = [
        (pupil.name, number(key), QUESTIONS[key].title, entry.solved, entry.tries, entry.hints, entry.shown)
        for pupil in pupils
        for key, entry in _known(pupil)
    ]
    return _csv(("pupil", "task", "title", "solved", "tries", "hints", "shown"), rows)


def prediction_table(pupils: Iterable[Pupil]) -> str:
    """Comma-separated: a line for each pupil and prediction, with the belief behind a wrong one."""
    rows = []
    for pupil in pupils:
        for key, entry in sorted(pupil.predictions.items()):
            answer = key, entry.answer
            behind = [belief.words for belief in BELIEFS if answer in belief.predictions and entry.right is not True]
            held = {True: "yes", False: "no", None: ""}[entry.right]
            rows.append((pupil.name, key, entry.answer, entry.sure, held, " / ".join(behind)))
    return _csv(("pupil", "question", "answer", "sure", "held", "beliefs"), rows)


def _pupils(pupils):
    for pupil in pupils:
        entries = [entry for _, entry in _known(pupil)]
        judged = [entry.right for entry in pupil.predictions.values() if entry.right is not None]
        solved = f"{sum(entry.solved for entry in entries)} of {len(QUESTIONS)}"
        sums = (sum(getattr(entry, name) for entry in entries) for name in ("tries", "hints", "shown"))
        believed = ", ".join(str(belief.number) for belief in pupil.beliefs()) or "–"
        yield (pupil.name, solved, *map(str, sums), f"{sum(judged)} of {len(judged)} held", believed)


def _lessons(pupils):
    for pupil in pupils:
        solved = {key for key, entry in _known(pupil) if entry.solved}
        yield (pupil.name, *(str(sum(task.key in solved for task in of_lesson(lesson))) for lesson in LESSONS))
    yield ("of", *(str(len(of_lesson(lesson))) for lesson in LESSONS))


def _beliefs(pupils):
    for belief in BELIEFS:
        who = [pupil.name for pupil in pupils if belief in pupil.beliefs()]
        if who:
            yield str(belief.number), belief.words, str(len(who)), ", ".join(who)


def _stuck(pupils):
    stuck = {}
    for pupil in pupils:
        for key, entry in _known(pupil):
            if not entry.solved and (entry.tries or entry.shown):
                stuck[key] = stuck.get(key, 0) + 1
    for key in sorted(stuck, key=lambda key: (-stuck[key], list(QUESTIONS).index(key))):
        yield number(key), QUESTIONS[key].title, str(stuck[key])


def _known(pupil):
    """A pupil's entries of tasks that there are, in the order of the lessons."""
    return [(key, pupil.tasks[key]) for key in QUESTIONS if key in pupil.tasks]


def _csv(heads, rows):
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows([[_cell(value) for value in row] for row in rows])
    return "\ufeff" + text.getvalue()  # the mark by which spreadsheets know UTF-8


def _cell(value):
    if isinstance(value, bool):
        return "yes" if value else "no"
    text = str(value)
    return f"'{text}" if text.startswith(_RUNS) else text
