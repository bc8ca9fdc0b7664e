"""Instance of a task: its prompt, answer and hints with a learner's own values, and what a reply to it is worth."""

import math
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from . import reply
from .grading import Verdict, judge
from .known import KnownQuantities
from .random_values import UNITS, value_text
from .solution import solution_text


@dataclass(frozen=True, repr=False)
class Instance:
    """A task with a learner's own values.

    Parameters
    ----------
    question
        The `Question` or `Choice`.
    values
        The given values by name, SI units.
    """

    question: Any
    values: dict[str, float] = field(hash=False)

    def __repr__(self):
        texts = [f"{name}: {text}" for name, text in self.texts.items()]
        return f"<task {self.question.key} with {', '.join(texts)}>"

    @cached_property
    def known(self) -> KnownQuantities:
        """The values and what follows from them."""
        return KnownQuantities(self.values)

    @cached_property
    def texts(self) -> dict[str, str]:
        """The given values as they stand in the prompt, by name."""
        return {name: value_text(value, UNITS[name], 6) for name, value in self.values.items()}

    @property
    def prompt(self) -> str:
        """What is asked, with the values put in."""
        return self.fill(self.question.prompt)

    def fill(self, text: str) -> str:
        """A text with the given values put in."""
        return text.format_map(self.texts)


class QuestionInstance(Instance):
    """A `Question` with a learner's own values."""

    @cached_property
    def answer(self) -> float:
        """The number that is right, in the question's unit."""
        return float(self.question.answer(self.known))

    @cached_property
    def slips(self) -> list[tuple[str, float, str]]:
        """(name, value, sentence) of each slip that gives a number for these values."""
        return [
            (slip.name, value, self.fill(slip.sentence))
            for slip in self.question.slips
            if (value := self._value(slip)) is not None
        ]

    def _value(self, slip):
        try:
            value = float(slip.value(self.known))
        except (ValueError, ZeroDivisionError):
            return None
        return value if math.isfinite(value) else None

    @cached_property
    def hints(self) -> tuple[str, ...]:
        """The hints as Markdown, from faint to all but the answer."""
        first = [self.fill(text) for text in self.question.hints]
        last = self.fill(self.question.last_hint) or self.question.solution[-1].hint(self.known)
        return (*first, f"What is left to compute: {last}")

    def judge(self, text: str) -> Verdict:
        """What a typed reply is worth; never an exception."""
        try:
            number = reply.read(text, self.question.unit)
        except reply.ReplyError as error:
            return Verdict(False, str(error), counts=False)
        return judge(number, self.answer, self.question.unit, self.question.tolerance, self.slips)

    def solution(self) -> str:
        """The answer worked out with these values, as Markdown with LaTeX."""
        return solution_text(
            self.question.solution, self.known, self.answer, self.question.unit, self.question.tolerance.exact
        )

    @property
    def hint_count(self) -> int:
        """How many hints there are."""
        return len(self.question.hints) + 1


class ChoiceInstance(Instance):
    """A `Choice` with a learner's own values."""

    @cached_property
    def answer(self) -> str:
        """The key of the option that is true."""
        return self.question.truth(self.known)

    @cached_property
    def options(self) -> dict[str, str]:
        """What can be chosen, by key, with the values put in."""
        return {key: self.fill(text) for key, text in self.question.options.items()}

    @cached_property
    def hints(self) -> tuple[str, ...]:
        """The hints as Markdown."""
        return tuple(self.fill(text) for text in self.question.hints)

    def judge(self, option: str | None) -> Verdict:
        """What a choice is worth; never an exception.

        Parameters
        ----------
        option
            The key of the option that was chosen.
        """
        if option not in self.question.options:
            return Verdict(False, "Choose one of the answers first.", counts=False)
        if option == self.answer:
            return Verdict(True, f"Right: {self.options[option]}.")
        return Verdict(False, f"Not so. {self.fill(self.question.wrong[option])}", (option,))

    def solution(self) -> str:
        """The figures that lead to the answer, as Markdown."""
        return f"{self.question.solution(self.known)}\n\nAnswer: **{self.options[self.answer]}**"

    @property
    def hint_count(self) -> int:
        """How many hints there are."""
        return len(self.question.hints)
