"""What lesson 00 states in figures, held to the library."""

import re
from pathlib import Path

import pytest
from dropper import Lamp, LampFileError, replace_at, steady_state, theory
from dropper.bench.meter import PlugInMeter
from dropper.lessons.bench.cases_view import inrush_case, two_in_series_case
from dropper.results import explain
from dropper.results.compare import what_sets_the_brightness

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
STAIR = Lamp.from_toml(LAMPS / "stair_marker.toml")
CURRENT = steady_state(STAIR).string_current_mean


def changed(path, value):
    """The stair marker with one thing changed, settled."""
    return steady_state(replace_at(STAIR, path, value))


def test_the_capacitor_sets_the_brightness():
    sets, words = what_sets_the_brightness(STAIR)
    assert sets == "capacitor" and "−6.8 %" in words


def test_the_dropper_is_worth_15_kiloohms_and_a_kiloohm_more_is_a_fifteenth():
    ohms = theory.source_resistance(frequency=50, dropper=STAIR.dropper)
    assert round(ohms / 1e3) == 15 and ohms / 1e3 == pytest.approx(15, rel=0.02)
    assert round(100 * (changed("series_resistor", 1e3).string_current_mean / CURRENT - 1), 1) == -6.8
    assert 1 - changed("series_resistor", 1e3).string_current_mean / CURRENT == pytest.approx(1 / 15, rel=0.1)


def test_twice_the_capacitance_is_nearly_twice_the_current():
    assert theory.source_resistance(frequency=50, dropper=2 * STAIR.dropper) == pytest.approx(15.15e3 / 2, rel=1e-3)
    assert 1.9 < changed("dropper", 2 * STAIR.dropper).string_current_mean / CURRENT < 2


def test_without_smoothing_the_leds_go_out_twice_in_every_period_and_the_mean_stays():
    bare = changed("smoothing", 0.0)
    lit = bare.string_current > 0.01 * bare.string_current.max()
    assert sum(a and not b for a, b in zip(lit, [*lit[1:], lit[0]], strict=True)) == 2
    assert bare.string_current_mean == pytest.approx(CURRENT, rel=0.03)


def test_resistors_cost_heat():
    for path, part in (("series_resistor", "series_resistor"), ("inrush_resistor", "inrush_resistor")):
        assert changed(path, 1e3).heat[part] > 2 * steady_state(STAIR).heat[part] > 0


def test_a_kiloohm_of_r4_takes_16_V_beside_256_V():
    assert round(1e3 * changed("series_resistor", 1e3).string_current_mean) == 16
    assert round(STAIR.mains.peak - explain.clamped_voltage(STAIR, steady_state(STAIR))) == 256


def test_formula_and_lamp_agree_closely_but_not_exactly():
    formula = explain.working("string_current_mean", STAIR, steady_state(STAIR)).value
    assert 0 < abs(formula / CURRENT - 1) < 0.05


def test_the_meter_shows_a_power_factor_near_0_3_and_the_readings_of_the_file_go_together():
    assert 0.25 < steady_state(STAIR).power_factor < 0.35
    meter = PlugInMeter()
    digits = {name: digit for name, (_, digit, _) in meter.digits().items()}
    assert digits["current"] == 1e-3 and digits["power"] == 0.1 and digits["power_factor"] == 0.01
    assert meter.check_agreement(STAIR.readings)[0]


def test_a_larger_inrush_resistor_takes_a_few_per_cent_at_most():
    assert STAIR.inrush_resistor == 220 and abs(1000 / 220 - 4.5) < 0.05
    words, right = inrush_case(STAIR, 1000.0)
    assert right == "little" and "−0.9 %" in words
    assert inrush_case(STAIR, 20e3)[1] in ("half", "ohms")


def test_two_droppers_in_series_halve_the_light():
    """The rule of capacitors in series is a textbook's: 1/C = 1/C1 + 1/C2."""
    strip = Lamp.from_toml(LAMPS / "shelf_strip.toml")
    assert strip.dropper == 1.5e-6
    words, right = two_in_series_case(strip)
    assert right == "half" and "750 nF" in words and re.search(r"−(4[5-9]|5[0-2])\.\d %", words)


def test_a_slip_in_a_lamp_file_is_answered_with_its_line():
    slip = STAIR.to_toml_text().replace("330 nF", "330 nH")
    with pytest.raises(LampFileError, match=r"line \d+.*330 nH"):
        Lamp.from_toml_text(slip, "my_lamp.toml")
