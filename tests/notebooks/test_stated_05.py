"""What lesson 05 states in figures and in words, held to the library."""

import functools
import math
from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp, Readings, replace_at, standards, steady_state, theory
from dropper.bench.meter import PlugInMeter
from dropper.lessons.powers.view import view_of
from dropper.results import explain
from dropper.solver import power

STAIR = Lamp.from_toml(Path(__file__).resolve().parents[2] / "notebooks" / "lamps" / "stair_marker.toml")


@functools.cache
def seen(*changes):
    lamp = STAIR
    for path, value in changes:
        lamp = replace_at(lamp, path, value)
    return steady_state(lamp)


@functools.cache
def larger():
    """Six times the dropper, six LEDs side by side, 22 Ω in the line."""
    return seen(("dropper", 6 * STAIR.dropper), ("string.in_parallel", 6), ("inrush_resistor", 22.0))


def fraction():
    return explain.clamped_voltage(STAIR, seen()) / STAIR.mains.peak


def test_the_meter_of_the_puzzle_shows_230_V_22_mA_1_3_W_and_a_power_factor_of_0_27():
    meter = PlugInMeter()
    texts = {name: meter.reading_text(name, value) for name, value in meter.readings(seen()).items()}
    assert texts["current"] == "22 mA" and texts["power"] == "1.3 W" and texts["power_factor"] == "0.27"
    assert round(seen().power_factor, 2) == 0.27 and round(230 * 22e-3) == 5


def test_the_three_parts_make_the_volt_amperes_and_the_current_leads():
    parts = power.of_steady_state(seen())
    assert parts.reactive < 0
    squares = parts.real**2 + parts.reactive**2 + parts.current_distortion**2
    assert squares / parts.apparent**2 == pytest.approx(1, abs=1e-5)


def test_displacement_factor_times_distortion_factor_is_the_power_factor():
    shape = 1 / math.sqrt(1 + seen().current_thd ** 2)
    assert seen().displacement_factor * shape == pytest.approx(seen().power_factor, abs=1e-3)


def test_with_a_string_of_half_the_peak_the_factors_are_0_54_and_0_45():
    half = {"clamped_fraction": 0.5}
    assert round(theory.displacement_factor(**half), 2) == 0.54 and round(theory.power_factor(**half), 2) == 0.45
    assert theory.power_factor(**half) == pytest.approx(math.sqrt(2) / math.pi, abs=1e-12)


def test_three_quarters_of_the_watts_and_more_reach_the_leds():
    assert seen().heat["leds"] > 0.75 * seen().real_power


def test_the_greatest_power_factor_is_0_541():
    assert round(theory.greatest_power_factor()[1], 3) == 0.541


def test_the_power_factor_gives_the_clamped_voltage_within_4_per_cent():
    result, rising = seen(), np.linspace(0.01, 0.77, 400)
    clean = (result.real_power - result.heat["inrush_resistor"] - result.heat["bleeder"]) / result.apparent_power
    found = np.interp(clean, theory.power_factor(clamped_fraction=rising), rising)
    assert abs(found / fraction() - 1) < 0.04
    assert round(theory.power_factor(clamped_fraction=fraction()), 2) == 0.23


def test_the_definitions_give_what_the_page_prints_beside_them():
    """Harmonics as in Annex B of IEEE 1459-2010, from memory; the figures follow from the standard's definitions."""
    volts, amperes = np.zeros(8, complex), np.zeros(8, complex)
    volts[1::2] = np.array([100, 8, 15, 5]) * np.exp(-1j * np.radians([0, 70, -141, -142]))
    amperes[1::2] = np.array([100, 20, 15, 10]) * np.exp(-1j * np.radians([30, 165, -234, -234]))
    check = power.power_quantities(volts, amperes)
    found = check.real, check.apparent, check.nonactive, check.current_distortion, check.power_factor
    assert found == pytest.approx((8632.789, 10517.493, 6007.713, 2692.582, 0.820803), rel=1e-6)


