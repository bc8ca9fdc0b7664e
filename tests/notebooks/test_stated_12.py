"""What lesson 12 states in figures and in words, held to the library."""

import functools
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.bench import table, waveform
from dropper.bench.meter import PlugInMeter, agreement, expected_bands
from dropper.bench.meter.multimeter import ac_value
from dropper.circuit.values import show
from dropper.design.uncertainty import error_budget, judge
from dropper.lessons.measurement import by_hand
from dropper.lessons.measurement.cases_view import meter_case, tolerance_case
from dropper.results import explain

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
STAIR = Lamp.from_toml(LAMPS / "stair_marker.toml")
CHANNELS = by_hand.SAMPLE_CHANNELS


@functools.cache
def seen():
    return steady_state(STAIR)


@functools.cache
def recording():
    return waveform.load(LAMPS / by_hand.SAMPLE, **CHANNELS)


@functools.cache
def measurement():
    return waveform.measure(recording())


@functools.cache
def own():
    return waveform.on_measured_mains(STAIR, measurement())


@functools.cache
def compared():
    return waveform.compare(measurement(), own())


def test_the_three_meters_show_22_19_and_33_mA():
    plug_in = PlugInMeter().readings(seen())["current"]
    averaging = ac_value(seen().line_current, true_rms=False)
    assert show(plug_in, "A") == "22 mA" and round(1e3 * averaging) == 19
    assert round(1e3 * seen().line_current_peak) == 33 and round(1e3 * seen().line_current_rms, 1) == 21.6


def test_the_plain_multimeter_shows_13_per_cent_too_little_as_its_formula_has_it():
    averaging = ac_value(seen().line_current, true_rms=False)
    assert round(100 * (averaging / seen().line_current_rms - 1)) == -13 and meter_case(STAIR)[1] == "less"
    values = explain.values_for(theory.averaging_meter_current, STAIR, seen())
    assert theory.averaging_meter_current(**values) == pytest.approx(averaging, rel=0.05)
    assert round(seen().line_current_peak / seen().line_current_rms, 2) == 1.53


def test_18_mA_lies_outside_of_what_a_sound_lamp_may_show():
    bands = expected_bands(seen())
    assert bands["power"].contains(1.3) and not bands["current"].contains(0.018)
    current = error_budget(STAIR).bars["line_current_rms"]
    assert current.text == "21.6 ± 3.0 mA" and judge(current, 0.018).word == "outside"
    assert current.largest.key == "dropper" and tolerance_case(STAIR)[1] == "large"


def test_a_fifth_harmonic_moves_light_and_peak_and_the_droppers_loss_next_to_nothing():
    budget = error_budget(STAIR)

    def alone(source, key):
        return 100 * budget.half_width(source, key) / budget.bars[key].value

    assert 3.5 < alone("harmonics", "string_current_mean") < 4 and round(alone("harmonics", "line_current_peak")) == 15
    assert alone("dropper_loss", "line_current_rms") < 0.1


def test_240_V_are_23_mA_with_nothing_wrong():
    there = steady_state(replace_at(STAIR, "mains.voltage", 240.0))
    assert show(PlugInMeter().readings(there)["current"], "A") == "23 mA"


def test_half_a_digit_hides_2_3_and_3_8_per_cent():
    assert round(100 * 0.5e-3 / seen().line_current_rms, 1) == 2.3
    assert round(100 * 0.05 / seen().real_power, 1) == 3.8


def test_the_set_of_readings_agrees_with_itself_and_a_misread_factor_does_not():
    read = {"voltage": 231.2, "current": 0.022, "power": 1.3, "power_factor": 0.26}
    assert agreement(read).agrees and agreement(read | {"power_factor": 0.31}).agrees is False


def test_the_fundamental_leads_by_74_degrees_and_a_degree_hurts_twenty_times_a_heaters():
    assert round(math.degrees(math.acos(seen().displacement_factor))) == 74
    assert round(seen().displacement_factor, 2) == 0.28
    for degrees in (0.5, 1, 2):
        here, heater = (
            theory.power_error_of_phase(displacement_factor=factor, phase_error=math.radians(degrees))
            for factor in (seen().displacement_factor, 0.99)
        )
        assert here > 20 * heater


