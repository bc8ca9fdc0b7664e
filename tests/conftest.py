"""What holds for all tests: the random cases they draw, what is quick, and how they are handed out to processes."""

import gc
import os
import re
import secrets
import sys
from pathlib import Path

import draws
import pytest
from hypothesis import HealthCheck, settings
from hypothesis.internal.conjecture import providers

# Python's own cache of compiled sources is kept by all processes of a run, whatever the surroundings say of it: to compile
# library and tests anew took each of them, and each kernel, longer than most tests do.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

BROWSER = ("tests/browser/", "tests/sheet/test_printed.py")
LESSON_AFTER_LESSON = "tests/browser/test_lessons.py"
LESSONS_IN_A_ROW = 3  # each is opened by the last link of the one before


@pytest.fixture(autouse=True)
def no_choice_of_the_learner(monkeypatch):
    """The notebooks' own folder keeps no choice of a lamp while tests run: panels begin with the lamp they name."""
    from dropper.bench.own_lamp import choice

    own_folder, notebooks = choice.own_folder, Path(__file__).resolve().parents[1] / "notebooks"
    monkeypatch.setattr(choice, "own_folder", lambda lamps: None if Path.cwd() == notebooks else own_folder(lamps))


def pytest_addoption(parser):
    parser.addoption("--draws", metavar="anew", help="draw other random cases, and more: 'anew', or a run's number")
    parser.addoption("--fuzz", metavar="TIMES", type=int, help="try so many times as many things in tests/fuzz")


@pytest.hookimpl(tryfirst=True)
def pytest_configure(config):
    for marker in (
        "browser: needs Chromium",
        "slow: takes some seconds, or is one of a great many",
        "wide: only where cases are drawn anew, `--draws=anew`",
    ):
        config.addinivalue_line("markers", marker)
    if config.getoption("fuzz"):
        os.environ[draws.FUZZ] = str(config.getoption("fuzz"))
    anew = config.getoption("draws")
    if anew:
        number = secrets.randbits(31) if anew == "anew" else int(anew)
        os.environ.setdefault(draws.VARIABLE, str(number))  # the processes that run the tests have it already
        config.option.hypothesis_seed = os.environ[draws.VARIABLE]
    else:  # the constants of whatever modules are loaded would change what is drawn
        providers.is_local_module_file = lambda path: False
    settings.register_profile(
        "ours",
        deadline=None,
        database=None,
        derandomize=not anew,
        max_examples=draws.examples(100),
        print_blob=bool(anew),
        suppress_health_check=[HealthCheck.too_slow],
    )
    settings.load_profile("ours")


def pytest_terminal_summary(terminalreporter):
    for report in terminalreporter.getreports("passed") + terminalreporter.getreports("failed"):
        for name, counts in report.user_properties:
            if name == "fuzz" and report.when == "call":
                terminalreporter.write_line(f"{report.nodeid.split('::')[-1]}: {counts}")
    if draws.VARIABLE in os.environ:
        terminalreporter.write_line(f"Random cases of --draws={os.environ[draws.VARIABLE]}")


def pytest_sessionstart(session):
    """Before the tests are handed out the solver is compiled once, so that the processes that run them find it done."""
    if not hasattr(session.config, "workerinput") and session.config.getoption("numprocesses", None):
        from dropper.__main__ import warm_up

        warm_up()


def pytest_collection_finish():
    """What is loaded by now stays: the garbage collector need not look at it again and again."""
    gc.collect()
    gc.freeze()


def pytest_collection_modifyitems(config, items):
    """What takes longest comes first, file by file, so that no process is left with it at the end."""
    if not config.getoption("draws"):
        wide = [item for item in items if item.get_closest_marker("wide")]
        config.hook.pytest_deselected(items=wide)
        items[:] = [item for item in items if item not in wide]
    for item in items:
        if item.nodeid.startswith(BROWSER):
            item.add_marker("browser")
        elif not item.nodeid.startswith("tests/"):
            item.add_marker("slow")
    rank = {}
    for item in items:
        own = 1 if item.get_closest_marker("browser") else 2 if item.get_closest_marker("slow") else 3
        own = 0 if item.nodeid.startswith(LESSON_AFTER_LESSON) else own
        rank[item.path] = min(own, rank.get(item.path, own))
    items.sort(key=lambda item: rank[item.path])


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """Tests of one file stay together; every other process begins with the browser, which waits much, the rest without.

    The lessons in the browser are handed out some in a row: the last test of a lesson opens the next one.
    """
    from xdist.scheduler import LoadFileScheduling

    class Scheduling(LoadFileScheduling):
        def _split_scope(self, nodeid):
            file, lesson = nodeid.split("::")[0], re.search(r"\[(\d\d)_", nodeid)
            if file != LESSON_AFTER_LESSON or not lesson:
                return file
            return f"{file} {(int(lesson[1]) - 1) // LESSONS_IN_A_ROW}"

        def _assign_work_unit(self, node):
            browser = int(node.gateway.id.removeprefix("gw")) % 2 == 0
            units = (unit for unit, tests in self.workqueue.items() if next(iter(tests)).startswith(BROWSER) == browser)
            self.workqueue.move_to_end(next(units, next(iter(self.workqueue))), last=False)
            super()._assign_work_unit(node)

    return Scheduling(config, log) if config.getoption("dist") == "loadfile" else None
