"""A guess in the text: nothing is told before it is noted or skipped."""

from dropper.lessons import Guess

ANSWERS = {"more": "more", "less": "less"}


def test_what_was_found_is_told_after_the_guess():
    guess = Guess("More or less?", ANSWERS, "Less: 3.8 mA.")
    assert "3.8" not in guess._said.value
    guess._noted()
    assert "Choose an answer first" in guess._said.value
    guess._choice.value = "more"
    guess._noted()
    assert "You predicted: more." in guess._said.value and "Less: 3.8 mA." in guess._said.value
    assert guess.answer == "more" and guess._note.disabled


def test_a_guess_can_be_skipped():
    guess = Guess("More or less?", ANSWERS, "Less: 3.8 mA.")
    guess._skipped()
    assert guess.answer is None and "No prediction made. </b>" not in guess._said.value
    assert "Less: 3.8 mA." in guess._said.value and "sliders" not in guess._said.value + guess._skip.tooltip


def test_a_guess_is_called_right_or_not():
    for key, told in (("more", "Not so. Less: 3.8 mA."), ("less", "Right. Less: 3.8 mA.")):
        guess = Guess("More or less?", ANSWERS, "Less: 3.8 mA.", "less")
        guess._choice.value = key
        guess._noted()
        assert told in guess._said.value
