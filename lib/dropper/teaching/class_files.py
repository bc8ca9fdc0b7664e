"""Class files: the progress files of a class's pupils in a folder, read without trust; what cannot be read is said."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from ..circuit.excerpt import label
from ..circuit.fields import about, documented
from ..lessons.beliefs import BELIEFS, Belief
from ..lessons.tasks import progress_file
from ..lessons.tasks.entries import Entry, PredictionEntry
from ..lessons.tasks.lock import FileTrouble
from ..lessons.tasks.progress import FILE

MOST_FILES = 500
_LONGEST = 60  # characters of a pupil's name
_COPY = re.compile(r"_unreadable(_\d+)?$")  # what the workbook has set aside


@documented
@dataclass(frozen=True)
class Pupil:
    """What a pupil has done, as the progress file has it."""

    name: str = about("of the file, or of the folder that it lies in")
    seed: int | None = about("what the numbers are drawn from")
    tasks: dict[str, Entry] = about("by key")
    predictions: dict[str, PredictionEntry] = about("by the key of the question")

    def beliefs(self) -> list[Belief]:
        """What was believed, by the predictions that did not hold."""
        wrong = {(key, entry.answer) for key, entry in self.predictions.items() if entry.right is not True}
        return [belief for belief in BELIEFS if wrong & set(belief.predictions)]


def pupils_in(folder: Path) -> tuple[list[Pupil], list[str]]:
    """Every pupil of a folder, by name, and a sentence for each file that was left out or read in part."""
    pupils, said = [], []
    for count, path in enumerate(_files(folder)):
        if count == MOST_FILES:
            said.append(f"There are more than {MOST_FILES} files; the rest was left out.")
            break
        name = _name(path.relative_to(folder))
        try:
            data = progress_file.read(path)
        except FileTrouble as trouble:
            said.append(f"{name}: the file {trouble}; it was left out.")
            continue
        contents = progress_file.understand(data or b"", label(path.name, _LONGEST))
        if contents.damage:
            said.append(f"{name}: {contents.damage}{' It was left out.' if contents.useless else ''}")
        if not contents.useless:
            pupils.append(Pupil(name, contents.seed, _of(contents, "tasks"), _of(contents, "predictions")))
    return sorted(pupils, key=lambda pupil: pupil.name.casefold()), said


def _files(folder: Path) -> Iterator[Path]:
    for path in sorted(folder.rglob("*.json")):
        inside = path.relative_to(folder).parts
        if not any(part.startswith(".") for part in inside) and not _COPY.search(path.stem):
            yield path


def _name(path):
    """A pupil's name: the folders' and the file's, on one line; the workbook's own name for the file says nothing."""
    parts = path.parts[:-1] if path.name == FILE and len(path.parts) > 1 else path.with_suffix("").parts
    plain = "".join(sign if unicodedata.category(sign)[0] != "C" else " " for sign in " / ".join(parts))
    return plain[:_LONGEST]


def _of(contents, kind):
    return {key: entry for (of, key), entry in contents.entries.items() if of == kind}
