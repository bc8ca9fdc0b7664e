"""What lesson 13 states in figures and in words, held to the library."""

import functools
from pathlib import Path
from statistics import NormalDist

import pytest
from dropper import Lamp, replace_at, theory
from dropper.bench.checklist import FilamentLamp, faults_by_glow, first_power
from dropper.bench.diagnosis import (
    MEASUREMENTS,
    WEIGHTS,
    Evidence,
    Hunt,
    diagnose,
    indistinguishable,
    measurements_for,
    posterior_of,
)
from dropper.bench.meter import PlugInMeter, agreement
from dropper.lessons.fault_finding.cases_view import dark_case, dark_question, look_alikes, same_watts
from dropper.lessons.fault_finding.hunt_view import verdict_of
from dropper.lessons.fault_finding.random_lamps import share_with_short
from dropper.solver.transient import Fault, settle, with_fault

STAIR = Lamp.from_toml(Path(__file__).resolve().parents[2] / "notebooks" / "lamps" / "stair_marker.toml")
NOTE = {"voltage": 230.0, "current": 0.023, "power": 0.8, "power_factor": 0.16}
PEAK = STAIR.mains.peak
SHARED = {"frequency": 50, "dropper": STAIR.dropper, "peak_voltage": PEAK}
TWO = dict.fromkeys(WEIGHTS, 0) | {None: 12, ("short", "D1"): 5}


@functools.cache
def broken(kind, part, amount=None):
    return settle(with_fault(STAIR, Fault(kind, part, amount)))


@functools.cache
def odds(**readings):
    causes = posterior_of(STAIR, Evidence(**readings), priors=TWO).causes()
    return causes["short", "D1"] / (causes["short", "D1"] + causes[None])


def test_the_note_agrees_with_itself_and_two_faults_show_it_digit_for_digit():
    meter, shorted, half = PlugInMeter(), broken("short", "D1"), broken("short", "groups", 12)
    assert agreement(NOTE).agrees
    assert meter.reading_text("power", shorted.real_power) == meter.reading_text("power", half.real_power) == "0.8 W"
    assert meter.reading_text("current", shorted.line_current_rms) == "23 mA"
    assert meter.reading_text("current", half.line_current_rms) == "23 mA"
    assert look_alikes(STAIR).groups == 12 and verdict_of(STAIR)[0] == "neither"


def test_the_sound_lamp_shows_22_mA_and_1_3_W_on_its_note():
    read = STAIR.readings
    assert (read.current, read.power, read.power_factor) == (0.022, 1.3, 0.26)


def test_the_odds_give_the_diode_over_ninety_in_a_hundred_and_find_nothing():
    diagnosis = diagnose(STAIR, Evidence(**NOTE))
    assert diagnosis.causes[0].kind == ("short", "D1") and diagnosis.causes[0].probability > 0.9
    assert diagnosis.word == "likely" and "how common each is" in diagnosis.verdict
    counted = diagnose(STAIR, Evidence(**NOTE, leds_dark=0))
    assert counted.word == "found" and counted.causes[0].kind == ("short", "D1")


def test_a_name_after_the_meter_alone_gets_half_the_points_and_after_the_count_all():
    guess, reasoned = Hunt(STAIR, 1), Hunt(STAIR, 1)
    guess.measure("plug-in")
    assert guess.name_part(("short", "D1")).points == 50
    for key in ("plug-in", "leds"):
        reasoned.measure(key)
    assert reasoned.name_part(("short", "D1")).points == 100
    blind = Hunt(STAIR, 1)
    assert blind.name_part(("short", "D1")).points <= 50, "nothing was read"


def test_counting_dark_leds_and_the_bus_part_the_two():
    shorted, half = broken("short", "D1"), broken("short", "groups", 12)
    assert shorted.word == "dim" and round(shorted.bus_voltage_mean) == 65 and round(half.bus_voltage_mean) == 31


def test_the_power_factor_forgets_the_capacitance_and_the_current_does_not():
    for farads, held in ((STAIR.dropper, 68.7), (STAIR.dropper / 2, 68.7), (STAIR.dropper, 68.7 / 2)):
        amperes = theory.line_current_rms(frequency=50, dropper=farads, peak_voltage=PEAK, clamped_voltage=held)
        factor = theory.power_factor(clamped_fraction=held / PEAK)
        assert (factor < 0.15) == (held < 68.7) and (amperes < 0.015) == (farads < STAIR.dropper)


def test_the_three_kinds_of_change_are_as_the_page_has_them():
    sound = settle(STAIR)
    lost, lower = broken("lost", "dropper"), broken("short", "groups", 12)
    burnt = broken("drifted", "inrush_resistor")
    assert lost.line_current_rms / sound.line_current_rms == pytest.approx(lost.real_power / sound.real_power, rel=0.06)
    assert lower.line_current_rms > sound.line_current_rms and lower.power_factor < 0.7 * sound.power_factor
    assert burnt.power_factor > 1.2 * sound.power_factor


