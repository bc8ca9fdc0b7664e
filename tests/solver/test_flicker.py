"""Flicker and stroboscopic visibility of light whose closed forms are known.

Light is given as the solver keeps it: means over equal intervals of one mains period, here the exact integrals.
"""

import math

import numpy as np
import pytest
from dropper import Lamp, steady_state, theory
from dropper.solver import flicker
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

POINTS = 1024


def swing(order, depth, points=POINTS):
    """Means of 1 + depth·sin(order·angle), from its integral."""
    edges = np.linspace(0, 2 * np.pi, points + 1)
    return 1 - depth * np.diff(np.cos(order * edges)) / order * points / (2 * np.pi)


def square(duty, base, points=POINTS):
    """Light that is 1 for a share of the period, from the start on, and `base` for the rest."""
    share = np.clip(duty * points - np.arange(points), 0, 1)
    return base + (1 - base) * share


def rectified_sine(points=POINTS):
    """Means of |sin(angle)|, from its integral; the zero in the middle falls between two intervals."""
    half = -np.diff(np.cos(np.linspace(0, np.pi, points // 2 + 1))) * points / (2 * np.pi)
    return np.concatenate([half, half])


RECTIFIED = rectified_sine()


def test_a_full_depth_sine_has_an_index_of_one_over_pi():
    """By quadrature of the definition. The figure 1/(2π) = 0.159 that is also seen must differ: it counts the area
    above the mean, 2, against twice the whole area, 4π instead of 2π."""
    above = quad(lambda angle: max(math.sin(angle), 0), 0, 2 * math.pi, points=[math.pi])[0]
    whole = quad(lambda angle: 1 + math.sin(angle), 0, 2 * math.pi)[0]
    assert above / whole == pytest.approx(1 / math.pi, rel=1e-12)
    assert flicker.flicker_index(swing(1, 1.0)) == pytest.approx(above / whole, rel=1e-4)
    assert flicker.flicker_index(swing(1, 1.0)) != pytest.approx(1 / (2 * math.pi), rel=0.5)


@given(st.integers(1, 5), st.floats(0, 1))
def test_the_index_of_a_sine_is_its_depth_over_pi(order, depth):
    assert flicker.flicker_index(swing(order, depth)) == pytest.approx(depth / math.pi, rel=1e-3, abs=1e-12)


def test_rectified_sine():
    """Its mean 2/π is passed at arcsin(2/π): closed form in the theory, 0.21051; percent flicker 100."""
    start = math.asin(2 / math.pi)
    closed = math.cos(start) - (2 / math.pi) * (math.pi / 2 - start)
    assert closed == pytest.approx(0.21051, abs=5e-6)
    assert flicker.flicker_index(RECTIFIED) == pytest.approx(closed, rel=1e-4)
    assert theory.flicker_index_of_rectified_sine() == pytest.approx(closed, rel=1e-12)
    assert flicker.percent_flicker(1.0, 0.0) == 100


@given(st.floats(0.01, 0.99), st.floats(0, 0.99))
def test_square_light(duty, base):
    """Index (1 - mean)·duty/mean with mean = base + (1 - base)·duty; with no light between, 1 - duty.

    A jump within an interval is smeared over it; that costs at most an interval's share.
    """
    mean = base + (1 - base) * duty
    light = square(duty, base)
    assert flicker.flicker_index(light) == pytest.approx((1 - mean) * duty / mean, abs=1 / POINTS / mean)
    assert flicker.percent_flicker(1.0, base) == pytest.approx(100 * (1 - base) / (1 + base))
    assert flicker.flicker_index(square(duty, 0.0)) == pytest.approx(1 - duty, abs=1 / POINTS / duty)


@given(st.sampled_from([1 / 8, 1 / 4, 1 / 2, 3 / 4]), st.floats(0, 0.9))
def test_harmonics_of_square_light(duty, base):
    """C_m = 2·(1 - base)·|sin(π·m·duty)|/(π·m·mean), the Fourier series of a square wave."""
    mean = base + (1 - base) * duty
    frequencies, found = flicker.light_harmonics(square(duty, base, 8192), 50.0)
    order = np.arange(1, 41)
    series = 2 * (1 - base) * np.abs(np.sin(np.pi * order * duty)) / (np.pi * order * mean)
    assert frequencies == pytest.approx(50.0 * order)
    assert found == pytest.approx(series, rel=2e-4, abs=1e-9)


def test_harmonics_of_rectified_sine():
    """Fourier series of |sin|: the even orders m have 2/(m² - 1) of the mean, the odd ones nothing."""
    _, found = flicker.light_harmonics(RECTIFIED, 50.0)
    order = np.arange(2, 41, 2)
    assert found[1::2] == pytest.approx(2 / (order**2 - 1), rel=1e-3)
    assert found[0::2] == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("mains", "expected"), [(50.0, 2.60), (60.0, 2.42)])
def test_visibility_of_rectified_sine(mains, expected):
    """Against the sum over its Fourier series, with the threshold written out anew (formula of IEC TR 63158:2018, from
    memory): 2.60 at 100 Hz, 2.42 at 120 Hz."""
    total = 0.0
    for order in range(2, int(2000 / mains) + 1, 2):
        f = order * mains
        total += (2 / (order**2 - 1) / (1 / (1 + math.exp(-0.00518 * (f - 306.6))) + 20 * math.exp(-f / 10))) ** 3.7
    found = flicker.stroboscopic_visibility(RECTIFIED, mains)
    assert found == pytest.approx(total ** (1 / 3.7), rel=1e-4)
    assert found == pytest.approx(expected, abs=0.005)


@given(st.sampled_from([50.0, 60.0, 16.7, 400.0]), st.integers(1, 40))
def test_a_sine_light_at_its_threshold_has_a_visibility_of_one(mains, order):
    """That is what the measure means. Where the threshold is above full depth, the sum still counts it so."""
    frequency = order * mains
    depth = flicker.visibility_threshold(frequency)
    found = flicker.stroboscopic_visibility(swing(order, depth), mains)
    if frequency <= 2000:
        assert found == pytest.approx(1, rel=1e-9)
    else:
        assert found == pytest.approx(0, abs=1e-9), "nothing above 2 kHz counts"


def test_the_harmonic_at_2_khz_counts_and_the_next_does_not():
    assert flicker.stroboscopic_visibility(swing(40, 1.0), 50.0) == pytest.approx(1.0, rel=2e-3)
    assert flicker.stroboscopic_visibility(swing(41, 1.0), 50.0) == pytest.approx(0, abs=1e-9)
    assert flicker.stroboscopic_visibility(swing(1, 1.0), 2500.0) == 0


def test_the_threshold_is_least_near_100_hz_and_full_depth_at_2_khz():
    """Shape of the curve of CIE TN 006:2016, from memory: the effect is seen best somewhat below and about 100 Hz."""
    frequencies = np.arange(20.0, 2001.0)
    threshold = flicker.visibility_threshold(frequencies)
    assert 70 < frequencies[threshold.argmin()] < 100
    assert threshold[-1] == pytest.approx(1, abs=2e-3)
    assert (np.diff(threshold[100:]) > 0).all()


def test_brightness_and_shift_do_not_matter():
    light = square(0.3, 0.2)
    as_is = flicker.stroboscopic_visibility(light, 50.0)
    assert flicker.stroboscopic_visibility(7e-3 * np.roll(light, 100), 50.0) == pytest.approx(as_is, rel=1e-9)


def test_many_waveforms_at_once_agree_with_each_alone():
    lights = np.array([[square(d, b) for d in (0.2, 0.5, 0.9)] for b in (0.0, 0.5)])
    found = flicker.stroboscopic_visibility(lights, 60.0)
    assert found.shape == (2, 3)
    for i in range(2):
        for k in range(3):
            assert found[i, k] == pytest.approx(flicker.stroboscopic_visibility(lights[i, k], 60.0), rel=1e-12)
    frequencies, amplitudes = flicker.light_harmonics(lights, 60.0)
    assert frequencies.shape == (33,) and amplitudes.shape == (2, 3, 33)


def test_no_light_has_no_measure_and_steady_light_none_to_see():
    assert math.isnan(flicker.stroboscopic_visibility(np.zeros(128), 50.0))
    both = flicker.stroboscopic_visibility(np.array([np.zeros(128), np.ones(128)]), 50.0)
    assert math.isnan(both[0]) and both[1] == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("frequency", [0, -50, math.nan, math.inf])
def test_a_frequency_that_cannot_be_is_refused_in_words(frequency):
    with pytest.raises(ValueError, match=r"frequency: .* above 0 Hz"):
        flicker.stroboscopic_visibility(np.ones(128), frequency)


def test_too_few_points_are_refused_with_the_number_that_would_do():
    with pytest.raises(ValueError, match="80 points in a period of 50 Hz do not reach 2000 Hz; 82 or more do"):
        flicker.stroboscopic_visibility(np.ones(80), 50.0)
    with pytest.raises(ValueError, match="above 0 Hz"):
        flicker.visibility_threshold([100.0, 0.0])


def test_a_lamp_that_is_smoothed_well_is_seen_less():
    lamp = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
    coarse, fine = steady_state(lamp, 128), steady_state(lamp)
    seen = flicker.stroboscopic_visibility(fine.string_current, 50.0)
    assert seen == pytest.approx(flicker.stroboscopic_visibility(coarse.string_current, 50.0), rel=0.02)
    frequencies, amplitudes = flicker.light_harmonics(fine.string_current, 50.0)
    assert frequencies[amplitudes.argmax()] == 100, "a bridge makes the light waver at twice the mains frequency"
    assert 0 < seen < flicker.stroboscopic_visibility(RECTIFIED, 50.0)
