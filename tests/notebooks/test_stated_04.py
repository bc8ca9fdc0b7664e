"""What lesson 04 states in figures and in words, held to the library."""

import datetime
import functools
import math
from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp, replace_at, standards, steady_state, theory
from dropper.lessons.smoothing.view import view_of
from dropper.results import explain
from dropper.solver import flicker

STAIR = Lamp.from_toml(Path(__file__).resolve().parents[2] / "notebooks" / "lamps" / "stair_marker.toml")


def changed(*changes):
    lamp = STAIR
    for path, value in changes:
        lamp = replace_at(lamp, path, value)
    return lamp


@functools.cache
def seen(*changes):
    return steady_state(changed(*changes))


def asked():
    """What the formula of the smoothing takes from this lamp."""
    values = explain.values_for(theory.current_modulation, STAIR, seen())
    return {name: value for name, value in values.items() if name != "smoothing"}


def wanted():
    return theory.smoothing_for_modulation(current_modulation=0.08, **asked())


def dynamic_resistance():
    return theory.string_resistance(**explain.values_for(theory.string_resistance, STAIR, seen()))


def test_the_bus_of_67_V_ripples_by_5_4_V_which_is_8_per_cent():
    result = seen()
    assert round(result.bus_voltage_mean) == 67 and round(result.bus_ripple, 1) == 5.4
    assert round(100 * result.bus_ripple / result.bus_voltage_mean) == 8
    assert 3 < result.bus_ripple < 7 and 65 < result.bus_voltage_mean < 72


def test_the_light_flickers_by_59_per_cent_between_6_4_and_25_mA():
    result = seen()
    assert result.percent_flicker > 55 and round(result.percent_flicker) == 59
    assert round(1e3 * result.string_current_min, 1) == 6.4 and round(1e3 * result.string_current_max) == 25


def test_the_low_risk_line_is_8_per_cent_at_100_Hz():
    assert standards.low_risk_modulation(100) == pytest.approx(8, abs=1e-9)


def test_the_dynamic_resistance_is_266_ohms_where_volts_over_amperes_are_4_kilohms():
    steep, plain = dynamic_resistance(), seen().bus_voltage_mean / seen().string_current_mean
    assert round(steep) == 266 and round(plain, -3) == 4000 and steep < plain / 5
    assert 200 < steep < 300 and 3.5 < 1e3 / steep < 4, "nearly 4 mA for a volt more"


def test_10_microfarads_have_159_ohms_at_100_Hz():
    """1/(2πfC) by hand: 1/(2π · 100 · 10e-6) = 159.15."""
    assert round(theory.dropper_reactance(frequency=100, dropper=10e-6)) == 159
    assert round(1 / (2 * math.pi * 100 * 10e-6)) == 159


def test_the_formula_asks_for_79_microfarads_and_the_solver_for_a_ninth_more():
    view = view_of(STAIR)
    assert round(1e6 * wanted()) == 79
    assert round(1e6 * view.sufficient[0], 1) == 87.5 and 8.5 < view.sufficient[0] / STAIR.smoothing < 9.5
    assert 1.1 < view.sufficient[0] / wanted() < 1.13, "1 + 1/9 is 1.11"


def test_the_next_value_up_keeps_the_line():
    assert seen(("smoothing", 100e-6)).percent_flicker < 8


def test_the_textbook_s_ripples():
    """Malvino and Bates, Electronic Principles, 7th edition, examples 4-7 and 4-8."""
    for volts, printed in ((17, 0.28), (34, 0.57)):
        ripple = theory.ripple_bound(frequency=60, smoothing=100e-6, string_current_mean=volts / 5e3)
        assert ripple == pytest.approx(printed, abs=0.006)


@pytest.mark.parametrize("leds", [22, 100])
def test_the_ripple_keeps_below_its_bound(leds):
    """The bleeder's share is largest with 100 LEDs."""
    lamp = changed(("string.in_series", leds))
    bound = theory.ripple_bound(**explain.values_for(theory.ripple_bound, lamp, steady_state(lamp)))
    assert steady_state(lamp).bus_ripple < bound


@pytest.mark.parametrize("smoothing", [10e-6, 47e-6, 220e-6])
def test_formula_and_solver_stay_about_a_tenth_apart(smoothing):
    lamp = changed(("smoothing", smoothing))
    result = steady_state(lamp)
    formula = 100 * theory.current_modulation(**explain.values_for(theory.current_modulation, lamp, result))
    assert 0.06 < 1 - formula / result.percent_flicker < 0.12


def test_the_flicker_index_of_a_rectified_sine_is_derived_and_sampled_alike():
    angle = (np.arange(4096) + 0.5) * 2 * np.pi / 4096
    sampled = flicker.flicker_index(np.abs(np.sin(angle)))
    assert round(float(sampled), 4) == 0.2105
    assert theory.flicker_index_of_rectified_sine() == pytest.approx(sampled, abs=1e-4)


def test_the_union_s_limit_of_visibility_is_0_4_since_september_2024():
    """Commission Regulation (EU) 2019/2020, Annex II, with 2021/341."""
    assert standards.largest_stroboscopic_visibility(datetime.date(2024, 9, 1)) == 0.4


def test_twice_the_capacitance_is_half_the_flicker_from_20_microfarads_on():
    for farad in (20e-6, 40e-6):
        once, twice = (seen(("smoothing", times * farad)).percent_flicker for times in (1, 2))
        assert twice / once == pytest.approx(0.5, abs=0.04)


def test_the_light_goes_out_without_smoothing_and_no_longer_with_1_or_10_microfarads():
    least = [seen(("smoothing", farad)).string_current_min for farad in (0.0, 1e-6, 10e-6)]
    assert least[0] < 1e-6 and round(1e3 * least[1], 1) == 0.4 and round(1e3 * least[2]) == 6


def test_a_kilohm_brings_the_flicker_to_16_per_cent_for_a_quarter_of_a_watt():
    resistive = seen(("series_resistor", 1000.0))
    assert round(resistive.percent_flicker) == 16 and 0.2 < resistive.heat["series_resistor"] < 0.27


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("string.led.series_resistance", 30.0),
        ("series_resistor", 1000.0),
        ("string.in_series", 44),
        ("mains.frequency", 60.0),
    ],
)
def test_what_lessens_the_flicker(path, value):
    assert seen((path, value)).percent_flicker < seen().percent_flicker


def test_a_larger_dropper_flickers_more():
    assert seen(("dropper", 680e-9)).percent_flicker > seen().percent_flicker
