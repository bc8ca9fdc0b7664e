"""A workbook server and a browser for the tests, both on this machine only."""

import os
import re
import shutil
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path

import nbformat
from nbformat.sign import NotebookNotary

ROOT = Path(__file__).resolve().parents[2]
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-extensions",
    "--disable-smooth-scrolling",
    "--mute-audio",
]


def browser_path():
    """The distribution's Chromium, or None."""
    return next(filter(None, map(shutil.which, BROWSERS)), None)


def trust(folder, *names):
    """Sign notebooks of a workbook in that folder, as Jupyter does with those that a person has run and saved."""
    with NotebookNotary(data_dir=str(Path(folder) / "jupyter_data_dir")) as notary:
        for name in names:
            notary.sign(nbformat.read(Path(folder) / "notebooks" / name, 4))


def text(source, **metadata):
    """A Markdown cell for `write`."""
    return nbformat.v4.new_markdown_cell(source, metadata=metadata)


def code(source, **metadata):
    """A code cell with metadata for `write`."""
    return nbformat.v4.new_code_cell(source, metadata=metadata)


def write(folder, name, *cells):
    """Put a notebook of a workbook into that folder which asks to be run when it is opened; nobody has signed it.

    A cell is code, or what `text` and `code` make.
    """
    kernel = {"name": "python3", "display_name": "Python 3 (ipykernel)", "language": "python"}
    book = nbformat.v4.new_notebook(metadata={"dropper": {"live": True}, "kernelspec": kernel})
    book.cells = [code(cell) if isinstance(cell, str) else cell for cell in cells]
    nbformat.write(book, Path(folder) / "notebooks" / name)


@contextmanager
def workbook(folder):
    """Start `python -m dropper` on a copy of the notebooks, signed; yield its address with the token in it.

    That the workbook's own need no signature is tests/lab/test_notary.py's business.
    """
    home = Path(folder)
    copy = home / "notebooks"
    of_a_learner = shutil.ignore_patterns(".ipynb_checkpoints", "my_progress*", "my_lamps")
    shutil.copytree(ROOT / "notebooks", copy, ignore=of_a_learner)
    places = ("JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR")
    settings = {name: str(home / name.lower()) for name in places}
    Path(settings["JUPYTER_DATA_DIR"]).mkdir()
    trust(home, *(path.name for path in copy.glob("*.ipynb")))
    log = home / "server.log"
    with log.open("w") as output:
        server = subprocess.Popen(
            [
                sys.executable,
                "-m",
                "dropper",
                "--no-browser",
                "--allow-root",
                "--ServerApp.port=0",
                f"--LabApp.workspaces_dir={home / 'workspaces'}",
                f"--LabApp.user_settings_dir={home / 'settings'}",
                "--LabApp.expose_app_in_browser=True",
            ],
            cwd=home,
            stdout=output,
            stderr=subprocess.STDOUT,
            env=os.environ | settings,
        )
    try:
        yield address_of(server, log)
    finally:
        server.terminate()
        try:
            server.wait(20)
        except subprocess.TimeoutExpired:
            server.kill()


def address_of(server, log):
    """The address that a server says in its log, with {page} to fill in and the token in it."""
    for _ in range(600):
        found = re.search(r"(http://(?:localhost|127\.0\.0\.1):\d+)\S*[?&](token=\w+)", log.read_text())
        if found:
            return f"{found[1]}{{page}}?{found[2]}"
        if server.poll() is not None:
            break
        time.sleep(0.1)
    raise RuntimeError(f"the server did not start:\n{log.read_text()}")
