"""Measured figures against the definitions of IEEE 1459, SciPy, and recordings whose truth is known."""

from dataclasses import replace

import numpy as np
import pytest
import scipy.optimize
import scipy.signal
from draws import examples
from dropper import steady_state
from dropper.bench import waveform
from dropper.bench.waveform import Channel, Recording
from dropper.solver import power
from hypothesis import given, settings
from hypothesis import strategies as some
from recordings import AMPERES, BEHIND_A, BEHIND_V, FINE, STAIR, VOLTS, of_harmonics, of_lamp, sampled


@pytest.mark.parametrize("start", [0.0, 0.00371])
@pytest.mark.parametrize("span", [0.2, 0.207])
def test_the_check_set_of_ieee_1459_comes_out_without_noise(start, span):
    """Inputs after Annex B of IEEE 1459-2010 (from memory), outputs by the definitions; whole periods or not."""
    found = waveform.measure(of_harmonics(span=span, start=start))
    wanted = {
        "real": 8632.789,
        "reactive": 5000.0,
        "voltage": 101.5579,
        "current": 103.5616,
        "apparent": 10517.493,
        "distortion": 2692.582,
        "nonactive": 6007.713,
        "power_factor": 0.820803,
        "displacement_factor": 0.866025,
        "voltage_thd": 0.177200,
        "current_thd": 0.269258,
        "lead": -30.0,
    }
    for key, value in wanted.items():
        assert getattr(found, key).value == pytest.approx(value, rel=2e-4), key
    assert found.frequency.value == pytest.approx(60, rel=1e-7)
    for k, order in enumerate((1, 3, 5, 7)):
        assert found.voltage_harmonics[order].value == pytest.approx(VOLTS[k], rel=1e-4)
        assert found.current_harmonics[order].value == pytest.approx(AMPERES[k], rel=1e-4)
    assert (VOLTS * AMPERES * np.cos(BEHIND_V - BEHIND_A)).sum() == pytest.approx(8632.789, rel=1e-6)


def test_a_square_current_by_hand():
    """I1/I = 2√2/π = 0.9003 and THD = √(π²/8 − 1) = 0.4834: worked out by hand from the Fourier series."""
    time = np.arange(40_000) * 5e-6
    sine = np.sin(2 * np.pi * 50 * time + 0.4)
    noise = np.random.default_rng(0).normal(0, 1e-5, time.size)
    found = waveform.measure(Recording(time, 325 * sine, np.sign(sine) * 0.02 + noise))
    assert found.current_harmonics[1].value / found.current.value == pytest.approx(2 * np.sqrt(2) / np.pi, rel=1e-3)
    assert found.current_thd.value == pytest.approx(np.sqrt(np.pi**2 / 8 - 1), rel=5e-3)


def test_frequency_and_its_uncertainty_agree_with_scipy():
    recording = of_lamp(noise=(2.0, 3e-4, 0.1), frequency=49.91, span=0.23, count=4000)
    found = waveform.measure(recording)
    time, volts = recording.time - recording.time[0], recording.mains_voltage

    def sine(t, amplitude, frequency, phase, offset):
        return amplitude * np.sin(2 * np.pi * frequency * t + phase) + offset

    best, covariance = scipy.optimize.curve_fit(sine, time, volts, p0=(325, 50, 1.9, 0))
    assert found.frequency.value == pytest.approx(best[1], abs=0.5 * found.frequency.uncertainty)
    assert found.frequency.uncertainty == pytest.approx(np.sqrt(covariance[1, 1]), rel=0.25)


def test_harmonics_agree_with_scipy_over_whole_periods():
    """SciPy's spectrum of exactly ten periods needs no window."""
    recording = of_lamp(frequency=50.0, span=0.2, count=20_000, phase=0.0)
    found = waveform.measure(recording)
    frequency, density = scipy.signal.periodogram(recording.line_current, 1e5, scaling="spectrum")
    for order in (1, 3, 5, 7, 9, 11, 13, 21, 31):
        line = np.sqrt(density[np.argmin(abs(frequency - 50 * order))])
        assert found.current_harmonics[order].value == pytest.approx(line, rel=2e-3), order


TRUTHS = steady_state(STAIR, FINE)
_PARTS = power.power_quantities(
    power.harmonics(TRUTHS.mains_voltage),
    power.harmonics(TRUTHS.line_current),
    voltage_rms=np.sqrt((TRUTHS.mains_voltage**2).mean()),
    current_rms=np.sqrt((TRUTHS.line_current**2).mean()),
    real_power=(TRUTHS.mains_voltage * TRUTHS.line_current).mean(),
)
TRUE = {
    "voltage": _PARTS.voltage,
    "current": _PARTS.current,
    "real": _PARTS.real,
    "apparent": _PARTS.apparent,
    "power_factor": _PARTS.power_factor,
    "displacement_factor": _PARTS.displacement_factor,
    "current_thd": _PARTS.current_thd,
    "reactive": _PARTS.reactive,
    "bus_mean": TRUTHS.bus_voltage.mean(),
    "bus_ripple": np.ptp(TRUTHS.bus_voltage),
}


