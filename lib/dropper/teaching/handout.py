"""Handout: the tasks of a lesson on paper for each pupil of a class, and the key to them on pages of its own."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..circuit import html
from ..circuit.excerpt import excerpt
from ..circuit.fields import about, documented
from ..lessons.catalogue import LESSONS, number, of_lesson
from ..lessons.tasks.instance import ChoiceInstance, Instance, QuestionInstance
from ..lessons.tasks.random_values import answer_text, value_text
from ..lessons.tasks.reply import EXAMPLES
from ..sheet import document, origin

MOST_PUPILS = 99
MOST_SEED = 2**40
FIRST_TASKS = 6  # how many tasks of a lesson a sheet has, if nothing else is asked for
_STYLE = """
html { font-size: 10.5pt; line-height: 1.35; }
main { display: block; }
section { break-after: page; }
section:last-of-type { break-after: auto; }
.head { display: flex; justify-content: space-between; gap: 1rem; align-items: baseline; }
.name { white-space: nowrap; }
article { break-inside: avoid; padding: .5rem 0 .4rem; border-bottom: 1px solid #bbb; }
article p, article ol { margin: .15rem 0; }
ol.options { list-style: upper-alpha; padding-left: 1.8rem; }
.answer { margin-top: 1.3rem; }
.key td, .key th { padding: .25rem .6rem .25rem 0; font-size: 1rem; }
footer { margin-top: .8rem; font-size: .8rem; }
"""


@documented
@dataclass(frozen=True)
class Handout:
    """A lesson's tasks with numbers of its own for each pupil.

    Raises
    ------
    ValueError
        For a lesson without tasks, a seed or a number of pupils out of range, or a task that the lesson has not.
    """

    lesson: int = about("its number")
    seed: int = about("of the class; the same seed gives the same sheets everywhere")
    pupils: int = about("how many; 0 for one sheet that all have", default=0)
    tasks: tuple = about("numbers such as 2.4; empty for the first of the lesson", default=())

    def __post_init__(self):
        if self.lesson not in LESSONS:
            raise ValueError(f"lesson: {excerpt(self.lesson)} has no tasks; {LESSONS[0]} to {LESSONS[-1]} have")
        for name, most in (("seed", MOST_SEED), ("pupils", MOST_PUPILS)):
            value = getattr(self, name)
            if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= most:
                raise ValueError(f"{name}: {excerpt(value)} is not a whole number from 0 to {most}")
        there = [number(task.key) for task in of_lesson(self.lesson)]
        for task in self.tasks:
            if task not in there:
                raise ValueError(f"task: lesson {self.lesson} has no {excerpt(task)}; it has {there[0]} to {there[-1]}")

    @property
    def seeds(self) -> dict[str, int]:
        """What the numbers of each sheet are drawn from, by what stands on top of it."""
        if not self.pupils:
            return {"all pupils": self.seed}
        return {f"pupil {place}": 100 * self.seed + place for place in range(1, self.pupils + 1)}

    def instances(self, seed: int) -> list[Instance]:
        """The tasks of one sheet."""
        chosen = of_lesson(self.lesson)
        chosen = [task for task in chosen if number(task.key) in self.tasks] if self.tasks else chosen[:FIRST_TASKS]
        return [task.ask(seed) for task in chosen]

    def sheets(self, paper: str = "A4") -> str:
        """The pupils' sheets as one HTML document, a page or more for each."""
        pages = [self._sheet(whose, self.instances(seed)) for whose, seed in self.seeds.items()]
        return document(f"Lesson {self.lesson:02}: tasks", html.joined(*pages), paper=paper, style=_STYLE)

    def key(self, paper: str = "A4") -> str:
        """The key to all sheets as one HTML document."""
        heads = ("task", "asked for", "answer", "allowed", "accepted")
        tables = [
            html.tag("section", html.table(f"{whose.capitalize()}, seed {seed}", heads, key_rows(self.instances(seed))))
            for whose, seed in self.seeds.items()
        ]
        head = html.tag("h1", f"Lesson {self.lesson:02}: key, class seed {self.seed}")
        foot = html.tag("footer", html.tag("p", f"For whoever teaches. {origin()}"))
        style = f"{_STYLE}section {{ break-after: auto; break-inside: avoid; margin-top: .9rem; }}"
        body = html.tag("div", head, *tables, foot, css="key")
        return document(f"Lesson {self.lesson:02}: key", body, paper=paper, style=style)

    def _sheet(self, whose, instances):
        line = html.tag("p", "Name: ______________________________", css="name")
        who = "" if whose == "all pupils" else f" · {whose}"
        title = html.tag("h2", f"Lesson {self.lesson:02} · tasks{who}")
        say = "Write three digits and the unit with each answer. Parts of the way count: leave them on the paper."
        foot = html.tag(
            "p", f"No part of a lamp on the mains may be touched. Sheet of class seed {self.seed}. {origin()}"
        )
        parts = [html.tag("article", _asked(instance)) for instance in instances]
        head = html.tag("div", title, line, css="head")
        return html.tag("section", head, html.tag("p", say), *parts, html.tag("footer", foot))


def key_rows(instances: Sequence[Instance]) -> list[tuple[str, ...]]:
    """Rows of a key: number, title, answer with its unit, how far off is allowed, and what is accepted."""
    return [(number(task.question.key), task.question.title, *_answer(task)) for task in instances]


def _asked(instance):
    """A task as a pupil gets it."""
    heading = html.tag("b", f"{number(instance.question.key)} {instance.question.title}")
    text = html.from_markdown(instance.prompt)
    if isinstance(instance, ChoiceInstance):
        return html.joined(heading, text, html.tag("ol", html.items(instance.options.values()), css="options"))
    like = html.tag("small", f"(written like {EXAMPLES[instance.question.unit]})")
    return html.joined(heading, text, html.tag("p", "Answer: ____________________ ", like, css="answer"))


def _answer(task: QuestionInstance | ChoiceInstance) -> tuple[str, str, str]:
    if isinstance(task, ChoiceInstance):
        letter = chr(ord("A") + list(task.options).index(task.answer))
        return f"{letter}: {task.options[task.answer]}", "–", f"{letter} only"
    unit, tolerance = task.question.unit, task.question.tolerance
    off = tolerance.allowed(task.answer)
    low, high = (value_text(end, unit, 4) for end in _inward(task.answer - off, task.answer + off))
    text = answer_text(task.answer, unit, tolerance.exact)
    return text, f"± {tolerance.words(task.answer, unit)}" if off else "exact", f"{low} to {high}" if off else text


def _inward(low, high):
    """Two ends with four digits, each rounded to the inner side: the screen accepts what the key does."""
    for end, rounded in ((low, math.ceil), (high, math.floor)):
        step = 10.0 ** (math.floor(math.log10(abs(end))) - 3) if end else 1.0
        near = round(end / step, 6)  # what is a whole number of steps but for the last bits stays
        yield rounded(near) * step
