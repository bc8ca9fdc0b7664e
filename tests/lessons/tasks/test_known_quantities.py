"""Every quantity that a task names is given or derived, and every derivation gets only what it takes."""

import ast
from pathlib import Path

import pytest
from dropper import lessons, theory
from dropper.lessons.tasks.known import DERIVATIONS, KnownQuantities
from dropper.lessons.tasks.random_values import UNITS

ROOM = Path(lessons.__file__).parent
MODULES = sorted(path for path in ROOM.rglob("*.py") if path.stem.endswith("tasks") or path.parent.name == "tasks")
OTHER = {"values", "using", "working", "inputs"}  # attributes that are no quantities
CALLS = {"using", "working", "inputs", "TheoryStep"}


def name_of(path):
    return f"{path.parent.name}/{path.name}"


def trees():
    return [(name_of(path), ast.walk(ast.parse(path.read_text(encoding="utf-8")))) for path in MODULES]


def test_every_quantity_in_a_task_is_given_or_derived():
    names, wrong = set(), []
    for module, nodes in trees():
        for node in nodes:
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "q":
                names.add(node.attr)
                if node.attr not in {*UNITS, *theory.ALL, *DERIVATIONS, *OTHER}:
                    wrong.append(f"{module}, line {node.lineno}: q.{node.attr}")
    assert not wrong, "no such quantity:\n" + "\n".join(wrong)
    assert len(names) > 150, "quantities are written as q.name in the tasks"


def test_every_derivation_in_a_task_is_one_and_takes_what_is_put_in():
    calls, wrong = 0, []
    for module, nodes in trees():
        for node in nodes:
            if not isinstance(node, ast.Call) or not node.args or not isinstance(node.args[0], ast.Constant):
                continue
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            derivation = node.args[0].value
            if called not in CALLS:
                continue
            calls += 1
            if derivation not in set(theory.ALL):
                wrong.append(f"{module}, line {node.lineno}: there is no derivation {derivation}")
                continue
            keywords = {keyword.arg for keyword in node.keywords if keyword.arg}
            for keyword in keywords - set(theory.ALL[derivation].keywords):
                wrong.append(f"{module}, line {node.lineno}: {derivation} does not take {keyword}")
    assert not wrong, "\n".join(wrong)
    assert calls > 250, "derivations are named in the tasks"


def test_other_names_stand_for_what_their_derivation_gives():
    """A voltage that starts something may be the mains' peak; any other name is the very quantity that is given."""
    from dropper.theory.engine.symbols import GLOSSARY

    units = {line.keyword: line.unit for line in GLOSSARY.values()}
    for name, derivation in DERIVATIONS.items():
        gives = theory.ALL[derivation].output
        assert gives.unit == units[name], name
        assert gives.keyword == name or derivation == "peak_voltage", f"{derivation} gives {gives.keyword}, not {name}"


@pytest.mark.parametrize("name", ["reactanse", "string_curent_mean", "nonsense"])
def test_a_name_that_is_no_quantity_is_an_error_with_near_names(name):
    known = KnownQuantities({"frequency": 50.0, "dropper": 330e-9})
    near = {"reactanse": "near it: reactance", "string_curent_mean": "near it: string_current_mean"}.get(name, "")
    with pytest.raises(AttributeError, match=f"no quantity is called '{name}'.*{near}"):
        getattr(known, name)


def test_an_input_that_a_derivation_does_not_take_is_an_error():
    known = KnownQuantities({"frequency": 50.0, "dropper": 330e-9})
    with pytest.raises(TypeError, match="dropper_reactance does not take voltage"):
        known.using("dropper_reactance", voltage=230.0)


def test_the_quantities_are_listed_for_completion():
    names = dir(KnownQuantities({"voltage": 230.0, "hours_a_year": 1000.0}))
    assert {"voltage", "hours_a_year", "mean_string_current", "reactance", "using"} <= set(names)


def test_a_given_value_goes_before_one_that_could_be_derived():
    assert KnownQuantities({"voltage": 230.0, "peak_voltage": 300.0}).peak_voltage == 300.0
    assert KnownQuantities({"voltage": 230.0}).peak_voltage == pytest.approx(325.27, abs=0.01)
