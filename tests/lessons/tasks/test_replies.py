"""What people type: read right, or answered in a friendly sentence; never an exception."""

import math

import pytest
from dropper import lessons
from dropper.lessons.tasks.reply import NAMES, ReplyError, read
from hypothesis import given
from hypothesis import strategies as st

READ = [
    ("12.5 mA", "A", 0.0125),
    ("0.0125", "A", 0.0125),
    ("12,5 mA", "A", 0.0125),
    ("12.5mA", "A", 0.0125),
    ("I = 12.5 mA", "A", 0.0125),
    ("≈ 12.5 mA", "A", 0.0125),
    ("12.5 mA rms", "A", 0.0125),
    ("1.25e-2 A", "A", 0.0125),
    ("1.25×10⁻² A", "A", 0.0125),
    ("1.25*10^-2 A", "A", 0.0125),
    ("12.5 mA.", "A", 0.0125),
    ("−3 V", "V", -3.0),
    ("4R7", "Ω", 4.7),
    ("4k7", "Ω", 4700),
    ("1 500 Ω", "Ω", 1500),
    ("330n", "F", 330e-9),
    ("0.33 µF", "F", 330e-9),
    ("0,33 uF", "F", 330e-9),
    ("µ33", "F", 330e-9),
    ("54 %", "%", 54),
    ("54", "%", 54),
    ("54 per cent", "%", 54),
    ("54 %", "", 0.54),
    ("0.54", "", 0.54),
    ("PF = 0.54", "", 0.54),
    ("53.1°", "°", 53.1),
    ("53.1 deg", "°", 53.1),
    ("53.1 degrees", "°", 53.1),
    ("0.9268 rad", "°", 53.1017),
    ("-37°", "°", -37),
    ("140 µC", "C", 140e-6),
    ("1.4e-4", "C", 1.4e-4),
    ("3.9 var", "var", 3.9),
    ("4.2 VA", "VA", 4.2),
    ("1 W", "W", 1),
    ("€ 2.10", "", 2.1),
    ("0", "W", 0),
    ("1.3 kW", "W", 1300),
    ("2.2 k ohm", "Ω", 2200),
    ("5 V rms", "V", 5),
    ("140 coulombs", "C", 140),
    ("0.8 s", "s", 0.8),
    ("794 ms", "s", 0.794),
    ("2 seconds", "s", 2),
    ("24.9 mJ", "J", 0.0249),
    ("0.02 joules", "J", 0.02),
    ("35 K", "K", 35),
    ("68 °C", "°C", 68),
    ("68", "°C", 68),
    ("57,2 degrees", "°C", 57.2),
    ("68 C", "°C", 68),
    ("–12 mA", "A", -0.012),
    ("１２ mA", "A", 0.012),
    ("53.1 º", "°", 53.1),
    ("68 ºC", "°C", 68),
    ("12\u200b mA", "A", 0.012),
    ("32 000 h", "h", 32000),
    ("32000 hours", "h", 32000),
    ("7.5 years", "years", 7.5),
    ("1 year", "years", 1),
]
REFUSED = [
    ("", "A", "Nothing is typed"),
    ("   ", "A", "Nothing is typed"),
    (None, "A", "Nothing is typed"),
    ("abc", "A", "cannot be read"),
    ("12 V", "A", "is in volts"),
    ("12 mW", "VA", "is in watts"),
    ("54 %", "A", "per cent"),
    ("1,500 Ω", "Ω", "thousands or a decimal comma"),
    ("inf", "A", "cannot be read"),
    ("nan", "V", "cannot be read"),
    ("1e999", "F", "cannot be read"),
    ("9" * 80, "V", "more than 60"),
    ("1 2", "A", "cannot be read"),
    ("12 mA", "", "is in amperes"),
    ("12 mA", "s", "is in amperes"),
    ("5 V", "°C", "is in volts"),
    ("12 s", "V", "is in seconds"),
    ("68 °C", "K", "degrees Celsius"),
    ("3 years", "h", "is in years"),
    ("140 µF", "C", "is in farads"),
    ("12 A", "°", "is in amperes"),
    ("3 VA", "var", "volt-amperes"),
    ("1:2", "", "cannot be read"),
    ("54 %%", "%", "cannot be read"),
    ("12 ma", "A", "cannot be read"),
    ("__import__('os')", "A", "cannot be read"),
    ("12 mA or 13 mA", "A", "cannot be read"),
    ("<b>12</b>", "A", "cannot be read"),
]


