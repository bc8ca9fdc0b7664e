"""A task of the workbook: what is asked, what would be right, and what each common slip gives."""

from collections.abc import Callable
from dataclasses import dataclass

from ...circuit.fields import about, documented
from .instance import Asked, AskedChoice
from .random_values import generator

MOST_HINTS = 3


@documented
@dataclass(frozen=True)
class Tolerance:
    """How far a number may be from the answer, and a sentence that says why."""

    why: str
    relative: float = about("As a fraction of the answer.", default=0.02)
    absolute: float = about("In the answer's unit; the larger of the two counts.", default=0.0)

    def allowed(self, answer: float) -> float:
        """How far a number may be from this answer."""
        return max(self.relative * abs(answer), self.absolute)

    def holds(self, number: float, answer: float) -> bool:
        """Whether the number is close enough."""
        return abs(number - answer) <= self.allowed(answer)


PARTS = Tolerance("2 % is allowed: the parts themselves are sold to 5 or 10 %, and √2 ≈ 1.41 costs half a per cent.")


@documented
@dataclass(frozen=True)
class Slip:
    """A common misconception and the wrong value that it gives."""

    name: str = about("A few words.")
    value: Callable = about("Of the task's `Facts`; a ValueError or nan means that it gives none for them.")
    sentence: str = about("What went wrong and what to think instead; may hold the names of given values in braces.")


@documented
@dataclass(frozen=True)
class Question:
    """A task whose answer is a number."""

    key: str = about("Unique in the workbook.")
    lesson: int = about("The notebook's number.")
    title: str = about("The prompt holds the names of given values in braces.")
    prompt: str = about("The prompt holds the names of given values in braces.")
    draw: Callable = about("Takes a `random.Random`, gives the values by name, SI units.")
    unit: str = about("One of `reply.NAMES`.")
    answer: Callable = about("Of the task's `Facts`; in `unit`.")
    work: tuple = about("Steps of `work`; the last one leads to the answer and makes the last hint.")
    hints: tuple = about("Up to two, from faint to strong.", default=())
    slips: tuple = ()
    tolerance: Tolerance = PARTS
    last_hint: str = about("In place of the one made from the last step.", default="")

    def ask(self, seed: int) -> Asked:
        """The task with the values that a seed draws."""
        return self.put(self.draw(generator(seed, self.key)))

    def put(self, values: dict[str, float]) -> Asked:
        """The task with values of one's own."""
        return Asked(self, dict(values))


@documented
@dataclass(frozen=True)
class Choice:
    """A task whose answer is one of a few; what is true is computed."""

    key: str = about("As in `Question`.")
    lesson: int = about("As in `Question`.")
    title: str = about("As in `Question`.")
    prompt: str = about("As in `Question`.")
    draw: Callable = about("As in `Question`.")
    options: dict = about("What can be chosen, by key.")
    truth: Callable = about("Of the task's `Facts`; the key of the true option.")
    wrong: dict = about("For each option, what was thought if it is chosen and not true.")
    work: Callable = about("Of the task's `Facts`; the figures behind the truth, as Markdown.")
    hints: tuple = about("Up to three.", default=())

    ask = Question.ask

    def put(self, values: dict[str, float]) -> AskedChoice:
        """The task with values of one's own."""
        return AskedChoice(self, dict(values))
