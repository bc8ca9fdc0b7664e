"""Plugging in, unplugging and dips of the mains, against the reference and against themselves."""

import math

import numpy as np
import pytest
from dropper import replace_at, steady_state
from dropper.solver.transient import (
    Fault,
    brownout,
    faults_of,
    plug_in,
    settle,
    unplug,
    with_fault,
    worst_plug_in,
    worst_unplug,
)
from transient_reference import Circuit, follow, parts_of, state_of
from transient_scenes import BARE, LINE, SHELF, STAIR, broken

LAMPS = (STAIR, SHELF, BARE)
FAULTY = [(lamp, fault) for lamp in (STAIR, SHELF) for fault in faults_of(lamp)]


def name_of(value):
    if isinstance(value, tuple):
        return f"{value[0].name}: {value[1].words()}"
    return getattr(value, "name", None)


def witness_of_plug_in(lamp, parts, angle, precharge, bus, periods):
    circuit = Circuit(parts, LINE)
    start = angle / 360 * circuit.period
    resistance = parts["resistance"] or 0.0
    return follow(circuit, start, periods * circuit.period, state_of(precharge, bus), resistance=resistance)


def assert_alike(trace, witness, lamp, periods):
    """Peaks within 2 %, and the waves at 40 moments within 1 % of the mains' peak."""
    # Before that the reference charges its junctions' capacitances, 1 pF each, through what is in the line.
    settled = witness.time > 1e-10 * (trace.inrush_resistor + LINE)
    tiny = 2e-4 * settle(lamp, LINE).line_current_peak
    assert trace.line_current_peak == pytest.approx(np.abs(witness.line[settled]).max(), rel=0.02, abs=tiny)
    assert trace.bus_voltage_peak == pytest.approx(witness.bus[settled].max(), rel=0.02, abs=0.05)
    assert trace.string_current_peak == pytest.approx(witness.string[settled].max(), rel=0.02, abs=tiny)
    # where the bridge blocks, the reference still charges its junctions: 1e-12 F against the dropper's
    rush = 1e-4 * lamp.dropper * lamp.mains.peak**2 / (2 * (lamp.inrush_resistor + LINE))
    for seconds in (1e-3, periods * trace.period):
        squared = np.interp(seconds, witness.time, witness.squared)
        assert trace.i2t(seconds) == pytest.approx(squared, rel=0.02, abs=rush), seconds
    moments = np.linspace(1e-4, 0.99 * witness.time[-1], 40)
    near = 0.01 * lamp.mains.peak
    for mine, theirs in ((trace.dropper_voltage, witness.dropper), (trace.bus_voltage, witness.bus)):
        off = np.interp(moments, trace.time, mine) - np.interp(moments, witness.time, theirs)
        assert np.abs(off).max() < near
    charge = np.interp(moments, witness.time, witness.charge)
    off = np.interp(moments, trace.time, trace.string_charge) - charge
    assert np.abs(off).max() < 0.01 * max(charge[-1], tiny * trace.period)


@pytest.mark.slow
@pytest.mark.parametrize("angle", [0.0, 45.0, 90.0, 200.0, 270.0])
@pytest.mark.parametrize("lamp", LAMPS, ids=name_of)
def test_plug_in_agrees_with_the_reference(lamp, angle):
    trace = plug_in(lamp, angle, periods=3, line_resistance=LINE, line_inductance=0.0)
    assert_alike(trace, witness_of_plug_in(lamp, parts_of(lamp), angle, 0.0, 0.0, 3), lamp, 3)


@pytest.mark.parametrize("charges", [(-150.0, 0.0), (120.0, 30.0), (-160.0, 60.0)], ids=str)
@pytest.mark.parametrize("lamp", LAMPS, ids=name_of)
def test_plug_in_on_charged_capacitors_agrees_with_the_reference(lamp, charges):
    trace = plug_in(lamp, 90.0, *charges, periods=2, line_resistance=LINE, line_inductance=0.0)
    bus = charges[1] if lamp.smoothing else 0.0
    assert_alike(trace, witness_of_plug_in(lamp, parts_of(lamp), 90.0, charges[0], bus, 2), lamp, 2)


