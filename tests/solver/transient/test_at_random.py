"""Lamps drawn at random over the whole range of the workbook: every fault settles, every transient runs."""

import draws
import numpy as np
import pytest
from dropper import Diode, Lamp, Led, LedString, Mains, steady_state
from dropper.solver.transient import brownout, faults_of, plug_in, settle, unplug, with_fault
from lamps_at_random import random_lamps


def real(drawn):
    led, diode, mains = drawn.string.led, drawn.diode, drawn.mains
    return Lamp(
        mains=Mains(mains.voltage, mains.frequency, mains.harmonics),
        string=LedString(
            Led(led.forward_voltage, led.at_current, led.series_resistance, led.ideality),
            drawn.string.in_series,
            drawn.string.in_parallel,
        ),
        dropper=drawn.dropper,
        bleeder=drawn.bleeder,
        inrush_resistor=drawn.inrush_resistor,
        diode=Diode(diode.forward_voltage, diode.at_current, diode.series_resistance, diode.ideality),
        smoothing=drawn.smoothing,
        smoothing_bleeder=drawn.smoothing_bleeder,
        series_resistor=drawn.series_resistor,
        name=drawn.name,
    )


LAMPS = [real(drawn) for drawn in random_lamps(draws.examples(20), draws.seed(5))]


@pytest.mark.parametrize("lamp", LAMPS, ids=lambda lamp: lamp.name)
def test_a_healthy_lamp_settles_where_the_steady_state_is(lamp):
    result, steady = settle(lamp, 0.001), steady_state(lamp)
    assert result.settled
    for name in (
        "line_current_rms",
        "real_power",
        "power_factor",
        "string_current_mean",
        "string_current_max",
        "bus_voltage_mean",
        "dropper_voltage_peak",
        "dropper_voltage_rms",
    ):
        assert getattr(result, name) == pytest.approx(getattr(steady, name), rel=0.01), name


@pytest.mark.slow
@pytest.mark.parametrize("lamp", LAMPS, ids=lambda lamp: lamp.name)
def test_every_fault_settles_and_every_transient_keeps_its_energy(lamp):
    for fault in faults_of(lamp):
        faulty = with_fault(lamp, fault)
        result = settle(faulty)
        assert result.settled, fault.words()
        assert all(np.isfinite(result.line_current)), fault.words()
        for trace in (plug_in(faulty, 70.0, periods=4), unplug(faulty, 70.0), brownout(faulty, 0.7, 0.05, after=0.05)):
            moved = abs(trace.energy_taken) + abs(trace.energy_stored) + lamp.dropper * lamp.mains.peak**2
            off = trace.energy_taken - trace.energy_stored - sum(trace.heat.values())
            assert abs(off) < 2e-3 * moved, (fault.words(), trace.what)
