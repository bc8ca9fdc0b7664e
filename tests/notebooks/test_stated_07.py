"""Figures that lesson 07 states, and what its text says of them, by the solver and by the formulas."""

import functools

import pytest
from dropper import Lamp, replace_at, theory
from dropper.components import kinds
from dropper.design.ratings import ratings
from dropper.solver.transient import Body, Fault, faults_of, settle, touch, with_fault
from dropper.standards import HOUSEHOLD_DEVICE

LAMP = Lamp.from_toml("notebooks/lamps/stair_marker.toml")


@functools.cache
def healthy():
    return settle(LAMP)


@functools.cache
def broken(*fault):
    return settle(with_fault(LAMP, Fault(*fault)))


@functools.cache
def table():
    return ratings(LAMP)


def test_the_bus_of_a_healthy_lamp_is_at_67_volts_and_of_an_open_string_at_309():
    assert round(healthy().bus_voltage_mean) == 67 and healthy().bus_voltage_peak < 72
    assert f"{broken('open', 'string').bus_voltage_peak:.3g}" == "309"


def test_a_resistor_of_a_quarter_watt_does_not_stand_the_mains_peak():
    small = kinds.part("carbon film 1/4 W")
    volts = theory.resistor_working_voltage(
        resistance=1e6, rated_power=small.rated_power, limiting_voltage=small.limiting_voltage
    )
    assert volts == 250 < LAMP.mains.peak


def test_one_diode_open_is_dark_and_one_short_is_dim_with_more_line_current():
    opened, shorted = broken("open", "D1"), broken("short", "D1")
    assert opened.word == "dark" and shorted.word == "dim"
    assert shorted.line_current_rms > healthy().line_current_rms
    assert round(100 * shorted.relative_current) == 56, "56 % of the light is left, not half"


def test_beside_an_open_diode_twice_the_peak_is_counted_on():
    worst = max(broken("open", "D1").diode_reverse_peak)
    bound = theory.diode_reverse_voltage_beside_open(peak_voltage=LAMP.mains.peak)
    assert 1.6 < worst / LAMP.mains.peak < 2 and 1.08 < bound / worst < 1.14


def test_the_half_wave_formula_and_the_solver_agree():
    """Atmel user guide 7597B-AVR-10/07, appendix 2, prints the formula."""
    shorted = broken("short", "D1")
    pump = theory.half_wave_current(
        frequency=50,
        dropper=LAMP.dropper,
        peak_voltage=LAMP.mains.peak,
        output_voltage=shorted.bus_voltage_mean,
        diode_voltage=0.84,
    )
    assert abs(pump / shorted.string_current_mean - 1) < 0.03


def test_an_open_string_without_bleeders_comes_to_the_formula():
    bare = replace_at(replace_at(LAMP, "smoothing_bleeder", None), "bleeder", None)
    alone = settle(with_fault(bare, Fault("open", "string"))).bus_voltage_peak
    assert abs(alone / theory.bus_voltage_open(peak_voltage=LAMP.mains.peak, diode_voltage=0.1) - 1) < 0.01


def test_faults_that_the_light_does_not_show():
    unseen = {(fault.kind, fault.part) for fault in faults_of(LAMP) if broken(fault.kind, fault.part).word == "same"}
    assert {
        ("open", "bleeder"),
        ("open", "smoothing_bleeder"),
        ("drifted", "inrush_resistor"),
        ("short", "inrush_resistor"),
        ("short", "group"),
        ("open", "smoothing"),
    } <= unseen


def test_an_inrush_resistor_with_ten_times_its_ohms_takes_nine_times_the_heat():
    times = broken("drifted", "inrush_resistor").heat["inrush_resistor"] / healthy().heat["inrush_resistor"]
    assert 8 < times < 10 and round(times) == 9


def test_a_short_at_the_output_is_the_coolest_state():
    short = broken("short", "smoothing")
    assert short.line_current_rms < 1.15 * healthy().line_current_rms and short.real_power < 0.3


def test_half_of_the_string_short_makes_the_rest_brighter_and_takes_less_power():
    half = broken("short", "groups")
    assert round(100 * (half.string_current_mean / healthy().string_current_mean - 1)) == 14
    assert half.real_power < healthy().real_power and half.line_current_rms > healthy().line_current_rms


def test_a_short_dropper_carries_twenty_times_the_line_current():
    assert 19 < broken("short", "dropper").line_current_rms / healthy().line_current_rms < 22


def test_heat_of_r1_with_a_short_dropper_on_the_panels_mains_and_at_the_upper_limit():
    assert f"{broken('short', 'dropper').heat['inrush_resistor']:.0f}" == "42"
    (words,) = (text for text in table().beyond if text.startswith("Dropper short"))
    assert table().upper == pytest.approx(253) and "53.7 W" in words


def test_the_smoothing_capacitor_is_judged_with_its_bleeder_open_too():
    (with_bleeder,) = (
        stress.value
        for stress in table().stresses_of("smoothing")
        if stress.quantity == "peak_voltage" and stress.circumstance.words == "with one fault (string open)"
    )
    without = table().of("smoothing").check("peak_voltage").worst.value
    assert round(with_bleeder) == 341 and round(without) == 357 and "400 V" in table().of("smoothing").sentence


def test_the_careful_builders_parts_are_over_their_limits():
    chosen = ratings(
        LAMP, fitted={"smoothing": "electrolytic, 100 V", "diodes": "1N4003", "bleeder": "carbon film 1/4 W"}
    )
    assert {rating.part for rating in chosen.over} == {"smoothing", "diodes", "bleeder"}


def test_without_smoothing_the_rush_goes_through_the_leds():
    unsmoothed = ratings(replace_at(LAMP, "smoothing", 0.0), faults=())
    rush = unsmoothed.of("leds").check("surge").worst
    assert unsmoothed.of("leds").verdict == "over" and table().of("leds").verdict != "over"
    assert 40 < rush.value / LAMP.string.led.at_current < 90


def test_what_flows_through_a_person():
    ways = [touch(LAMP, Body(1e3, "minus", live)) for live in ("dropper", "bridge")]
    assert [round(1e3 * way.current_rms) for way in ways] == [16, 193] and HOUSEHOLD_DEVICE.answer(0.016) == "either"
    assert 11.5 < ways[1].current_rms / ways[0].current_rms < 12.5
    drier = [touch(LAMP, Body(2e3, "minus", live)).current_rms for live in ("dropper", "bridge")]
    assert 5.5 < drier[1] / drier[0] < 7
    shorted = touch(with_fault(LAMP, Fault("short", "dropper")), Body(1e3))
    across, dry = touch(LAMP, Body(1e3, "string")), touch(LAMP, Body(10e3, "minus", "bridge"))
    assert [round(1e3 * one.current_rms) for one in (shorted, across, dry)] == [89, 20, 20]
    away = [touch(LAMP, Body(10e6, "minus", live)).minus_voltage_peak for live in ("dropper", "bridge")]
    assert [round(volts) for volts in away] == [71, 325]
    assert HOUSEHOLD_DEVICE.trips == 30e-3 and HOUSEHOLD_DEVICE.holds == HOUSEHOLD_DEVICE.trips / 2
