"""Question: what a task asks, what is right, and what each common slip gives."""

from collections.abc import Callable
from dataclasses import dataclass

from ...circuit.fields import about, documented
from .grading import PARTS, Tolerance
from .instance import ChoiceInstance, Instance, QuestionInstance
from .random_values import generator

MOST_HINTS = 3


@documented
@dataclass(frozen=True)
class Slip:
    """A common misconception and the wrong value that it gives."""

    name: str = about("a few words")
    value: Callable = about("of the task's `KnownQuantities`; a ValueError or nan means that it gives none for them")
    sentence: str = about("what went wrong and what to think instead; may hold the names of given values in braces")


@documented
@dataclass(frozen=True, repr=False)
class Task:
    """A task before its values are drawn: what a question and a choice have in common."""

    key: str = about("unique in the workbook")
    lesson: int = about("the notebook's number")
    title: str = about("a few words")
    prompt: str = about("what is asked; holds the names of given values in braces")
    draw: Callable = about("takes a `random.Random`, gives the values by name, SI units")

    def __repr__(self):
        return f"<{type(self).__name__.lower()} {self.key} of lesson {self.lesson}: {self.title}>"

    def ask(self, seed: int) -> Instance:
        """The task with the values that a seed draws."""
        return self.with_values(self.draw(generator(seed, self.key)))

    def with_values(self, values: dict[str, float]) -> Instance:
        """The task with values of one's own, SI units."""
        raise NotImplementedError


@documented
@dataclass(frozen=True, repr=False)
class Question(Task):
    """A task whose answer is a number."""

    unit: str = about("one of `reply.NAMES`")
    answer: Callable = about("of the task's `KnownQuantities`; in `unit`")
    solution: tuple = about("steps of `solution`; the last one leads to the answer and makes the last hint")
    hints: tuple = about("up to two, from faint to strong", default=())
    slips: tuple = ()
    tolerance: Tolerance = PARTS
    last_hint: str = about("in place of the one made from the last step", default="")

    def with_values(self, values: dict[str, float]) -> QuestionInstance:
        """The question with values of one's own, SI units."""
        return QuestionInstance(self, dict(values))


@documented
@dataclass(frozen=True, repr=False)
class Choice(Task):
    """A task whose answer is one of a few; what is true is computed."""

    options: dict = about("what can be chosen, by key")
    truth: Callable = about("of the task's `KnownQuantities`; the key of the true option")
    wrong: dict = about("for each option, what was thought if it is chosen and not true")
    solution: Callable = about("of the task's `KnownQuantities`; the figures that lead to the truth, as Markdown")
    hints: tuple = about("up to three", default=())

    def with_values(self, values: dict[str, float]) -> ChoiceInstance:
        """The choice with values of one's own, SI units."""
        return ChoiceInstance(self, dict(values))
