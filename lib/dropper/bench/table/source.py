"""Source: a file that can be opened, and how its bytes are to be read."""

from pathlib import Path
from typing import BinaryIO

from ...circuit.excerpt import excerpt, label
from .cells import TableError


def open_source(source: str | Path, name: str | None = None) -> tuple[BinaryIO, str]:
    """Open a file; with it comes what errors call it.

    Parameters
    ----------
    name
        What errors call it; its own name if it is not said.

    Raises
    ------
    TableError
        If it cannot be opened.
    TypeError
        If it is no path.
    """
    if not isinstance(source, str | Path):
        raise TypeError(f"source: {excerpt(source)} is no table; give the path of a file, its text or its bytes")
    path = Path(source)
    called = label(name or path.name or "table")
    try:
        return path.open("rb"), called
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "that is no path"
        raise TableError(f"{called}: cannot be opened ({why})") from None


def detect_encoding(head: bytes, source: str) -> str:
    """The encoding of a file's first bytes: UTF-8, UTF-16 or Latin-1.

    Parameters
    ----------
    source
        What errors call the file.

    Raises
    ------
    TableError
        For bytes that are no text.
    """
    if head.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    if head[1::2].count(0) > len(head) // 3:
        return "utf-16-le"
    if head[::2].count(0) > len(head) // 3:
        return "utf-16-be"
    if b"\0" in head:
        raise TableError(f"{source}: line 1, column 1: bytes that are no text; allowed is text, as a CSV file is", 1, 1)
    try:
        head.decode("utf-8")
    except UnicodeDecodeError as error:
        if len(head) - error.start > 3:  # not merely a letter cut in two at the end of what was looked at
            return "latin-1"
    return "utf-8-sig"
