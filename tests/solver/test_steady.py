"""The steady state against an independent witness, its closed forms, and itself."""

import math

import draws
import numpy as np
import pytest
from dropper import Diode, Lamp, Led, LedString, Mains, replace_at, spread, steady_state, steady_states
from dropper.results import explain
from lamps_at_random import random_lamps
from reference import reference

STAIR = Lamp(
    name="stair marker",
    mains=Mains(230.0, 50.0),
    string=LedString(Led(3.1, 0.020, 9.0), 22),
    dropper=330e-9,
    bleeder=1e6,
    inrush_resistor=220.0,
    smoothing=10e-6,
    smoothing_bleeder=330e3,
)
# No resistor anywhere, all but endless smoothing, junctions that switch like clamps.
IDEAL = Lamp(
    mains=Mains(230.0, 50.0),
    string=LedString(Led(4.0, 0.020, 0.0, 1.0), 16),
    dropper=1e-6,
    smoothing=1e-2,
    diode=Diode(0.5, 0.010, 0.0, 1.0),
)
WITHIN_ONE_PER_CENT = (
    "line_current_rms",
    "real_power",
    "apparent_power",
    "power_factor",
    "string_current_mean",
    "bus_voltage_mean",
    "dropper_voltage_rms",
    "dropper_voltage_peak",
)


