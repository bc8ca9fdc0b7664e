"""How many random cases a test draws, and from which seed: the same everywhere, or drawn anew where that is asked for.

`python -m pytest --draws=anew` draws anew, ten times as many; the number that it tells draws the same cases again.
`python -m pytest --fuzz=100 tests/fuzz` tries a hundred times as many garbled files, texts and lamps there.
"""

import os

VARIABLE = "DROPPER_DRAWS"  # holds the number while cases are drawn anew; the processes that run tests inherit it
FUZZ = "DROPPER_FUZZ"  # holds how many times as many things tests/fuzz tries
WIDER = 10


def anew() -> bool:
    """Whether cases are drawn anew, and more of them."""
    return VARIABLE in os.environ


def examples(usual: int) -> int:
    """How many cases to draw where `usual` are enough for every run."""
    return usual * WIDER if anew() else usual


def fuzz(usual: int) -> int:
    """How many things to try in tests/fuzz where `usual` are enough for every run."""
    return examples(usual) * int(os.environ.get(FUZZ, 1))


def seed(usual: int) -> int:
    """A seed for a generator of numpy's."""
    return int(os.environ.get(VARIABLE, 0)) + usual
