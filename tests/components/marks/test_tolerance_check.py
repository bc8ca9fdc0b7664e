"""Measured against marked by other means: points tried one by one, an example by hand; and E series by a package."""

import eseries
import pytest
from draws import examples
from dropper.circuit.parsing import ValueTextError
from dropper.circuit.series import E_SERIES
from dropper.components.marks import preferred_series
from dropper.components.marks.tolerance_check import (
    OUTSIDE,
    UNDECIDED,
    WITHIN,
    check_tolerance,
    last_digit,
    true_interval,
)
from hypothesis import given, settings
from hypothesis import strategies as st


# By hand: 474K allows 423 to 517 nF; 4 % of 430 is 17.2, with 5 digits of 1 nF 22.2.
@pytest.mark.parametrize(
    ("read", "word", "least", "most"),
    [
        (450, WITHIN, 427, 473),
        (430, UNDECIDED, 407.8, 452.2),
        (380, OUTSIDE, 359.8, 400.2),
        (560, OUTSIDE, 532.6, 587.4),
        (510, UNDECIDED, 484.6, 535.4),
        (470, WITHIN, 446.2, 493.8),
    ],
)
def test_examples_by_hand(read, word, least, most):
    said = check_tolerance(read * 1e-9, 470e-9, 10, 10, unit="F", percent=4, counts=5, digit=1e-9)
    assert said.word == word
    assert 1e9 * said.least == pytest.approx(least) and 1e9 * said.most == pytest.approx(most)
    assert 1e9 * said.low == pytest.approx(423) and 1e9 * said.high == pytest.approx(517)
    assert "423 nF to 517 nF" in said.sentence


@given(
    st.floats(1, 1000), st.floats(1, 1000), st.floats(0, 50), st.floats(0, 100), st.floats(0, 20), st.integers(0, 20)
)
@settings(max_examples=examples(150))
def test_the_word_is_what_trying_every_true_value_gives(measured, value, minus, plus, percent, counts):
    said = check_tolerance(measured, value, minus, plus, unit="Ω", percent=percent, counts=counts, digit=0.1)
    edge = 1e-6 * value
    if min(abs(a - b) for a in (said.least, said.most) for b in (said.low, said.high)) < edge:
        return
    tried = [said.least + share / 50 * (said.most - said.least) for share in range(51)]
    inside = [value * (1 - minus / 100) <= true <= value * (1 + plus / 100) for true in tried]
    if said.low < said.least and said.most < said.high:
        assert said.word == WITHIN and all(inside)
    if said.word == WITHIN:
        assert all(inside)
    if said.word == OUTSIDE:
        assert not any(inside)
    if said.word == UNDECIDED:
        assert not all(inside)


def test_a_perfect_meter_can_always_tell():
    for measured in (90.0, 95.0, 100.0, 105.0, 110.0):
        assert check_tolerance(measured, 100.0, 5, 5, unit="Ω").word == (WITHIN if 95 <= measured <= 105 else OUTSIDE)


def test_lopsided_tolerance():
    for measured, word in ((85e-9, WITHIN), (175e-9, WITHIN), (75e-9, OUTSIDE), (185e-9, OUTSIDE)):
        assert check_tolerance(measured, 100e-9, 20, 80, unit="F").word == word


@pytest.mark.parametrize(
    "wrong", [{"measured": -1.0}, {"value": 0.0}, {"minus": float("nan")}, {"digit": float("inf")}]
)
def test_what_cannot_be_judged_names_the_field(wrong):
    given = {"measured": 1.0, "value": 1.0, "minus": 5.0, "plus": 5.0, "digit": 0.0} | wrong
    with pytest.raises(ValueError, match=f"^{next(iter(wrong))}: "):
        check_tolerance(**given, unit="Ω")


def test_a_reading_far_off_is_told_in_times():
    assert "915 times the mark" in check_tolerance(430e-9, 470e-12, 10, 10, unit="F").sentence


