"""A lamp file inside a page: put there as text that cannot break out, taken out again and checked."""

import hashlib
from html import escape, unescape
from pathlib import Path

from .. import lampfile
from ..lamp import Lamp

LARGEST = 2_000_000  # bytes; a sheet takes about 40 000
MARK = "dropper-lamp-file"


class SheetError(ValueError):
    """A page that cannot be written or opened again; the message names it, what is wrong and the cure."""


def embed(lamp):
    """A lamp's file as HTML that is not shown; every sign that means something in HTML is escaped.

    Parameters
    ----------
    lamp : Lamp
    """
    text = lamp.to_toml_text()
    return f'<template id="{MARK}" data-sum="{_sum(text)}">{escape(text)}</template>\n'


def open_sheet(page):
    """The lamp of a page that was written, equal to the one that it was made from.

    Parameters
    ----------
    page : str or Path or bytes
        Where the page is; or its text, or its bytes. A str that holds "<" or a line break is taken as the text.

    Returns
    -------
    Lamp

    Raises
    ------
    SheetError
        If it cannot be read, is far too long, no such page, cut off, or changed by hand.
    TypeError
        If it is neither path nor text nor bytes.
    """
    name, text = "the page", page
    if not isinstance(page, str | Path | bytes | bytearray | memoryview):
        raise TypeError(f"page: {page!r:.60} is no page; give the path of a sheet, its text or its bytes")
    if isinstance(page, bytes | bytearray | memoryview):
        text = _decoded(bytes(page), name)
    elif isinstance(page, Path) or not ("<" in page or "\n" in page):
        name, text = Path(page).name, _read(Path(page))
    elif len(page) > LARGEST:
        raise _too_long(name)
    begun = text.find(f'id="{MARK}"')
    tag, _, rest = text[begun:].partition(">") if begun >= 0 else ("", "", "")
    kept, ended, _ = rest.partition("</template")
    if not ended:
        page_begun = text.lstrip("\ufeff \r\n")[:15].lower() == "<!doctype html>"
        if begun >= 0 or (page_begun and "</html>" not in text[-200:].lower()):
            raise SheetError(f"{name}: is cut off, and its lamp file with it; open a whole copy")
        raise SheetError(
            f"{name}: holds no lamp file; only a lamp's sheet that this workbook has written can be opened"
        )
    kept = unescape(kept).replace("\r\n", "\n")
    if f'data-sum="{_sum(kept)}"' not in tag:
        raise SheetError(
            f"{name}: its lamp file was changed by hand, so the figures shown are not that lamp's. To use what was"
            " written there, copy it into a lamp file of its own and open that"
        )
    try:
        return Lamp.from_toml_text(kept, name)
    except lampfile.LampFileError as error:
        raise SheetError(f"{error} (the page may come from another version of the workbook)") from None


def _sum(text):
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _read(path):
    try:
        with path.open("rb") as file:
            return _decoded(file.read(LARGEST + 1), path.name)
    except (OSError, ValueError) as error:
        if isinstance(error, SheetError):
            raise
        why = getattr(error, "strerror", None) or error
        raise SheetError(f"{path.name or path}: cannot be opened ({why})") from None


def _decoded(data, name):
    if len(data) > LARGEST:
        raise _too_long(name)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise SheetError(
            f"{name}: is not UTF-8 text; only a lamp's sheet that this workbook has written can be opened"
        ) from None


def _too_long(name):
    return SheetError(f"{name}: is longer than {LARGEST:,} bytes; a lamp's sheet is far shorter")
