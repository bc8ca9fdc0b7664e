"""What people read: Markdown, plain text for screen readers, docstrings, and the working with one's own numbers."""

import re

import pytest
import sympy
from dropper import theory
from dropper.theory.engine.latex import latex
from dropper.theory.engine.plain_text import plain_text
from dropper.theory.engine.quantities import quantity_latex, quantity_text
from dropper.theory.engine.symbols import GLOSSARY, C, D, V_p, f, t, theta_1
from for_every import for_every

NAMES = list(theory.ALL)
SHORT = {"frequency": 50.0, "dropper": 330e-9}


@for_every(NAMES)
def test_plain_text_can_be_read_aloud(name):
    text = theory.ALL[name].plain()
    assert not set(text) & set("\\{}$^*_|") - {"_"}, "no LaTeX and no code"
    assert max(map(text.count, ["Result:"])) == 1
    assert text.count("\nStep ") == len(theory.ALL[name].steps)
    equations = re.findall(r"^  (?!Assuming)(.+)$", text, flags=re.M)
    assert all(" = " in equation for equation in equations)


@for_every(NAMES)
def test_markdown_shows_every_step_as_latex(name):
    derivation = theory.ALL[name]
    text = derivation._repr_markdown_()
    for number, entry in enumerate(derivation.steps, start=1):
        assert f"\n{number}. {entry.sentence}" in text
        assert f"$$ {latex(entry.equation)} $$" in text
    assert text.count("$$") == 2 * len(derivation.steps)
    assert text.count("{") == text.count("}")
    assert text.count(r"\left") == text.count(r"\right")
    assert derivation.title in text and derivation.question in text
    assert all(source in text for source in derivation.sources)


@for_every(NAMES)
def test_docstring_says_what_a_formula_must_say(name):
    derivation = theory.ALL[name]
    text = derivation.__doc__
    assert text == derivation.docstring()
    assert plain_text(derivation.result) in text
    for line in derivation.inputs:
        assert f"{line.keyword} : " in text and line.meaning in text and line.allowed in text
    for heading in ("Equation", "Parameters", "Returns", "Raises", "Sources"):
        assert f"\n{heading}\n{'-' * len(heading)}\n" in text
    assert all(relation.reason in text for relation in derivation.conditions)


@for_every(NAMES)
def test_every_derivation_is_asked_and_has_its_sources(name):
    derivation = theory.ALL[name]
    assert derivation.question.endswith("?") and derivation.sources
    assert all(entry.sentence.strip().endswith((".", ")")) for entry in derivation.steps)
    assert set(derivation.symbols) >= {line.symbol for line in derivation.inputs}


@pytest.mark.parametrize(
    ("expression", "words"),
    [
        (sympy.Eq(GLOSSARY["I_mean"].symbol, 4 * f * C * (V_p - D)), "I_mean = 4 f C (V_p - D)"),
        (1 / (2 * sympy.pi * f * C), "1 / (2 pi f C)"),
        (sympy.sqrt(V_p - D), "square root of (V_p - D)"),
        (V_p**2 / 2, "V_p squared / 2"),
        (D**3, "D cubed"),
        ((V_p - D) ** 2, "(V_p - D) squared"),
        (sympy.exp(-t / C), "exp(-t / C)"),
        (sympy.log(V_p / D), "ln(V_p / D)"),
        (sympy.acos(D), "arccos(D)"),
        (2 ** (t / f), "2 to the power (t / f)"),
        (-D / (V_p - D), "-D / (V_p - D)"),
        (sympy.sqrt(2) * sympy.sqrt(V_p), "square root of (2 V_p)"),
        (sympy.sqrt(V_p) / sympy.sqrt(D), "square root of (V_p / D)"),
        (sympy.Rational(2, 3), "2 / 3"),
        (sympy.Max(0, theta_1), "the greater of (0; theta_1)"),
        (sympy.Integral(GLOSSARY["v"].of(t), (t, 0, sympy.oo)), "(integral of v(t) over t from 0 to infinity)"),
        (sympy.Derivative(GLOSSARY["v"].of(t), t), "(derivative of v(t) with respect to t)"),
        (sympy.Derivative(GLOSSARY["v"].of(t), t, t), "(second derivative of v(t) with respect to t)"),
    ],
)
def test_how_equations_are_read(expression, words):
    assert plain_text(expression) == words


