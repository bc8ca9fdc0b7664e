"""Worked examples in formulas' docstrings: true for an interpreter, and for exact arithmetic on the equation."""

import doctest
import re

import sympy
from dropper import theory
from dropper.theory.engine.example import Example

RESULT = re.compile(r"^'(?P<number>\S+)(?: (?P<unit>\S+))?'$", re.M)


def example_of(derivation):
    return derivation.example or Example.typical(derivation.inputs)


def test_every_docstring_has_an_example_that_runs():
    parser, runner, report = doctest.DocTestParser(), doctest.DocTestRunner(verbose=False), []
    for name, derivation in theory.ALL.items():
        examples = parser.get_doctest(derivation.__doc__, {}, name, None, None)
        assert len(examples.examples) == 3, f"{name}: import, call and result"
        runner.run(examples, out=report.append)
    assert runner.failures == 0, "".join(report)


def test_examples_show_what_exact_arithmetic_gives():
    """sympy's own evaluation of the equation, with mpmath and thirty digits, shares nothing with the numeric form."""
    for name, derivation in theory.ALL.items():
        numbers = {line.keyword: line.default for line in derivation.inputs if line.default is not None}
        numbers |= example_of(derivation).numbers
        values = {line.symbol: sympy.Float(numbers[line.keyword], 40) for line in derivation.inputs}
        exact = derivation.result.rhs.evalf(30, subs=values)
        section = derivation.__doc__.split("\nExamples\n")[1]
        result = RESULT.search(section)
        assert result, f"{name} shows no number"
        assert result["number"] == f"{float(exact):.4g}", f"{name}: {result[0]}, exactly {exact}"
        assert (result["unit"] or "") == derivation.output.unit, name


def test_an_example_with_a_source_names_it_and_gives_its_figure():
    """Figures as the sources print them; see tests/published."""
    printed = {
        "dropper_for_current": "1.525e-07",
        "dropper_for_half_wave": "4.993e-07",
        "dropper_reactance": "9646",
        "electrolytic_life": "6.4e+04",
        "inrush_energy": "0.00242",
        "inrush_peak": "5",
        "inrush_resistor_heat": "0.847",
        "residual_voltage": "139.6",
        "ripple_bound": "0.2833",
        "surge_resistor": "400",
    }
    assert set(printed) == {name for name, derivation in theory.ALL.items() if example_of(derivation).source}
    for name, number in printed.items():
        text = theory.ALL[name].__doc__
        assert f"With the figures of {theory.ALL[name].example.source}:" in text
        assert f"'{number} " in text, f"{name} does not show {number}"


def test_typical_values_are_of_the_glossary_and_leave_defaults_alone():
    example = Example.typical(theory.electrolytic_life.inputs)
    assert example.values == {"rated_life": "2000", "temperature": "65", "rated_temperature": "105"}
