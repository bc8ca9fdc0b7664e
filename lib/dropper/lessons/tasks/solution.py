"""A task worked out with the learner's own numbers, from the theory's derivations; and all but worked out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from .random_values import shown

if TYPE_CHECKING:
    from .known import Facts


@dataclass(frozen=True)
class By:
    """A step by a derivation of `theory`."""

    derivation: str
    put: object = dict  # values put in by hand, of the facts

    def solved(self, facts: Facts, answered: str = "") -> str:
        """The equation, the same with numbers, and the result, as Markdown."""
        return facts.working(self.derivation, **self._changed(facts))._repr_markdown_()

    def unsolved(self, facts: Facts) -> str:
        """The same without the result."""
        from ...theory.engine.latex import latex
        from ...theory.engine.quantities import shown_latex
        from ...theory.engine.symbols import info

        working = facts.working(self.derivation, **self._changed(facts))
        numbers = {symbol: shown_latex(value, info(symbol).unit) for symbol, value in working.numbers.items()}
        numbers = {symbol: rf"\left({text}\right)" if text[0] == "-" else text for symbol, text in numbers.items()}
        left, right = working.result.lhs, working.result.rhs
        rows = rf"{latex(left)} &= {latex(right)} \\ &= {latex(right, numbers)}"
        return rf"$$ \begin{{aligned}} {rows} \end{{aligned}} $$"

    def _changed(self, facts):
        return {} if self.put is dict else self.put(facts)


@dataclass(frozen=True)
class Say:
    """A line between two steps; `text` makes it of the facts."""

    text: object

    def solved(self, facts: Facts, answered: str = "") -> str:
        """The line."""
        return self.text(facts)


SHARE = Say(
    lambda q: (
        f"The clamped voltage as a share of the peak: D/Vp = {q.clamped_voltage:g} V / {q.peak_voltage:.4g} V"
        f" = {q.clamped_fraction:.4g}"
    )
)


@dataclass(frozen=True)
class Sum:
    """A last step in plain arithmetic; `left` writes it, with numbers, up to the equals sign."""

    left: object
    sentence: str = ""

    def solved(self, facts: Facts, answered: str = "") -> str:
        """The sentence, the arithmetic and what it comes to."""
        return f"{self.sentence}\n\n{self.left(facts)} = **{answered}**".strip()

    def unsolved(self, facts: Facts) -> str:
        """The same without the result."""
        return f"{self.sentence} {self.left(facts)}".strip()


def worked(steps: tuple[By, ...], facts: Facts, answer: float, unit: str) -> str:
    """Every step and the answer, as Markdown with LaTeX."""
    answered = shown(answer, unit)
    parts = [step.solved(facts, answered) for step in steps]
    return "\n\n".join([*parts, f"Answer: **{answered}**"])
