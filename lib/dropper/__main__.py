"""Command `python -m dropper`: it opens the workbook in JupyterLab, its sliders live; or it does one of `COMMANDS`."""

import argparse
import importlib
import os
import sys
from collections.abc import Sequence

from .lab import HERE
from .lab.early import NOTEBOOK
from .lab.notebooks import FIRST, notebooks_folder
from .lab.preparation import solve_once

# Name: its module, which has `add_options(parser)` and `run(known)` and is loaded when it is asked for; what it does.
COMMANDS: dict[str, tuple[str, str]] = {
    "plans": (".teaching.plans_command", "a plan of each lesson, for whoever teaches"),
    "class": (".teaching.class_command", "tables of what a class has solved, from a folder of progress files"),
    "sheets": (".teaching.sheets_command", "tasks on paper for a class, and their key"),
}


def warm_up() -> None:
    """Have the solver compiled and in its cache, so that the first slider moves at once."""
    print("Getting the solver ready (a few seconds the first time) ...", flush=True)
    solve_once()


def main(arguments: Sequence[str] | None = None) -> None:
    """Start JupyterLab on this machine only, with its token, showing the first notebook."""
    arguments = sys.argv[1:] if arguments is None else list(arguments)
    if arguments and arguments[0] in COMMANDS:
        run_command(*arguments)
    else:
        open_workbook(arguments)


def run_command(name: str, *arguments: str) -> None:
    """Run one of `COMMANDS` with what was typed behind its name."""
    module, words = COMMANDS[name]
    command = importlib.import_module(module, __package__)
    parser = argparse.ArgumentParser(prog=f"python -m dropper {name}", description=words)
    command.add_options(parser)
    command.run(parser.parse_args(arguments))


def open_workbook(arguments: Sequence[str]) -> None:
    """Start JupyterLab."""
    parser = argparse.ArgumentParser(
        prog="python -m dropper",
        description=main.__doc__,
        epilog=" · ".join(f"{name}: {words}" for name, (_, words) in COMMANDS.items()),
    )
    parser.add_argument("--notebook", default=FIRST, help="the notebook to open (default: %(default)s)")
    parser.add_argument("--prepare", action="store_true", help="get the solver ready and stop")
    known, rest = parser.parse_known_args(arguments)
    warm_up()
    if known.prepare:
        return
    folder = notebooks_folder()
    if not (folder / known.notebook).is_file():
        raise SystemExit(f"No notebook {known.notebook} in {folder.name}/.")
    paths = [str(HERE), os.environ.get("JUPYTER_CONFIG_PATH", "")]
    os.environ["JUPYTER_CONFIG_PATH"] = os.pathsep.join(filter(None, paths))

    os.environ[NOTEBOOK] = known.notebook

    from jupyterlab.labapp import LabApp

    page = f"/doc/tree/{known.notebook}"
    LabApp.launch_instance([f"--ServerApp.root_dir={folder}", f"--LabApp.default_url={page}", *rest])


if __name__ == "__main__":
    sys.exit(main())
