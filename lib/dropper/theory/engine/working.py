"""Working: a result with a learner's own numbers put in."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import sympy

from .latex import latex
from .plain_text import plain_text
from .quantities import quantity_latex, quantity_text
from .symbols import SymbolInfo, info


@dataclass(frozen=True)
class Working:
    """The equation, the same with numbers, and the value with its unit.

    title: what is worked out; result: the equation; gives: the glossary's line for what is found;
    numbers: symbol -> value; value: what the equation gives for them; names: what a value put in is where the formula
    is used, by keyword, and under "" the result, in place of the glossary's meanings.
    """

    title: str
    result: sympy.Eq
    output: SymbolInfo
    numbers: dict[sympy.Symbol, float]
    value: float
    names: Mapping[str, str] = field(default_factory=dict)

    @property
    def value_text(self) -> str:
        """The value with unit and prefix; an angle in degrees too."""
        text = quantity_text(self.value, self.output.unit)
        return f"{text} ({math.degrees(self.value):.4g}°)" if self.output.unit == "rad" else text

    def plain(self) -> str:
        """One line that can be read aloud."""
        numbers = {
            symbol: _in_brackets(quantity_text(value, info(symbol).unit, given=True), "()")
            for symbol, value in self.numbers.items()
        }
        with_numbers = plain_text(self.result.rhs, numbers, times=" × ")
        parts = [plain_text(self.result.lhs), plain_text(self.result.rhs), with_numbers, self.value_text]
        return " = ".join(part for place, part in enumerate(parts) if place == 0 or part != parts[place - 1])

    def _repr_markdown_(self) -> str:
        numbers = {
            symbol: _in_brackets(quantity_latex(value, info(symbol).unit, given=True), (r"\left(", r"\right)"))
            for symbol, value in self.numbers.items()
        }
        value = quantity_latex(self.value, self.output.unit)
        if self.output.unit == "rad":
            value += rf" \; ({math.degrees(self.value):.4g}^{{\circ}})"
        right = [latex(self.result.rhs), latex(self.result.rhs, numbers), value]
        rows = [text for place, text in enumerate(right) if place == 0 or text != right[place - 1]]
        body = r" \\ ".join(f"&= {text}" for text in rows)
        meaning = self.output.meaning
        legend = [
            f"- ${latex(symbol)}$ = {quantity_text(number, line.unit, given=True)}:"
            f" {self.names.get(line.keyword, line.meaning)} (`{line.keyword}`)"
            for symbol, number, line in ((symbol, number, info(symbol)) for symbol, number in self.numbers.items())
        ]
        return "\n".join(
            [
                f"**{self.title}**",
                "",
                rf"$$ \begin{{aligned}} {latex(self.result.lhs)} {body} \end{{aligned}} $$",
                "",
                *legend,
                "",
                f"{self.names.get('', meaning[0].upper() + meaning[1:])}: **{self.value_text}**",
            ]
        )

    def __str__(self) -> str:
        return self.plain()


def _in_brackets(number: str, brackets) -> str:
    """A number to be put into a formula: one below zero goes into brackets."""
    return f"{brackets[0]}{number}{brackets[1]}" if number.startswith("-") else number