@pytest.mark.slow
@pytest.mark.parametrize("case", FAULTY, ids=name_of)
def test_plug_in_with_each_fault_agrees_with_the_reference(case):
    lamp, fault = case
    trace = plug_in(with_fault(lamp, fault), 70.0, -100.0, periods=2, line_resistance=LINE, line_inductance=0.0)
    assert_alike(trace, witness_of_plug_in(lamp, broken(lamp, fault), 70.0, -100.0, 0.0, 2), lamp, 2)


@pytest.mark.parametrize("lamp", [STAIR, SHELF], ids=name_of)
@pytest.mark.parametrize("across", [None, 1e7, 2e3], ids=str)
def test_unplug_agrees_with_the_reference(lamp, across):
    trace = unplug(lamp, 100.0, 2.0, across, LINE)
    circuit = Circuit(parts_of(lamp), across)
    circuit.factor = 0.0
    witness = follow(
        circuit, 0.0, 2.0, state_of(trace.precharge, trace.bus_precharge), longest=0.01, resistance=lamp.inrush_resistor
    )

    def last_above(wave, level):
        last = np.flatnonzero(np.abs(wave) > level)[-1]
        v0, v1 = np.abs(wave[last : last + 2])
        return witness.time[last] + np.diff(witness.time)[last] * (v0 - level) / (v0 - v1)

    for where, wave in (("dropper", witness.dropper), ("bus", witness.bus)):
        for volts in (60.0, 34.0):
            assert trace.time_below(volts, where) == pytest.approx(last_above(wave, volts), rel=0.02), (where, volts)
    if across:
        assert trace.time_below(34.0) == pytest.approx(last_above(witness.pins, 34.0), rel=0.02)
    mean = trace.steady.string_current_mean
    for share in (0.01, 0.001):
        assert trace.afterglow(share) == pytest.approx(last_above(witness.string, share * mean), rel=0.02), share


def test_what_a_lamp_leaves_on_the_pins_starts_where_it_was_unplugged():
    trace, steady = unplug(STAIR, 40.0), settle(STAIR)
    volts = np.interp(40 / 360 / 50, steady.time, steady.dropper_voltage)
    assert trace.dropper_voltage[0] == pytest.approx(volts, abs=0.5)
    assert trace.residual_charge() == pytest.approx(330e-9 * abs(volts), rel=0.01)
    assert trace.residual_charge(0.33) == pytest.approx(330e-9 * abs(volts) / math.e, rel=0.01)


@pytest.mark.parametrize("lamp", LAMPS, ids=name_of)
def test_brownout_agrees_with_the_reference(lamp):
    trace = brownout(lamp, 0.6, 0.031, 30.0, 0.05, LINE, 0.0)
    circuit = Circuit(parts_of(lamp), LINE)
    start = 30 / 360 * circuit.period + circuit.period
    where = np.flatnonzero(trace.time >= 0)[0]
    state = state_of(trace.dropper_voltage[where], trace.bus_voltage[where])
    circuit.factor = 0.4
    dip = follow(circuit, start, 0.031, state)
    circuit.factor = 1.0
    back = follow(circuit, start + 0.031, 0.05, dip.end)
    assert trace.line_current_peak == pytest.approx(np.abs(back.line[back.time > 2e-8]).max(), rel=0.02)
    for moment in (0.003, 0.012, 0.03):
        for mine, theirs in ((trace.dropper_voltage, dip.dropper), (trace.bus_voltage, dip.bus)):
            off = np.interp(moment, trace.time, mine) - np.interp(moment, dip.time, theirs)
            assert abs(off) < 0.01 * lamp.mains.peak
    charge = np.interp(0.031, trace.time, trace.string_charge) - np.interp(0.0, trace.time, trace.string_charge)
    assert charge == pytest.approx(dip.charge[-1], rel=0.02)


