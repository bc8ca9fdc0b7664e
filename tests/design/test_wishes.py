"""Wishes beyond the parts: LEDs left open, swing with the mains, what is open to touch, a case by its size, a drawer."""

import math
from pathlib import Path

import pytest
from dropper.design import Brief, Infeasible, design, size
from dropper.design.stock import drawer_text, read_drawer
from dropper.design.wishes import swing_with_mains
from dropper.solver.heat.enclosure import Enclosure

BRIEFS = Path(__file__).parents[2] / "notebooks" / "lamps" / "briefs"
NOOK = Brief.from_toml(BRIEFS / "reading_nook.toml")
ABOARD = NOOK.but(
    place="", voltage=115.0, frequency=400.0, mains_tolerance=0.05, in_series="best", current=0.01, flicker=30.0
)


def refused(brief):
    with pytest.raises(Infeasible) as failed:
        design(brief)
    return failed.value


def test_the_best_number_of_leds_puts_the_string_at_half_the_mains_peak():
    """Where a dropper of given size gives most power: D = Vp/2, the maximum of D·(Vp − D) by hand."""
    lamp = size(ABOARD).lamp
    share = lamp.clamped_voltage(ABOARD.current) / (math.sqrt(2) * 115)
    one = lamp.string.voltage_at(ABOARD.current) / lamp.string.in_series / (math.sqrt(2) * 115)
    assert 0.5 - one < share <= 0.5


@pytest.mark.parametrize("frequency", [10.0, 1000.0])
def test_a_mains_from_10_to_1000_hertz_is_taken(frequency):
    """The current is four times frequency, dropper and what the string leaves of the peak: I = 4fC(Vp − D), by hand."""
    sizing = size(ABOARD.but(voltage=230.0, frequency=frequency, in_series=20))
    left = math.sqrt(2) * 230 - sizing.lamp.clamped_voltage(sizing.current)
    assert sizing.current == pytest.approx(4 * frequency * sizing.lamp.dropper * left, rel=0.05)


def test_a_wished_swing_is_kept_or_fewer_leds_are_offered():
    failed = refused(ABOARD.but(in_series=40, swing=15.0))
    assert failed.wish == "swing" and 1 <= failed.nearest.in_series < 40
    assert failed.nearest.current == ABOARD.current, "fewer LEDs come before less current"
    assert swing_with_mains(size(failed.nearest)) <= 15.0
    failed = refused(ABOARD.but(swing=5.0))
    assert "mains alone" in failed.why and failed.nearest.in_series == "best"


def test_what_can_be_touched_is_refused_before_anything_else():
    failed = refused(ABOARD.but(touchable=True, in_series=500))
    assert failed.wish == "touchable" and failed.why.startswith("No.") and "double or reinforced" in failed.why
    assert not failed.nearest.touchable


def test_a_metal_case_says_what_it_asks_for_and_copies_no_distance():
    words = next(text for text in design(ABOARD.but(metal_case=True)).warnings if "Metal case" in text)
    for asked in ("double or reinforced", "protective earth", "creepage", "IEC 60598-1", "licensed"):
        assert asked in words
    assert " mm" not in words


def test_too_warm_a_lamp_loses_leds_and_not_current():
    failed = refused(NOOK.but(in_series=60, current=0.012, enclosure="30 K/W", room=40.0))
    assert failed.wish == "warmest" and failed.nearest.in_series < 60 and failed.nearest.current == 0.012


def test_a_pulse_limit_of_the_leds_is_kept():
    failed = refused(ABOARD.but(led_pulse=0.012))
    assert failed.wish == "led_pulse" and "12 mA" in failed.why
    failed = refused(ABOARD.but(flicker=100.0, led_pulse=0.012))
    assert failed.wish == "flicker" and "inrush resistor" in failed.why, "what eats the current is the true reason"
    lamp = design(ABOARD.but(flicker=10.0, led_pulse=0.02))
    assert max(lamp.sizing.result.string_current) < 0.02


def test_a_case_by_its_size_conducts_as_its_six_sides_do():
    """By hand: 0.0288 m² of 0.125 + 0.010 + 0.100 K·m²/W make 8.16 K/W; the figures of a square metre are practice."""
    assert Enclosure.of("120 × 60 × 40 mm plastic").resistance == pytest.approx(8.16, rel=1e-3)
    assert Enclosure.of("120 x 60 x 40 mm bare metal").resistance > Enclosure.of("120 x 60 x 40 mm glass").resistance


def test_only_the_drawer_is_taken_and_its_file_reads_back():
    kept = read_drawer('dropper = ["100 nF", "47 nF"]\nsmoothing = ["10 µF"]')
    assert read_drawer(drawer_text(kept)) == kept
    lamp = size(ABOARD.but(stock=kept)).lamp
    assert lamp.dropper in kept["dropper"] and lamp.smoothing in kept["smoothing"]
    failed = refused(ABOARD.but(stock={"dropper": ["10 µF"]}))
    assert failed.wish == "stock" and "10 µF" in failed.why and not failed.nearest.stock
    with pytest.raises(ValueError, match="330 nF"):
        read_drawer('dropper = ["330 ohm"]')
    with pytest.raises(ValueError, match="write a line like"):
        read_drawer("dropper 330 nF")
