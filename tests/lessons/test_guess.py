"""A guess in the text: nothing is told before it is noted or skipped."""

from dropper.lessons import Guess

ANSWERS = {"more": "more", "less": "less"}


def test_what_was_found_is_told_after_the_guess():
    guess = Guess("More or less?", ANSWERS, "Less: 3.8 mA.")
    assert "3.8" not in guess.reply.value
    guess.note()
    assert "Choose an answer first" in guess.reply.value
    guess.choice.value = "more"
    guess.note()
    assert "You predicted: more." in guess.reply.value and "Less: 3.8 mA." in guess.reply.value
    assert guess.answer == "more" and guess.note_button.disabled


def test_a_guess_can_be_skipped():
    guess = Guess("More or less?", ANSWERS, "Less: 3.8 mA.")
    guess.skip()
    assert guess.answer is None and "No prediction made. </b>" not in guess.reply.value
    assert "Less: 3.8 mA." in guess.reply.value and "sliders" not in guess.reply.value + guess.skip_button.tooltip


def test_a_guess_is_called_right_or_not():
    for key, told in (("more", "Not so. Less: 3.8 mA."), ("less", "Right. Less: 3.8 mA.")):
        guess = Guess("More or less?", ANSWERS, "Less: 3.8 mA.", "less")
        guess.choice.value = key
        guess.note()
        assert told in guess.reply.value
