"""A task of the workbook: what is asked, what would be right, and what each common slip gives."""

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property

from . import reply
from .draw import UNITS, generator, shown
from .facts import Facts
from .judge import Verdict, judge
from .work import worked

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


@dataclass(frozen=True)
class _Asked:
    question: object
    values: dict = field(hash=False)

    @cached_property
    def facts(self):
        """The values and what follows from them."""
        return Facts(self.values)

    @cached_property
    def written(self):
        """The given values as they stand in the prompt, by name."""
        return {name: shown(value, UNITS[name], 6) for name, value in self.values.items()}

    @property
    def prompt(self):
        """What is asked, with the values put in."""
        return self.filled(self.question.prompt)

    def filled(self, text):
        """A text with the given values put in."""
        return text.format_map(self.written)


class Asked(_Asked):
    """A question with a learner's own values.

    Parameters
    ----------
    question : Question
    values : dict of str to float
    """

    @cached_property
    def answer(self):
        """The number that is right, in the question's unit."""
        return float(self.question.answer(self.facts))

    @cached_property
    def slips(self):
        """(name, value, sentence) of each slip that gives a number for these values."""
        return [
            (slip.name, value, self.filled(slip.sentence))
            for slip in self.question.slips
            if (value := self._value(slip)) is not None
        ]

    def _value(self, slip):
        try:
            value = float(slip.value(self.facts))
        except (ValueError, ZeroDivisionError):
            return None
        return value if math.isfinite(value) else None

    @cached_property
    def hints(self):
        """The hints as Markdown, from faint to all but the answer."""
        own = [self.filled(text) for text in self.question.hints]
        last = self.filled(self.question.last_hint) or self.question.work[-1].unsolved(self.facts)
        return (*own, f"What is left to compute: {last}")

    def judge(self, text):
        """What a typed reply is worth; never an exception.

        Parameters
        ----------
        text : str

        Returns
        -------
        Verdict
        """
        try:
            number = reply.read(text, self.question.unit)
        except reply.ReplyError as error:
            return Verdict(False, str(error), counts=False)
        return judge(number, self.answer, self.question.unit, self.question.tolerance, self.slips)

    def worked(self):
        """The answer worked out with these values, as Markdown with LaTeX."""
        return worked(self.question.work, self.facts, self.answer, self.question.unit)

    @property
    def hint_count(self):
        """How many hints there are."""
        return len(self.question.hints) + 1


class AskedChoice(_Asked):
    """A choice with a learner's own values.

    Parameters
    ----------
    question : Choice
    values : dict of str to float
    """

    @cached_property
    def answer(self):
        """The key of the option that is true."""
        return self.question.truth(self.facts)

    @cached_property
    def options(self):
        """What can be chosen, by key, with the values put in."""
        return {key: self.filled(text) for key, text in self.question.options.items()}

    @cached_property
    def hints(self):
        """The hints as Markdown."""
        return tuple(self.filled(text) for text in self.question.hints)

    def judge(self, chosen):
        """What a choice is worth; never an exception.

        Parameters
        ----------
        chosen : str or None
            The key of an option.

        Returns
        -------
        Verdict
        """
        if chosen not in self.question.options:
            return Verdict(False, "Choose one of the answers first.", counts=False)
        if chosen == self.answer:
            return Verdict(True, f"Right: {self.options[chosen]}.")
        return Verdict(False, f"Not so. {self.filled(self.question.wrong[chosen])}", (chosen,))

    def worked(self):
        """The figures behind the answer, as Markdown."""
        return f"{self.question.work(self.facts)}\n\nAnswer: **{self.options[self.answer]}**"

    @property
    def hint_count(self):
        """How many hints there are."""
        return len(self.question.hints)
