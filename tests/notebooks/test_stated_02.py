"""What lesson 02 states in figures, held to the library."""

import functools
from pathlib import Path

import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.lessons.load_line.cases_view import doubled_case, mains_case, rule_case
from dropper.lessons.load_line.view import bridging_currents, view_of
from dropper.results import explain
from dropper.solver.transient import Fault, with_fault

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
STAIR = Lamp.from_toml(LAMPS / "stair_marker.toml")
DISPLAY = Lamp.from_toml(LAMPS / "display_case.toml")
PEAK = STAIR.mains.peak
ARTICLE = {"frequency": 50, "dropper": 330e-9, "peak_voltage": PEAK, "clamped_voltage": 48 * 3.1}


@functools.cache
def with_leds(count):
    return view_of(replace_at(STAIR, "string.in_series", count))


def test_the_rule_says_24_mA_for_330_nF():
    """330 nF at 50 Hz, 9.65 kΩ and 24 mA as the open encyclopedia's article reckons."""
    assert round(theory.dropper_reactance(frequency=50, dropper=330e-9)) == 9646
    assert round(1e3 * theory.short_circuit_current(frequency=50, dropper=330e-9, voltage=230)) == 24
    assert round(view_of(STAIR).rule, 3) == 0.024


def test_the_article_s_lamp_gets_half_of_what_the_rule_says():
    rule = theory.short_circuit_current(frequency=50, dropper=330e-9, voltage=230)
    mean = theory.mean_string_current(**ARTICLE)
    assert round(1e3 * mean) == 12 and round(rule / mean, 2) == 2.05


def test_the_rule_is_11_per_cent_too_high_at_the_least_and_twice_with_half_of_the_peak():
    assert round(theory.reactance_rule_excess(clamped_fraction=0), 2) == 1.11
    assert round(1 / theory.reactance_rule_excess(clamped_fraction=0), 2) == 0.90
    assert 2 < theory.reactance_rule_excess(clamped_fraction=0.5) < 2.3


def test_a_microfarad_gives_72_mA_rms_and_65_mA_on_average_into_a_short_circuit():
    at = {"frequency": 50, "dropper": 1e-6}
    assert round(1e3 * theory.short_circuit_current(voltage=230, **at)) == 72
    assert round(1e3 * theory.mean_string_current(peak_voltage=PEAK, clamped_voltage=0, **at)) == 65


def test_the_display_case_and_the_answers_offered_for_it():
    """49 mA, 44 mA, about 30 mA: the rule, its mean, and what the string gets."""
    view = view_of(DISPLAY)
    assert DISPLAY.dropper == 680e-9 and DISPLAY.string.in_series == 36 and DISPLAY.mains.voltage == 230
    figures = (view.rule, view.bridge[0], view.crossing[1])
    assert [round(1e3 * amperes) for amperes in figures] == [49, 44, 30]
    words, right = rule_case(DISPLAY)
    assert right == "less" and "49.1 mA rms" in words and "44.2 mA on average" in words and "29.9 mA" in words


def test_half_of_the_leds_bridged_is_14_per_cent_more():
    before, after = bridging_currents(STAIR)
    assert round(100 * (after / before - 1)) == 14


def test_d_falls_by_33_V_of_256_V():
    assert with_leds(22).crossing[0] == pytest.approx(69.1, abs=0.05) and round(PEAK) == 325
    lost, left = with_leds(22).crossing[0] - with_leds(11).crossing[0], PEAK - with_leds(22).crossing[0]
    assert round(lost) == 33 and round(left) == 256 and round(100 * lost / left) == 13


def test_ten_per_cent_more_mains_is_11_per_cent_with_10_leds_and_over_20_with_60():
    for count, low, high in ((10, 0.10, 0.12), (60, 0.20, 0.24)):
        lamp = replace_at(STAIR, "string.in_series", count)
        more = steady_state(replace_at(lamp, "mains.voltage", 253.0)).string_current_mean
        assert low < more / steady_state(lamp).string_current_mean - 1 < high
    assert theory.peak_voltage(voltage=253) - PEAK == pytest.approx(32.5, abs=0.05)
    assert round(PEAK - with_leds(60).crossing[0]) == 146
    words, right = mains_case(replace_at(STAIR, "string.in_series", 60), 10)
    assert right == "more" and "32.5 V" in words and "146 V" in words
    assert mains_case(replace_at(STAIR, "string.in_series", 10), 10)[1] == "alike"


