"""A task of the workbook: what is asked, what would be right, and what each common slip gives."""

from collections.abc import Callable
from dataclasses import dataclass

from .instance import Asked, AskedChoice
from .random_values import generator

MOST_HINTS = 3


@dataclass(frozen=True)
class Tolerance:
    """How far a number may be from the answer, and a sentence that says why.

    Parameters
    ----------
    why : str
    relative : float
        As a fraction of the answer.
    absolute : float
        In the answer's unit; the larger of the two counts.
    """

    why: str
    relative: float = 0.02
    absolute: float = 0.0

    def allowed(self, answer):
        """How far a number may be from this answer."""
        return max(self.relative * abs(answer), self.absolute)

    def holds(self, number, answer):
        """Whether the number is close enough."""
        return abs(number - answer) <= self.allowed(answer)


PARTS = Tolerance("2 % is allowed: the parts themselves are sold to 5 or 10 %, and √2 ≈ 1.41 costs half a per cent.")


@dataclass(frozen=True)
class Slip:
    """A common misconception and the wrong value that it gives.

    Parameters
    ----------
    name : str
        A few words.
    value : callable
        Of the task's `Facts`; a ValueError or nan means that it gives none for them.
    sentence : str
        What went wrong and what to think instead; may hold the names of given values in braces.
    """

    name: str
    value: Callable
    sentence: str


@dataclass(frozen=True)
class Question:
    """A task whose answer is a number.

    Parameters
    ----------
    key : str
        Unique in the workbook.
    lesson : int
        The notebook's number.
    title, prompt : str
        The prompt holds the names of given values in braces.
    draw : callable
        Takes a `random.Random`, gives the values by name, SI units.
    unit : str
        One of `reply.NAMES`.
    answer : callable
        Of the task's `Facts`; in `unit`.
    work : tuple
        Steps of `work`; the last one leads to the answer and makes the last hint.
    hints : tuple of str
        Up to two, from faint to strong.
    slips : tuple of Slip
    tolerance : Tolerance
    last_hint : str
        In place of the one made from the last step.
    """

    key: str
    lesson: int
    title: str
    prompt: str
    draw: Callable
    unit: str
    answer: Callable
    work: tuple
    hints: tuple = ()
    slips: tuple = ()
    tolerance: Tolerance = PARTS
    last_hint: str = ""

    def ask(self, seed):
        """The task with the values that a seed draws.

        Parameters
        ----------
        seed : int

        Returns
        -------
        Asked
        """
        return self.put(self.draw(generator(seed, self.key)))

    def put(self, values):
        """The task with values of one's own.

        Parameters
        ----------
        values : dict of str to float

        Returns
        -------
        Asked
        """
        return Asked(self, dict(values))


@dataclass(frozen=True)
class Choice:
    """A task whose answer is one of a few; what is true is computed.

    Parameters
    ----------
    key, lesson, title, prompt, draw
        As in `Question`.
    options : dict of str to str
        What can be chosen, by key.
    truth : callable
        Of the task's `Facts`; the key of the true option.
    wrong : dict of str to str
        For each option, what was thought if it is chosen and not true.
    work : callable
        Of the task's `Facts`; the figures behind the truth, as Markdown.
    hints : tuple of str
        Up to three.
    """

    key: str
    lesson: int
    title: str
    prompt: str
    draw: Callable
    options: dict
    truth: Callable
    wrong: dict
    work: Callable
    hints: tuple = ()

    ask = Question.ask

    def put(self, values):
        """The task with values of one's own.

        Parameters
        ----------
        values : dict of str to float

        Returns
        -------
        AskedChoice
        """
        return AskedChoice(self, dict(values))
