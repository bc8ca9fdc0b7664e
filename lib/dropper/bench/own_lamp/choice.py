"""Choice of the lamp that is on every panel until another is chosen: one line in a file beside the learner's lamps."""

import contextlib
import tomllib
from pathlib import Path

import tomli_w

from .place import FOLDER, OwnLampError, write_whole

FILE = "chosen.toml"


def choose(path: Path | str, folder: Path | str = FOLDER) -> None:
    """Have a lamp file be the one that panels begin with, from now on.

    Parameters
    ----------
    path
        From the notebook's folder.
    folder
        Where the learner's lamps are. A folder that cannot be written to keeps no choice.
    """
    with contextlib.suppress(OwnLampError):
        write_whole(Path(folder) / FILE, tomli_w.dumps({"lamp": Path(path).as_posix()}).encode())


def chosen(folder: Path | str = FOLDER) -> Path | None:
    """The lamp file that was chosen last, from the notebook's folder; None where none was.

    Examples
    --------
    >>> chosen("no folder") is None
    True
    """
    try:
        text = (Path(folder) / FILE).read_text(encoding="utf-8")
        lamp = tomllib.loads(text)["lamp"]
    except (OSError, ValueError, KeyError):
        return None
    return Path(lamp) if isinstance(lamp, str) and lamp and "\x00" not in lamp else None


def own_folder(lamps: Path | str) -> Path | None:
    """Where the learner's own lamps are kept beside a folder of lamp files; None but for the notebook's own folder.

    A library that is used from elsewhere keeps nothing and remembers no choice.

    Examples
    --------
    >>> own_folder("somewhere/else/lamps") is None
    True
    """
    lamps = Path(lamps).absolute()
    beside = lamps.parent == Path.cwd() and lamps.is_dir() and lamps.name != FOLDER.name
    return FOLDER if beside else None
