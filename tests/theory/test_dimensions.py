"""Both sides of every equation have the same dimension, by the dimension system of sympy.physics.units."""

import pytest
import sympy
from dropper import theory
from dropper.theory.engine.symbols import GLOSSARY, C, D, V_p, f, info
from for_every import for_every
from sympy.core.function import AppliedUndef
from sympy.physics.units import Dimension
from sympy.physics.units.systems.si import dimsys_SI

NUMBER = Dimension(1)
_OF_A_NUMBER = (sympy.sin, sympy.cos, sympy.asin, sympy.acos, sympy.atan, sympy.log)


def dimension(expression):
    """Dimension of an expression, or None for zero and infinity, which go with any."""
    if expression == 0 or expression.is_infinite:
        return None
    if isinstance(expression, sympy.Integral):
        ((variable, low, high),) = expression.limits
        same(expression, variable, low, high)
        return dimension(expression.function) * dimension(variable)
    if expression.is_Symbol or isinstance(expression, AppliedUndef):
        return info(expression).dimension
    if expression.is_number and not expression.has(AppliedUndef):  # sympy calls a definite integral one
        return NUMBER
    if isinstance(expression, sympy.Add):
        return same(expression, *expression.args)
    if isinstance(expression, sympy.Max | sympy.Min):
        return same(expression, *expression.args)
    if isinstance(expression, sympy.Abs):
        return dimension(expression.args[0])
    if isinstance(expression, sympy.Mul):
        return product(dimension(factor) or NUMBER for factor in expression.args)
    if isinstance(expression, sympy.exp) or (isinstance(expression, sympy.Pow) and not expression.exp.is_number):
        base, exponent = expression.as_base_exp()
        assert_number(exponent, expression)
        assert_number(base, expression)
        return NUMBER
    if isinstance(expression, sympy.Pow):
        return dimension(expression.base) ** expression.exp
    if isinstance(expression, sympy.Derivative):
        below = product(dimension(variable) ** count for variable, count in expression.variable_count)
        return dimension(expression.expr) / below
    assert isinstance(expression, _OF_A_NUMBER), type(expression)
    assert_number(expression.args[0], expression)
    return NUMBER


def product(dimensions):
    total = NUMBER
    for one in dimensions:
        total = total * one
    return total


def same(where, *parts):
    found = [one for one in map(dimension, parts) if one is not None]
    for other in found[1:]:
        assert dimsys_SI.equivalent_dims(found[0], other), f"{found[0]} and {other} meet in {where}"
    return found[0] if found else None


def assert_number(expression, where):
    found = dimension(expression)
    assert found is None or dimsys_SI.equivalent_dims(found, NUMBER), f"{expression} in {where} is no plain number"


@for_every(theory.ALL)
def test_both_sides_of_every_equation_agree(name):
    for entry in theory.ALL[name].steps:
        same(entry.equation, entry.equation.lhs, entry.equation.rhs)


@pytest.mark.parametrize(
    "wrong",
    [
        sympy.Eq(GLOSSARY["I_mean"].symbol, 4 * f * C),
        sympy.Eq(GLOSSARY["I_mean"].symbol, 4 * f * C * (V_p - D / f)),
        sympy.Eq(GLOSSARY["gamma"].symbol, sympy.acos(V_p)),
        sympy.Eq(GLOSSARY["P"].symbol, sympy.Derivative(GLOSSARY["u"].of(f), f)),
        sympy.Eq(GLOSSARY["V_lim"].symbol, V_p * sympy.exp(-f)),
    ],
)
def test_the_check_notices_a_wrong_dimension(wrong):
    with pytest.raises(AssertionError):
        same(wrong, wrong.lhs, wrong.rhs)


def test_every_dimension_is_known():
    for line in GLOSSARY.values():
        assert dimsys_SI.get_dimensional_dependencies(line.dimension) is not None
