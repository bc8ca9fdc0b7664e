"""Progress of a learner: what was tried, solved and predicted, in one small file beside the notebooks.

`my_progress.json` holds a number that the values are drawn from; for each task the tries, the hints, and whether it
was solved or the answer shown; for each prediction the answer, how sure, and whether it held; for each question from
before how often it was asked and how the last answer was. It holds no name, no date, and nothing of what was typed.
Deleting it starts everything again. What holds when several notebooks write is said in `entries`.
"""

import functools
import os
import secrets
from collections.abc import Callable
from pathlib import Path

from . import progress_file
from .entries import Entry, PredictionEntry, RecallEntry
from .lock import FileTrouble, file_lock
from .progress_file import Contents

FILE = "my_progress.json"
IN_MEMORY = "What you solve is remembered only until this notebook is closed."


class Progress:
    """The progress file. Trouble with it is said in `trouble`, never raised; then it is in memory only.

    A file that is a symbolic link stays one; what it leads to is written.
    """

    def __init__(self, path: str | Path = FILE):
        self.path = Path(path).absolute()
        self._said = {}  # sentences, by what they are about
        self._unwritten = {}  # entries that could not be written, by kind and key
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

        def change(written, seed):
            return written or Entry(seed) if entry is None else entry.merged(written)

        return self._change("tasks", key, change)

    def restart(self, key: str) -> Entry:
        """Start a task again with other values."""
        return self._change("tasks", key, lambda written, seed: Entry(_new_seed()))

    def entries(self) -> dict[str, Entry]:
        """Every task's entry there is, by task."""
        return self._of_kind("tasks")

    def note_prediction(self, key: str, answer: str, sure: str = "", right: bool | None = None) -> PredictionEntry:
        """Keep what was predicted; once more when it is judged.

        Parameters
        ----------
        key
            Of the question.
        answer
            The key of the answer that was chosen.
        sure
            "guess", "fairly" or "sure"; empty if that was not said.
        right
            Whether it held; None as long as it is not judged.

        Returns
        -------
        PredictionEntry
            As written.

        Raises
        ------
        ValueError
            For another word for how sure, or an answer's key that is none.
        """
        entry = PredictionEntry(answer, sure, right)
        return self._change("predictions", key, lambda written, seed: entry.merged(written))

    def predictions(self) -> dict[str, PredictionEntry]:
        """What was predicted, by the key of the question."""
        return self._of_kind("predictions")

    def note_recall(self, key: str, right: bool) -> RecallEntry:
        """Keep that a task was answered as a question from before, and how."""
        entry = RecallEntry(1, missed=not right)
        return self._change("recalls", key, lambda written, seed: entry.merged(written))

    def recalls(self) -> dict[str, RecallEntry]:
        """What was asked as a question from before, by task."""
        return self._of_kind("recalls")

    @property
    def seed(self) -> int:
        """The learner's number, which values are drawn from."""
        return self._known()[0]

    def watch(self, callback: Callable) -> None:
        """Call `callback` with nothing whenever an entry is written through this object."""
        self._callbacks.append(callback)

    def _of_kind(self, kind):
        return {key: entry for (of, key), entry in self._known()[1].items() if of == kind}

    def _change(self, kind, key, change):
        """Put an entry in its place, in the file or else in memory; `change` makes it of the one there is."""
        place = kind, key
        try:
            with file_lock(self._real_path):
                seed, entries = self._with_unwritten(self._read_and_mend())
                entry = change(entries.get(place), seed)
                progress_file.write(self._real_path, seed, entries | {place: entry})
        except FileTrouble as trouble:
            self._seed, entries = self._known()
            entry = self._unwritten[place] = change(entries.get(place), self._seed)
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
