"""Closed forms and printed examples: a resistor and a capacitor, alone and within the lamp.

With diodes D1 and D2 short, the lamp is its dropper and inrush resistor across the mains and
nothing else: that is how textbook R-C circuits are set here, at the crest of a slow mains.
"""

import math

import numpy as np
import pytest
from dropper import Lamp, Led, LedString, Mains, replace_at
from dropper.solver.transient import Fault, plug_in, settle, unplug, with_fault
from dropper.theory import discharge_time, inrush_energy, inrush_peak, replug_step, residual_voltage
from transient_scenes import STAIR

SHORTS = 0.02  # ohms of two diodes that are short


def r_c(volts, resistance, capacitance, bleeder=None):
    """A resistor and a capacitor across a mains of 10 Hz with that peak."""
    lamp = Lamp(
        mains=Mains(volts / math.sqrt(2), 10.0),
        string=LedString(Led(3.0, 0.020), 20),
        dropper=capacitance,
        smoothing=1e-6,
        bleeder=bleeder,
        inrush_resistor=resistance,
    )
    return with_fault(lamp, Fault("short", "D1 and D2"))


def charged(trace, seconds):
    return float(np.interp(seconds, trace.time, trace.dropper_voltage))


def test_rashid_example_2_4():
    """M. H. Rashid, Power Electronics, 4th ed., example 2.4: 44 Ω and 0.1 µF on 220 V: 5 A, 2.42 mJ.

    The 139.64 V at 2 µs that is printed with it is what a capacitor DISCHARGED from 220 V has
    left; one that charges has the rest, 80.36 V.
    """
    trace = plug_in(r_c(220.0, 44.0, 0.1e-6), 90.0, periods=0.001, line_resistance=0.0, line_inductance=0.0)
    assert trace.line_current_peak == pytest.approx(5.0, abs=0.005)
    assert trace.inrush_energy == pytest.approx(2.42e-3, abs=0.005e-3)
    assert charged(trace, 2e-6) == pytest.approx(220 - 139.64, abs=0.1)
    assert charged(trace, 2e-6) != pytest.approx(139.64, rel=0.1)


def test_textbook_discharge_through_4_kilohm():
    """0.1 µF from 200 V through 4 kΩ to 2 V: 0.05 A, 1.84 ms (J. Bird, problem 17.06; title from memory)."""
    trace = unplug(r_c(200.0, 0.0, 0.1e-6), 90.0, 0.01, across=4e3, line_resistance=0.01)
    assert trace.line_current_peak == pytest.approx(0.05, rel=0.002)
    assert trace.time_below(2.0, "dropper") == pytest.approx(1.84e-3, abs=0.01e-3)


def test_textbook_discharge_over_20_seconds():
    """5 µF and 2 MΩ from 200 V: 27.07 V after 20 s (problem 45.02, same book)."""
    trace = unplug(r_c(200.0, 10.0, 5e-6, bleeder=2e6), 90.0, 30.0, line_resistance=0.01)
    assert charged(trace, 20.0) / trace.dropper_voltage[0] * 200 == pytest.approx(27.07, rel=0.002)
    assert trace.dropper_voltage[0] == pytest.approx(200.0, rel=0.002)


def test_one_megohm_passes_one_rule_and_fails_another():
    """1 MΩ across 0.47 µF from 325.3 V: 38.7 V after 1 s, 34 V after 1.061 s, 60 V after 0.794 s."""
    lamp = replace_at(replace_at(STAIR, "dropper", 0.47e-6), "inrush_resistor", 1.0)
    trace = unplug(with_fault(lamp, Fault("short", "D1 and D2")), 90.0, 3.0)
    assert trace.pins_voltage[0] == pytest.approx(325.3, rel=0.002)
    assert np.interp(1.0, trace.time, trace.pins_voltage) == pytest.approx(38.7, rel=0.005)
    assert trace.time_below(34.0) == pytest.approx(1.061, rel=0.002)
    assert trace.time_below(60.0) == pytest.approx(0.794, rel=0.002)
    by_theory = discharge_time(bleeder=1e6, dropper=0.47e-6, initial_voltage=325.3, limit_voltage=34.0)
    assert trace.time_below(34.0) == pytest.approx(by_theory, rel=0.002)


