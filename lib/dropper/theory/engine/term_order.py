"""Order of terms: how factors and terms are written: 4 f C (V_p - D), as a person would, not by alphabet.

Both printers, LaTeX and plain text, take their order from here.
"""

from __future__ import annotations

import sympy

from .symbols import RANK

_HALF = sympy.Rational(1, 2)
_FIRST = {"sin": 0, "cos": 1}


def factors(product: sympy.Expr) -> tuple[str, list[sympy.Expr], list[sympy.Expr]]:
    """Split a product into its sign, the factors above the line and those below it."""
    above, below, coefficient = [], [], sympy.S.One
    for factor in sympy.Mul.make_args(product):
        if factor.is_Rational:
            coefficient *= factor
        elif factor.is_Pow and factor.exp.is_Rational and factor.exp.is_negative:
            below.append(sympy.Pow(factor.base, -factor.exp))
        else:
            above.append(factor)
    sign = "-" if coefficient.is_negative else ""
    above, below = (sorted(row, key=_place) for row in _one_root(above, below))
    if abs(coefficient.p) != 1 or not above:
        above.insert(0, sympy.Integer(abs(coefficient.p)))
    if coefficient.q != 1:
        below.insert(0, sympy.Integer(coefficient.q))
    return sign, above, below


def terms(total: sympy.Expr) -> list[sympy.Expr]:
    """The terms of a sum: those with a plus first; numbers before symbols, short ones before long ones."""

    def place(term):
        ranks = sorted(RANK.get(symbol.name, len(RANK)) for symbol in term.free_symbols)
        return (term.as_coeff_Mul()[0].is_negative, term.count_ops(), ranks, str(term))

    return sorted(sympy.Add.make_args(total), key=place)


def _one_root(above: list[sympy.Expr], below: list[sympy.Expr]) -> tuple[list[sympy.Expr], list[sympy.Expr]]:
    """Several square roots, above and below the line, under one root."""

    def is_root(factor):
        return factor.is_Pow and factor.exp == _HALF

    up, down = ([factor for factor in row if is_root(factor)] for row in (above, below))
    if len(up) + len(down) < 2:
        return above, below
    rest_above, rest_below = ([factor for factor in row if not is_root(factor)] for row in (above, below))
    inside_up, inside_down = (sympy.Mul(*(root.base for root in row)) for row in (up, down))
    if up:
        return [*rest_above, sympy.Pow(inside_up / inside_down, _HALF, evaluate=False)], rest_below
    return rest_above, [*rest_below, sympy.Pow(inside_down, _HALF, evaluate=False)]


def _place(factor: sympy.Expr) -> tuple:
    """Numbers, then pi, then symbols as in the glossary, then functions, brackets, roots."""
    base = factor.base if factor.is_Pow else factor
    if factor.is_Pow and not factor.exp.is_number:
        return (2, len(_FIRST), str(factor))
    if base.is_number:
        return (0, 0, "")
    if base.is_Symbol:
        return (1, RANK.get(base.name, len(RANK)), base.name)
    if base.is_Add and not (factor.is_Pow and factor.exp == _HALF):
        return (3, 0, str(base))
    if base.is_Function:
        return (2, _FIRST.get(base.func.__name__, len(_FIRST)), str(base))
    return (4, 0, str(base))
