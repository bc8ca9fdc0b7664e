"""Entries: what a person typed, fit to be printed; nothing of it is taken for HTML."""

import re

from ..circuit.excerpt import excerpt, unprintable


def clean_entry(field: str, text: str, longest: int, lines: int = 1) -> str:
    r"""A text with its line breaks alike, no blank lines, and nothing in it that cannot be printed.

    Parameters
    ----------
    field
        Named in the error.
    longest
        Characters.
    lines
        How many there may be; 1 for a single line.

    Returns
    -------
    str
        Not escaped.

    Raises
    ------
    ValueError
        If it is no text, or too long.

    Examples
    --------
    >>> clean_entry("notes", "a\tb\r\n\r\nc\x07", 500, 6)
    'a b\nc'
    """
    if not isinstance(text, str):
        raise ValueError(f"{field}: {excerpt(text)} is no text")
    whole = "\n" if lines > 1 else " "
    rows = re.split(r"\r\n|[\n\r\v\f\x85\u2028\u2029]", text)
    plain = [" ".join("".join(map(_printable, row)).split()) for row in rows]
    plain = [row for row in plain if row]
    joined = whole.join(plain)
    if len(joined) > longest:
        raise ValueError(f"{field}: {len(joined)} characters; at most {longest} have room on the page")
    if len(plain) > lines > 1:
        raise ValueError(f"{field}: {len(plain)} lines; at most {lines} have room on the page")
    return joined


def _printable(sign):
    return " " if unprintable(sign) else sign
