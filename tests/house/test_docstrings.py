"""Public names explain themselves, and their docstrings keep up with their signatures."""

import doctest
import importlib
import inspect
import pkgutil

import dropper
import pytest

MODULES = sorted(
    module.name
    for module in pkgutil.walk_packages(dropper.__path__, "dropper.")
    if not module.name.endswith(("_config", "__main__"))
)


def public(module):
    """Functions and classes that a module defines under a public name."""
    for name, thing in vars(module).items():
        if not name.startswith("_") and getattr(thing, "__module__", None) == module.__name__:
            if inspect.isfunction(thing) or inspect.isclass(thing):
                yield name, thing


@pytest.mark.parametrize("name", MODULES)
def test_every_public_name_has_a_docstring(name):
    module = importlib.import_module(name)
    assert module.__doc__, name
    for called, thing in public(module):
        assert thing.__doc__ and thing.__doc__.strip(), f"{name}.{called}"
        if inspect.isclass(thing):
            for inner, method in vars(thing).items():
                if inspect.isfunction(method) and not inner.startswith("_"):
                    assert inspect.getdoc(getattr(thing, inner)), f"{name}.{called}.{inner}"


@pytest.mark.parametrize("name", MODULES)
def test_parameters_sections_name_what_the_signature_takes(name):
    for called, thing in public(importlib.import_module(name)):
        text = thing.__doc__ or ""
        if "Parameters\n" not in text or not inspect.isfunction(thing):
            continue
        section = inspect.cleandoc(text).split("Parameters\n")[1].split("\n\nR")[0]
        told = {
            part.strip()
            for line in section.splitlines()
            if " : " in line and not line.startswith(" ")
            for part in line.split(" : ")[0].split(",")
        }
        assert told == set(inspect.signature(thing).parameters), f"{name}.{called}"


@pytest.mark.parametrize("name", MODULES)
def test_examples_in_docstrings_are_true(name):
    failed, _ = doctest.testmod(importlib.import_module(name))
    assert failed == 0
