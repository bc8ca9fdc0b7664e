"""Meter, comparison and explanation: answers made from results."""

import pytest
from dropper import Lamp, Readings, replace_at, steady_state
from dropper.bench.meter import PlugInMeter
from dropper.results import compare, explain
from hypothesis import given
from hypothesis import strategies as st

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
RESULT = steady_state(STAIR)
METER = PlugInMeter()


def test_a_meter_shows_no_more_than_its_digits():
    shown = METER.readings(RESULT)
    for name, (_, digit, source) in METER.digits().items():
        assert abs(shown[name] - getattr(RESULT, source)) <= digit / 2 + 1e-12
        assert shown[name] / digit == pytest.approx(round(shown[name] / digit))
    assert METER.reading_text("current", shown["current"]) == "22 mA"
    assert METER.reading_text("power_factor", shown["power_factor"]) == "0.27"


def test_a_dark_lamp_shows_zeros_not_nan():
    unloaded = replace_at(STAIR, "smoothing_bleeder", None)
    dark = steady_state(replace_at(unloaded, "string.in_series", 400))
    assert set(METER.readings(dark).values()) == {0.0}


@given(st.floats(90, 264), st.floats(0.005, 1), st.floats(0.05, 1))
def test_readings_rounded_from_one_truth_always_agree(volts, amperes, factor):
    read = Readings(
        voltage=round(volts, 1),
        current=round(amperes, 3),
        power=round(volts * amperes * factor, 1),
        power_factor=round(factor, 2),
    )
    assert METER.check_agreement(read)[0] is True


def test_readings_that_cannot_go_together_are_told_so():
    read = Readings(voltage=230.0, current=0.020, power=3.0, power_factor=0.30)
    agrees, words = METER.check_agreement(read)
    assert agrees is False and "disagrees with itself" in words
    assert METER.check_agreement(Readings(voltage=230.0))[0] is None


@pytest.mark.parametrize(
    ("before", "after", "text"),
    [
        (10, 12, "+20.0 %"),
        (10, 9, "−10.0 %"),
        (10, 10.001, "0.0 %"),
        (0, 1, "–"),
        (1, float("nan"), "–"),
        (1, 50, "× 50"),
    ],
)
def test_changes_are_told_in_signed_per_cent(before, after, text):
    assert compare.signed_percent(before, after) == text


@pytest.mark.parametrize(
    ("values", "texts", "digit", "text"),
    [
        ((0.2651, 0.2649), ("0.27", "0.26"), 0.01, "< 1 digit"),
        ((1.30, 1.34), ("1.3 W", "1.3 W"), 0.1, "0.0 %"),
        ((1.3, 1.5), ("1.3 W", "1.5 W"), 0.1, "+15.4 %"),
        ((0.01674, 0.01676), ("16.7 mA", "16.8 mA"), 0.0, "< 1 digit"),
        ((1e-9, 2e-9), ("under 1 mV", "under 1 mV"), 0.0, "–"),
        ((12.4, 1e-9), ("12.4 V", "under 1 mV"), 0.0, "−100.0 %"),
        ((2e5, 1e5), ("over 100 000 h", "over 100 000 h"), 0.0, "−50.0 %"),
        ((float("nan"), 1.0), ("–", "1 V"), 0.0, "–"),
    ],
)
def test_a_change_does_not_contradict_the_numbers_beside_it(values, texts, digit, text):
    assert compare.change_beside(*values, texts, digit) == text


@pytest.mark.parametrize("name", ["stair_marker", "shelf_strip", "display_case"])
def test_the_capacitor_sets_the_brightness_of_every_demo_lamp(name):
    sets, words = compare.what_sets_the_brightness(Lamp.from_toml(f"notebooks/lamps/{name}.toml"))
    assert sets == "capacitor"
    assert words.count("%") == 2


@pytest.mark.parametrize("key", explain.QUESTIONS)
def test_every_reading_is_explained_and_near_its_formula(key):
    """15 %: the demo lamp has 220 Ω in its line and half its light as ripple, the formula has neither.

    The least current is what is left of the mean after that ripple: 25 %.
    """
    worked = explain.working(key, STAIR, RESULT)
    reading = explain.reading(key, STAIR, RESULT)
    assert reading.value == getattr(RESULT, key)
    assert worked.value == pytest.approx(reading.value, rel=0.25 if key == "string_current_min" else 0.15)
    html = explain.in_html(reading)
    assert "$$" in html and "@formula" not in html and reading.text in html
    assert ("other readings" if reading.from_readings else "ideal lamp") in html


@pytest.mark.parametrize("key", [key for key, watts in RESULT.heat.items() if watts > 0])
def test_the_heat_of_every_part_is_explained_and_near_its_formula(key):
    """5 %: the formula for the diodes takes their voltage at one current for that of all of them."""
    assert explain.warms(key)
    reading = explain.heat_reading(key, STAIR, RESULT)
    assert explain.work_out(reading).value == pytest.approx(RESULT.heat[key], rel=0.05)
    assert reading.text in explain.in_html(reading)


def test_what_cannot_be_explained_says_so():
    with pytest.raises(KeyError, match="no derivation"):
        explain.reading("brightness", STAIR, RESULT)
    assert not explain.warms("dropper")


def test_a_dark_lamp_says_what_keeps_it_dark():
    loaded = replace_at(STAIR, "smoothing_bleeder", 1000.0)
    assert "bleeder" in compare.why_dark(loaded, steady_state(loaded))
    long = replace_at(replace_at(STAIR, "string.in_series", 400), "smoothing_bleeder", None)
    assert "325 V at its peak" in compare.why_dark(long, steady_state(long))
