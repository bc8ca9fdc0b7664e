"""The solver that runs is the one that stands in the sources, wherever it may keep its compiled code."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import dropper
import pytest
from dropper.solver.kernel import compilation

PACKAGE = Path(dropper.__file__).resolve().parent
CURRENT = """
from dropper import Lamp, Led, LedString, Mains, steady_state
lamp = Lamp(mains=Mains(230, 50), string=LedString(Led(3, 0.02), 20), dropper=330e-9, smoothing=1e-5)
print(repr(steady_state(lamp).string_current_mean))
"""


@pytest.fixture
def copy(tmp_path):
    """A copy of the package without any compiled code, that may be edited."""
    folder = tmp_path / "library"
    shutil.copytree(PACKAGE, folder / "dropper", ignore=shutil.ignore_patterns("__pycache__"))
    return folder


def run(copy, code, **environment):
    """Run code in a fresh process on the copy, its cache folder inside the copy's parent."""
    home = copy.parent / "home"
    environment = {
        **os.environ,
        "PYTHONPATH": str(copy),
        "NUMBA_OPT": "0",
        "HOME": str(home),
        "XDG_CACHE_HOME": str(home),
        **environment,
    }
    environment.pop("NUMBA_CACHE_DIR", None)
    return subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=True)


@pytest.mark.slow
def test_an_edit_of_a_function_that_another_file_calls_changes_the_answer(copy):
    before = float(run(copy, CURRENT).stdout)
    step = next(copy.rglob("step.py"))
    source = step.read_text(encoding="utf-8")
    edited = source.replace("v = junctions + p[R_S] * y\n", "v = junctions + 5.0 * p[R_S] * y\n")
    assert edited != source, "the line that this test edits has gone from step.py"
    step.write_text(edited, encoding="utf-8")
    after = float(run(copy, CURRENT).stdout)
    assert after != pytest.approx(before, rel=1e-6), "old machine code ran: the edited solver was not seen"


KEPT = "from dropper.solver.kernel import compilation as c; print(c.CACHE); print(c.SENTENCE)"


def test_the_compiled_solver_goes_to_the_learners_own_cache_where_the_package_cannot_be_written(copy):
    next(copy.rglob("step.py")).with_name("__pycache__").write_text("no folder can be made here")
    cache, sentence = run(copy, KEPT).stdout.splitlines()
    assert Path(cache).is_relative_to(copy.parent / "home")
    assert "cannot be written" in sentence and str(Path(cache).parent) in sentence


def test_with_nowhere_to_write_the_solver_still_runs_and_says_why_it_is_slow(copy):
    next(copy.rglob("step.py")).with_name("__pycache__").write_text("no folder can be made here")
    home = copy.parent / "not_a_folder"
    home.write_text("nor here")
    done = run(copy, KEPT, HOME=str(home), XDG_CACHE_HOME=str(home))
    assert done.stdout.splitlines()[0] == "None"
    assert done.stderr.count("compiled anew at each start") == 1


def test_code_compiled_from_other_sources_is_swept_away(copy):
    kernel = next(copy.rglob("step.py")).parent
    stale = kernel / "__pycache__" / "kernel-0123456789abcdef"
    stale.mkdir(parents=True)
    run(copy, KEPT)
    assert not stale.exists()


def test_what_the_installer_compiled_is_taken_along_where_the_package_cannot_be_written(tmp_path, monkeypatch):
    """24 accounts on one computer do not compile the same code 24 times."""
    theirs = tmp_path / "package"
    prepared = theirs / "__pycache__" / f"kernel-{compilation.sources_key()}"
    prepared.mkdir(parents=True)
    (prepared / "cycle.nbi").write_bytes(b"compiled")
    monkeypatch.setattr(compilation, "HERE", theirs)
    monkeypatch.setattr(compilation, "_can_write", lambda folder: theirs not in folder.parents and _made(folder))
    monkeypatch.setattr(compilation.platformdirs, "user_cache_path", lambda *_, **__: tmp_path / "home")
    monkeypatch.setattr(compilation.numba.config, "CACHE_DIR", "")
    cache, _ = compilation.choose_cache()
    assert (cache / "cycle.nbi").read_bytes() == b"compiled" and cache.is_relative_to(tmp_path / "home")


def _made(folder):
    folder.mkdir(parents=True, exist_ok=True)
    return True