def test_twice_the_leds_is_not_twice_the_power():
    view = view_of(STAIR)
    assert STAIR.string.in_series == 22 and 1.4 < view.double_point[2] / view.watts < 1.5
    assert view.double_point[2] == pytest.approx(with_leds(44).watts, rel=0.002)
    assert with_leds(88).watts < 0.7 * with_leds(44).watts
    words, right = doubled_case(STAIR)
    assert right == "less" and all(f"{count} LEDs take" in words for count in (22, 44, 88))
    assert doubled_case(replace_at(STAIR, "string.in_series", 5))[1] == "some"


def test_the_power_is_greatest_with_d_at_half_of_the_peak():
    """The hump in print: f C V² with the open voltage, 5.29 W for 1 µF (IEEE Xplore document 8891681, eq. (1))."""
    assert theory.best_clamped_voltage(peak_voltage=PEAK) == pytest.approx(PEAK / 2)
    greatest = theory.greatest_power(frequency=50, dropper=1e-6, peak_voltage=PEAK)
    assert round(greatest, 2) == 5.29 == round(50 * 1e-6 * PEAK**2, 2)
    best = max(range(30, 80), key=lambda count: with_leds(count).watts)
    assert with_leds(best).crossing[0] == pytest.approx(PEAK / 2, rel=0.05)


def test_the_lamp_is_a_supply_with_15_kiloohms_inside_and_the_string_rises_by_a_few_hundred():
    assert round(theory.source_resistance(frequency=50, dropper=330e-9) / 1e3) == 15
    string = theory.string_resistance(**explain.values_for(theory.string_resistance, STAIR, steady_state(STAIR)))
    assert 100 < string < 400


@pytest.mark.parametrize("smoothing", [10e-6, 100e-6, 1000e-6])
def test_formula_and_solver_meet_within_a_third_of_a_per_cent(smoothing):
    bare = replace_at(replace_at(STAIR, "inrush_resistor", 0.0), "smoothing", smoothing)
    bare = replace_at(replace_at(bare, "bleeder", None), "smoothing_bleeder", None)
    seen = steady_state(bare)
    assert abs(explain.working("string_current_mean", bare, seen).value / seen.string_current_mean - 1) < 0.0033


def test_half_wave_is_57_per_cent_of_the_bridge_by_the_formulas_and_56_by_the_solver():
    result = steady_state(STAIR)
    half = theory.half_wave_current(
        frequency=50,
        dropper=STAIR.dropper,
        peak_voltage=PEAK,
        diode_voltage=0,
        output_voltage=explain.clamped_voltage(STAIR, result),
    )
    assert round(100 * half / explain.working("string_current_mean", STAIR, result).value) == 57
    pump = steady_state(with_fault(STAIR, Fault("short", "D1"))).string_current_mean
    assert round(1e3 * pump, 2) == 9.37 and round(100 * pump / result.string_current_mean) == 56
    assert round(1e3 * result.string_current_mean, 1) == 16.7


def test_half_wave_equals_the_bridge_at_two_thirds_of_the_peak_with_74_leds():
    assert round(2 * PEAK, -1) == 650
    assert round(theory.half_wave_break_even(peak_voltage=PEAK) / PEAK, 3) == 0.667
    assert with_leds(73).crossing[0] < 2 / 3 * PEAK < with_leds(74).crossing[0]
    for count, ahead in ((11, False), (22, False), (68, False), (69, True), (73, True), (74, True)):
        row = {reading.key: reading.value for reading in with_leds(count).readings}
        assert (row["half_wave_current"] > row["string_current_mean"]) == ahead, count


def test_the_maker_s_note_takes_half_a_microfarad():
    """Atmel user guide 7597B-AVR-10/07, appendix 2: 0.5 µF for 15 mA at 20 V from 220 V, 50 Hz, diodes of 0.7 V."""
    wanted = theory.dropper_for_half_wave(
        frequency=50,
        peak_voltage=theory.peak_voltage(voltage=220),
        output_voltage=20,
        diode_voltage=0.7,
        string_current_mean=0.015,
    )
    assert abs(wanted / 0.5e-6 - 1) < 0.02
