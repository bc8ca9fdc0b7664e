"""What a learner has tried and solved: one small file beside the notebooks.

`my_progress.json` holds a number that the values are drawn from, and for each task the tries, the hints, and whether
it was solved or the answer shown. It holds no name, no date, and nothing of what was typed. Deleting it starts
everything again.
"""

import contextlib
import functools
import json
import os
import secrets
import tempfile
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path

from ...circuit.fields import about, documented
from .lock import alone

FILE = "my_progress.json"
ABOUT = "Which tasks of the workbook were solved. Delete this file to start again."
LARGEST = 1_000_000  # bytes; a thousand tasks take a tenth of it
MOST = 1_000_000


@documented
@dataclass(frozen=True)
class Entry:
    """Where a learner stands with one task."""

    seed: int = about("The task's values are drawn from it.")
    tries: int = about("How many were made and seen.", default=0)
    hints: int = about("How many were made and seen.", default=0)
    solved: bool = about("Solved by the learner; or the answer was shown first.", default=False)
    shown: bool = about("Solved by the learner; or the answer was shown first.", default=False)


class Progress:
    """The progress file. Trouble with it is told in `trouble`, never raised; then it is kept in memory only."""

    def __init__(self, path: str | Path = FILE):
        self.path = Path(path).absolute()
        self.trouble = ""
        self._unwritten = {}  # entries that could not be written, by task
        self._seed = None  # the learner's, if that could not be written either
        self._watching = []

    def entry(self, key: str) -> Entry:
        """Where the learner stands with a task; a task not met before gets an entry of its own."""
        _, known = self._read()
        return known[key] if key in known else self.save(key, None)

    def save(self, key: str, entry: Entry | None) -> Entry:
        """Write one task's entry; what others have written meanwhile is kept.

        Of the same task with the same values whatever has gone further counts. An entry whose values were
        drawn before the task was begun again elsewhere is not written.

        Parameters
        ----------
        entry
            None for a task not met before.

        Returns
        -------
        Entry
            As written.
        """
        with alone(self.path):
            seed, known = self._read()
            seed = secrets.randbelow(2**31) if seed is None else seed
            entry = _further(known.get(key), entry) or Entry(seed)
            self._write(seed, known | {key: entry}, key)
        for tell in list(self._watching):
            tell()
        return entry

    def afresh(self, key: str) -> Entry:
        """Start a task again with other values."""
        with alone(self.path):
            seed, known = self._read()
            entry = Entry(secrets.randbelow(2**31))
            self._write(entry.seed if seed is None else seed, known | {key: entry}, key)
        for tell in list(self._watching):
            tell()
        return entry

    def known(self) -> dict[str, Entry]:
        """Every entry there is, by task."""
        return self._read()[1]

    def watch(self, tell: Callable) -> None:
        """Call `tell` with nothing whenever an entry is written through this object."""
        self._watching.append(tell)

    def _read(self):
        """The learner's seed and entries: the file's, and over them those that could not be written."""
        try:
            with self.path.open("rb") as file:
                data = file.read(LARGEST + 1)
        except FileNotFoundError:
            return self._seed, dict(self._unwritten)
        except OSError as error:
            self._complain(f"cannot be read ({error.strerror})")
            return self._seed, dict(self._unwritten)
        try:
            seed, known = _understood(data)
        except (ValueError, RecursionError):
            self._set_aside()
            return self._seed, dict(self._unwritten)
        return seed, known | self._unwritten

    def _set_aside(self):
        aside = self.path.with_name(f"{self.path.stem}_unreadable{self.path.suffix}")
        try:
            os.replace(self.path, aside)
        except OSError:
            self._complain("cannot be understood, nor moved out of the way")
        else:
            self.trouble = (
                f"{self.path.name} could not be understood. It is kept as {aside.name}, and a new one was begun."
            )

    def _write(self, seed, known, key):
        tasks = {name: asdict(entry) for name, entry in sorted(known.items())}
        text = json.dumps({"about": ABOUT, "version": 1, "seed": seed, "tasks": tasks}, indent=1)
        made = None
        try:
            with tempfile.NamedTemporaryFile(
                "w", encoding="utf-8", dir=self.path.parent, prefix=f"{self.path.stem}.", suffix=".part", delete=False
            ) as file:
                made = file.name
                file.write(text)
            os.replace(made, self.path)
        except OSError as error:
            if made:
                with contextlib.suppress(OSError):
                    os.unlink(made)
            self._complain(f"cannot be written ({error.strerror})")
            self._seed, self._unwritten[key] = seed, known[key]
            return
        if self._unwritten:
            self.trouble, self._seed, self._unwritten = "", None, {}

    def _complain(self, why):
        self.trouble = f"{self.path.name} {why}. What you solve is remembered only until this notebook is closed."


def _further(written, entry):
    """What is to be kept of an entry that is there already and a new one of the same task."""
    if written is None or entry is None:
        return written or entry
    if written.seed != entry.seed:
        return written
    return Entry(
        entry.seed,
        max(written.tries, entry.tries),
        max(written.hints, entry.hints),
        written.solved or entry.solved,
        written.shown or entry.shown,
    )


@functools.lru_cache(maxsize=16)
def _at(path):
    return Progress(path)


def progress_at(path: str | Path = FILE) -> Progress:
    """The progress file of a folder; all panels of a notebook share one object.

    Parameters
    ----------
    path
        From the notebook's own folder.
    """
    return _at(Path(path).absolute())


def _understood(data):
    """Seed and entries of a file's bytes; ValueError unless it is a progress file through and through."""
    if len(data) > LARGEST:
        raise ValueError("far too long")
    read = json.loads(data.decode("utf-8"))
    if not isinstance(read, dict) or read.get("version") != 1 or not isinstance(read.get("tasks"), dict):
        raise ValueError("not a progress file")
    return _whole(read.get("seed"), 2**63), {key: _entry(told) for key, told in read["tasks"].items()}


def _entry(told):
    if not isinstance(told, dict):
        raise ValueError("not an entry")
    flags = {name: told.get(name) for name in ("solved", "shown")}
    if not all(isinstance(flag, bool) for flag in flags.values()):
        raise ValueError("neither true nor false")
    counts = {name: _whole(told.get(name), MOST) for name in ("tries", "hints")}
    return Entry(_whole(told.get("seed"), 2**63), **counts, **flags)


def _whole(number, most):
    if isinstance(number, bool) or not isinstance(number, int) or not 0 <= number <= most:
        raise ValueError("not a whole number from 0 up")
    return number
