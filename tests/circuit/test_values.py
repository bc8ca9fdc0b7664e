"""Values as people write them: read right, refused in words, and written back exactly."""

import math

import eseries
import pytest
from dropper.circuit import numerals, values
from dropper.circuit.parsing import ValueTextError, parse
from dropper.circuit.series import E_SERIES, preferred
from dropper.circuit.values import show, show_exactly
from hypothesis import given
from hypothesis import strategies as st

UNITS = ["F", "Ω", "V", "A", "W", "VA", "Hz", "°", ""]

# Codes and their values after IEC 60062:2016 (its R-K-M letters), restated in handbooks.
WRITTEN = [
    ("330 nF", "F", 330e-9),
    ("330nF", "F", 330e-9),
    ("0.33 µF", "F", 330e-9),
    ("0.33 uF", "F", 330e-9),
    ("0,33 µF", "F", 330e-9),
    ("2,2 µF", "F", 2.2e-6),
    ("4n7", "F", 4.7e-9),
    ("µ33", "F", 330e-9),
    ("1 M", "Ω", 1e6),
    ("4R7", "Ω", 4.7),
    ("R47", "Ω", 0.47),
    ("470R", "Ω", 470),
    ("1k5", "Ω", 1500),
    ("4M7", "Ω", 4.7e6),
    ("5 k ohm", "Ω", 5000),
    ("1 MΩ", "Ω", 1e6),
    ("4K7J", "Ω", 4700),
    ("17 mA", "A", 0.017),
    ("–17 mA", "A", -0.017),
    ("１７\u2009mA", "A", 0.017),
    ("٣ V", "V", 3),
    ("53º", "°", 53),
    ("0.7 W", "W", 0.7),
    ("50", "Hz", 50),
    ("3 %", "", 0.03),
    (0.29, "", 0.29),
]
REFUSED = [
    ("330 nH", "F"),
    ("330 nF", "Ω"),
    ("4R7", "F"),
    ("", "F"),
    ("nan", "F"),
    ("inf", "V"),
    ("1e999", "F"),
    ("1,500", "Ω"),
    ("1 2", "F"),
    ("__import__('os')", "F"),
    ("1_000", "Ω"),
    ("9" * 60, "Ω"),
    (True, "F"),
    (None, "V"),
    ([1], "V"),
    ("3 %", "V"),
    ("1k5k", "Ω"),
    ("--1", "V"),
    (math.nan, "V"),
    ("12 V", ""),
    ("1:2", ""),
    ("a = 5", "V"),
    ("5 V # read", "V"),
    (10**400, "V"),
    ("5–6 V", "V"),
]


@pytest.mark.parametrize(("text", "unit", "value"), WRITTEN)
def test_reads_what_people_write(text, unit, value):
    assert parse(text, unit) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(("text", "unit"), REFUSED)
def test_refuses_in_words_that_name_the_field(text, unit):
    with pytest.raises(ValueTextError, match=r"^dropper: .+; write"):
        parse(text, unit, "dropper")


@given(st.text(max_size=50), st.sampled_from(UNITS))
def test_any_text_is_a_finite_value_or_a_clear_refusal(text, unit):
    try:
        assert math.isfinite(parse(text, unit))
    except ValueTextError as error:
        assert str(error).startswith("value: ")


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=1e-15, max_value=1e12), st.sampled_from(UNITS))
def test_a_written_value_reads_back_to_the_same_number(value, unit):
    assert parse(show_exactly(value, unit), unit) == value


@pytest.mark.parametrize("series", E_SERIES)
def test_preferred_values_are_those_of_the_standard(series):
    # The eseries package from the registry holds the tables of IEC 60063 on its own.
    theirs = list(eseries.erange(eseries.ESeries[f"E{series}"], 1e-9, 1e-3))
    ours = preferred(series, 1e-9, 1e-3)
    assert len(ours) == len(theirs)
    assert ours == pytest.approx(theirs, rel=1e-9)


def test_preferred_refuses_a_series_it_does_not_hold():
    with pytest.raises(ValueError, match="E5"):
        preferred(5, 1, 10)


def test_shows_prefixes_as_the_trade_prints_them():
    assert show(1e-5, "F") == "10 µF"
    assert show(9645.9, "Ω", 4) == "9.646 kΩ"
    assert show(None, "Ω") == "none"


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        (values.show_reading(0.0123, "A"), "12.3 mA"),
        (values.show_reading(-12.34, "°C"), "−12.3 °C"),
        (values.show_reading(1234.5, "%"), "1234 %"),
        (values.show_reading(15980, "h"), "16 000 h"),
        (values.show_reading(math.nan, "V"), "–"),
        (values.show_plain(0.000123456, "K"), "0.0001235 K"),
        (values.show_plain(16000, "h"), "16000 h"),
        (values.show_to_digit(0.0216, "A", 1e-3), "22 mA"),
        (values.show_to_digit(229.96, "V", 0.1), "230.0 V"),
        (values.show_estimate(0.021834, 0.0004, "A"), "21.83 ± 0.40 mA"),
        (values.show_estimate(-53.12, 1.04, "°"), "−53.1 ± 1.0°"),
        (values.show_steps(3.05, "V", 1), "3.05 V"),
        (values.show_steps(-20, "°C", 0), "−20 °C"),
        (numerals.short(-12345.6), "−12 346"),
        (numerals.signed(-0.04), "0.0"),
        (numerals.signed(4.04), "+4.0"),
        (numerals.grouped(1e7), "10 000 000"),
    ],
)
def test_values_are_written_as_their_place_asks(text, wanted):
    assert text == wanted


@given(st.floats(-1e9, 1e9), st.sampled_from(UNITS))
def test_what_only_people_read_has_a_true_minus(value, unit):
    for text in (values.show_reading(value, unit), values.show_steps(value, unit, 1), numerals.short(value)):
        assert not text.startswith("-"), text


@given(st.floats(1e-12, 1e9), st.sampled_from(UNITS))
def test_what_is_kept_on_one_line_is_read_like_any_other(value, unit):
    """People copy values out of a sentence: the space that does not break is a space."""
    text = show_exactly(value, unit)
    assert parse(values.unbroken(text), unit) == parse(text, unit)
    assert " " not in values.unbroken(f"{values.show(value, unit)}") or "e" in text
