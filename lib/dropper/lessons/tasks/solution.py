"""Solution: the steps of a task, worked out with the learner's own numbers from the theory's derivations."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ...circuit.fields import about, documented
from .known import KnownQuantities
from .random_values import answer_text


@documented
@dataclass(frozen=True)
class TheoryStep:
    """A step by a derivation of `theory`."""

    derivation: str = about("one of `theory.ALL`")
    inputs: Callable | None = about("of the `KnownQuantities`; inputs put in by hand, by keyword", default=None)

    def text(self, known: KnownQuantities, answer: str = "") -> str:
        """The equation, the same with numbers, and the result, as Markdown."""
        return known.working(self.derivation, **self.inputs_by_hand(known))._repr_markdown_()

    def hint(self, known: KnownQuantities) -> str:
        """The same without the result."""
        from ...theory.engine.latex import latex
        from ...theory.engine.quantities import quantity_latex
        from ...theory.engine.symbols import info

        working = known.working(self.derivation, **self.inputs_by_hand(known))
        numbers = {
            symbol: quantity_latex(value, info(symbol).unit, given=True) for symbol, value in working.numbers.items()
        }
        numbers = {symbol: rf"\left({text}\right)" if text[0] == "-" else text for symbol, text in numbers.items()}
        left, right = working.result.lhs, working.result.rhs
        rows = rf"{latex(left)} &= {latex(right)} \\ &= {latex(right, numbers)}"
        return rf"$$ \begin{{aligned}} {rows} \end{{aligned}} $$"

    def inputs_by_hand(self, known: KnownQuantities) -> dict[str, float]:
        """The inputs that are put in by hand, by keyword."""
        return self.inputs(known) if self.inputs else {}


@documented
@dataclass(frozen=True)
class TextStep:
    """A line between two steps."""

    line: Callable = about("of the `KnownQuantities`; the line as Markdown")

    def text(self, known: KnownQuantities, answer: str = "") -> str:
        """The line."""
        return self.line(known)


@documented
@dataclass(frozen=True)
class SumStep:
    """A last step in plain arithmetic."""

    left: Callable = about("of the `KnownQuantities`; the arithmetic with numbers, up to the equals sign")
    sentence: str = about("what stands before it", default="")

    def text(self, known: KnownQuantities, answer: str = "") -> str:
        """The sentence, the arithmetic and what it comes to."""
        return f"{self.sentence}\n\n{self.left(known)} = **{answer}**".strip()

    def hint(self, known: KnownQuantities) -> str:
        """The same without the result."""
        return f"{self.sentence} {self.left(known)}".strip()


SHARE = TextStep(
    lambda q: (
        f"The clamped voltage as a share of the peak: D/Vp = {q.clamped_voltage:g} V / {q.peak_voltage:.4g} V"
        f" = {q.clamped_fraction:.4g}"
    )
)


def solution_text(
    steps: Sequence[TheoryStep | TextStep | SumStep],
    known: KnownQuantities,
    answer: float,
    unit: str,
    exact: bool = False,
) -> str:
    """Every step and the answer, as Markdown with LaTeX.

    Parameters
    ----------
    answer
        In `unit`.
    exact
        As for `answer_text`.
    """
    text = answer_text(answer, unit, exact)
    return "\n\n".join([*(step.text(known, text) for step in steps), f"Answer: **{text}**"])