def real(drawn):
    """A lamp drawn at random, as the circuit's own data."""
    led, diode = drawn.string.led, drawn.diode
    return Lamp(
        mains=Mains(drawn.mains.voltage, drawn.mains.frequency, drawn.mains.harmonics),
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


@pytest.mark.slow
@pytest.mark.parametrize("drawn", list(random_lamps(draws.examples(36), draws.seed(20))), ids=lambda lamp: lamp.name)
def test_agrees_with_the_smooth_laws_integrated_tightly(drawn):
    """Bounds of the design: 1 % of currents, powers, power factor and bus voltage, 3 points of flicker."""
    witness = reference(drawn)
    lamp = real(drawn)
    for points in (1024, 128):
        result = steady_state(lamp, points)
        assert result.settled
        bound = 0.01 if points == 1024 else 0.02  # the batch's coarse grid, in the worst corner
        for name in WITHIN_ONE_PER_CENT:
            assert getattr(result, name) == pytest.approx(witness[name], rel=bound), (name, points)
        assert result.percent_flicker == pytest.approx(witness["percent_flicker"], abs=3)
        assert result.flicker_index == pytest.approx(witness["flicker_index"], abs=0.02)
        for part, watts in witness["heat"].items():
            assert result.heat[part] == pytest.approx(watts, abs=bound * witness["real_power"]), (part, points)
    assert result.displacement_factor == pytest.approx(witness["displacement_factor"], abs=0.01)


def test_heat_adds_up_to_the_power_over_a_thousand_lamps():
    lamps = [real(drawn) for drawn in random_lamps(draws.examples(1000), draws.seed(3))]
    result = steady_states(lamps)
    assert result.settled.all()
    total = sum(result.heat.values())
    assert np.max(np.abs(total / result.real_power - 1)) <= 1e-6


def test_power_is_the_mean_of_voltage_times_current():
    """Not by construction: the waveforms multiplied point by point."""
    result = steady_state(STAIR, 4096)
    mean = np.mean(result.mains_voltage * result.line_current)
    assert mean == pytest.approx(result.real_power, rel=2e-4)  # the grid's own error at 4096 points
    assert np.sqrt(np.mean(result.line_current**2)) == pytest.approx(result.line_current_rms, rel=1e-4)
    assert result.string_current.mean() == pytest.approx(result.string_current_mean, rel=1e-9)


@pytest.mark.parametrize(
    "key",
    [
        "string_current_mean",
        "line_current_rms",
        "real_power",
        "power_factor",
        "displacement_factor",
        "dropper_voltage_rms",
    ],
)
def test_meets_the_closed_form_in_its_limit(key):
    """In the limit the formula and the solver share nothing but the circuit.

    0.5 %: the junctions still bend (26 mV each, of 64 V) where the formula's clamp does not.
    """
    result = steady_state(IDEAL, 4096)
    assert getattr(result, key) == pytest.approx(explain.working(key, IDEAL, result).value, rel=5e-3)


def test_approaches_the_closed_form_as_the_lamp_becomes_ideal():
    """Each step nearer to the ideal lamp comes nearer to its formula."""
    gaps = []
    for resistor, smoothing in ((1000.0, 1e-5), (300.0, 1e-4), (100.0, 1e-3), (0.0, 1e-2)):
        lamp = replace_at(replace_at(IDEAL, "inrush_resistor", resistor), "smoothing", smoothing)
        result = steady_state(lamp, 2048)
        gaps.append(abs(result.line_current_rms / explain.working("line_current_rms", lamp, result).value - 1))
    assert gaps == sorted(gaps, reverse=True)
    assert gaps[-1] < 0.003


@pytest.mark.parametrize("name", ["line_current_rms", "real_power", "string_current_mean", "percent_flicker"])
def test_error_falls_as_points_are_added(name):
    finest = getattr(steady_state(STAIR, 32768), name)
    gaps = [abs(getattr(steady_state(STAIR, points), name) - finest) for points in (128, 512, 2048, 8192)]
    assert gaps[0] > 3 * gaps[2] and gaps[3] <= gaps[1]
    assert gaps[2] < 2e-4 * abs(finest)


def test_even_harmonics_break_the_symmetry_of_the_half_cycles():
    lopsided = steady_state(replace_at(STAIR, "mains.harmonics", {2: (0.08, 40.0)}))
    first, second = np.split(lopsided.line_current, 2)
    assert np.max(np.abs(first + second)) > 0.01 * lopsided.line_current_peak
    # Without its bleeder the dropper lets no direct current through, whatever the wave.
    blocked = steady_state(replace_at(replace_at(STAIR, "bleeder", None), "mains.harmonics", {2: (0.08, 40.0)}))
    assert abs(blocked.line_current.mean()) < 1e-6 * blocked.line_current_rms
    symmetric = steady_state(replace_at(STAIR, "mains.harmonics", {3: (0.08, 40.0)}))
    first, second = np.split(symmetric.line_current, 2)
    assert np.max(np.abs(first + second)) < 1e-9


def test_half_cycle_and_whole_cycle_agree():
    """The same mains solved with and without use of its symmetry (an even harmonic of size 0)."""
    half = steady_state(STAIR)
    whole = steady_state(replace_at(STAIR, "mains.harmonics", {2: (0.0, 0.0)}))
    assert whole.real_power == pytest.approx(half.real_power, rel=1e-6)


def test_a_batch_says_the_same_as_one_lamp_at_a_time():
    lamps = [real(drawn) for drawn in random_lamps(draws.examples(20), draws.seed(9))]
    batch = steady_states(lamps, 512, waveforms=True)
    for number, lamp in enumerate(lamps):
        one = steady_state(lamp, 512)
        assert batch.real_power[number] == one.real_power
        assert batch.heat["leds"][number] == one.heat["leds"]
        assert np.array_equal(batch.line_current[number], one.line_current)
        assert np.array_equal(batch.harmonic_currents[number], one.harmonic_currents)


def test_a_spread_says_the_same_as_lamps_built_one_by_one():
    droppers, volts = np.array([2e-7, 3e-7, 5e-7]), np.array([2.9, 3.1, 3.3])
    spreaded = steady_states(spread(STAIR, {"dropper": droppers, "string.led.forward_voltage": volts}))
    built = [
        replace_at(replace_at(STAIR, "dropper", c), "string.led.forward_voltage", v)
        for c, v in zip(droppers, volts, strict=True)
    ]
    assert spreaded.string_current_mean == pytest.approx(steady_states(built).string_current_mean, rel=1e-12)


def test_spread_refuses_what_a_lamp_would_refuse():
    with pytest.raises(ValueError, match=r"Lamp\.dropper"):
        spread(STAIR, {"dropper": [1e-7, 330.0]})
    with pytest.raises(ValueError, match="not finite"):
        spread(STAIR, {"dropper": [1e-7, math.nan]})
    with pytest.raises(AttributeError, match="droper"):
        spread(STAIR, {"droper": [1e-7]})


def test_no_lamps_give_empty_readings():
    assert steady_states([]).real_power.shape == (0,)


@pytest.mark.parametrize("points", [0, 127, 130, 1e9, 256.5, True])
def test_points_out_of_range_are_refused(points):
    with pytest.raises(ValueError, match="points"):
        steady_state(STAIR, points)


def test_what_is_no_lamp_is_refused():
    with pytest.raises(TypeError, match="is not a Lamp"):
        steady_states([STAIR, "lamp"])


def test_bench_reading_of_a_small_lamp():
    """Common practice, no source: one lamp read on a cheap plug-in meter.

    123 V 60 Hz, dropper measured at 450 nF, 19 groups of two near-UV LEDs (3.5 V at 20 mA, a
    maker's typical value); it read 17 mA, 0.7 W and a power factor of 0.29.
    """
    from dropper import Readings
    from dropper.bench.meter import PlugInMeter

    lamp = Lamp(
        mains=Mains(123.0, 60.0),
        string=LedString(Led(3.5, 0.020), 19, 2),
        dropper=450e-9,
        bleeder=470e3,
        inrush_resistor=10.0,
        smoothing=4.7e-6,
        smoothing_bleeder=200e3,
        readings=Readings(voltage=123.0, current=0.017, power=0.7, power_factor=0.29),
    )
    meter, result = PlugInMeter(), steady_state(lamp)
    assert abs(result.line_current_rms - 0.017) <= meter.ampere_digit
    assert abs(result.real_power - 0.7) <= meter.watt_digit
    # The power factor read is lower than any lamp of that current and power can have: the
    # meter disagrees with itself, and nothing here is tuned to it.
    agrees, words = meter.check_agreement(lamp.readings)
    assert agrees is False
    assert "disagrees with itself" in words
    low, high = meter.power_factor_band(lamp.readings)
    assert 0.29 < low < 0.7 / (123 * 0.017) < high
    assert low <= result.power_factor + 0.1
