"""Any mark on a part: bands by name, or a code; all that it can mean."""

import re

from . import bands, codes
from .colours import colour
from .meaning import MarkError, Meaning


def read(text: str) -> tuple[Meaning, ...]:
    """All meanings of a mark, bands or code, the likeliest first.

    Parameters
    ----------
    text
        "yellow violet black gold", "YE-VT-BK-GD" or what `codes.read` takes.

    Raises
    ------
    MarkError
        Naming the band, or the position and the character, at which it cannot be read.

    Examples
    --------
    >>> read("YE VT BK GD")[0].text, read("474K")[0].text
    ('47 Ω ±5 %', '470 nF ±10 %')
    """
    names = as_bands(text)
    return bands.read(names) if names else codes.read(text)


def as_bands(text: str) -> tuple[str, ...]:
    """The names of the bands that a text lists, or () where it lists none.

    Raises
    ------
    MarkError
        Where the first piece is a colour and another one is not.

    Examples
    --------
    >>> as_bands("brown, black, red"), as_bands("474K")
    (('brown', 'black', 'red'), ())
    """
    pieces = re.split(r"[\s,;/–-]+", text.strip()) if isinstance(text, str) and len(text) <= 2 * codes.LONGEST else []
    try:
        colour(pieces[0] if pieces else "")
    except MarkError:
        return ()
    return tuple(colour(piece, f"band {place}").name for place, piece in enumerate(pieces, start=1))
