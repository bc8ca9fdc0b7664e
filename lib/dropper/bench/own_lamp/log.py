"""Log of a lamp's life: what was built, measured, found broken and repaired, each with its date.

It stands beside the lamp's file, in a small file of its own: a log that cannot be read never takes the lamp with it.
"""

import datetime
import tomllib
from dataclasses import dataclass
from pathlib import Path

import tomli_w

from ...circuit import lampfile
from ...circuit.excerpt import excerpt, label
from ...circuit.fields import about, check_text, documented
from ...circuit.lamp import Readings
from .place import FOLDER, LARGEST, OwnLampError, stem_of, write_whole

KINDS = ("built", "measured", "fault found", "repaired", "note")
LONGEST = 500  # characters of a text
MOST = 1000  # entries
ENDING = ".log.toml"


@documented
@dataclass(frozen=True)
class LogEntry:
    """One line of a lamp's log.

    Raises
    ------
    ValueError
        For a kind that is none of `KINDS`, a date that is none, or a text that is too long.
    """

    date: str = about("day, as 2026-03-09")
    kind: str = about("one of `KINDS`")
    text: str = about("what was done or seen", default="")
    readings: Readings = about("what meters showed", default=Readings())

    def __post_init__(self):
        try:
            datetime.date.fromisoformat(self.date)
        except (TypeError, ValueError):
            raise ValueError(f"date: {excerpt(self.date)} is no day; write it like 2026-03-09") from None
        if self.kind not in KINDS:
            raise ValueError(f"kind: {excerpt(self.kind)} is not kept in a log; there are {', '.join(KINDS)}")
        check_text(self, "text", LONGEST)
        if not self.text.strip() and self.readings == Readings():
            raise ValueError("text: a line of the log needs a reading or a few words")


@documented
@dataclass(frozen=True)
class Log:
    """A lamp's log as it was read, the oldest line first."""

    entries: tuple = about("of `LogEntry`", default=())
    damage: str = about("what of the file could not be read, as a sentence; empty if all was", default="")


def log_entry(
    lamp_name: str,
    kind: str,
    text: str,
    readings: Readings | None = None,
    date: str | None = None,
    folder: Path | str = FOLDER,
) -> LogEntry:
    """Add a line to the log of a lamp, of the learner's own or of any other; the log begins with its first line.

    Parameters
    ----------
    lamp_name
        `lamp.name`.
    kind
        One of `KINDS`: "built", "measured", "fault found", "repaired" or "note".
    text
        What was done or seen, at most 500 characters.
    readings
        What meters showed, where something was measured.
    date
        As 2026-03-09; None for today.
    folder
        Where the learner's lamps are; beside the notebook.

    Returns
    -------
    LogEntry
        As written.

    Raises
    ------
    ValueError
        For a kind, a date or a text that will not do, or a file that cannot be written (`OwnLampError`); what was in
        the log stays.

    Examples
    --------
    >>> import tempfile
    >>> place = tempfile.mkdtemp()
    >>> log_entry("hall lamp", "fault found", "C1 has lost capacitance", date="2026-03-09", folder=place).kind
    'fault found'
    >>> [entry.text for entry in read_log("hall lamp", place).entries]
    ['C1 has lost capacitance']
    """
    entry = LogEntry(date or datetime.date.today().isoformat(), kind, text, readings or Readings())
    path, log = log_path(lamp_name, folder), read_log(lamp_name, folder)
    if log.damage:
        _set_aside(path)
    if len(log.entries) >= MOST:
        raise OwnLampError(f"log: {MOST} lines are as many as a log takes; begin a copy of the lamp")
    tables = [_table(each) for each in (*log.entries, entry)]
    write_whole(path, tomli_w.dumps({"lamp": lamp_name, "entry": tables}).encode())
    return entry


def read_log(lamp_name: str, folder: Path | str = FOLDER) -> Log:
    """The log of a lamp; an empty one where there is none. What cannot be read is said, never raised.

    Parameters
    ----------
    lamp_name
        `lamp.name`.
    folder
        Where the learner's lamps are; beside the notebook.

    Examples
    --------
    >>> read_log("a lamp without a log", "no folder").entries
    ()
    """
    path = log_path(lamp_name, folder)
    name = label(path.name)
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
        if len(data) > LARGEST:
            raise ValueError("far too long")
        tables = tomllib.loads(data.decode("utf-8-sig"))["entry"]
    except FileNotFoundError:
        return Log()
    except OSError as error:
        return Log((), f"{name} cannot be read ({error.strerror}).")
    except (ValueError, KeyError, RecursionError):
        return Log((), f"{name} cannot be read as a log; the lamp itself is not touched by that.")
    entries, wrong = [], 0
    for table in tables if isinstance(tables, list) else [None]:
        try:
            entries.append(_entry(table, path.name))
        except (ValueError, TypeError, KeyError, AttributeError):
            wrong += 1
    lines = f"{wrong} line{'s' if wrong > 1 else ''}"
    return Log(tuple(entries), f"{name}: {lines} of the log cannot be read; the others are shown." if wrong else "")


def log_path(lamp_name: str, folder: Path | str = FOLDER) -> Path:
    """Where the log of a lamp is.

    Examples
    --------
    >>> log_path("Hall lamp").as_posix()
    'my_lamps/hall_lamp.log.toml'
    """
    return Path(folder) / f"{stem_of(lamp_name)}{ENDING}"


def _entry(table, source):
    readings = lampfile.build(Readings, tomli_w.dumps(table.get("readings", {})), source)
    return LogEntry(table["date"], table["kind"], table.get("text", ""), readings)


def _table(entry):
    table = {"date": entry.date, "kind": entry.kind, "text": entry.text}
    readings = tomllib.loads(lampfile.write(entry.readings))
    return table | ({"readings": readings} if readings else {})


def _set_aside(path):
    """Keep a damaged log under another name, where no other stands."""
    number = 1
    while (aside := path.with_name(f"{path.name}.damaged_{number}")).exists():
        number += 1
    try:
        aside.write_bytes(path.read_bytes())
    except OSError as error:
        raise OwnLampError(f"{label(path.name)}: cannot be read ({error.strerror}); nothing was added") from None
