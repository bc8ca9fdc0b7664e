"""Plain text of equations, in one line that can be read aloud: I_mean = 4 f C (V_p - D)."""

from __future__ import annotations

import sympy
from sympy.printing.precedence import PRECEDENCE, precedence
from sympy.printing.printer import Printer

from .term_order import factors, terms

_PLAIN_FUNCTIONS = {"asin": "arcsin", "acos": "arccos", "atan": "arctan", "log": "ln", "Abs": "magnitude of "}
_POWERS = {2: "squared", 3: "cubed"}
_RELATIONS = {"==": "=", "!=": "is not", "<": "is below", "<=": "is at most", ">": "is above", ">=": "is at least"}


class _PlainTextPrinter(Printer):
    """No backslashes, no stacked fractions, no signs that a screen reader skips."""

    printmethod = "_plain_text"

    def __init__(self, names: dict[sympy.Symbol, str] | None = None, times: str = " "):
        super().__init__()
        self.names = names or {}
        self.times = times

    def emptyPrinter(self, expr):
        raise NotImplementedError(f"no words yet for {type(expr).__name__}: {expr!r}")

    def _inside(self, item, level):
        text = self._print(item)
        return f"({text})" if precedence(item) < level else text

    def _print_Symbol(self, expr):
        return self.names.get(expr, expr.name)

    _print_Dummy = _print_Symbol

    def _print_Integer(self, expr):
        return str(expr.p)

    def _print_Rational(self, expr):
        return f"{expr.p} / {expr.q}"

    def _print_Float(self, expr):
        return f"{float(expr):g}"

    def _print_Pi(self, expr):
        return "pi"

    def _print_Infinity(self, expr):
        return "infinity"

    def _print_Exp1(self, expr):
        return "e"

    def _print_Add(self, expr):
        parts = []
        for place, term in enumerate(terms(expr)):
            text = self._inside(term, PRECEDENCE["Add"])
            if place == 0:
                parts.append(text)
            elif text.startswith("-"):
                parts.append(f" - {text[1:].lstrip()}")
            else:
                parts.append(f" + {text}")
        return "".join(parts)

    def _row(self, items):
        if len(items) == 1 and not items[0].is_Add:
            return self._print(items[0])
        first, *rest = (self._inside(item, PRECEDENCE["Mul"]) for item in items)
        # two numbers side by side would read as one
        return first + "".join((" × " if text[0].isdigit() else self.times) + text for text in rest)

    def _print_Mul(self, expr):
        sign, above, below = factors(expr)
        text = self._row(above) if len(above) > 1 or below else self._inside(above[0], PRECEDENCE["Mul"])
        if below:
            under = self._row(below)
            text += f" / ({under})" if len(below) > 1 else f" / {under}"
        return sign + text

    def _print_Pow(self, expr):
        base, exponent = expr.base, expr.exp
        if exponent.is_Rational and exponent.is_negative:
            return self._print_Mul(expr)
        if exponent == sympy.Rational(1, 2):
            return f"square root of ({self._print(base)})"
        text = self._inside(base, PRECEDENCE["Pow"])
        if base in self.names and " " in text:
            text = f"({text})"
        if exponent in _POWERS:
            return f"{text} {_POWERS[int(exponent)]}"
        power = self._print(exponent)
        return f"{text} to the power {power if exponent.is_Atom and ' ' not in power else f'({power})'}"

    def _print_exp(self, expr):
        return f"exp({self._print(expr.args[0])})"

    def _print_Function(self, expr):
        name = expr.func.__name__
        inside = ", ".join(self._print(argument) for argument in expr.args)
        return f"{_PLAIN_FUNCTIONS.get(name, name)}({inside})"

    def _print_Max(self, expr):
        return f"the greater of ({'; '.join(self._print(a) for a in sorted(expr.args, key=str))})"

    def _print_Min(self, expr):
        return f"the lesser of ({'; '.join(self._print(a) for a in sorted(expr.args, key=str))})"

    def _print_Derivative(self, expr):
        order = sum(count for _, count in expr.variable_count)
        ordinal = "" if order == 1 else "second "
        return f"({ordinal}derivative of {self._print(expr.expr)} with respect to {self._print(expr.variables[0])})"

    def _print_Integral(self, expr):
        variable, low, high = expr.limits[0]
        span = f"from {self._print(low)} to {self._print(high)}"
        return f"(integral of {self._print(expr.function)} over {self._print(variable)} {span})"

    def _print_Piecewise(self, expr):
        parts = []
        for value, condition in expr.args:
            when = "otherwise" if condition == sympy.true else f"if {self._print(condition)}"
            parts.append(f"{self._print(value)} {when}")
        return ", ".join(parts)

    def _print_Relational(self, expr):
        return f"{self._print(expr.lhs)} {_RELATIONS[expr.rel_op]} {self._print(expr.rhs)}"


def plain_text(expression: sympy.Basic, names: dict[sympy.Symbol, str] | None = None, times: str = " ") -> str:
    """Plain text of an expression or equation; `names` are written in place of their symbols."""
    return _PlainTextPrinter(names, times).doprint(expression)