@pytest.mark.parametrize(("text", "unit", "value"), READ)
def test_reads_what_people_write(text, unit, value):
    assert read(text, unit) == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize(("text", "unit", "words"), REFUSED)
def test_what_cannot_be_read_gets_a_friendly_sentence(text, unit, words):
    with pytest.raises(ReplyError, match=words) as told:
        read(text, unit)
    assert str(told.value).endswith(".") and str(told.value)[0] in "“NT"


@given(
    st.one_of(
        st.text(max_size=80), st.from_regex(r"[-−+]?[0-9.,e×^]{1,12} ?[pnuµmkMG]?[AVWΩFC%°a-z]{0,3}", fullmatch=True)
    ),
    st.sampled_from(sorted(NAMES)),
)
def test_any_text_is_a_finite_number_or_a_sentence(text, unit):
    try:
        assert math.isfinite(read(text, unit))
    except ReplyError as error:
        assert str(error).endswith(".")


@given(st.text(max_size=70), st.sampled_from(sorted(lessons.QUESTIONS)), st.integers(0, 5))
def test_no_reply_raises_and_one_that_cannot_be_read_is_no_try(text, name, seed):
    verdict = lessons.question(name).ask(seed).judge(text)
    assert isinstance(verdict.sentence, str) and verdict.sentence
    assert verdict.counts or not verdict.right


@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(sorted(lessons.QUESTIONS)))
def test_huge_and_tiny_numbers_are_judged_in_words(number, name):
    verdict = lessons.question(name).ask(1).judge(repr(number))
    assert verdict.sentence.endswith(".") or verdict.sentence.endswith("…")
    assert "nan" not in verdict.sentence


def test_a_thousandfold_miss_is_told_as_a_prefix():
    instance = lessons.question("string_current").ask(1)
    milliamperes = f"{1e3 * instance.answer:.4g}"
    assert instance.judge(milliamperes + " mA").right
    verdict = instance.judge(milliamperes)
    assert verdict.slips == ("prefix",) and "1 000 times too large" in verdict.sentence


def test_a_capacitor_in_nanofarads_for_microfarads_is_told_as_a_prefix():
    instance = lessons.question("dropper_for_string").ask(1)
    right = instance.answer * 1e9
    assert instance.judge(f"{right:.4g} nF").right
    assert instance.judge(f"{right:.4g} µF").slips == ("prefix",)


def test_a_slip_with_a_slip_of_prefix_on_top_is_told_as_both():
    instance = lessons.question("string_current").ask(3)
    short = instance.known.short_circuit_current
    verdict = instance.judge(f"{1e3 * short:.5g} A")
    assert verdict.slips == ("prefix, V over Xc",)


def test_two_slips_that_give_the_same_number_are_both_named():
    instance = lessons.question("dropper_for_string").with_values(
        {"voltage": 230.0, "frequency": 50.0, "clamped_voltage": 135.0, "string_current_mean": 0.010}
    )
    verdict = instance.judge("526 nF")
    assert set(verdict.slips) == {"rms for peak", "factor 2 forgotten"}
    assert "(1)" in verdict.sentence and "(2)" in verdict.sentence


def test_a_right_number_that_a_slip_gives_too_is_right_with_a_word_of_warning():
    # With a load of a tenth of the mains, all of the mains stands across the capacitor within half a per cent.
    instance = lessons.question("volts_beside").with_values({"voltage": 230.0, "load_voltage": 23.0})
    verdict = instance.judge("229 V")
    assert verdict.right and not verdict.slips
    assert "a slip gives the same number" in verdict.sentence


def test_close_is_told_apart_from_wrong():
    instance = lessons.question("reactance").with_values({"frequency": 50.0, "dropper": 330e-9})
    assert instance.judge("9.646 kΩ").right
    assert instance.judge("10 kΩ").sentence.startswith("Close")
    assert "too large" in instance.judge("15 kΩ").sentence
    assert "too small" in instance.judge("5.5 kΩ").sentence
    assert "below zero" in instance.judge("-4 kΩ").sentence
    assert "far too small. Look at the prefix" in instance.judge("15").sentence
    assert "too small" in instance.judge("0").sentence and "prefix" not in instance.judge("0").sentence


def test_a_wide_tolerance_in_volts_makes_no_slip_of_prefix_out_of_a_wrong_number():
    instance = lessons.question("starting_voltage").with_values({"voltage": 230.0, "clamped_voltage": 165.0})
    assert instance.answer == pytest.approx(4.73, abs=0.01)
    assert instance.judge("2000 V").slips == (), (
        "2 V would be within the 5 V allowed, but 2 kV is no slip of prefix for it"
    )