@pytest.mark.parametrize("held", [20.0, 67.4, 150.0, 300.0])
def test_one_diode_short_and_half_the_string_are_the_same_watts_for_every_string(held):
    pump = held * theory.half_wave_current(output_voltage=held, diode_voltage=0, **SHARED)
    bridge = held / 2 * theory.mean_string_current(clamped_voltage=held / 2, **SHARED)
    assert abs(pump / bridge - 1) < 1e-12
    assert pump == pytest.approx(50 * STAIR.dropper * (2 * PEAK - held) * held)


def test_the_printed_watts_are_one_number_and_the_meters_are_more_by_heat():
    first, second = (line.split(" are ")[1] for line in same_watts(STAIR).splitlines())
    assert first == second == "649 mW"
    heat = broken("short", "D1").heat
    assert heat["inrush_resistor"] > 0.1 and broken("short", "D1").real_power > 0.8


def test_the_pump_by_formula_and_by_the_solver():
    shorted = broken("short", "D1")
    pump = shorted.bus_voltage_mean * theory.half_wave_current(
        output_voltage=shorted.bus_voltage_mean, diode_voltage=0.84, **SHARED
    )
    behind = shorted.heat["leds"] + shorted.heat["smoothing_bleeder"]
    assert abs(pump / behind - 1) < 0.03


def test_one_watt_leaves_it_open_and_a_second_reading_settles_it():
    def share(middle, spread):
        meter = NormalDist(middle, spread)
        return meter.cdf(1.05) - meter.cdf(0.95)

    well, diode = 12 * share(1.32, 0.16), 5 * share(0.82, 0.11)
    by_hand = diode / (well + diode)
    assert 0.5 < by_hand < 0.6 and abs(odds(power=1.0) - by_hand) < 0.04
    assert odds(power=1.0, power_factor=0.16) > 0.99


def test_lamps_drawn_at_random_agree_with_the_workbook():
    watts = (0.9, 1.0, 1.1)
    for read, drawn in zip(watts, share_with_short(STAIR, watts), strict=True):
        assert abs(drawn - odds(power=read)) < 0.12 and (drawn > 0.5) == (odds(power=read) > 0.5)


def test_a_dark_lamp_with_current_asks_for_a_diode_test_and_its_dc_volts_say_nothing():
    outcome, right = dark_case(STAIR)
    assert right == "bridge" and "four diodes" in outcome and "24\xa0mA" in dark_question(STAIR)
    fifth = Hunt(STAIR, 5)
    fifth.measure("plug-in")
    assert fifth.diagnosis().word == "among three" and fifth.diagnosis().next.measurement.key == "bridge"
    for part in ("smoothing", "D1 and D3", "D1 and D2"):
        short = broken("short", part)
        assert short.dark and short.bus_voltage_mean < 1.0
    assert MEASUREMENTS["bus"].hazard == 3 and MEASUREMENTS["bridge"].hazard == 0


def test_only_what_bridges_the_dropper_makes_the_filament_glow():
    glow, dark = faults_by_glow(STAIR, FilamentLamp.for_lamp(STAIR))
    assert {one.fault for one in glow} == {"dropper short", "dropper's bleeder short"} and len(dark) > 15


def test_a_stronger_filament_shows_a_short_no_better_and_a_larger_dropper_makes_it_glow():
    short = with_fault(STAIR, Fault("short", "smoothing"))
    trials = [first_power(short, FilamentLamp(230.0, watts)) for watts in (15.0, 40.0, 100.0)]
    assert not any(trial.glows for trial in trials)
    assert trials[0].temperature > trials[1].temperature > trials[2].temperature
    assert first_power(replace_at(STAIR, "dropper", 680e-9), FilamentLamp(230.0, 15.0)).glow == "orange"
    whole = first_power(STAIR, FilamentLamp.for_lamp(STAIR)).state.line_current_rms
    assert first_power(short, FilamentLamp.for_lamp(STAIR)).state.line_current_rms < 1.15 * whole, "stays near"


def test_a_single_pair_is_left_after_all_that_can_be_measured_with_the_plug_out():
    pairs = indistinguishable(STAIR, ("light", "leds", "plug-in"), live=False)
    keys = [measurement.key for measurement in measurements_for(STAIR, live=False)]
    left = indistinguishable(STAIR, keys, live=False)
    assert sum(pair.separator is None for pair in pairs) == len(left) == 1 and len(pairs) > 20
    assert {left[0].first, left[0].second} == {None, ("lost", "dropper")}


def test_no_live_probe_makes_a_hunt_shorter_and_the_ways_are_as_the_goals_have_them():
    ways = {number: Hunt(STAIR, number).best_way() for number in range(1, 13)}
    assert all(Hunt(STAIR, number, live=True).best_way() == way for number, way in ways.items())
    assert ways[1] == ("plug-in", "leds") and ways[3] == ("plug-in",)
    assert ways[8] == ("plug-in", "smoothing", "smoothing bleeder")


def test_a_code_of_a_class_gives_the_same_hunt_and_nothing_live():
    fixed = Hunt(STAIR, seed=20, fault=Fault("lost", "dropper"), live=False)
    again = Hunt.from_code(STAIR, fixed.code)
    assert again.measure("plug-in").readings == fixed.measure("plug-in").readings
    assert all(measurement.hazard < 3 for measurement in again.choices())
