"""Excerpt: how a message repeats what was typed or given, however long it is; which signs cannot be printed."""

import unicodedata
from typing import Any

_MOST = 36  # characters: a message that repeats two of them, and their signs, keeps under eighty

# Control characters, halves of characters, ends of lines, and marks that turn the direction of what follows.
_UNPRINTED = ("Cc", "Cs", "Zl", "Zp")
_TURNING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"


def unprintable(sign: str) -> bool:
    """Whether a character cannot stand in a line of print; those of every script can, and what joins an emoji.

    Examples
    --------
    >>> unprintable("\u202e"), unprintable("\a"), unprintable("\u200d"), unprintable("\xa0")
    (True, True, False, False)
    """
    return unicodedata.category(sign) in _UNPRINTED or sign in _TURNING


def excerpt(given: Any, most: int = _MOST) -> str:
    """What was given, in quotes where it is text, with "…" for what is left out.

    Parameters
    ----------
    most
        Characters of it that are repeated.

    Examples
    --------
    >>> excerpt("22 mX"), excerpt("a" * 100, 5), excerpt(12.5)
    ("'22 mX'", "'aaaaa…'", '12.5')
    """
    if isinstance(given, str):
        return repr(given if len(given) <= most else f"{given[:most]}…")
    text = repr(given)
    return text if len(text) <= most else f"{text[:most]}…"


def label(name: str, most: int = _MOST) -> str:
    """The name of a file, a column or a key as a message has it: without quotes, in one line, and not too long.

    Parameters
    ----------
    most
        Characters of it that are repeated.

    Examples
    --------
    >>> label("lamp.toml"), label("a\\nb" * 40, 5)
    ('lamp.toml', 'a ba …')
    """
    text = " ".join("".join(" " if unprintable(sign) else sign for sign in name).split())
    return text if len(text) <= most else f"{text[:most]}…"
