"""A guess in the text: nothing is told before it is noted or skipped."""

import pytest
from dropper.lessons import Guess
from predict import predict

ANSWERS = {"more": "more", "less": "less"}
OUTCOME = "It falls to 3.8 mA."
CAUSES = {"more": "Fewer volts are left across the dropper."}


@pytest.fixture
def guess():
    return Guess("More or less?", ANSWERS, OUTCOME, "less", CAUSES, key="test_guess")


def test_nothing_is_told_before_the_guess_is_noted(guess):
    assert "3.8" not in guess.reply.value and guess.line_box.layout.display == "none"
    guess.sure_buttons["sure"].click()
    assert not guess.answered and "3.8" not in guess.reply.value
    assert "Choose an answer first, or skip." in guess._first.value


def test_a_wrong_guess_is_refuted_with_what_holds_and_why(guess):
    predict(guess, "more", "sure")
    assert (
        "<b>You said (sure): more.</b> <strong>Not so:</strong> it falls to 3.8\u00a0mA. Fewer volts are left"
        in guess.reply.value
    )


def test_a_right_guess_is_called_right_without_a_cause(guess):
    predict(guess, "less", "guess")
    assert "<b>You said (a guess): less.</b> <strong>Right:</strong> it falls to 3.8\u00a0mA." in guess.reply.value
    assert "Fewer" not in guess.reply.value


def test_a_guess_can_be_skipped(guess):
    predict(guess, False)
    assert guess.answer is None and "<b>No prediction made.</b> It falls to 3.8\u00a0mA." in guess.reply.value
    assert "sliders" not in guess.reply.value + guess.skip_button.tooltip


def test_an_answered_guess_folds_to_one_line_and_can_be_opened_again(guess):
    predict(guess, "less")
    assert (guess.asked_box.layout.display, guess.line_box.layout.display) == ("none", "")
    assert guess.choice.disabled
    guess.show_button.click()
    assert guess.asked_box.layout.display == "" and guess.show_button.description == "Hide the question"
    guess.show_button.click()
    assert guess.asked_box.layout.display == "none"


def test_a_guess_goes_to_the_progress_file_only_under_a_key(guess, progress):
    predict(Guess("More or less?", ANSWERS, OUTCOME, "less"), "more")
    assert progress.predictions() == {}
    predict(guess, "more", "fairly")
    kept = progress.predictions()["test_guess"]
    assert (kept.answer, kept.sure, kept.right) == ("more", "fairly", False)


def test_what_an_outcome_begins_with_stays_a_name(guess):
    for outcome, told in (("LEDs glow.", "LEDs glow."), ("D1 opens.", "D1 opens."), ("A lamp glows.", "a lamp glows.")):
        other = Guess("What?", ANSWERS, outcome, "less")
        predict(other, "less")
        assert f"<strong>Right:</strong> {told}" in other.reply.value