def test_the_recording_is_55_ms_of_two_periods_with_its_place_of_error_named():
    found = table.read(LAMPS / by_hand.SAMPLE)
    assert len(found) == 2200 and measurement().count == 2
    assert round(1e3 * recording().sample_spacing * len(recording())) == 55
    with pytest.raises(table.TableError) as trouble:
        table.read("Time (s);U (V)\n0,000;1,5\n0,001;1.6\n0,002;1,7\n")
    assert (trouble.value.line, trouble.value.column) == (3, 2)


def test_the_recorded_current_is_a_sixth_too_small_and_the_bus_agrees():
    current = compared().row("current")
    assert current.verdict == "differs" and compared().row("bus_mean").verdict == "agrees"
    assert -17 < 100 * (current.estimate.value / current.prediction - 1) < -14


def test_the_power_factor_is_narrower_than_the_amperes_and_in_step_ten_times():
    in_step = waveform.measure(replace(recording(), in_step=0.0)).power_factor
    parts = (measurement().current, measurement().power_factor, in_step)
    wide, loose, tight = (each.half_width / each.value for each in parts)
    assert round(100 * wide, 1) == 3.5 and round(100 * loose, 1) == 1.6 and 10 < wide / tight < 11


def test_what_the_sliders_do_is_as_the_goals_have_it():
    def at(path, value):
        return waveform.compare(measurement(), replace_at(own(), path, value))

    assert at("dropper", 270e-9).row("current").verdict == "agrees"
    tall, wide = at("string.led.forward_voltage", 3.6).result, at("smoothing", 33e-6).result
    assert 0.97 < tall.line_current_rms / compared().result.line_current_rms < 0.98
    assert 10 < tall.bus_voltage_mean - compared().result.bus_voltage_mean < 12
    other = at("mains.voltage", 200.0)
    assert other.row("voltage").verdict == "differs" and other.attribution is None
    assert wide.bus_ripple < 0.5 * compared().result.bus_ripple


def test_by_hand_and_by_the_whole_curve_the_dropper_has_lost_a_sixth():
    hand = by_hand.by_hand(STAIR, measurement())
    assert 0.81 < hand.dropper / STAIR.dropper < 0.87
    assert 270 <= float(by_hand.in_proportion(STAIR, measurement()).split("= ")[-1].split()[0]) <= 285
    found = compared().attribution
    assert abs(found.dropper + 0.16) < 2 * found.dropper_uncertainty and abs(found.clamped_voltage) < 0.01
    faded = steady_state(replace_at(own(), "dropper", 277e-9))
    assert -0.02 < faded.power_factor / compared().result.power_factor - 1 < -0.01
    assert 0.9 * STAIR.dropper == pytest.approx(297e-9)


def test_the_inrush_resistor_takes_8_per_cent_of_the_watts():
    assert round(100 * STAIR.inrush_resistor * seen().line_current_rms ** 2 / seen().real_power) == 8


def test_a_recording_of_known_harmonics_is_measured_within_its_uncertainty():
    """Inputs after Annex B of IEEE 1459-2010, from memory; outputs from the definitions."""
    orders = np.array([1, 3, 5, 7])
    volts, amperes = np.array([100, 8, 15, 5]), np.array([100, 20, 15, 10])
    behind_v, behind_a = (np.radians(a) for a in ([0, 70, -141, -142], [30, 165, -234, -234]))
    time = np.arange(8000) * 16e-6 + 3.3e-3
    turn = 2 * np.pi * 60.02 * time[:, None] * orders

    def wave(rms, behind):
        return (math.sqrt(2) * rms * np.sin(turn - behind)).sum(axis=1)

    noise = np.random.default_rng(12).normal(0, 2, (2, time.size))
    known = waveform.Recording(
        time, wave(volts, behind_v) + noise[0], wave(amperes, behind_a) + noise[1] + 1.5, in_step=0.0
    )
    found, watts = waveform.measure(known), (volts * amperes * np.cos(behind_v - behind_a)).sum()
    assert abs(found.frequency.value - 60.02) < found.frequency.half_width
    assert abs(found.real.value - watts) < found.real.half_width and round(watts) == 8633
    assert abs(found.power_factor.value - 0.820803) < found.power_factor.half_width