def test_what_has_no_words_is_an_error():
    with pytest.raises(NotImplementedError, match="no words yet for"):
        plain_text(sympy.Matrix([[1]]))


@pytest.mark.parametrize(
    ("value", "unit", "text", "formula"),
    [
        (9645.8, "Ω", "9.646 kΩ", r"9.646\,\mathrm{k\Omega}"),
        (330e-9, "F", "330 nF", r"330\,\mathrm{nF}"),
        (1.2e-6, "F", "1.2 µF", r"1.2\,\mathrm{\mu{}F}"),
        (0.45016, "", "0.4502", "0.4502"),
        (57.2239, "°C", "57.22 °C", r"57.22\,\mathrm{{}^{\circ}C}"),
        (64000, "h", "64000 h", r"64000\,\mathrm{h}"),
        (-20, "°C", "-20 °C", r"-20\,\mathrm{{}^{\circ}C}"),
        (0, "V", "0 V", r"0\,\mathrm{V}"),
        (1.380649e-23, "J/K", "1.381e-23 J/K", r"1.381 \cdot 10^{-23}\,\mathrm{J/K}"),
    ],
)
def test_quantities(value, unit, text, formula):
    assert quantity_text(value, unit) == text
    assert quantity_latex(value, unit) == formula


def test_working_of_the_reactance():
    """Figures of row A10 of the published checks."""
    working = theory.dropper_reactance.working(frequency=50, dropper=330e-9)
    assert working.plain() == "X_C = 1 / (2 pi f C) = 1 / (2 × pi × 50 Hz × 330 nF) = 9.646 kΩ"
    assert str(working) == working.plain()
    assert working.value == theory.dropper_reactance(frequency=50, dropper=330e-9)
    markdown = working._repr_markdown_()
    numbers = r"2 \cdot \pi \cdot 50\,\mathrm{Hz} \cdot 330\,\mathrm{nF}"
    assert rf"X_{{C}} &= \frac{{1}}{{2 \pi f C}} \\ &= \frac{{1}}{{{numbers}}}" in markdown
    assert r"&= 9.646\,\mathrm{k\Omega} \end{aligned}" in markdown
    assert "`frequency`" in markdown and "**9.646 kΩ**" in markdown


def test_working_gives_angles_in_degrees_too():
    working = theory.conduction_angle.working(peak_voltage=325.0, clamped_voltage=162.5)
    assert working.value_text == "1.571 rad (90°)"


def test_working_brackets_squares_and_numbers_below_zero():
    power = theory.greatest_power.working(**SHORT, peak_voltage=325.0)
    assert "(325 V) squared" in power.plain()
    assert r"\left(325\,\mathrm{V}\right)^{2}" in power._repr_markdown_()
    life = theory.electrolytic_life.working(rated_life=2000, rated_temperature=105, temperature=-20)
    assert "105 °C - (-20 °C)" in life.plain()
    assert r"\left(-20" in life._repr_markdown_()


def test_working_of_a_constant_says_it_once():
    working = theory.mean_capacitor_power.working(**SHORT, peak_voltage=325.0)
    assert working.plain() == "P_C = 0 = 0 W"


def test_working_takes_one_lamp_at_a_time():
    with pytest.raises(TypeError, match="one number for each value, not an array"):
        theory.dropper_reactance.working(frequency=[50, 60], dropper=330e-9)
    with pytest.raises(ValueError, match="frequency = 0 Hz is not allowed"):
        theory.dropper_reactance.working(frequency=0, dropper=330e-9)


@for_every(NAMES)
def test_printed_latex_says_the_same_as_the_equation(name):
    """No symbol is lost or added by our own order of factors."""
    derivation = theory.ALL[name]
    for entry in derivation.steps:
        text = latex(entry.equation)
        for symbol in entry.equation.free_symbols:
            assert latex(symbol) in text


def test_help_on_the_class_stays_what_it_is():
    assert type(theory.peak_voltage).__doc__.startswith("One thing derived, step by step")
    assert repr(theory.peak_voltage) == "<derivation peak_voltage(voltage) -> peak_voltage>"


def test_a_folded_derivation_shows_its_result_and_hides_its_steps():
    text = theory.current_difference.folded._repr_markdown_()
    head, folded = text.split("<details>")
    assert latex(theory.current_difference.result) in head and "1. " not in head
    assert theory.current_difference._repr_markdown_() in folded and folded.rstrip().endswith("</details>")