@pytest.mark.parametrize(
    ("text", "unit", "digit"),
    [
        ("440 nF", "F", 1e-9),
        ("0.440 µF", "F", 1e-9),
        ("0,44 µF", "F", 1e-8),
        ("440n", "F", 1e-9),
        ("46.8k", "Ω", 100),
        ("46.80 kΩ", "Ω", 10),
        ("268", "Ω", 1),
        ("268.0", "Ω", 0.1),
        ("1.003k", "Ω", 1),
        ("0.0 nF", "F", 1e-10),
        ("4k7", "Ω", 100),
        ("4k70", "Ω", 10),
        ("R47", "Ω", 0.01),
        ("00.5 Ω", "Ω", 0.1),
        ("1e3", "Ω", 1000),
        ("0.00 µF", "F", 1e-8),
        ("0", "Ω", 1),
    ],
)
def test_the_last_digit_of_what_was_typed(text, unit, digit):
    assert last_digit(text, unit) == pytest.approx(digit, rel=1e-9)


def test_what_is_no_reading_has_no_last_digit():
    with pytest.raises(ValueTextError):
        last_digit("some", "F")


def test_vouched_never_goes_below_nothing():
    assert true_interval(1.0, 10, 5, 1.0) == (0.0, pytest.approx(6.1))


@given(st.floats(1e-12, 1e9), st.sampled_from([3, 6, 12, 24, 48, 96, 192]))
@settings(max_examples=examples(200))
def test_neighbours_are_those_of_a_general_package(value, count):
    # The eseries package from the registry holds the tables of IEC 60063 on its own.
    theirs = eseries.ESeries[f"E{count}"]
    if abs(eseries.find_nearest(theirs, value) / value - 1) < 1e-8:
        return  # on a step the package has no next one for some, 107 of E192 among them
    up, down = eseries.find_greater_than(theirs, value), eseries.find_less_than(theirs, value)
    assert preferred_series.above(count, value) == pytest.approx(up, rel=1e-9)
    assert preferred_series.below(count, value) == pytest.approx(down, rel=1e-9)
    found = preferred_series.nearest(count, value)
    assert abs(found - value) == pytest.approx(abs(eseries.find_nearest(theirs, value) - value), rel=1e-6)


@pytest.mark.parametrize("count", E_SERIES)
def test_a_value_of_the_series_is_nearest_to_itself_and_left_behind_by_its_neighbours(count):
    theirs = list(eseries.erange(eseries.ESeries[f"E{count}"], 1, 10 if count > 48 else 100))
    for before, value, after in zip(theirs, theirs[1:], theirs[2:], strict=False):
        assert preferred_series.nearest(count, value) == pytest.approx(value)
        assert preferred_series.below(count, value) == pytest.approx(before) and preferred_series.above(
            count, value
        ) == pytest.approx(after)
        assert preferred_series.series_of(value) <= count


def test_no_series_holds_what_none_has():
    assert [preferred_series.series_of(value) for value in (474.0, 0.0, -1.0, float("nan"), 12.34)] == [None] * 5
    assert (preferred_series.series_of(919.0), preferred_series.series_of(920.0)) == (None, 192), (
        "the one exception of E192"
    )
    with pytest.raises(ValueError, match="E5"):
        preferred_series.nearest(5, 1.0)
    with pytest.raises(ValueError, match="above 0"):
        preferred_series.above(24, 0.0)
    assert [preferred_series.of_tolerance(percent) for percent in (20, 10, 5, 2, 1, 0.5, 0.01)] == [
        6,
        12,
        24,
        48,
        96,
        192,
        192,
    ]


def test_the_last_digit_of_a_negative_reading_and_of_powers_of_ten():
    assert (last_digit("-0.5 V", "V"), last_digit("4.68E4", "Ω")) == pytest.approx((0.1, 100.0))
    with pytest.raises(ValueTextError, match="smaller than any number"):
        last_digit("1e-400", "V")


def test_the_last_digit_of_a_reading_copied_from_a_page():
    assert last_digit("\ufeff４５０ nF", "F") == 1e-9 and last_digit("–0.0 V", "V") == pytest.approx(0.1)


def test_a_text_too_long_for_a_value_is_told_at_once():
    from dropper.lessons.markings import view as markings

    with pytest.raises(ValueError, match="bands for: .* cannot be read; write it like 220 Ω"):
        markings.with_bands_for(markings.Bands(), "1" * 10_000)


@pytest.mark.parametrize("read", ["+450", "\ufeff450"])
def test_a_reading_far_off_is_told_however_it_begins(read):
    from dropper.lessons.part_check import view as prints

    with pytest.raises(ValueError, match="measured: "):
        prints.view_of(prints.Print(text="474K", measured=read))
