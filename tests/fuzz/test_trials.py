"""The trials themselves: what is no answer and no sentence of our own is noticed."""

import time

import numpy as np
import pytest
import trials
from dropper.circuit.parsing import parse

pytestmark = pytest.mark.timeout(0)  # the alarm clock is the trials' own


def outcome(attempt):
    return trials.try_all(["something"], attempt)


def test_answers_and_our_own_sentences_are_good():
    good = trials.try_all(["330 nF", "330 nX"], lambda text: parse(text, "F"))
    assert (good.tried, good.refused, good.wrong) == (2, 1, [])


def raise_in_numpy(_):
    np.max([])


def answer_wrongly(_):
    raise AssertionError("it does not settle")


def repeat_all_that_was_typed(_):
    parse("1 V", "F", "dropper" * 500)


def repeat_what_cannot_be_printed(_):
    parse("1 V", "F", "dropper\x1b[31m")


@pytest.mark.parametrize(
    ("attempt", "why"),
    [
        (raise_in_numpy, "ValueError: zero-size array"),
        (answer_wrongly, "it does not settle"),
        (repeat_all_that_was_typed, "no sentence of a fit length"),
        (repeat_what_cannot_be_printed, "no sentence of a fit length"),
    ],
)
def test_other_errors_are_wrong(attempt, why):
    wrong = outcome(attempt).wrong
    assert len(wrong) == 1 and why in wrong[0] and "no. 1, 'something'" in wrong[0]


def test_what_never_answers_is_given_up(monkeypatch):
    monkeypatch.setattr(trials, "HANG", 0.1)
    if not hasattr(trials.signal, "setitimer"):
        pytest.skip("no alarm clock here")
    assert "gave no answer in 0.1 s" in outcome(lambda _: time.sleep(30)).wrong[0]


def test_what_takes_long_is_counted(monkeypatch):
    monkeypatch.setattr(trials, "SLOW", -1.0)
    assert len(outcome(len).slow) == 1