def test_a_dip_darkens_and_the_light_returns():
    shallow, deep, none = brownout(STAIR, 0.2, 0.1), brownout(STAIR, 1.0, 0.1), brownout(STAIR, 0.0, 0.1)
    mean = settle(STAIR).string_current_mean
    assert deep.string_current_least < shallow.string_current_least < none.string_current_least
    assert none.string_current_least == pytest.approx(mean, rel=0.01)
    assert none.time_to_light() == 0
    assert 0.1 < shallow.time_to_light() < deep.time_to_light() < 0.25
    assert shallow.time[0] == pytest.approx(-0.02), "one period before the dip is shown"


@pytest.mark.parametrize("lamp", LAMPS, ids=name_of)
def test_a_long_run_from_empty_meets_the_steady_state(lamp):
    trace = plug_in(lamp, 30.0, periods=60, line_resistance=0.001, line_inductance=0.0)
    steady = steady_state(lamp)
    last = np.flatnonzero(trace.time >= trace.time[-1] - trace.period - 1e-9)[[0, -1]]
    squared, charge = np.diff(trace.current_squared[last])[0], np.diff(trace.string_charge[last])[0]
    assert math.sqrt(squared / trace.period) == pytest.approx(steady.line_current_rms, rel=0.01)
    assert charge / trace.period == pytest.approx(steady.string_current_mean, rel=0.01)
    late = slice(last[0], None)
    assert np.abs(trace.line_current[late]).max() == pytest.approx(steady.line_current_peak, rel=0.01)
    assert np.abs(trace.dropper_voltage[late]).max() == pytest.approx(steady.dropper_voltage_peak, rel=0.01)
    assert trace.string_current[late].max() == pytest.approx(steady.string_current_max, rel=0.01)


@pytest.mark.parametrize("lamp", LAMPS, ids=name_of)
@pytest.mark.parametrize("angle", [0.0, 60.0, 90.0])
def test_no_current_rings(lamp, angle):
    """The line current reverses with the mains, twice a period or a few times if distorted, never from step to step."""
    trace = plug_in(lamp, angle, -80.0, periods=4, line_resistance=LINE, line_inductance=0.0)
    current = trace.line_current[np.abs(trace.line_current) > 1e-6 * trace.line_current_peak]
    assert np.count_nonzero(np.diff(np.sign(current))) <= 10
    turns = np.sign(np.diff(trace.line_current)) * (
        np.abs(np.diff(trace.line_current)) > 1e-3 * trace.line_current_peak
    )
    alternating = (turns[:-2] * turns[1:-1] < 0) & (turns[1:-1] * turns[2:] < 0)
    assert not alternating.any(), "up, down and up again in three steps"


@pytest.mark.parametrize(
    "case",
    [*((lamp, None) for lamp in LAMPS), *FAULTY],
    ids=lambda case: case[0].name + (f": {case[1].words()}" if case[1] else ""),
)
def test_energy_taken_is_turned_to_heat_or_stored(case):
    """To 0.1 % of what was moved to and fro."""
    lamp, fault = case
    lamp = with_fault(lamp, fault) if fault else lamp
    for trace in (
        plug_in(lamp, 60.0, -50.0, periods=5),
        unplug(lamp, 60.0, 3.0, across=1e5),
        unplug(lamp),
        brownout(lamp, 0.7, 0.05),
    ):
        moved = abs(trace.energy_taken) + abs(trace.energy_stored) + case[0].dropper * case[0].mains.peak ** 2
        assert trace.energy_taken - trace.energy_stored == pytest.approx(sum(trace.heat.values()), abs=1e-3 * moved)


def test_time_is_never_stepped_back_and_events_are_met():
    """Conduction begins and ends somewhere inside a step of 0.1 ms: points crowd around those moments."""
    trace = plug_in(STAIR, 90.0, periods=4)
    steps = np.diff(trace.time)
    assert np.all(steps >= 0)
    starts = np.flatnonzero((np.abs(trace.line_current[1:]) > 1e-5) & (np.abs(trace.line_current[:-1]) < 1e-6))
    for start in starts[1:]:
        assert steps[start : start + 4].min() < 1e-5


