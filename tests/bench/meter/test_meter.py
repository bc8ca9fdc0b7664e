"""Meters: digits and errors against their definitions, averaging against its integral, agreement against sampling."""

import math

import numpy as np
import pytest
from draws import examples
from dropper import Lamp, steady_state, theory
from dropper.bench.meter import Multimeter, PlugInMeter, Scale, agreement, expected_bands
from dropper.bench.meter.expectation import reactive_power, rms_volts
from dropper.bench.meter.multimeter import ac_value
from dropper.solver.transient import Fault, settle, with_fault
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from scipy.integrate import quad

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
RESULT = steady_state(STAIR)


@given(st.floats(1e-3, 1e4), st.sampled_from([0, 2000, 6000]))
@settings(max_examples=examples(60))
def test_a_display_shows_no_more_than_half_a_digit_off(value, counts):
    scale = Scale("V", 1e-3, counts=counts)
    step = scale.step(value)
    assert abs(scale.reading(value) - value) <= step / 2 * (1 + 1e-9)
    if counts:
        assert value <= counts * step * (1 + 1e-9)


@pytest.mark.parametrize("value", [0.3, 17.0, 229.0])
def test_spread_of_stated_limits_is_that_of_an_even_distribution(value):
    """JCGM 100:2008, 4.3.7 (from memory): limits without more are a rectangle; its spread here by scipy.stats."""
    scale = Scale("V", 0.1, 0.02, 2)
    half = 0.02 * value + 2 * 0.1
    assert scale.error_limit(value) == pytest.approx(half)
    assert scale.uncertainty(value) == pytest.approx(stats.uniform(-half, 2 * half).std())


@given(st.floats(0.5, 300), st.floats(-1, 1), st.floats(-1, 1))
@settings(max_examples=examples(60))
def test_the_truth_is_always_within_what_a_reading_allows(value, gain, digits):
    scale = Scale("V", 0.1, 0.03, 1)
    shown = scale.reading(value * (1 + 0.03 * gain) + 0.1 * digits)
    low, high = scale.true_range(shown)
    assert low <= value * (1 + 1e-9) and high >= value * (1 - 1e-9)


def test_what_is_below_the_floor_shows_as_nothing():
    meter = PlugInMeter(watt_floor=1.5, ampere_floor=5e-3)
    shown = meter.readings(RESULT)
    assert shown["power"] == 0.0 and shown["current"] > 0
    assert expected_bands(RESULT, meter)["power"].words == "0.0 W to 1.5 W"
    assert set(PlugInMeter(ampere_floor=0.1).readings(RESULT).values()) == {0.0}
    low, high = meter.scales()["power"].true_range(0.0)
    assert low == 0 and high >= 1.5


def test_a_phase_error_moves_the_band_as_the_derivation_has_it():
    """Common practice, no source: near a power factor of 0.3 one degree moves the watts by about 5 %."""
    fine = {"volt_error": 0.0, "ampere_error": 0.0, "watt_error": 0.0, "error_digits": 0.0, "watt_digit": 1e-6}
    band = expected_bands(RESULT, PlugInMeter(phase_error=math.radians(1), **fine))["power"]
    error = theory.power_error_of_phase(displacement_factor=RESULT.displacement_factor, phase_error=math.radians(1))
    assert band.high / RESULT.real_power - 1 == pytest.approx(error, rel=0.01)
    assert 0.045 < error < 0.065
    still = expected_bands(RESULT, PlugInMeter(phase_error=0.0, **fine))["power"]
    assert still.low == pytest.approx(still.high, abs=2e-6)


def test_bands_of_either_solver_are_the_same_words():
    for key, band in expected_bands(RESULT).items():
        assert band.words == expected_bands(settle(STAIR))[key].words
    assert expected_bands(RESULT)["current"].words == "20 mA to 23 mA"
    assert reactive_power(RESULT) == pytest.approx(
        math.sin(math.acos(RESULT.displacement_factor)) * 230 * abs(RESULT.harmonic_currents[1]), rel=1e-3
    )
    assert rms_volts(settle(STAIR)) == pytest.approx(230, rel=1e-4)


def test_a_dark_lamp_is_expected_to_show_nothing():
    dead = settle(with_fault(STAIR, Fault("open", "inrush_resistor")))
    bands = expected_bands(dead)
    assert bands["power"].words == "0.0 W" and bands["current"].words in ("0 mA", "0 mA to 1 mA")
    assert "V" in bands["voltage"].words


@pytest.mark.parametrize(
    ("wave", "true", "averaged"),
    [
        (lambda t: np.sin(t), 1 / math.sqrt(2), 1 / math.sqrt(2)),
        (lambda t: np.sign(np.sin(t)), 1.0, math.pi / (2 * math.sqrt(2))),
        (lambda t: 2 / math.pi * np.arcsin(np.sin(t)), 1 / math.sqrt(3), math.pi / (4 * math.sqrt(2))),
    ],
    ids=["sine", "square", "triangle"],
)
def test_averaging_meters_err_as_handbooks_have_it(wave, true, averaged):
    """Right for a sine, 11 % high on a square wave, 4 % low on a triangle (values from memory)."""
    time = np.linspace(0, 2 * np.pi, 200_001)
    assert ac_value(wave(time) + 3.0, time, True) == pytest.approx(true, rel=1e-4)
    assert ac_value(wave(time) + 3.0, time, False) == pytest.approx(averaged, rel=1e-4)