@pytest.mark.slow
@pytest.mark.parametrize(
    ("span", "count", "noise"),
    [(0.05, 2500, (3, 5e-4, 0.3)), (0.25, 6000, (1, 2e-4, 0.1))],
    ids=["two periods", "twelve"],
)
def test_twice_the_stated_uncertainty_covers_the_truth_about_95_times_in_100(span, count, noise):
    """Monte Carlo: 40 recordings each, start and noise by chance. 32 of 40 or fewer come by chance once in 2000 times;
    all quantities together have to lie between 91 and 99.5 %."""
    within = dict.fromkeys((*TRUE, "frequency", "fifth"), 0)
    chance = np.random.default_rng(3)
    for seed in range(40):
        frequency = chance.uniform(49.8, 50.2)
        found = waveform.measure(sampled(TRUTHS, frequency, span, count, chance.uniform(), noise, seed))
        for key, value in TRUE.items():
            within[key] += getattr(found, key).agrees(value)
        within["frequency"] += found.frequency.agrees(frequency)
        within["fifth"] += found.current_harmonics[5].agrees(abs(power.harmonics(TRUTHS.line_current)[5]))
    assert min(within.values()) > 32, within
    assert 0.91 <= sum(within.values()) / (40 * len(within)) <= 0.995, within


def test_coarse_rounding_is_counted():
    """Steps of 4 V, 0.8 mA and 1 V with less noise than a step: the stated uncertainty still holds the truth."""
    for seed in range(4):
        found = waveform.measure(of_lamp(noise=(0.5, 1e-4, 0.1), steps=(4, 8e-4, 1.0), phase=seed / 4, seed=seed))
        for key, value in TRUE.items():
            assert getattr(found, key).agrees(value), key


@settings(max_examples=examples(10))
@given(phase=some.floats(0, 1), frequency=some.floats(45, 65), span=some.floats(0.045, 0.3))
def test_where_the_recording_starts_and_ends_does_not_matter(phase, frequency, span):
    found = waveform.measure(sampled(TRUTHS, frequency, span, int(span * 6e4), phase))
    assert found.frequency.value == pytest.approx(frequency, rel=3e-5)
    for key in ("voltage", "current", "real", "power_factor", "bus_mean"):
        assert getattr(found, key).value == pytest.approx(TRUE[key], rel=2e-3), key


def test_the_scales_limits_of_error_move_sizes_but_no_ratios():
    exact = of_lamp(noise=(1, 2e-4, 0.1))
    channels = {name: Channel(name, accuracy=0.03) for name in waveform.NAMES}
    found, rough = waveform.measure(exact), waveform.measure(replace(exact, channels=channels))
    assert rough.current.uncertainty == pytest.approx(0.03 / np.sqrt(3) * found.current.value, rel=0.01)
    assert rough.real.uncertainty == pytest.approx(0.03 * np.sqrt(2 / 3) * found.real.value, rel=0.01)
    for key in ("power_factor", "displacement_factor", "current_thd", "lead"):
        assert getattr(rough, key) == getattr(found, key)


def test_the_power_factor_hangs_on_how_well_both_were_taken_in_step():
    """A current 10 µs late turns the cosine of the fundamental by tan φ · ωt: worked out by hand, 50 Hz, a sine."""
    time = np.arange(10_000) * 2e-5
    volts, current = np.sin(100 * np.pi * time), np.sin(100 * np.pi * time + np.arccos(0.28))
    chance = np.random.default_rng(5).normal(0, 1e-5, (2, time.size))
    loose = waveform.measure(Recording(time, 325 * volts + chance[0], 0.02 * current + chance[1] * 1e-2))
    tight = waveform.measure(replace(loose.recording, in_step=0.0))
    wanted = np.tan(np.arccos(0.28)) * 100 * np.pi * 1e-5 / np.sqrt(3)
    for key in ("real", "power_factor", "displacement_factor"):
        each = getattr(loose, key)
        assert each.uncertainty / each.value == pytest.approx(wanted, rel=0.02), key
        assert getattr(tight, key).uncertainty < 0.2 * each.uncertainty
    assert loose.current == tight.current


def test_direct_parts_are_taken_out_and_reported():
    exact = of_lamp(noise=(1, 2e-4, 0.1))
    found = waveform.measure(replace(exact, line_current=exact.line_current + 3e-3))
    assert found.offsets["line_current"] == pytest.approx(3e-3, rel=0.02)
    assert found.current.agrees(TRUE["current"]) and any("direct part of 3" in text for text in found.warnings)


def _gappy(recording, wide):
    current = recording.line_current.copy()
    current[1200 : 1200 + wide] = np.nan
    return replace(recording, line_current=current)


