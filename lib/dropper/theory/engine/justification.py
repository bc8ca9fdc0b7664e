"""Justification of a step: what it follows from, and the check that it does.

A step is either a premise (a law, a definition, the circuit) or follows from numbered steps before it.  Each kind of
justification knows how to put those steps into the new equation; what is left over, the residual, must vanish.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

import sympy
from sympy.core.function import AppliedUndef


class Justification(Protocol):
    """Anything with a line for the reader, the numbers of the steps used, and residuals that must vanish."""

    earlier_steps: tuple[int, ...]

    def words(self) -> str:
        """The justification in words, for the page."""

    def residuals(self, equation: sympy.Eq, used: Sequence[sympy.Eq]) -> tuple[sympy.Expr, ...]:
        """What must vanish if the step holds."""


@dataclass(frozen=True)
class Premise:
    """Not derived here: 'law', 'definition', 'circuit' or 'approximation'."""

    kind: str
    earlier_steps: tuple[int, ...] = ()

    def words(self) -> str:
        """The justification in words, for the page."""
        return self.kind

    def residuals(self, equation: sympy.Eq, used: Sequence[sympy.Eq]) -> tuple[sympy.Expr, ...]:
        """What must vanish if the step holds."""
        return ()


@dataclass(frozen=True)
class Quotation:
    """The result of another derivation, taken over as it stands."""

    title: str
    result: sympy.Eq
    earlier_steps: tuple[int, ...] = ()

    def words(self) -> str:
        """The justification in words, for the page."""
        return f"derived under “{self.title}”"

    def residuals(self, equation: sympy.Eq, used: Sequence[sympy.Eq]) -> tuple[sympy.Expr, ...]:
        """What must vanish if the step holds."""
        same_quantity = _name(equation.lhs) == _name(self.result.lhs)
        return (equation.rhs - self.result.rhs, sympy.S.Zero if same_quantity else sympy.S.One)


@dataclass(frozen=True)
class Substitution:
    """The earlier equations, put in one after the other, turn the new one into an identity.

    Derivatives and integrals that stand in it are carried out on the way.
    """

    earlier_steps: tuple[int, ...]

    def words(self) -> str:
        """The justification in words, for the page."""
        return _from(self.earlier_steps)

    def residuals(self, equation: sympy.Eq, used: Sequence[sympy.Eq]) -> tuple[sympy.Expr, ...]:
        """What must vanish if the step holds."""
        return (substitute(equation.lhs - equation.rhs, used),)


@dataclass(frozen=True)
class Solution:
    """The first of the earlier equations, solved for the left side of the new one; the rest are put in first."""

    earlier_steps: tuple[int, ...]

    def words(self) -> str:
        """The justification in words, for the page."""
        return _from(self.earlier_steps) + ", solved"

    def residuals(self, equation: sympy.Eq, used: Sequence[sympy.Eq]) -> tuple[sympy.Expr, ...]:
        """What must vanish if the step holds."""
        first, *rest = used
        still_in = equation.rhs.has(equation.lhs)
        return (substitute(first.lhs - first.rhs, [*rest, equation]), sympy.Integer(still_in))


@dataclass(frozen=True)
class Reasoning:
    """Some other reasoning: `test(new equation, *earlier equations)` returns what must vanish."""

    earlier_steps: tuple[int, ...]
    test: Callable[..., tuple[sympy.Expr, ...]]

    def words(self) -> str:
        """The justification in words, for the page."""
        return _from(self.earlier_steps)

    def residuals(self, equation: sympy.Eq, used: Sequence[sympy.Eq]) -> tuple[sympy.Expr, ...]:
        """What must vanish if the step holds."""
        return tuple(self.test(equation, *used))


def substitute(expression: sympy.Expr, equations: Sequence[sympy.Eq]) -> sympy.Expr:
    """Put each equation's right side in place of its left side, then carry out integrals and derivatives.

    A left side such as v(t) is replaced at every argument: v(0) becomes its right side with t = 0.
    """
    for equation in equations:
        left, right = equation.lhs, equation.rhs
        if isinstance(left, AppliedUndef) and left.args[0].is_Symbol:
            variable = left.args[0]
            expression = expression.replace(left.func, lambda at, r=right, x=variable: r.xreplace({x: at}))
        else:
            expression = expression.xreplace({left: right})
    return expression.doit()


def vanishes(expression: sympy.Expr) -> bool:
    """Whether an expression is identically zero: not if one sample says so, else by ever stronger proofs."""
    if _sample_differs(expression):
        return False
    attempts = (
        lambda e: e,
        sympy.expand,
        lambda e: sympy.expand(sympy.expand_trig(sympy.expand_log(e, force=True))),
        sympy.simplify,
        lambda e: sympy.simplify(e.rewrite(sympy.asin)),
        lambda e: sympy.simplify(sympy.expand_trig(sympy.simplify(e))),
    )
    return any(attempt(expression) == 0 for attempt in attempts)


def _sample_differs(expression: sympy.Expr) -> bool:
    """Whether the expression is plainly not zero at one point; saves proving what cannot be proved."""
    symbols = sorted(expression.free_symbols, key=str)
    point = {symbol: sympy.Rational(2 * place + 5, 29) for place, symbol in enumerate(symbols)}
    value = expression.subs(point).evalf(30)
    return bool(value.is_number and value.is_finite and abs(value) > 1e-12)


def _name(left: sympy.Expr) -> str:
    return left.func.__name__ if isinstance(left, AppliedUndef) else str(left)


def _from(numbers: tuple[int, ...]) -> str:
    if len(numbers) == 1:
        return f"from {numbers[0]}"
    return "from " + ", ".join(str(number) for number in numbers[:-1]) + f" and {numbers[-1]}"
