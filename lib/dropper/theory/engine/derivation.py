"""Derivation: steps that follow from one another, a result, and everything that is made from it.

The equations are written once, as sympy objects.  What a notebook shows, what is read aloud, what is computed
and what a test checks are all made from them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import sympy
from sympy.core.function import AppliedUndef

from . import page
from .example import Example
from .justification import Justification, Premise, Quotation, vanishes
from .numeric import Inequality, Numeric
from .signature import KeywordMethod
from .symbols import GLOSSARY, RANK, SymbolInfo, info
from .working import Working


@dataclass(frozen=True)
class Step:
    """One sentence, one equation, and its justification."""

    sentence: str
    equation: sympy.Eq
    justification: Justification
    assumption: str = ""

    def __post_init__(self):
        if not isinstance(self.equation, sympy.Eq):
            raise TypeError(f"a step needs a sympy equation, not {self.equation!r}")


@dataclass(frozen=True)
class StepCheck:
    """What verifying one step gave: its residuals, all of which must vanish."""

    number: int
    residuals: tuple[sympy.Expr, ...]
    holds: bool


class _Docstring:
    """`__doc__` of a derivation is made from its result; that of the class stays what it is."""

    def __init__(self, text: str):
        self.text = text

    def __get__(self, derivation, owner):
        return self.text if derivation is None else derivation.docstring()


class _Signature:
    """`__signature__` of a derivation has its values; the class keeps the signature of its constructor."""

    def __get__(self, derivation, owner):
        if derivation is None:
            raise AttributeError("__signature__")
        return derivation.__call__.__signature__


@dataclass(frozen=True, eq=False, repr=False)
class Derivation:
    __doc__ = _Docstring(
        """One thing derived, step by step; call it with keyword arguments to evaluate the result.

    name: what it is called in code; title and question: for people.
    steps: see `Step`; the last one is the result.
    assumptions, sources: sentences.
    conditions: relations between the values (see `Inequality`).
    extra_inputs: symbols to ask for even if the result does not depend on them.
    example: values of a source for the docstring's example; typical ones if none.
    """
    )
    __signature__ = _Signature()
    name: str
    title: str
    question: str
    steps: tuple[Step, ...]
    assumptions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    conditions: tuple[Inequality, ...] = ()
    extra_inputs: tuple[sympy.Symbol, ...] = ()
    example: Example | None = None

    def __post_init__(self):
        for number, step in enumerate(self.steps, start=1):
            if any(not 1 <= earlier < number for earlier in step.justification.earlier_steps):
                raise ValueError(f"{self.name}: step {number} may stand only on steps before it")

    @property
    def result(self) -> sympy.Eq:
        """The equation that was to be found."""
        return self.steps[-1].equation

    @property
    def output(self) -> SymbolInfo:
        """The glossary's line for the quantity that is found."""
        return info(self.result.lhs)

    @cached_property
    def inputs(self) -> tuple[SymbolInfo, ...]:
        """The glossary's lines for the values that a call asks for, in the glossary's order."""
        free = self.result.rhs.free_symbols | set(self.extra_inputs)
        return tuple(sorted((info(symbol) for symbol in free), key=lambda line: RANK[line.name]))

    @property
    def keywords(self) -> tuple[str, ...]:
        """The names of those values."""
        return tuple(line.keyword for line in self.inputs)

    @cached_property
    def symbols(self) -> dict[sympy.Symbol, SymbolInfo]:
        """Every symbol that stands anywhere in the derivation, with its line of the glossary."""
        names = set()
        for step in self.steps:
            names |= {symbol.name for symbol in step.equation.atoms(sympy.Symbol)}
            names |= {function.func.__name__ for function in step.equation.atoms(AppliedUndef)}
        return {GLOSSARY[name].symbol: GLOSSARY[name] for name in sorted(names, key=RANK.__getitem__)}

    @cached_property
    def _numeric(self) -> Numeric:
        return Numeric(self.name, self.result.rhs, self.inputs, self.conditions)

    @KeywordMethod
    def __call__(self, *positional: object, **values: float | np.ndarray) -> float | np.ndarray:
        """The result for these values, by name only; arrays are broadcast, numbers give a float."""
        return self._numeric(values, positional)

    @KeywordMethod
    def working(self, *positional: object, names: Mapping[str, str] | None = None, **values: float) -> Working:
        """The result with these numbers put in, for reading; `names` as for `Working`."""
        checked = self._numeric.check(values, positional)
        if any(array.ndim for array in checked.values()):
            raise TypeError(f"{self.name}: the working shows one number for each value, not an array")
        numbers = {line.symbol: float(checked[line.keyword]) for line in self.inputs}
        return Working(self.title, self.result, self.output, numbers, self(**values), names or {})

    def verify(self) -> Iterator[StepCheck]:
        """Check every step against the steps it stands on."""
        for number, step in enumerate(self.steps, start=1):
            used = [self.steps[earlier - 1].equation for earlier in step.justification.earlier_steps]
            residuals = step.justification.residuals(step.equation, used)
            yield StepCheck(number, residuals, all(vanishes(residual) for residual in residuals))

    def with_step(self, number: int, equation: sympy.Eq) -> Derivation:
        """The same derivation with one equation changed (to see whether `verify` notices)."""
        steps = list(self.steps)
        steps[number - 1] = replace(steps[number - 1], equation=equation)
        return replace(self, steps=tuple(steps))

    def docstring(self) -> str:
        """Equation, parameters with units and ranges, errors, assumptions and sources."""
        return page.docstring(self)

    def plain(self) -> str:
        """The derivation as plain text that can be read aloud."""
        return page.plain(self)

    @property
    def folded(self) -> page.FoldedDerivation:
        """The same for a notebook that is not about it: the result, and the steps on a click."""
        return page.FoldedDerivation(self)

    def _repr_markdown_(self) -> str:
        return page.markdown(self)

    def __repr__(self) -> str:
        return f"<derivation {self.name}({', '.join(self.keywords)}) -> {self.output.keyword}>"


def premise(kind: str, sentence: str, left: sympy.Expr | int, right: sympy.Expr | int, assumption: str = "") -> Step:
    """A step that is not derived here; `kind` is 'law', 'definition', 'circuit' or 'approximation'."""
    return Step(sentence, _equal(left, right), Premise(kind), assumption)


def quotation(sentence: str, derivation: Derivation, function_of: sympy.Symbol | None = None) -> Step:
    """The result of another derivation, optionally written as a function of one of its symbols."""
    left = derivation.result.lhs if function_of is None else derivation.output.of(function_of)
    return Step(sentence, _equal(left, derivation.result.rhs), Quotation(derivation.title, derivation.result))


def step(
    sentence: str, left: sympy.Expr | int, right: sympy.Expr | int, justification: Justification, assumption: str = ""
) -> Step:
    """A step that follows from earlier ones by the justification stated."""
    return Step(sentence, _equal(left, right), justification, assumption)


def _equal(left: sympy.Expr | int, right: sympy.Expr | int) -> sympy.Eq:
    return sympy.Eq(sympy.sympify(left), sympy.sympify(right), evaluate=False)
