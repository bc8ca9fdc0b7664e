"""Place of the learner's own lamps: the folder beside the notebooks, and what the files of one lamp are called."""

import contextlib
import os
import re
import tempfile
from pathlib import Path

from ...circuit.excerpt import label

FOLDER = Path("my_lamps")  # beside the notebook; git ignores it
LARGEST = 1_000_000  # bytes of a log
_TAKEN = re.compile(
    r"(con|prn|aux|nul|com\d|lpt\d|deleted|chosen)$"
)  # names that a system, or this folder, has for itself


class OwnLampError(ValueError):
    """What cannot be done with a lamp of the learner's; the message says what and why, and nothing has changed."""


def stem_of(name: str) -> str:
    """What the files of a lamp of this name are called, without their endings.

    Examples
    --------
    >>> stem_of("Hall lamp, left"), stem_of("../x"), stem_of("con")
    ('hall_lamp_left', 'x', 'con_lamp')
    """
    stem = re.sub(r"\W+", "_", str(name).casefold())[:60].strip("_") or "lamp"
    return f"{stem}_lamp" if _TAKEN.match(stem) else stem


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that whoever reads it meanwhile has the old one or the new.

    Raises
    ------
    OwnLampError
        Where the system does not let it be written; what was there stays.
    """
    part = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, part = tempfile.mkstemp(dir=path.parent, suffix=".part")
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        os.replace(part, path)
    except OSError as error:
        if part:
            with contextlib.suppress(OSError):
                os.unlink(part)
        raise OwnLampError(f"{label(path.name)}: cannot be written ({error.strerror})") from None