def test_formula_and_solver_agree_on_a_lamp_that_is_nearly_ideal():
    ideal = replace_at(replace_at(STAIR, "inrush_resistor", 0.0), "smoothing", 1e-3)
    ideal = replace_at(replace_at(ideal, "bleeder", None), "smoothing_bleeder", None)
    result = steady_state(ideal)
    assert explain.working("power_factor", ideal, result).value == pytest.approx(result.power_factor, rel=0.005)


def test_the_ratio_hardly_knows_the_dropper():
    small, more, most = (seen(("dropper", farad)) for farad in (150e-9, 470e-9, 4.7e-6))
    assert abs(more.power_factor / small.power_factor - 1) < 0.12
    assert most.string_current_mean > 0.17, "LEDs made for 20 mA would carry nine times that"


def test_the_power_factor_is_greatest_at_87_leds_and_the_power_at_51():
    strings = {count: seen(("string.in_series", count)) for count in (45, 51, 57, 75, 87, 98)}
    assert max(strings, key=lambda count: strings[count].power_factor) == 87
    assert max(strings, key=lambda count: strings[count].real_power) == 51


def test_more_resistance_wastes_power_and_betters_the_power_factor():
    wasteful = seen(("inrush_resistor", 2200.0))
    assert round(wasteful.heat["inrush_resistor"], 2) == 0.91 and round(seen().heat["inrush_resistor"], 2) == 0.10
    assert wasteful.power_factor > seen().power_factor + 0.1
    assert view_of(wasteful.lamp).led_share < view_of(STAIR).led_share - 20


def test_without_smoothing_the_thirteenth_harmonic_falls_from_4_5_to_3_8_per_cent():
    both = seen(), seen(("smoothing", 0.0))
    shares = [100 * result.harmonic_currents[13] / result.harmonic_currents[1] for result in both]
    assert [round(share, 1) for share in shares] == [4.5, 3.8]


def test_a_filament_lamp_of_the_same_light_takes_more_than_twice_the_power():
    assert 50 * seen().heat["leds"] / 10 > 2 * seen().real_power


def test_the_rules_ask_nothing_of_the_small_lamp_and_the_larger_one_fails_by_displacement():
    verdicts = []
    for result in (seen(), larger()):
        wave = result.line_current
        verdicts.append(standards.harmonic_verdict(result.harmonic_currents, result.real_power, 230, waveform=wave))
        verdicts.append(standards.displacement_verdict(result.real_power, result.displacement_factor))
    assert [verdict.sign for verdict in verdicts] == ["–", "–", "✓", "✗"]
    assert round(larger().displacement_factor, 2) == 0.27 and 7.8 < larger().real_power < 8
    assert [check.sign for check in verdicts[2].checks] == ["✗", "✓", "✓"]


def test_the_larger_lamp_is_within_its_harmonics_only_just():
    shares = larger().harmonic_currents / larger().harmonic_currents[1]
    assert round(100 * shares[3]) == 22
    over = [larger().harmonic_currents[order] * 1e3 / larger().real_power / (3.85 / order) for order in (11, 13)]
    assert min(over) > 1, "IEC 61000-3-2, way (a), from memory: 3.85/n mA for each watt above the 11th"


def test_the_digits_leave_the_power_factor_open_and_a_degree_makes_6_per_cent():
    meter = PlugInMeter()
    shown = meter.readings(seen())
    given = {name: shown[name] for name in ("current", "power", "power_factor")}
    low, high = meter.power_factor_band(Readings(voltage=230.0, **given))
    assert low < seen().power_factor < high
    error = theory.power_error_of_phase(displacement_factor=seen().displacement_factor, phase_error=math.radians(1))
    assert round(100 * error) == 6 and round(100 * 0.05 / 1.3) == 4


# The wave in steps
