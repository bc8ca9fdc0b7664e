"""A resistor in place of the dropper, against quadrature of its current."""

import math

import numpy as np
import pytest
from dropper import theory
from scipy.integrate import quad

PEAK = math.sqrt(2) * 230
FRACTIONS = [0.0, 0.05, 0.3, 0.5, 0.8, 0.97]


def half_cycle_mean(waveform, clamped):
    """Mean over half a cycle of something that is nothing outside conduction."""
    start = math.asin(clamped / PEAK)
    return quad(waveform, start, math.pi - start, epsabs=0, epsrel=1e-11)[0] / math.pi


@pytest.mark.parametrize("fraction", FRACTIONS)
def test_against_quadrature(fraction):
    resistor, clamped = 8200.0, fraction * PEAK
    voltages = {"peak_voltage": PEAK, "clamped_voltage": clamped}

    def current(angle):
        return (PEAK * math.sin(angle) - clamped) / resistor

    mean = half_cycle_mean(current, clamped)
    # near the peak both terms of the closed form are nearly equal: some digits go
    assert theory.resistor_fed_current(**voltages, dropping_resistor=resistor) == pytest.approx(mean, rel=1e-9)
    found = theory.dropping_resistor_for_current(**voltages, string_current_mean=mean)
    assert found == pytest.approx(resistor, rel=1e-9)
    heat = half_cycle_mean(lambda angle: resistor * current(angle) ** 2, clamped)
    assert theory.dropping_resistor_heat(**voltages, string_current_mean=mean) == pytest.approx(heat, rel=1e-8)


def test_energy_is_kept():
    """What the mains gives is what the resistor burns and what the bridge takes."""
    clamped, mean = 0.4 * PEAK, 0.015
    voltages = {"peak_voltage": PEAK, "clamped_voltage": clamped}
    resistor = theory.dropping_resistor_for_current(**voltages, string_current_mean=mean)
    given = half_cycle_mean(
        lambda angle: PEAK * math.sin(angle) * (PEAK * math.sin(angle) - clamped) / resistor, clamped
    )
    burnt = theory.dropping_resistor_heat(**voltages, string_current_mean=mean)
    assert burnt + clamped * mean == pytest.approx(given, rel=1e-9)


def test_nothing_clamped_is_the_rectified_sine():
    """Mean 2 Vp / (pi R) and heat V squared over R, as in any textbook (from memory)."""
    found = theory.resistor_fed_current(peak_voltage=PEAK, clamped_voltage=0.0, dropping_resistor=1e4)
    assert found == pytest.approx(2 * PEAK / (math.pi * 1e4), rel=1e-12)
    heat = theory.dropping_resistor_heat(peak_voltage=PEAK, clamped_voltage=0.0, string_current_mean=found)
    assert heat == pytest.approx(230**2 / 1e4, rel=1e-12)


def test_the_current_falls_all_the_way():
    clamped = np.linspace(0, 0.99, 100) * PEAK
    current = theory.resistor_fed_current(peak_voltage=PEAK, clamped_voltage=clamped, dropping_resistor=1e4)
    assert np.all(np.diff(current) < 0) and np.all(np.diff(current, 2) > 0), "it falls, and ever more slowly"


def test_no_current_needs_no_resistor():
    with pytest.raises(ValueError, match="no resistor is so large"):
        theory.dropping_resistor_for_current(peak_voltage=PEAK, clamped_voltage=70.0, string_current_mean=0.0)
