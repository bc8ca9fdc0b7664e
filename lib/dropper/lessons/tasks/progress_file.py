"""Progress file: its entries as text and back; what cannot be understood in it is kept beside it.

What changes the file is called with its lock held.
"""

import contextlib
import glob
import json
import os
import stat
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path

from ...circuit.fields import about, documented
from .entries import KINDS, SEEDS, entry_of, is_count
from .lock import FileTrouble

ABOUT = "Which tasks of the workbook were solved, and what was predicted. Delete this file to start again."
VERSION = 1
LARGEST = 1_000_000  # bytes; a thousand tasks take a tenth of it
BYTE_ORDER_MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")


@documented
@dataclass(frozen=True)
class Contents:
    """What was read of a progress file, and what of it could not be understood."""

    seed: int | None = about("what the values of new tasks are drawn from; None if that is not known", default=None)
    entries: Mapping[tuple[str, str], object] = about("by kind, one of `KINDS`, and key", default_factory=dict)
    damage: str = about("what could not be understood, as a sentence; empty if all was", default="")
    useless: bool = about("whether nothing of it could be understood", default=False)
    note: str = about("what is odd and does no harm, as a sentence", default="")


def read(path: Path) -> bytes | None:
    """The bytes of a progress file, one more than it may have at most; None if there is none.

    Raises
    ------
    FileTrouble
        For what is no plain file, or may not be read.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise FileTrouble("is not a plain file")
        with path.open("rb") as file:
            return file.read(LARGEST + 1)
    except FileNotFoundError:
        return None
    except OSError as error:
        raise FileTrouble(f"cannot be read ({error.strerror})") from None


def understand(data: bytes, name: str) -> Contents:
    """Seed and entries in the bytes of a file of this name."""
    try:
        if len(data) > LARGEST:
            raise ValueError("far too long")
        values = json.loads(data)
        if not isinstance(values, dict):
            raise ValueError("not a progress file")
    except (ValueError, RecursionError):
        return Contents(damage=f"{name} could not be understood.", useless=True)
    version = values.get("version")
    if isinstance(version, int) and version != VERSION:
        damage = f"{name} is of version {version!s:.20}, and this workbook knows version {VERSION} only."
        return Contents(damage=damage, useless=True)
    if version != VERSION or not isinstance(values.get("tasks"), dict):
        return Contents(damage=f"{name} could not be understood.", useless=True)
    entries, wrong = _entries(values)
    seed = values.get("seed")
    if not is_count(seed, SEEDS):
        seed = None
        wrong.append("seed")
    mark = data.startswith(BYTE_ORDER_MARKS)
    note = f"{name} begins with a byte-order mark, as some editors write it; all of it is read." if mark else ""
    return Contents(seed, entries, _damage(name, wrong, len(entries)), bool(wrong) and not entries, note)


def write(path: Path, seed: int, entries: Mapping[tuple[str, str], object]) -> None:
    """Write the file whole: whoever reads it meanwhile, or after a writer was killed, reads the old one or the new.

    Raises
    ------
    FileTrouble
        Nothing is changed then.
    """
    kinds = {kind: {} for kind in KINDS}
    for (kind, key), entry in sorted(entries.items()):
        kinds[kind][key] = asdict(entry)
    text = json.dumps({"about": ABOUT, "version": VERSION, "seed": seed, **kinds}, indent=1)
    try:
        _replace(path, text.encode())
    except OSError as error:
        raise FileTrouble(f"cannot be written ({error.strerror})") from None


def set_aside(path: Path, contents: Contents) -> Path:
    """Keep a damaged file under another name, where no other stands; one that is of some use stays in its place too.

    Raises
    ------
    FileTrouble
        Nothing is changed then.
    """
    try:
        if contents.useless:
            aside = _free_name(path)
            os.replace(path, aside)
        else:
            data = path.read_bytes()
            aside = _copy_of(path, data) or _free_name(path)
            _replace(aside, data)
    except OSError:
        raise FileTrouble("cannot be kept under another name") from None
    return aside


def sweep(path: Path) -> None:
    """Delete the part files of writers that were killed; with the lock held no other writer has one."""
    for part in path.parent.glob(f"{glob.escape(path.stem)}.*part"):
        with contextlib.suppress(OSError):
            part.unlink()


def _replace(path, data):
    part = path.with_name(f"{path.stem}.part")
    try:
        with part.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
    except OSError:
        with contextlib.suppress(OSError):
            part.unlink()
        raise


def _asides(path):
    """Names for what is set aside, one after the other."""
    yield path.with_name(f"{path.stem}_unreadable{path.suffix}")
    for number in range(2, 10_000):
        yield path.with_name(f"{path.stem}_unreadable_{number}{path.suffix}")


def _free_name(path):
    for aside in _asides(path):
        if not os.path.lexists(aside):
            return aside
    raise FileExistsError


def _copy_of(path, data):
    """Where these bytes are kept already: a writer was killed between the copy and the rest."""
    for aside in _asides(path):
        if not os.path.lexists(aside):
            return None
        with contextlib.suppress(OSError):
            if aside.stat().st_size == len(data) and aside.read_bytes() == data:
                return aside
    return None


def _damage(name, wrong, right):
    if not wrong:
        return ""
    which = ", ".join(f"{key:.40}" for key in wrong[:3]) + (" and more" if wrong[3:] else "")
    rest = f"; the {'other entry is' if right == 1 else f'other {right} entries are'} read" if right else ""
    return f"{len(wrong)} of the entries of {name} could not be understood ({which}){rest}."


def _entries(values):
    """Every entry that can be understood, by kind and key, and the names of those that cannot."""
    entries, wrong = {}, []
    for kind in KINDS:
        of_kind = values.get(kind, {})  # files of an earlier workbook have tasks only
        if not isinstance(of_kind, dict):
            wrong.append(kind)
            continue
        for key, entry in of_kind.items():
            try:
                entries[kind, key] = entry_of(kind, entry)
            except ValueError:
                wrong.append(key)
    return entries, wrong
