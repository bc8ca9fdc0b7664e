"""Figures that lesson 06 states, and what its text says of them, by the solver and by the formulas."""

import functools
import math

import pytest
from dropper import Lamp, replace_at, theory
from dropper.bench import residual
from dropper.solver.transient import LINE_INDUCTANCE, LINE_RESISTANCE, plug_in, settle, unplug

LAMP = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
PEAK = LAMP.mains.peak
MAINS = {"line_inductance": LINE_INDUCTANCE, "dropper": LAMP.dropper}
ALONE = {"step_voltage": PEAK, "inrush_resistor": LINE_RESISTANCE} | MAINS


@functools.cache
def rush(ohms=LAMP.inrush_resistor, precharge=0.0, angle=90.0):
    return plug_in(replace_at(LAMP, "inrush_resistor", ohms), angle=angle, precharge=precharge)


@functools.cache
def pulled():
    return unplug(LAMP, angle=90, seconds=2)


def test_an_hour_after_the_pull_a_lamp_without_bleeder_holds_what_it_held():
    fade = unplug(replace_at(LAMP, "bleeder", None), angle=90, seconds=3600)
    volts = [abs(float(fade.dropper_voltage[abs(fade.time - t).argmin()])) for t in (0.001, 3600)]
    assert volts[1] > 200 and [round(one) for one in volts] == [256, 256]


def test_two_seconds_after_the_pull_the_bus_still_has_some_thirty_volts():
    assert 28 < pulled().bus_voltage[-1] < 36


def test_what_is_left_after_one_two_and_three_stretches_of_ohms_times_farads():
    assert round(LAMP.bleeder * LAMP.dropper, 2) == 0.33
    assert [round(100 * math.exp(-n)) for n in (1, 2, 3)] == [37, 14, 5]
    left = theory.residual_voltage(time=1.0, bleeder=LAMP.bleeder, dropper=LAMP.dropper, initial_voltage=256)
    solved = abs(float(unplug(LAMP, angle=90, seconds=1).dropper_voltage[-1]))
    assert f"{left:.3g}" == f"{solved:.3g}" == "12.4"


def test_the_rules_do_not_agree_on_half_a_microfarad():
    assert residual.judge(0.47e-6, 1e6, 325.3).disagree
    left = theory.residual_voltage(time=1.0, bleeder=1e6, dropper=0.47e-6, initial_voltage=325.3)
    assert round(left, 1) == 38.7 and 34 < left < 0.37 * 325.3
    until = theory.discharge_time(bleeder=1e6, dropper=0.47e-6, initial_voltage=325.3, limit_voltage=34)
    assert round(until, 3) == 1.061


def test_0_volts_between_the_pins_prove_no_dropper_empty():
    for seconds in (0.001, 0.5, 1.0):
        trace = unplug(LAMP, angle=90, seconds=seconds, across=10e6)
        pins, held, bus = (
            abs(float(wave[-1])) for wave in (trace.pins_voltage, trace.dropper_voltage, trace.bus_voltage)
        )
        if held > bus + 1:
            drop = LAMP.diode.voltage_at(pins / 10e6)
            loop = theory.pins_voltage(dropper_voltage=held, bus_voltage=bus, diode_voltage=drop)
            assert abs(pins - loop) < 0.2
    assert pins < 0.1 and 10 < held < bus


def test_the_pins_are_down_first_then_the_dropper_then_the_bus():
    fade, metered = unplug(LAMP, angle=90), unplug(LAMP, angle=90, across=10e6)
    assert metered.time_below(34) < fade.time_below(34, "dropper") < 1 < fade.time_below(34, "bus")


def test_the_peak_of_the_rush_by_ohms_law_and_with_the_mains_own_inductance():
    most = theory.inrush_peak(step_voltage=PEAK, inrush_resistor=LAMP.inrush_resistor)
    assert f"{most:.3g}" == "1.48" and f"{rush().line_current_peak:.2g}" == "1.3"


def test_in_use_r1_takes_103_milliwatts():
    assert round(1e3 * settle(LAMP).heat["inrush_resistor"]) == 103


def test_without_a_resistor_mains_and_dropper_ring():
    bare, limit = rush(0.0), theory.ringing_limit(**MAINS)
    assert round(PEAK / LINE_RESISTANCE) == 813 and round(limit / 2) == 49
    assert 6 < bare.line_current_peak < 7 and 600 < bare.dropper_voltage_peak < 650 and 97 < limit < 99
    assert abs(bare.line_current_peak / theory.ringing_inrush_peak(**ALONE) - 1) < 0.05
    stiff = plug_in(replace_at(LAMP, "inrush_resistor", 0.0), angle=90, line_resistance=0.1, line_inductance=20e-6)
    assert 35 < stiff.line_current_peak < 42
    assert round(theory.ringing_inrush_peak(**(ALONE | {"step_voltage": 2 * PEAK}))) == 13


@pytest.mark.parametrize("precharge", [0.0, -250.0])
def test_the_solver_and_the_formulas_agree_on_peak_and_heat(precharge):
    now = rush(precharge=precharge)
    line = {"step_voltage": PEAK - precharge, "inrush_resistor": LAMP.inrush_resistor + LINE_RESISTANCE}
    peak, energy = theory.damped_inrush_peak(**line, **MAINS), theory.inrush_energy(**line, dropper=LAMP.dropper)
    assert abs(now.line_current_peak / peak - 1) < 0.02 and abs(now.inrush_energy / energy - 1) < 0.06
    assert now.inrush_energy < energy, "the mains falls while the rush lasts"


def test_the_figure_in_print():
    """Rashid, Power Electronics, 4th edition, example 2.4: 5 A and 2.42 mJ."""
    printed = {"inrush_resistor": 44.0, "step_voltage": 220.0}
    assert round(theory.inrush_peak(**printed), 2) == 5.00
    assert round(1e3 * theory.inrush_energy(dropper=0.1e-6, **printed), 2) == 2.42


def test_at_zero_there_is_no_rush_and_a_replug_has_twice_the_current_and_four_times_the_heat():
    assert rush(angle=0.0).line_current_peak < 0.1 * rush().line_current_peak
    again = rush(precharge=-PEAK)
    assert 1.9 < again.line_current_peak / rush().line_current_peak < 2.05
    assert 3.6 < again.inrush_energy / rush().inrush_energy < 4.1 and f"{again.line_current_peak:.2g}" == "2.6"
    worst = rush(precharge=-pulled().steady.dropper_voltage_peak)
    assert 3 < worst.inrush_energy / rush().inrush_energy < 3.4


def test_twice_the_resistor_leaves_the_heat_of_the_rush_as_it_is():
    assert abs(rush(470.0).inrush_energy / rush().inrush_energy - 1) < 0.05
