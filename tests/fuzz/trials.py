"""Trials: things at random are tried one by one; what goes wrong is anything but an answer or an error of our own."""

import signal
import time
import traceback
from collections.abc import Callable, Iterable
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import dropper
import pytest
from dropper.circuit.excerpt import unprintable

OURS = str(Path(dropper.__file__).parent)
LONGEST = 800  # characters of an error; a person has to read it
SLOW, HANG = 1.0, 60.0  # s of computing that are counted as slow; s by the clock after which an item is given up


class Hang(BaseException):
    """An item takes for ever."""


@dataclass
class Trials:
    """What became of all items."""

    tried: int = 0
    refused: int = 0
    slow: list = field(default_factory=list)
    wrong: list = field(default_factory=list)

    def __str__(self):
        counts = f"{self.tried:,} tried, {self.refused:,} refused with a sentence, {len(self.wrong)} wrong"
        return f"{counts}, {len(self.slow)} slow" + (f" ({max(self.slow):.1f} s)" if self.slow else "")


def try_all(items: Iterable, attempt: Callable) -> Trials:
    """Call `attempt` with each item; AssertionErrors of its own count as wrong."""
    trials = Trials()
    for item in items:
        trials.tried += 1
        began = time.process_time()
        try:
            with _hang_guard():
                attempt(item)
        except (Exception, Hang) as error:
            why = objection(error)
            trials.refused += not why
            if why:
                trials.wrong.append(f"no. {trials.tried}, {_shortened(item)}: {why}")
        spent = time.process_time() - began
        if spent > SLOW:
            trials.slow.append(spent)
    return trials


def objection(error: BaseException) -> str:
    """Why an error is none that a person can be shown; "" for a good one."""
    place = traceback.extract_tb(error.__traceback__)[-1]
    words = f"{type(error).__name__}: {error}"
    where = f"{words:.300} ({Path(place.filename).name}:{place.lineno})"
    if isinstance(error, Hang):
        return f"gave no answer in {HANG:g} s ({Path(place.filename).name}:{place.lineno})"
    if not isinstance(error, ValueError) or not place.filename.startswith(OURS):
        return where
    if len(str(error).split()) < 3 or len(str(error)) > LONGEST or any(map(unprintable, str(error))):
        return f"no sentence of a fit length: {where}"
    return ""


def check(items: Iterable, attempt: Callable, record: Callable) -> None:
    """Try all; fail with what went wrong, and note the counts for the report at the end."""
    trials = try_all(items, attempt)
    record("fuzz", str(trials))
    assert trials.tried, "there is nothing to try"
    if trials.wrong:
        pytest.fail(f"{trials}:\n" + "\n".join(trials.wrong[:30]), pytrace=False)


@contextmanager
def _hang_guard():
    """By the alarm clock of Unix, where the tests of this folder have it to themselves; elsewhere pytest's own."""
    if not hasattr(signal, "setitimer"):
        yield
        return

    def ring(*_):
        raise Hang

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, HANG)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _shortened(item):
    text = repr(item)
    return text if len(text) < 400 else f"{text[:300]} … {text[-80:]}"
