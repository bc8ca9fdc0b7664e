"""Storage of the learner's lamps: saved, renamed, copied and deleted as files, each with a way back.

A lamp's log and its picture go with it. What is deleted is put into the folder `deleted`, from where it comes back.
"""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from ...circuit.excerpt import excerpt, label
from ...circuit.lamp import Lamp
from ...circuit.lampfile import LampFileError
from .log import ENDING
from .place import FOLDER, OwnLampError, stem_of, write_whole

_PICTURES = {b"\x89PNG\r\n\x1a\n": ".png", b"\xff\xd8\xff": ".jpg"}
LARGEST_PICTURE = 5_000_000  # bytes
_ENDINGS = (".toml", ENDING, *_PICTURES.values())


@dataclass(frozen=True)
class Step:
    """One thing done to the files: what, where the lamp is now (None where it is gone), and the way back."""

    words: str
    path: Path | None
    undo: Callable[[], "Step"]


def own_lamps(folder: Path | str = FOLDER) -> list[Path]:
    """The files of the learner's lamps, by name.

    Examples
    --------
    >>> own_lamps("no folder")
    []
    """
    found = (path for path in Path(folder).glob("*.toml") if not path.name.endswith(ENDING))
    return sorted(path for path in found if path.name != "chosen.toml")


def save(lamp: Lamp, over: Path | None = None, folder: Path | str = FOLDER) -> Step:
    """Keep a lamp as a file.

    Parameters
    ----------
    over
        The file that it was opened from, which it takes the place of; None for a new lamp.

    Raises
    ------
    OwnLampError
        Where another lamp has that name, or the file cannot be written.
    """
    path = Path(folder) / f"{stem_of(lamp.name)}.toml"
    if path.exists() and path != over:
        raise OwnLampError(
            f"name: {excerpt(lamp.name)} is the name of another lamp of yours; choose another, or open that one"
        )
    before = over.read_bytes() if over and over.exists() else None
    if over and over != path:
        _move(over, path)
    write_whole(path, lamp.to_toml_text().encode())

    def undo():
        if before is None:
            return delete(path)
        if over != path:
            _move(path, over)
        write_whole(over, before)
        return Step(f"{over.stem} is as it was", over, lambda: save(lamp, over, folder))

    return Step(f"{lamp.name} is saved as {path.as_posix()}", path, undo)


def copy(path: Path, name: str) -> Step:
    """Keep the same lamp once more under another name; its log and picture stay with the first."""
    return save(_lamp(path).replace(name=name), folder=path.parent)


def delete(path: Path) -> Step:
    """Take a lamp off the list, with its log and picture."""
    name = _lamp_name(path)
    place, number = path.parent / "deleted", 1
    while (place / f"{path.stem}_{number}").exists():
        number += 1
    bin_ = place / f"{path.stem}_{number}"
    try:
        bin_.mkdir(parents=True)
    except OSError as error:
        raise OwnLampError(f"{label(path.name)}: cannot be deleted ({error.strerror})") from None
    _move(path, bin_ / path.name)
    return Step(f"{name} is deleted; Undo brings it back", None, lambda: restore(bin_))


def last_deleted(folder: Path | str = FOLDER) -> Path | None:
    """Where the lamp is that was deleted last; None where there is none."""
    bins = [path for path in (Path(folder) / "deleted").glob("*") if path.is_dir() and own_lamps(path)]
    return max(bins, key=lambda path: path.stat().st_mtime_ns, default=None)


def restore(place: Path) -> Step:
    """Bring a deleted lamp back.

    Raises
    ------
    OwnLampError
        Where another lamp has its name by now.
    """
    path = next(iter(own_lamps(place)), None)
    if path is None:
        raise OwnLampError("There is no deleted lamp to bring back.")
    back = place.parent.parent / path.name
    if back.exists():
        raise OwnLampError(f"name: another lamp is called {excerpt(back.stem)} by now; rename that one first")
    _move(path, back)
    place.rmdir()
    return Step(f"{_lamp_name(back)} is back", back, lambda: delete(back))


def keep_picture(path: Path, data: bytes) -> Path:
    """Lay a picture of the board beside a lamp's file, in place of the one that lies there.

    Raises
    ------
    OwnLampError
        For what is neither PNG nor JPEG, or larger than 5 MB.
    """
    data = bytes(data)
    ending = next((ending for head, ending in _PICTURES.items() if data.startswith(head)), None)
    if ending is None:
        raise OwnLampError("picture: is neither PNG nor JPEG; save it as one of these")
    if len(data) > LARGEST_PICTURE:
        raise OwnLampError(f"picture: {len(data) / 1e6:.1f} MB is too large; allowed is {LARGEST_PICTURE / 1e6:g} MB")
    write_whole(path.with_suffix(ending), data)
    for other in set(_PICTURES.values()) - {ending}:
        path.with_suffix(other).unlink(missing_ok=True)
    return path.with_suffix(ending)


def picture_of(path: Path) -> Path | None:
    """The picture that lies beside a lamp's file; None where there is none that can be shown."""
    beside = [path.with_suffix(ending) for ending in _PICTURES.values()]
    return next((each for each in beside if each.is_file() and each.stat().st_size <= LARGEST_PICTURE), None)


def _move(path, to):
    """A lamp's file, log and picture, to another name or folder."""
    for ending in _ENDINGS:
        source = path.with_name(f"{path.stem}{ending}")
        try:
            if source.exists():
                source.replace(to.with_name(f"{to.stem}{ending}"))
        except OSError as error:
            raise OwnLampError(f"{label(source.name)}: cannot be moved ({error.strerror})") from None


def _lamp(path):
    try:
        return Lamp.from_toml(path)
    except LampFileError as error:
        raise OwnLampError(str(error)) from None


def _lamp_name(path):
    """What a lamp is called, also where its file cannot be read."""
    try:
        return Lamp.from_toml(path).name
    except LampFileError:
        return path.stem
