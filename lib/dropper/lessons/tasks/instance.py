"""A task with a learner's own values: its prompt, answer, hints, and what a reply to it is worth."""

import math
from dataclasses import dataclass, field
from functools import cached_property

from . import reply
from .grading import Verdict, judge
from .known import Facts
from .random_values import UNITS, shown
from .solution import worked


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
    def answer(self) -> float:
        """The number that is right, in the question's unit."""
        return float(self.question.answer(self.facts))

    @cached_property
    def slips(self) -> list[tuple[str, float, str]]:
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
    def hints(self) -> tuple[str, ...]:
        """The hints as Markdown, from faint to all but the answer."""
        own = [self.filled(text) for text in self.question.hints]
        last = self.filled(self.question.last_hint) or self.question.work[-1].unsolved(self.facts)
        return (*own, f"What is left to compute: {last}")

    def judge(self, text: str) -> Verdict:
        """What a typed reply is worth; never an exception."""
        try:
            number = reply.read(text, self.question.unit)
        except reply.ReplyError as error:
            return Verdict(False, str(error), counts=False)
        return judge(number, self.answer, self.question.unit, self.question.tolerance, self.slips)

    def worked(self) -> str:
        """The answer worked out with these values, as Markdown with LaTeX."""
        return worked(self.question.work, self.facts, self.answer, self.question.unit)

    @property
    def hint_count(self) -> int:
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
    def answer(self) -> str:
        """The key of the option that is true."""
        return self.question.truth(self.facts)

    @cached_property
    def options(self) -> dict[str, str]:
        """What can be chosen, by key, with the values put in."""
        return {key: self.filled(text) for key, text in self.question.options.items()}

    @cached_property
    def hints(self) -> tuple[str, ...]:
        """The hints as Markdown."""
        return tuple(self.filled(text) for text in self.question.hints)

    def judge(self, chosen: str | None) -> Verdict:
        """What a choice is worth; never an exception.

        Parameters
        ----------
        chosen
            The key of an option.
        """
        if chosen not in self.question.options:
            return Verdict(False, "Choose one of the answers first.", counts=False)
        if chosen == self.answer:
            return Verdict(True, f"Right: {self.options[chosen]}.")
        return Verdict(False, f"Not so. {self.filled(self.question.wrong[chosen])}", (chosen,))

    def worked(self) -> str:
        """The figures behind the answer, as Markdown."""
        return f"{self.question.work(self.facts)}\n\nAnswer: **{self.options[self.answer]}**"

    @property
    def hint_count(self) -> int:
        """How many hints there are."""
        return len(self.question.hints)
