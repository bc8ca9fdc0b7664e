"""Attachment: a file inside a page, put there as text that cannot break out, taken out again and checked."""

import hashlib
from html import unescape
from pathlib import Path

from ..circuit import lampfile
from ..circuit.excerpt import excerpt, label
from ..circuit.html import tag
from ..circuit.lamp import Lamp
from ..design import Brief

LARGEST = 2_000_000  # bytes; a sheet takes about 40 000
LAMP, BRIEF = "dropper-lamp-file", "dropper-brief"
WORDS = {LAMP: "lamp file", BRIEF: "brief"}
NAMELESS = "the page"


class SheetError(ValueError):
    """A page that cannot be written or opened again; the message names it, what is wrong and the cure."""


def embed(lamp: Lamp, brief: Brief | None = None) -> str:
    """A lamp's file, and the brief it was designed to, as HTML that is not shown; every sign that means something in
    HTML is escaped.
    """
    instances = {LAMP: lamp} if brief is None else {LAMP: lamp, BRIEF: brief}
    texts = {mark: instance.to_toml_text() for mark, instance in instances.items()}
    return "".join(f"{tag('template', text, id=mark, data_sum=_sum(text))}\n" for mark, text in texts.items())


def open_sheet(page: str | Path | bytes) -> Lamp:
    """The lamp of a page that was written, equal to the one that it was made from.

    Parameters
    ----------
    page
        Where the page is; or its text, or its bytes. A str that holds "<" or a line break is taken as the text.

    Raises
    ------
    SheetError
        If it cannot be read, is far too long, no such page, cut off, or changed by hand.
    TypeError
        If it is neither path nor text nor bytes.
    """
    name, text = _text(page)
    return _build(Lamp, _extract(text, LAMP, name), name)


def open_brief(page: str | Path | bytes) -> Brief | None:
    """The brief of a design's page, equal to the one that the lamp was designed to; None for another lamp's page.

    Parameters
    ----------
    page
        As for `open_sheet`.

    Raises
    ------
    SheetError, TypeError
        As for `open_sheet`.
    """
    name, text = _text(page)
    return _build(Brief, _extract(text, BRIEF, name), name) if f'<template id="{BRIEF}"' in text else None


def _text(page):
    """What the page is called, and its text."""
    if not isinstance(page, str | Path | bytes | bytearray | memoryview):
        raise TypeError(f"page: {excerpt(page)} is no page; give the path of a sheet, its text or its bytes")
    if isinstance(page, bytes | bytearray | memoryview):
        return NAMELESS, _decode(bytes(page), NAMELESS)
    if isinstance(page, Path) or not ("<" in page or "\n" in page):
        return label(Path(page).name), _read(Path(page))
    if len(page) > LARGEST:
        raise _too_long(NAMELESS)
    return NAMELESS, page


def _extract(text, mark, name):
    """The text that was put in under a mark, as it was."""
    start = text.find(f'id="{mark}"')
    tag, _, rest = text[start:].partition(">") if start >= 0 else ("", "", "")
    content, end, _ = rest.partition("</template")
    if not end:
        is_page = text.lstrip("\ufeff \r\n")[:15].lower() == "<!doctype html>"
        if start >= 0 or (is_page and "</html>" not in text[-200:].lower()):
            raise SheetError(f"{name}: is cut off, and its {WORDS[mark]} with it; open a whole copy")
        raise SheetError(
            f"{name}: holds no lamp file; only a lamp's sheet that this workbook has written can be opened"
        )
    content = unescape(content).replace("\r\n", "\n")
    if f'data-sum="{_sum(content)}"' not in tag:
        raise SheetError(
            f"{name}: its {WORDS[mark]} was changed by hand, so the figures shown are not that lamp's. To use what was"
            " written there, copy it into a file of its own and open that"
        )
    return content


def _build(kind, text, name):
    try:
        return kind.from_toml_text(text, name)
    except lampfile.LampFileError as error:
        raise SheetError(f"{error} (the page may come from another version of the workbook)") from None


def _sum(text):
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _read(path):
    try:
        with path.open("rb") as file:
            return _decode(file.read(LARGEST + 1), label(path.name))
    except (OSError, ValueError) as error:
        if isinstance(error, SheetError):
            raise
        why = getattr(error, "strerror", None) or error
        raise SheetError(f"{label(path.name or str(path))}: cannot be opened ({why})") from None


def _decode(data, name):
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
