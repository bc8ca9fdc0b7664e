"""Progress of a learner: what was tried and solved, in one small file beside the notebooks.

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
from .lock import file_lock

FILE = "my_progress.json"
ABOUT = "Which tasks of the workbook were solved. Delete this file to start again."
LARGEST = 1_000_000  # bytes; a thousand tasks take a tenth of it
MOST = 1_000_000


@documented
@dataclass(frozen=True)
class Entry:
    """How far a learner is with one task."""

    seed: int = about("what the task's values are drawn from")
    tries: int = about("how many answers were checked", default=0)
    hints: int = about("how many were shown", default=0)
    solved: bool = about("whether the learner solved it", default=False)
    shown: bool = about("whether the answer was shown first", default=False)


class Progress:
    """The progress file. Trouble with it is said in `trouble`, never raised; then it is in memory only."""

    def __init__(self, path: str | Path = FILE):
        self.path = Path(path).absolute()
        self.trouble = ""
        self._unwritten = {}  # entries that could not be written, by task
        self._seed = None  # the learner's, if that could not be written either
        self._callbacks = []

    def entry(self, key: str) -> Entry:
        """How far the learner is with a task; a task not met before gets an entry of its own."""
        _, entries = self._read()
        return entries[key] if key in entries else self.save(key, None)

    def save(self, key: str, entry: Entry | None) -> Entry:
        """Write one task's entry; what others have written meanwhile stays.

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
        with file_lock(self.path):
            seed, entries = self._read()
            seed = secrets.randbelow(2**31) if seed is None else seed
            entry = _merge(entries.get(key), entry) or Entry(seed)
            self._write(seed, entries | {key: entry}, key)
        self._notify()
        return entry

    def restart(self, key: str) -> Entry:
        """Start a task again with other values."""
        with file_lock(self.path):
            seed, entries = self._read()
            entry = Entry(secrets.randbelow(2**31))
            self._write(entry.seed if seed is None else seed, entries | {key: entry}, key)
        self._notify()
        return entry

    def entries(self) -> dict[str, Entry]:
        """Every entry there is, by task."""
        return self._read()[1]

    def watch(self, callback: Callable) -> None:
        """Call `callback` with nothing whenever an entry is written through this object."""
        self._callbacks.append(callback)

    def _notify(self):
        for callback in list(self._callbacks):
            callback()

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
            seed, entries = _parse(data)
        except (ValueError, RecursionError):
            self._set_aside()
            return self._seed, dict(self._unwritten)
        return seed, entries | self._unwritten

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

    def _write(self, seed, entries, key):
        tasks = {name: asdict(entry) for name, entry in sorted(entries.items())}
        text = json.dumps({"about": ABOUT, "version": 1, "seed": seed, "tasks": tasks}, indent=1)
        part = None
        try:
            with tempfile.NamedTemporaryFile(
                "w", encoding="utf-8", dir=self.path.parent, prefix=f"{self.path.stem}.", suffix=".part", delete=False
            ) as file:
                part = file.name
                file.write(text)
            os.replace(part, self.path)
        except OSError as error:
            if part:
                with contextlib.suppress(OSError):
                    os.unlink(part)
            self._complain(f"cannot be written ({error.strerror})")
            self._seed, self._unwritten[key] = seed, entries[key]
            return
        if self._unwritten:
            self.trouble, self._seed, self._unwritten = "", None, {}

    def _complain(self, why):
        self.trouble = f"{self.path.name} {why}. What you solve is remembered only until this notebook is closed."


def _merge(written, entry):
    """What holds of an entry that is there already and a new one of the same task."""
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


def _parse(data):
    """Seed and entries of a file's bytes; ValueError unless it is a progress file through and through."""
    if len(data) > LARGEST:
        raise ValueError("far too long")
    read = json.loads(data.decode("utf-8"))
    if not isinstance(read, dict) or read.get("version") != 1 or not isinstance(read.get("tasks"), dict):
        raise ValueError("not a progress file")
    return _whole_number(read.get("seed"), 2**63), {key: _entry(values) for key, values in read["tasks"].items()}


def _entry(values):
    if not isinstance(values, dict):
        raise ValueError("not an entry")
    flags = {name: values.get(name) for name in ("solved", "shown")}
    if not all(isinstance(flag, bool) for flag in flags.values()):
        raise ValueError("neither true nor false")
    counts = {name: _whole_number(values.get(name), MOST) for name in ("tries", "hints")}
    return Entry(_whole_number(values.get("seed"), 2**63), **counts, **flags)


def _whole_number(number, most):
    if isinstance(number, bool) or not isinstance(number, int) or not 0 <= number <= most:
        raise ValueError("not a whole number from 0 up")
    return number