def test_an_averaging_ammeter_in_the_line_against_the_lamp_and_against_an_integral():
    mean, _ = quad(lambda t: abs(math.sin(t)) / (2 * math.pi), 0, 2 * math.pi)
    factor = math.sqrt(0.5) / mean
    assert theory.form_factor_of_sine() == pytest.approx(factor, rel=1e-6)
    shown = factor * np.mean(np.abs(RESULT.line_current))
    peak = STAIR.mains.peak
    clamped = STAIR.clamped_voltage(RESULT.string_current_mean)
    ideal = theory.averaging_meter_current(
        frequency=50, dropper=STAIR.dropper, peak_voltage=peak, clamped_voltage=clamped
    )
    assert shown == pytest.approx(ideal, rel=0.04)
    assert shown < RESULT.line_current_rms


def test_a_voltmeter_loads_what_it_measures():
    """Two resistors of 10 MΩ: half (Ohm's law)."""
    meter = Multimeter()
    assert meter.dc(60.0, 10e6) == pytest.approx(30.0)
    assert meter.dc(-60.0, 10e6) == pytest.approx(-30.0)
    assert meter.parallel(10e6) == pytest.approx(5e6) and meter.parallel(None) == 10e6
    assert meter.resistance(30e6) == math.inf and meter.resistance(996_123) == pytest.approx(996e3)


@given(st.floats(90, 264), st.floats(0.005, 1), st.floats(0.05, 1))
@settings(max_examples=examples(80))
def test_readings_rounded_from_one_truth_agree_and_hold_it(volts, amperes, factor):
    apparent = volts * amperes
    read = {
        "voltage": round(volts, 1),
        "current": round(amperes, 3),
        "apparent_power": round(apparent, 1),
        "power": round(apparent * factor, 1),
        "power_factor": round(factor, 2),
    }
    found = agreement(read)
    assert found.agrees is True
    truth = dict(zip(read, (volts, amperes, apparent, apparent * factor, factor), strict=True))
    for name, (low, high) in found.ranges.items():
        assert low - 1e-9 <= truth[name] <= high + 1e-9, name


def test_narrowed_intervals_are_those_that_sampling_finds():
    """Points drawn all over the read box; those that satisfy both products span what is left of each reading."""
    read = {"voltage": 123.0, "current": 0.017, "power": 0.8}
    rng = np.random.default_rng(1)
    volts, amperes, watts = (
        rng.uniform(value - half, value + half, 400_000)
        for value, half in zip(read.values(), (0.05, 5e-4, 0.05), strict=True)
    )
    factor = watts / (volts * amperes)
    low, high = agreement(read).ranges["power_factor"]
    assert low <= factor.min() and factor.min() == pytest.approx(low, rel=0.01)
    assert high >= factor.max() and factor.max() == pytest.approx(high, rel=0.01)


@pytest.mark.parametrize(
    ("read", "pair"),
    [
        (
            {"voltage": 229.0, "current": 0.021, "power": 1.5, "power_factor": 0.27},
            ("power_factor", "voltage", "current", "power"),
        ),
        ({"voltage": 230.0, "current": 0.02, "apparent_power": 5.2}, ("apparent_power", "voltage", "current")),
        (
            {"voltage": 230.0, "current": 0.02, "apparent_power": 4.6, "power": 1.2, "power_factor": 0.4},
            ("power_factor", "power", "apparent_power"),
        ),
        ({"voltage": 230.0, "current": 0.02, "power": 6.0}, ("power", "voltage", "current")),
    ],
    ids=["factor", "volt-amperes", "of three", "watts above volt-amperes"],
)
def test_the_readings_that_disagree_are_named(read, pair):
    found = agreement(read)
    assert found.agrees is False and found.conflict[0] == pair[0] and set(found.conflict) == set(pair)
    assert "disagrees with itself" in found.words


def test_stated_errors_can_explain_what_digits_cannot():
    """A reading that disagrees by its digits need not do so beyond its limits of error (their sizes: common practice)."""
    read = {"voltage": 229.0, "current": 0.021, "power": 1.5, "power_factor": 0.27}
    assert agreement(read).agrees is False and agreement(read, PlugInMeter()).agrees is True
    assert agreement({"voltage": 230.0}).agrees is None
    with pytest.raises(ValueError, match="current"):
        agreement({"voltage": 230.0, "current": -1.0})


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: PlugInMeter(volt_error=2.0), "PlugInMeter.volt_error"),
        (lambda: Scale("V", -1.0), "Scale.digit"),
        (lambda: Multimeter(input_resistance=5.0), "Multimeter.input_resistance"),
    ],
)
def test_what_no_meter_can_be_is_refused_in_words(make, words):
    with pytest.raises(ValueError, match=words):
        make()
