"""Public names explain themselves: docstrings that say something, hints for every value, examples that are true."""

import dataclasses
import doctest
import importlib
import inspect
import pkgutil
import re
from pathlib import Path

import dropper
import pytest

ROOT = Path(__file__).resolve().parents[2]

MODULES = [
    importlib.import_module(module.name)
    for module in pkgutil.walk_packages(dropper.__path__, "dropper.")
    if not module.name.endswith(("_config", "__main__"))
]


def public(module):
    """Functions and classes that a module defines under a public name."""
    for name, thing in vars(module).items():
        if not name.startswith("_") and getattr(thing, "__module__", None) == module.__name__:
            if inspect.isfunction(thing) or inspect.isclass(thing):
                yield f"{module.__name__}.{name}", thing


def functions(module):
    """Public functions of a module and public methods of its public classes, as they were written."""
    for name, thing in public(module):
        if inspect.isfunction(thing):
            yield name, thing
            continue
        for inner, method in vars(thing).items():
            method = getattr(method, "__func__", method)
            if isinstance(method, property):
                method = method.fget
            if inspect.isfunction(method) and not inner.startswith("_") and method.__module__ == module.__name__:
                yield f"{name}.{inner}", method


def test_every_public_name_has_a_docstring():
    bare = [module.__name__ for module in MODULES if not module.__doc__]
    for module in MODULES:
        for name, thing in public(module):
            if not (thing.__doc__ or "").strip():
                bare.append(name)
            if inspect.isclass(thing):
                bare += [
                    f"{name}.{inner}"
                    for inner, method in vars(thing).items()
                    if inspect.isfunction(method) and not inner.startswith("_")
                    if not inspect.getdoc(getattr(thing, inner))
                ]
    assert not bare, "without a docstring:\n" + "\n".join(bare)


def section(text, title):
    """The lines of a section of a docstring."""
    found = re.search(rf"^{title}\n-+\n(.*?)(?=\n\n\S+\n---|\Z)", inspect.cleandoc(text or ""), flags=re.S | re.M)
    return found[1].splitlines() if found else []


def test_what_is_said_of_parameters_is_said_of_those_there_are_and_says_something():
    wrong = []
    for module in MODULES:
        for name, thing in [*public(module), *functions(module)]:
            lines = section(thing.__doc__, "Parameters")
            heads = [(n, line) for n, line in enumerate(lines) if line and not line.startswith(" ")]
            if not heads:
                continue
            takes = set(inspect.signature(thing).parameters)
            for n, line in heads:
                names = {part.strip().lstrip("*") for part in line.split(" : ")[0].split(",")}
                if not names <= takes:
                    wrong.append(f"{name}: {sorted(names - takes)} is no parameter")
                if n + 1 == len(lines) or not lines[n + 1].startswith("    "):
                    wrong.append(f"{name}: nothing is said of {line!r}")
    assert not wrong, "\n".join(sorted(set(wrong)))


def test_every_public_function_has_hints():
    wrong = []
    for module in MODULES:
        for name, function in functions(module):
            signature = inspect.signature(function)
            bare = [
                p.name
                for p in signature.parameters.values()
                if p.annotation is p.empty and p.name not in ("self", "cls")
            ]
            bare = [p for p in bare if signature.parameters[p].kind not in (2, 4)]
            if signature.return_annotation is signature.empty:
                bare.append("return")
            if bare:
                wrong.append(f"{name}: {', '.join(bare)}")
    assert not wrong, f"{len(wrong)} without hints:\n" + "\n".join(wrong)


def test_fields_that_say_what_they_are_stand_in_the_docstring():
    """`help` shows every field's unit and meaning, and they are written once, on the field."""
    wrong = []
    for module in MODULES:
        for name, thing in public(module):
            if inspect.isclass(thing) and dataclasses.is_dataclass(thing):
                said = [field.name for field in dataclasses.fields(thing) if {"spec", "about"} & set(field.metadata)]
                lines = section(thing.__doc__, "Fields")
                wrong += [
                    f"{name}.{field}" for field in said if not any(line.startswith(f"{field} : ") for line in lines)
                ]
    assert not wrong, "not in the docstring; is @documented missing?\n" + "\n".join(wrong)


@pytest.mark.slow
def test_examples_in_docstrings_are_true():
    failed = [module.__name__ for module in MODULES if doctest.testmod(module).failed]
    assert not failed, failed


def test_the_map_of_questions_and_imports_is_true():
    """The ten worked questions of the library's README."""
    failed = doctest.testfile(str(ROOT / "lib" / "README.md"), module_relative=False)
    assert failed.attempted > 20 and not failed.failed
