"""Files of pages: written whole or not at all, under names that every system takes."""

import contextlib
import os
import re
import tempfile
import unicodedata
from pathlib import Path

from ..circuit.excerpt import label
from ..circuit.lamp import Lamp
from .attachment import SheetError, open_sheet

_LONGEST = 60  # characters of a name
_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)$", re.IGNORECASE)  # names that Windows keeps for devices


def write_text(path: str | Path, text: str, encoding: str = "utf-8") -> Path:
    """Write a file whole or not at all; what stood there before stays until the new one is complete.

    Parameters
    ----------
    text
        Written as it is, its line ends too.

    Returns
    -------
    Path
        Where it is.

    Raises
    ------
    SheetError
        If it cannot be written.
    """
    path, temporary = Path(path), None
    try:
        with tempfile.NamedTemporaryFile("wb", dir=path.parent, prefix=".sheet.", suffix=".part", delete=False) as file:
            temporary = file.name
            file.write(text.encode(encoding))
        os.chmod(temporary, 0o644)
        os.replace(temporary, path)
    except (OSError, ValueError) as error:
        if temporary:
            with contextlib.suppress(OSError):
                os.unlink(temporary)
        why = getattr(error, "strerror", None) or error
        raise SheetError(f"{label(path.name or str(path))}: cannot be written in {path.parent} ({why})") from None
    return path


def file_name(name: str) -> str:
    """A lamp's name as the name of a file, without ending: letters and digits of any script, and underscores.

    Examples
    --------
    >>> file_name("stair marker"), file_name("../Ötzi's lamp: <b>"), file_name("…")
    ('stair_marker', 'Ötzi_s_lamp_b', 'lamp')
    """
    plain = re.sub(r"[\W_]+", "_", unicodedata.normalize("NFC", name)).strip("_")[:_LONGEST].strip("_")
    while len(plain.encode("utf-8")) > 4 * _LONGEST // 2:
        plain = plain[:-1]
    return f"lamp_{plain}" if _RESERVED.match(plain) else plain or "lamp"


def place_for(folder: str | Path, lamp: Lamp) -> Path:
    """Where a lamp's sheet goes in a folder: over its own last one, never over another lamp's.

    Returns
    -------
    Path
        Ends in .html, and so may its parts list end in .csv; a number is added to the name where one of the two is
        taken by another lamp, or by what is no sheet.

    Examples
    --------
    >>> from dropper import Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(2.9, "20 mA"), 20), "330 nF", name="Stair marker")
    >>> place_for("no folder yet", lamp).name
    'Stair_marker.html'
    """
    name, number = file_name(lamp.name), 1
    while True:
        path = Path(folder) / f"{name}{f'_{number}' if number > 1 else ''}.html"
        if _holds(path, lamp) or not (path.exists() or path.with_suffix(".csv").exists()):
            return path
        number += 1


def _holds(path, lamp):
    try:
        return open_sheet(path) == lamp
    except SheetError:
        return False
