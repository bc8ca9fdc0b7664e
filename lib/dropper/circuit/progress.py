"""Progress: the share of a long computation that is done, told to whoever listens; to nobody, if nobody does."""

import contextlib
from collections.abc import Callable, Iterator
from contextvars import ContextVar

_LISTENER: ContextVar[Callable[[float], None] | None] = ContextVar("listener", default=None)


@contextlib.contextmanager
def listening(listener: Callable[[float], None] | None) -> Iterator[None]:
    """Have `listener` called with the share done, 0 to 1, while the block runs.

    Examples
    --------
    >>> with listening(print):
    ...     report(0.5)
    0.5
    >>> report(0.9)
    """
    token = _LISTENER.set(listener)
    try:
        yield
    finally:
        _LISTENER.reset(token)


@contextlib.contextmanager
def stage(start: float, end: float) -> Iterator[None]:
    """What the block reports counts as the way from one share of the whole to another.

    Examples
    --------
    >>> with listening(print), stage(0.2, 0.6):
    ...     report(0.5)
    0.4
    0.6
    """
    outer = _LISTENER.get()
    with listening(None if outer is None else lambda share: outer(start + (end - start) * share)):
        yield
    report(end)


def report(share: float) -> None:
    """Say which share is done, 0 to 1."""
    listener = _LISTENER.get()
    if listener is not None:
        listener(share)