@pytest.mark.parametrize("resistance", [10.0, 47.0, 220.0, 1000.0])
def test_inrush_peak_and_energy_of_a_lamp(resistance):
    """Peak V/R; energy ½·C·V² whatever R is, V the step that is left for resistor and dropper.

    The smoothing capacitor is large enough to stay where it is, 5 V below.
    """
    lamp = replace_at(replace_at(STAIR, "smoothing", 5e-3), "inrush_resistor", resistance)
    trace = plug_in(lamp, 90.0, bus_precharge=5.0, periods=1, line_resistance=0.0, line_inductance=0.0)
    step = lamp.mains.peak - 5.0 - 2 * lamp.diode.voltage_at(trace.line_current_peak)
    assert trace.line_current_peak == pytest.approx(
        inrush_peak(step_voltage=step, inrush_resistor=resistance), rel=0.01
    )
    # of a rush through ever less current the diodes drop less and less; the rush may take so long that v falls
    energy = inrush_energy(inrush_resistor=resistance, dropper=lamp.dropper, step_voltage=step)
    assert trace.inrush_energy == pytest.approx(energy, rel=0.02)


@pytest.mark.parametrize("resistance", [5.0, 47.0, 220.0])
def test_energy_is_half_c_v_squared_whatever_the_resistor(resistance):
    trace = plug_in(r_c(325.0, resistance, 1e-6), 90.0, periods=0.05, line_resistance=0.0, line_inductance=0.0)
    assert trace.inrush_energy == pytest.approx(0.5 * 1e-6 * 325**2, rel=0.005)
    assert trace.line_current_peak == pytest.approx(325 / (resistance + SHORTS), rel=0.002)


def test_current_dies_away_exponentially():
    trace = plug_in(r_c(325.0, 100.0, 1e-6), 90.0, periods=0.01, line_resistance=0.0, line_inductance=0.0)
    for constants in (0.5, 1.0, 2.0, 4.0):
        current = np.interp(constants * 1e-4, trace.time, trace.line_current)
        assert current == pytest.approx(3.25 * math.exp(-constants), rel=0.01), constants
    assert trace.i2t(1e-3) == pytest.approx(3.25**2 * 1e-4 / 2, rel=0.005)


def test_replugging_against_the_charge_doubles_the_step():
    fresh = plug_in(r_c(325.0, 100.0, 1e-6), 90.0, periods=0.05, line_resistance=0.0, line_inductance=0.0)
    again = plug_in(r_c(325.0, 100.0, 1e-6), 90.0, -325.0, periods=0.05, line_resistance=0.0, line_inductance=0.0)
    assert replug_step(peak_voltage=325.0) == 650.0
    assert again.line_current_peak == pytest.approx(650.0 / 100, rel=0.002)
    assert again.inrush_energy == pytest.approx(4 * fresh.inrush_energy, rel=0.01)


def test_largest_residual_charge():
    """C·(Vp - D) of a lamp that works, C·Vp of one whose bridge is short, C times both exactly."""
    steady = settle(STAIR)
    worst = max(unplug(STAIR, angle, 1.0).residual_charge() for angle in (85.0, 90.0, 95.0, 270.0))
    clamp = STAIR.mains.peak - steady.dropper_voltage_peak
    assert worst == pytest.approx(330e-9 * (STAIR.mains.peak - clamp), rel=0.005)
    assert clamp == pytest.approx(STAIR.clamped_voltage(steady.string_current_mean), rel=0.03)
    short = with_fault(STAIR, Fault("short", "D1 and D3"))
    diode = STAIR.diode.forward_voltage
    assert unplug(short, 92.0, 1.0).residual_charge() == pytest.approx(330e-9 * (STAIR.mains.peak - diode), rel=0.005)


@pytest.mark.parametrize("bleeder", [220e3, 1e6, 4.7e6])
def test_the_bleeder_empties_the_dropper_exponentially(bleeder):
    trace = unplug(replace_at(STAIR, "bleeder", bleeder), 90.0, 20.0)
    for seconds in (0.1, 0.5, 1.0):
        expected = residual_voltage(
            initial_voltage=float(trace.dropper_voltage[0]), time=seconds, bleeder=bleeder, dropper=STAIR.dropper
        )
        assert charged(trace, seconds) == pytest.approx(expected, rel=0.01, abs=0.05)


def test_without_a_bleeder_the_charge_stays():
    trace = unplug(replace_at(STAIR, "bleeder", None), 90.0, 3600.0)
    assert trace.dropper_voltage[-1] == pytest.approx(trace.dropper_voltage[0], rel=1e-6)
    assert math.isnan(trace.time_below(34.0))


def test_smoothing_bleeder_empties_the_bus_where_the_string_is_open():
    """Exponential, 10 µF and 330 kΩ: 3.3 s."""
    trace = unplug(with_fault(STAIR, Fault("open", "string")), 90.0, 20.0)
    ratio = np.interp(3.3, trace.time, trace.bus_voltage) / trace.bus_voltage[0]
    assert ratio == pytest.approx(math.exp(-1), rel=0.005)