def test_worst_plug_in_is_at_the_crest():
    trace = worst_plug_in(STAIR, line_inductance=0.0)
    assert abs(trace.angle % 180 - 90) <= 1
    peak = (STAIR.mains.peak - 2 * STAIR.diode.voltage_at(1.5)) / (220 + LINE)
    assert trace.line_current_peak == pytest.approx(peak, rel=0.005)
    wave = settle(SHELF).mains_voltage
    shelf = worst_plug_in(SHELF)
    at = np.abs(np.interp(shelf.angle / 360 / 60, settle(SHELF).time, wave))
    assert at == pytest.approx(np.abs(wave).max(), rel=0.003), "a distorted mains has its crest elsewhere"


def test_worst_replug_meets_the_dropper_charged_the_wrong_way():
    once, again = (worst_plug_in(STAIR, replug=again, line_inductance=0.0) for again in (False, True))
    held = settle(STAIR).dropper_voltage_peak
    assert abs(again.precharge) == pytest.approx(held, rel=1e-6)
    assert np.sign(again.mains_voltage[0]) != np.sign(again.precharge)
    step = STAIR.mains.peak + held - 2 * STAIR.diode.voltage_at(2.6)
    assert again.line_current_peak == pytest.approx(step / (220 + LINE), rel=0.005)
    assert again.inrush_energy > 3 * once.inrush_energy
    # with the bus short the dropper may hold the whole peak: twice the peak
    shorted = worst_plug_in(with_fault(STAIR, Fault("short", "D1 and D2")), replug=True, line_inductance=0.0)
    assert shorted.line_current_peak == pytest.approx(2 * STAIR.mains.peak / (220 + LINE), rel=0.003)


def test_worst_unplug_leaves_most():
    worst = worst_unplug(STAIR)
    others = [unplug(STAIR, angle).residual_charge() for angle in range(0, 360, 15)]
    assert worst.residual_charge() >= max(others) * (1 - 1e-6)
    assert worst.residual_charge() == pytest.approx(330e-9 * settle(STAIR).dropper_voltage_peak, rel=1e-3)


def test_light_comes_later_with_more_smoothing():
    times = [plug_in(replace_at(STAIR, "smoothing", farads)).time_to_light() for farads in (1e-6, 10e-6, 100e-6)]
    assert times[0] < times[1] < times[2]
    assert math.isnan(plug_in(with_fault(STAIR, Fault("open", "string"))).time_to_light())


def test_nothing_to_limit_the_inrush_is_an_error_in_words():
    with pytest.raises(ValueError, match=r"line_resistance: 0 Ω .* nothing to limit the inrush"):
        plug_in(BARE, line_resistance=0.0)
    # an empty smoothing capacitor, and then only the line's ohms and the two diodes' own 0.05 limit the current
    smoothed, diode = replace_at(BARE, "smoothing", 1e-4), BARE.diode
    peak = plug_in(smoothed, 90.0, periods=0.1, line_resistance=0.5, line_inductance=0.0).line_current_peak
    junction = diode.voltage_at(peak) - 0.05 * peak
    assert peak == pytest.approx((BARE.mains.peak - 2 * junction) / 0.6, rel=0.005)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: plug_in(STAIR, 400), "angle: 400 is not allowed; it must be from -360 to 360 degrees"),
        (lambda: plug_in(STAIR, 90, 2000.0), "precharge: 2000.0 is not allowed"),
        (lambda: plug_in(STAIR, 90, 0, -1), "bus_precharge: -1 is not allowed; it must be from 0 to"),
        (lambda: plug_in(STAIR, periods="many"), "periods: 'many' is not allowed"),
        (lambda: unplug(STAIR, 90, 0), "seconds: 0 is not allowed; it must be from 0.001 to 1e"),
        (lambda: unplug(STAIR, 90, 1, across=0.0), "across: 0.0 is not allowed; it must be from 1 to"),
        (lambda: brownout(STAIR, 1.5, 1), "depth: 1.5 is not allowed; it must be from 0 to 1"),
        (lambda: settle(STAIR, -1), "line_resistance: -1 is not allowed"),
        (lambda: unplug(STAIR).time_below(1, "plug"), "where: 'plug' is not allowed; it must be one of 'pins'"),
    ],
)
def test_wrong_values_are_told_in_words(call, words):
    with pytest.raises(ValueError) as told:
        call()
    assert words in str(told.value)
