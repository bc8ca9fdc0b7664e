"""Share code: a short text that gives a whole class the same hunt and does not show what is hidden."""

import zlib

from ...circuit.excerpt import excerpt
from ...circuit.lamp import Lamp
from .prior import WEIGHTS

_LENGTH, _LETTERS = 7, "23456789ABCDEFGHJKLMNPQRSTVWXYZ"  # none that is read for another: no 0 and O, 1 and I, U and V
_KINDS = tuple(WEIGHTS)
SEEDS, _CHECK = 100_000, 4093
_ROOM = SEEDS * (len(_KINDS) + 1) * 2 * _CHECK
_TURN, _SHIFT = 6_700_417_973, 2_718_281_828  # spreads neighbours; the first has no divisor in common with `_ROOM`


def encode(lamp: Lamp, seed: int, kind: tuple | None, drawn: bool, live: bool) -> str:
    """The code of a hunt.

    Parameters
    ----------
    lamp
        Not in the code; a check shows where it is used with another.
    seed
        0 to 99999.
    kind
        A fixed cause, as in `prior.WEIGHTS`.
    drawn
        The seed draws the cause, and `kind` is not looked at.
    live
        Whether live parts may be measured.

    Returns
    -------
    str
        Like "7KQ4-9XN".
    """
    place = len(_KINDS) if drawn else _KINDS.index(kind)
    number = ((seed * (len(_KINDS) + 1) + place) * 2 + live) * _CHECK + _check(lamp, seed, place, live)
    number = (number * _TURN + _SHIFT) % _ROOM
    text = ""
    for _ in range(_LENGTH):
        number, digit = divmod(number, len(_LETTERS))
        text += _LETTERS[digit]
    return f"{text[:4]}-{text[4:]}"


def decode(lamp: Lamp, code: str) -> tuple[int, tuple | None, bool, bool]:
    """What a code stands for.

    Parameters
    ----------
    code
        Small letters, spaces and dashes do not matter.

    Returns
    -------
    (int, tuple or None, bool, bool)
        Seed, cause, whether the seed draws the cause, whether live parts may be measured.

    Raises
    ------
    ValueError
        If it is no such code, or that of another lamp.
    """
    text = "".join(str(code).upper().replace("-", " ").split())
    if len(text) != _LENGTH or any(letter not in _LETTERS for letter in text):
        raise ValueError(
            f"code: {excerpt(str(code))} is no hunt's code; it has seven letters and digits, like 7KQ4-9XN,"
            " and none of 0, 1, I, O and U"
        )
    number = 0
    for letter in reversed(text):
        number = number * len(_LETTERS) + _LETTERS.index(letter)
    if number < _ROOM:
        number = (number - _SHIFT) * pow(_TURN, -1, _ROOM) % _ROOM
        number, check = divmod(number, _CHECK)
        number, live = divmod(number, 2)
        seed, place = divmod(number, len(_KINDS) + 1)
        if check == _check(lamp, seed, place, live):
            drawn = place == len(_KINDS)
            return seed, None if drawn else _KINDS[place], drawn, bool(live)
    raise ValueError(f"code: {excerpt(str(code))} is mistyped, or belongs to another lamp than the {lamp.name}")


def _check(lamp, seed, place, live):
    text = f"{lamp.to_toml_text()}|{seed}|{place}|{int(live)}"
    return zlib.crc32(text.encode()) % _CHECK
