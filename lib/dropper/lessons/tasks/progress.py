"""Progress of a learner: what was tried and solved, in one small file beside the notebooks.

`my_progress.json` holds a number that the values are drawn from, and for each task the tries, the hints, and whether
it was solved or the answer shown. It holds no name, no date, and nothing of what was typed. Deleting it starts
everything again.
"""

import functools
import os
import secrets
from collections.abc import Callable
from pathlib import Path

from . import progress_file
from .lock import FileTrouble, file_lock
from .progress_file import Contents, Entry

FILE = "my_progress.json"
IN_MEMORY = "What you solve is remembered only until this notebook is closed."


class Progress:
    """The progress file. Trouble with it is said in `trouble`, never raised; then it is in memory only.

    A file that is a symbolic link stays one; what it leads to is written.
    """

    def __init__(self, path: str | Path = FILE):
        self.path = Path(path).absolute()
        self._said = {}  # sentences, by what they are about
        self._unwritten = {}  # entries that could not be written, by task
        self._seed = None  # the learner's, as long as no file has it
        self._callbacks = []

    @property
    def trouble(self) -> str:
        """What the learner should know of the file, in sentences; empty if there is nothing."""
        return " ".join(self._said.values())

    def entry(self, key: str) -> Entry:
        """How far the learner is with a task; a task not met before gets an entry of its own."""
        entries = self.entries()
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
        return self._change(key, lambda written, seed: _merge(written, entry) or Entry(seed))

    def restart(self, key: str) -> Entry:
        """Start a task again with other values."""
        return self._change(key, lambda written, seed: Entry(_new_seed()))

    def entries(self) -> dict[str, Entry]:
        """Every entry there is, by task."""
        return self._known()[1]

    def watch(self, callback: Callable) -> None:
        """Call `callback` with nothing whenever an entry is written through this object."""
        self._callbacks.append(callback)

    def _change(self, key, change):
        """Put a task's entry in its place, in the file or else in memory; `change` makes it of the one there is."""
        try:
            with file_lock(self._real_path):
                seed, entries = self._with_unwritten(self._read_and_mend())
                entry = change(entries.get(key), seed)
                progress_file.write(self._real_path, seed, entries | {key: entry})
        except FileTrouble as trouble:
            self._seed, entries = self._known()
            entry = self._unwritten[key] = change(entries.get(key), self._seed)
            self._say("file", f"{self.path.name} {trouble}. {IN_MEMORY}")
        else:
            self._seed, self._unwritten = None, {}
            self._say("file", "")
        for callback in list(self._callbacks):
            callback()
        return entry

    def _known(self):
        """The learner's seed and entries: the file's, and over them those that could not be written."""
        contents = Contents()
        try:
            contents = self._read()
            if contents.damage:
                with file_lock(self._real_path):
                    contents = self._read_and_mend()
        except FileTrouble as trouble:
            self._say("damage", contents.damage)
            self._say("file", f"{self.path.name} {trouble}. {IN_MEMORY}")
        else:
            if not self._unwritten:
                self._say("file", "")
        return self._with_unwritten(contents)

    def _with_unwritten(self, contents):
        if contents.seed is None and self._seed is None:
            self._seed = _new_seed()
        seed = self._seed if contents.seed is None else contents.seed
        return seed, {**contents.entries, **self._unwritten}

    def _read(self):
        path = self._real_path
        leads = f"{self.path.name} is a link; what you solve is kept where it leads, in {path.name:.40}."
        self._say("link", leads if self.path.is_symlink() else "")
        data = progress_file.read(path)
        contents = Contents() if data is None else progress_file.understand(data, self.path.name)
        if contents.note:
            self._say("note", contents.note)
        return contents

    def _read_and_mend(self):
        """What stands in the file, its lock held: what cannot be understood is set aside, left-over parts go."""
        progress_file.sweep(self._real_path)
        contents = self._read()
        if contents.damage:
            aside = progress_file.set_aside(self._real_path, contents)
            if contents.useless:
                remedy = f"It is kept as {aside.name}, and a new one was begun."
            else:
                remedy = f"The file as it was is kept as {aside.name}."
                progress_file.write(self._real_path, self._with_unwritten(contents)[0], contents.entries)
            self._say("damage", f"{contents.damage} {remedy}")
        return contents

    @property
    def _real_path(self):
        return Path(os.path.realpath(self.path))

    def _say(self, about, sentence):
        self._said.pop(about, None)
        if sentence:
            self._said[about] = sentence


def _new_seed():
    return secrets.randbelow(2**31)


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
