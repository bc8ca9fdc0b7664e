"""Random cases are the same on every machine and in every order, and others where that is asked for."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def drawn(*options, **variables):
    """What a process of its own draws."""
    bare = ["-o", "addopts=", "-p", "no:nbval", "-p", "no:cacheprovider", "--import-mode=importlib"]
    command = [sys.executable, "-m", "pytest", *bare, "-s", *options]
    run = subprocess.run(
        [*command, "tests/house/some_draws.py"],
        cwd=ROOT,
        env={key: value for key, value in os.environ.items() if key != "DROPPER_DRAWS"} | variables,
        capture_output=True,
        text=True,
    )
    assert run.returncode == 0, run.stdout + run.stderr
    return next(line for line in run.stdout.splitlines() if line.startswith("drawn: "))


@pytest.mark.slow
def test_every_run_draws_the_same_and_draws_anew_where_that_is_asked_for():
    usual = drawn(PYTHONHASHSEED="1")
    assert usual.count("(") > 50
    assert drawn("-p", "dropper.design.tolerance", PYTHONHASHSEED="2") == usual, "whatever modules are loaded"
    anew = drawn("--draws=7")
    assert anew != usual and anew.count("(") > 5 * usual.count("(")
    assert drawn("--draws=7") == anew
