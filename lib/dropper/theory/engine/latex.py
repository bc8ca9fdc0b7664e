"""LaTeX of equations, always printed from the sympy object."""

from __future__ import annotations

import sympy
from sympy.printing.latex import LatexPrinter
from sympy.printing.precedence import PRECEDENCE

from .symbols import GLOSSARY
from .term_order import factors, terms


class _Latex(LatexPrinter):
    """sympy's LaTeX with the factors in a reader's order, and optionally with numbers for symbols."""

    def __init__(self, numbers: dict[sympy.Symbol, str] | None = None):
        names = {line.symbol: line.latex for line in GLOSSARY.values() if line.latex}
        super().__init__({"ln_notation": True, "inv_trig_style": "full", "symbol_names": names | (numbers or {})})
        self.numbers = numbers or {}
        self.times = r" \cdot " if numbers else " "

    def _as_ordered_terms(self, expr, order=None):
        return terms(expr)

    def parenthesize(self, item, level, is_neg=False, strict=True):
        if item in self.numbers and level >= PRECEDENCE["Pow"]:
            return rf"\left({self.numbers[item]}\right)"
        return super().parenthesize(item, level, is_neg=is_neg, strict=strict)

    def _row(self, items):
        if len(items) == 1:
            return self._print(items[0])
        first, *rest = (self.parenthesize(item, PRECEDENCE["Mul"]) for item in items)
        # two numbers side by side would read as one
        return first + "".join((r" \cdot " if text[0].isdigit() else self.times) + text for text in rest)

    def _print_Mul(self, expr):
        sign, above, below = factors(expr)
        if not below:
            return sign + self._row(above)
        return rf"{sign}\frac{{{self._row(above)}}}{{{self._row(below)}}}"

    def _print_Function(self, expr, exp=None):
        # applied quantities such as I_mean(D) keep the glossary's name for them
        line = GLOSSARY.get(expr.func.__name__)
        if line is None or not line.latex:
            return super()._print_Function(expr, exp)
        inside = ", ".join(self._print(argument) for argument in expr.args)
        applied = rf"{line.latex}{{\left({inside}\right)}}"
        return rf"\left({applied}\right)^{{{exp}}}" if exp else applied


def latex(expression: sympy.Basic, numbers: dict[sympy.Symbol, str] | None = None) -> str:
    """LaTeX of an expression or equation; `numbers` are written in place of their symbols."""
    return _Latex(numbers).doprint(expression)
