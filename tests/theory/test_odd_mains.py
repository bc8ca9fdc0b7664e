"""Waves that are no sine, by formula and as the mains makes them."""

import numpy as np
import pytest
from dropper import Mains, theory
from dropper.circuit.mains_shapes import PhaseCut, SteppedWave

TIME = np.arange(20000) / 20000 / 50
EDGE = 1e-6


@pytest.mark.parametrize("dwell", [0.5, 2 / 3, 0.8])
def test_harmonics_of_three_levels(dwell):
    """4 V/(n·π)·sin(n·π·dwell/2) for odd n, none for even n; at a dwell of 2/3 no third.

    Fourier series of the quasi-square wave, any textbook of power electronics; from memory.
    """
    wave = Mains(230, 50, shape=SteppedWave(dwell=dwell, edge=EDGE)).at(TIME)
    found = 2 * np.abs(np.fft.rfft(wave))[:16] / TIME.size
    top = theory.top_voltage(voltage=230, dwell=dwell)
    for n in range(1, 16):
        wanted = abs(4 * top / (n * np.pi) * np.sin(n * np.pi * dwell / 2)) if n % 2 else 0.0
        assert found[n] == pytest.approx(wanted, abs=0.2), n


@pytest.mark.parametrize(("angle", "share"), [(60, 0.897), (90, 0.707), (120, 0.442)])
def test_rms_volts_behind_a_dimmer(angle, share):
    """sqrt(1 - a/π + sin(2a)/(2π)), worked out by hand; a standard result of phase control, from memory."""
    cut = theory.cut_voltage(voltage=230, cut_angle=np.radians(angle))
    assert cut / 230 == pytest.approx(share, abs=1e-3)
    for which in ("leading", "trailing"):
        assert Mains(230, 50, shape=PhaseCut(angle, which, EDGE)).rms == pytest.approx(cut, rel=2e-3), which
