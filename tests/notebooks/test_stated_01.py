"""What lesson 01 states in figures, held to the library."""

from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp, steady_state, theory
from dropper.lessons.resistor_or_capacitor.cases_view import beside_case, lamp_case
from dropper.lessons.resistor_or_capacitor.view import TwoWays, view_of
from dropper.results import explain

STAIR = Lamp.from_toml(Path(__file__).resolve().parents[2] / "notebooks" / "lamps" / "stair_marker.toml")
MAINS, LOAD, CURRENT = 230.0, 60.0, 0.020
FED = {"voltage": MAINS, "line_current_rms": CURRENT}
ACROSS = theory.voltage_beside_load(voltage=MAINS, load_voltage=LOAD)
HEAT = theory.resistor_heat_beside_load(load_voltage=LOAD, **FED)


def test_the_panel_starts_with_the_puzzle_s_load():
    first = TwoWays()
    assert (first.voltage, first.load_voltage, first.current, first.dissipation_factor) == (MAINS, LOAD, CURRENT, 0.001)


def test_the_resistor_makes_170_V_times_20_mA_of_heat_three_quarters_of_all():
    assert round(HEAT, 2) == round((MAINS - LOAD) * CURRENT, 2) == 3.4
    assert 0.72 < HEAT / (HEAT + LOAD * CURRENT) < 0.76
    assert view_of(TwoWays()).heat[0] == pytest.approx(HEAT)


def test_the_capacitor_has_222_V_more_than_the_difference():
    assert round(ACROSS) == 222 and ACROSS > MAINS - LOAD == 170


def test_two_sines_added_instant_by_instant_are_the_mains():
    angle = np.linspace(0, 2 * np.pi, 10_000, endpoint=False)
    total = np.sqrt(2) * (LOAD * np.sin(angle) - ACROSS * np.cos(angle))
    assert abs(np.sqrt(np.mean(total**2)) - MAINS) < 1e-9


def test_the_power_averaged_over_a_period_is_the_heat_and_nothing():
    angle = np.linspace(0, 2 * np.pi, 10_000, endpoint=False)
    resistor = theory.resistor_for_load(load_voltage=LOAD, **FED)
    dropper = theory.dropper_for_load(frequency=50, load_voltage=LOAD, **FED)
    reactance = theory.dropper_reactance(frequency=50, dropper=dropper)
    hot = theory.resistor_power_at(phase=angle, load_resistance=resistor, line_current_rms=CURRENT).mean()
    cold = theory.capacitor_power_at(phase=angle, reactance=reactance, line_current_rms=CURRENT).mean()
    assert abs(hot - HEAT) < 1e-9 and abs(cold) < 1e-9


def test_a_textbook_s_23_microfarads_carry_1_73_A():
    """23 µF on 240 V, 50 Hz: 1.73 A, a problem of a textbook on circuit theory (J. Bird; title from memory)."""
    assert round(theory.short_circuit_current(frequency=50, dropper=23e-6, voltage=240), 2) == 1.73


def test_with_more_volts_for_the_load_the_resistor_cools_and_the_capacitor_s_volts_hardly_change():
    assert round(theory.voltage_beside_load(voltage=MAINS, load_voltage=85)) == 214
    assert round(theory.resistor_heat_beside_load(load_voltage=85, **FED), 1) == 2.9


def test_60_Hz_needs_less_capacitance_than_50_Hz():
    droppers = [theory.dropper_for_load(frequency=f, load_voltage=LOAD, **FED) for f in (50, 60)]
    assert [round(1e9 * dropper) for dropper in droppers] == [287, 239]
    assert round(1e9 * view_of(TwoWays()).dropper) == 287


def test_at_the_end_of_the_slider_the_loss_is_a_fortieth_of_the_resistor_s_heat():
    dropper = theory.dropper_for_load(frequency=50, load_voltage=LOAD, **FED)
    loss = theory.dropper_loss(frequency=50, dropper=dropper, dropper_voltage_rms=ACROSS, dissipation_factor=0.02)
    assert round(1e3 * loss) == 89 and 1 / 42 < loss / HEAT < 1 / 36


def test_volts_are_greatest_when_the_current_is_zero_and_zero_when_it_is_greatest():
    view = view_of(TwoWays())
    volts, current = view.voltages[1], view.current
    assert abs(volts[np.argmax(current)]) < 1e-9 * volts.max() and abs(current[np.argmax(volts)]) < 1e-9 * current.max()


def test_the_answers_offered_beside_a_load_of_200_V():
    words, right = beside_case(TwoWays(load_voltage=200.0))
    assert right == "triangle" and words.startswith("114 V") and MAINS - 200 == 30
    assert round(theory.voltage_beside_load(voltage=MAINS, load_voltage=200)) == 114


def test_the_dropper_of_a_lamp_warms_with_less_than_a_hundredth():
    result = steady_state(STAIR)
    assert round(result.real_power, 2) == 1.32 and round(result.dropper_voltage_rms, -1) == 200
    words, right = lamp_case(STAIR, 0.001)
    assert right == "little" and "4.14 mW" in words
    loss = theory.dropper_loss(
        frequency=50, dropper=STAIR.dropper, dissipation_factor=0.001, dropper_voltage_rms=result.dropper_voltage_rms
    )
    assert loss < 0.01 * result.real_power


def test_a_resistor_in_place_of_the_dropper_would_burn_two_and_a_half_times_what_the_lamp_takes():
    result = steady_state(STAIR)
    burnt = theory.dropping_resistor_heat(
        peak_voltage=STAIR.mains.peak,
        clamped_voltage=explain.clamped_voltage(STAIR, result),
        string_current_mean=result.string_current_mean,
    )
    assert burnt > 5 * (result.real_power - result.heat["leds"]) and 2.4 < burnt / result.real_power < 2.7
    loss = theory.dropper_loss(
        frequency=50, dropper=STAIR.dropper, dissipation_factor=0.001, dropper_voltage_rms=result.dropper_voltage_rms
    )
    assert loss < burnt / 100
    warm = sorted(result.heat, key=result.heat.get, reverse=True)
    assert warm[0] == "leds" and {"inrush_resistor", "bleeder", "diodes", "smoothing_bleeder"} == set(warm[1:5])