PLAIN = {"noise": (1, 2e-4, 0.1)}
WARNED = {
    "clipped": (
        lambda: replace(of_lamp(**PLAIN), mains_voltage=np.clip(of_lamp(**PLAIN).mains_voltage, -280, 280)),
        "clipped",
    ),
    "undersampled": (lambda: of_lamp(count=600, **PLAIN), "Only 120 samples"),
    "one period": (lambda: of_lamp(span=0.025, count=2000, **PLAIN), "One whole period only"),
    "gap": (lambda: _gappy(of_lamp(**PLAIN), 20), "straight lines bridge"),
    "wide gap": (lambda: _gappy(of_lamp(**PLAIN), 200), "left out for a wide gap: 1"),
    "turned round": (lambda: replace(of_lamp(**PLAIN), line_current=-of_lamp(**PLAIN).line_current), "wrong way round"),
    "exchanged": (
        lambda: replace(
            of_lamp(**PLAIN),
            mains_voltage=1e4 * of_lamp(**PLAIN).line_current,
            line_current=1e-4 * of_lamp(**PLAIN).mains_voltage,
        ),
        "exchanged",
    ),
    "few steps": (lambda: of_lamp(steps=(1, 4e-3, 0.1), **PLAIN), "moves through"),
}


@pytest.mark.parametrize("what", WARNED)
def test_doubtful_recordings_are_told_of(what):
    make, said = WARNED[what]
    assert any(said in text for text in waveform.measure(make()).warnings), waveform.measure(make()).warnings


def test_a_sound_recording_is_not_doubted():
    for steps in (None, (2, 3e-4, 0.4)):
        assert waveform.measure(of_lamp(span=0.2, count=10_000, steps=steps, **PLAIN)).warnings == ()


def test_a_drifting_frequency_is_told_of():
    time = np.arange(20_000) * 2e-5
    turn = 2 * np.pi * (50 * time + 0.5 * time**2)
    found = waveform.measure(Recording(time, 325 * np.sin(turn) + np.random.default_rng(1).normal(0, 1, time.size)))
    assert any("drifts by +0.2" in text for text in found.warnings)
    assert found.period.drift == pytest.approx(2 / 3 * 0.4, rel=0.1), "two thirds of the 0.4 Hz that it gains"


@pytest.mark.parametrize(
    ("recording", "said"),
    [
        (lambda: of_lamp(span=0.012, count=1200, **PLAIN), "at least one whole period"),
        (lambda: Recording(np.arange(100.0) / 1e3, np.zeros(100)), "flat"),
        (lambda: of_lamp(span=0.5, count=300), "at least 16"),
        (lambda: replace(of_lamp(), time=of_lamp().time * 40), "no wave of the mains.*; with 800 µs from"),
        (lambda: Recording(np.arange(4.0), np.zeros(4)), "at least 8"),
        (lambda: Recording(np.arange(100.0), None, None, np.ones(100)), "neither mains voltage nor line current"),
        (lambda: Recording(np.arange(100.0)[::-1], np.ones(100)), "does not rise"),
        (lambda: Recording(np.arange(100.0), np.full(100, np.nan)), "is empty"),
        (lambda: Recording(np.arange(100.0), np.ones(99)), "99 samples, but 100"),
    ],
)
def test_what_cannot_be_measured_is_answered_in_words(recording, said):
    with pytest.raises(ValueError, match=said):
        waveform.measure(recording())


def test_a_long_recording_loses_no_peak_in_its_picture():
    values = np.sin(np.arange(1_000_000) * 1e-3)
    values[654_321] = 7.0
    time, low, high = waveform.decimate(np.arange(1_000_000) * 1e-6, values, 600)
    assert time.size == 600 and high.max() == 7.0 and low.min() == values.min()
    share, low, high = waveform.fold(np.arange(1_000_000) * 1e-6, values, 1e3 / (2 * np.pi), 0.0, 300)
    assert high.max() == 7.0 and 0 < share[0] < share[-1] < 1
    assert np.median(high - low) < 0.03


@pytest.mark.parametrize("samples", [200, 250, 300])
def test_few_samples_in_a_period_are_told_as_uncertainty(samples):
    """The solver's own figures are the truth; corners of the current fall between samples."""
    truth = steady_state(STAIR, 4096)
    known = {
        "current_thd": truth.current_thd,
        "current": truth.line_current_rms,
        "real": truth.real_power,
        "power_factor": truth.power_factor,
    }
    for seed in range(4):
        recorded = of_lamp(
            frequency=50 * (1 + 3e-4 * seed), span=0.2, count=10 * samples, noise=(0.5, 1e-4, 0.1), seed=seed
        )
        found = waveform.measure(recorded).estimates
        for key, value in known.items():
            assert abs(found[key].value - value) < 2.5 * found[key].uncertainty, (key, seed)
