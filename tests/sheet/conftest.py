"""Pages printed once for all tests that look at paper; skipped with a reason where there is no browser."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))


@pytest.fixture(scope="session")
def printed(tmp_path_factory):
    """What Chromium makes of every page of `pages.py`: by name a PDF for each paper and what it found.

    In a process of its own: the tests of the notebooks keep a browser of theirs open.
    """
    pytest.importorskip("playwright.sync_api")
    from server import browser_path

    if browser_path() is None:
        if os.environ.get("CI"):
            pytest.fail("CI must have a browser: install the distribution's chromium package")
        pytest.skip("no Chromium installed: printing needs the distribution's chromium package")
    folder = tmp_path_factory.mktemp("printed")
    paths = os.pathsep.join([str(HERE), str(HERE.parent / "browser"), os.environ.get("PYTHONPATH", "")])
    done = subprocess.run(
        [sys.executable, str(HERE / "print_pages.py"), str(folder)],
        env=os.environ | {"PYTHONPATH": paths},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    return {name: found | {"folder": folder} for name, found in json.loads((folder / "found.json").read_text()).items()}
