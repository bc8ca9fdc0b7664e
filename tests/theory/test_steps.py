"""Every step of every derivation follows from the steps it stands on, and a wrong one is noticed."""

import inspect
from importlib import import_module

import draws
import pytest
import sympy
from dropper import theory
from dropper.theory.engine.derivation import Derivation, Step, premise, step
from dropper.theory.engine.justification import Premise, Quotation, Substitution, vanishes
from dropper.theory.engine.symbols import GLOSSARY, C, f
from for_every import for_every

MODULES = sorted({module for module, _ in theory._REGISTRY.values()})
EPSILON = sympy.Symbol("epsilon", positive=True)

# Doubling this one changes nothing, for what it defines is zero; something is added instead.
INSENSITIVE_TO_SCALE = {("mean_capacitor_power", 5)}


def every_step():
    """One step in three of all derivations; all of them where cases are drawn anew."""
    steps = [(name, number) for name, found in theory.ALL.items() for number in range(1, len(found.steps) + 1)]
    return steps if draws.anew() else steps[::3]


@pytest.mark.slow
@for_every(theory.ALL)
def test_every_step_follows(name):
    for check in theory.ALL[name].verify():
        assert check.holds, f"step {check.number} leaves {check.residuals}"


def holds(derivation, number):
    """Whether one step follows from those it stands on."""
    step_ = derivation.steps[number - 1]
    used = [derivation.steps[earlier - 1].equation for earlier in step_.justification.earlier_steps]
    return all(map(vanishes, step_.justification.residuals(step_.equation, used)))


@pytest.mark.slow
@for_every(every_step)
def test_a_wrong_step_is_noticed(name, number):
    """By itself, or by a step that stands on it; all others hold, as they do above."""
    derivation = theory.ALL[name]
    right = derivation.steps[number - 1].equation
    add = right.rhs == 0 or (name, number) in INSENSITIVE_TO_SCALE
    wrong = right.rhs + EPSILON if add else 2 * right.rhs
    corrupted = derivation.with_step(number, sympy.Eq(right.lhs, wrong, evaluate=False))
    above = [
        later for later, step_ in enumerate(derivation.steps, start=1) if number in step_.justification.earlier_steps
    ]
    assert not all(holds(corrupted, each) for each in (number, *above)), f"{wrong} passed for {right.rhs}"


@for_every(theory.ALL)
def test_the_result_is_derived_and_not_given(name):
    derivation = theory.ALL[name]
    assert derivation.result is derivation.steps[-1].equation
    assert not isinstance(derivation.steps[-1].justification, (Premise, Quotation))


@for_every(theory.ALL)
def test_whatever_is_given_or_quoted_is_used(name):
    derivation = theory.ALL[name]
    used = {earlier for step_ in derivation.steps for earlier in step_.justification.earlier_steps}
    idle = [
        number
        for number, step_ in enumerate(derivation.steps, start=1)
        if isinstance(step_.justification, (Premise, Quotation)) and number not in used
    ]
    assert not idle


@for_every(theory.ALL)
def test_names_and_registry_agree(name):
    derivation = theory.ALL[name]
    assert derivation.name == name
    assert derivation.output.keyword == theory._REGISTRY[name][1]
    assert name in theory.derivations_of(derivation.output.keyword)
    assert getattr(theory, name) is derivation, "a derivation is built once, and no module hides it"


@for_every(MODULES)
def test_every_builder_is_registered(module):
    loaded = import_module(f"dropper.theory.{module}")
    builders = {
        name.removeprefix("derive_")
        for name, thing in vars(loaded).items()
        if name.startswith("derive_") and inspect.unwrap(thing).__module__ == loaded.__name__
    }
    assert builders == {name for name, (where, _) in theory._REGISTRY.items() if where == module}


def test_keywords_are_one_to_one_in_the_glossary():
    keywords = [line.keyword for line in GLOSSARY.values()]
    assert len(set(keywords)) == len(keywords)
    assert all(keyword.isidentifier() and keyword.islower() for keyword in keywords)


def test_a_step_may_not_stand_on_a_later_one():
    with pytest.raises(ValueError, match="step 1 may stand only on steps before it"):
        Derivation("odd", "Odd", "?", (step("First.", C, f, Substitution((2,))), premise("law", "Second.", C, f)))


def test_a_step_needs_an_equation():
    with pytest.raises(TypeError, match="sympy equation"):
        Step("No equation.", C + f, Premise("law"))


def test_unknown_names_are_refused():
    with pytest.raises(AttributeError, match="no derivation or function 'string_curent'"):
        theory.string_curent
    with pytest.raises(KeyError):
        theory.ALL["string_curent"]
    assert theory.derivations_of("string_curent") == ()
