"""The mains as data: its shapes against closed forms, in lamp files, and refused in words."""

import math

import numpy as np
import pytest
from dropper import Lamp, LampFileError, Mains
from dropper.circuit.mains_shapes import FlatTop, Generator, PhaseCut, Recording, SteppedWave

SINE = tuple(np.sin(2 * np.pi * np.arange(256) / 256))
SHAPES = (
    SteppedWave(),
    SteppedWave(levels=3, dwell=0.3, edge=20e-6),
    PhaseCut(90),
    PhaseCut(45, "trailing"),
    FlatTop(0.95),
    Generator(),
    Recording(SINE, "bench scope"),
)
BY_WORDS = [pytest.param(shape, id=shape.words) for shape in SHAPES]
STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")


def period(mains, points=400_000):
    """Voltages in the middle of even intervals of one period."""
    return mains.at((np.arange(points) + 0.5) / points / mains.frequency)


@pytest.mark.parametrize("shape", BY_WORDS)
def test_a_shape_has_no_jump_repeats_and_has_the_rms_and_peak_that_it_states(shape):
    mains = Mains(230, 50, shape=shape)
    volts = period(mains)
    assert mains.rms == pytest.approx(np.sqrt(np.mean(volts**2)), rel=1e-5)
    assert mains.peak == pytest.approx(np.abs(volts).max(), rel=1e-4)
    assert np.abs(np.diff(volts, append=volts[0])).max() < 0.02 * mains.peak, "a jump: an edge takes at least 20 µs"
    assert mains.at(0.0273) == pytest.approx(mains.at(0.0073))
    if mains.half_wave_symmetric:
        assert volts[: volts.size // 2] == pytest.approx(-volts[volts.size // 2 :], abs=1e-6)


def test_rms_of_a_phase_cut_sine_is_the_closed_form():
    """V·√(1 - a/π + sin(2a)/(2π)): any textbook of power electronics, phase control of a resistive load; from memory."""
    for angle in (30, 90, 150):
        a = math.radians(angle)
        wanted = 230 * math.sqrt(1 - a / math.pi + math.sin(2 * a) / (2 * math.pi))
        for cut in ("leading", "trailing"):
            assert Mains(230, 50, shape=PhaseCut(angle, cut, 1e-6)).rms == pytest.approx(wanted, rel=1e-3), (angle, cut)


def test_a_three_level_wave_has_the_harmonics_of_its_fourier_series():
    """Amplitude of order n: 4·peak/(nπ)·sin(n·dwell·π/2), odd orders: Fourier series of a quasi-square wave, from memory."""
    shape = SteppedWave(dwell=2 / 3, edge=1e-6)
    mains = Mains(230, 50, shape=shape)
    lines = 2 * np.abs(np.fft.rfft(period(mains, 2**17))) / 2**17
    for order in (1, 3, 5, 7, 9, 11):
        wanted = abs(4 * mains.peak / (order * math.pi) * math.sin(order * shape.dwell * math.pi / 2))
        assert lines[order] == pytest.approx(wanted, abs=0.01 * mains.peak / order), order
    assert mains.peak == pytest.approx(230 / math.sqrt(2 / 3), rel=1e-3)


@pytest.mark.parametrize("shape", BY_WORDS)
def test_a_lamp_file_keeps_the_shape(shape):
    lamp = STAIR.replace(mains=Mains(230, 50, shape=shape))
    assert Lamp.from_toml_text(lamp.to_toml_text()) == lamp


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ('kind = "square"', "'stepped wave', 'phase cut', 'flat top', 'generator', 'recording'"),
        ('kind = "stepped wave"\nedge = "5 ms"', "edge: 5 ms is out of range"),
        ('kind = "stepped wave"\nlevels = 20\nedge = "1 ms"', "longer than a step of 20 levels at 50 Hz"),
        ('kind = "phase cut"\nangle = "200°"', "angle: 200° is out of range"),
        ('kind = "phase cut"\ncut = "middle"', "neither 'leading' nor 'trailing'"),
        ('kind = "phase cut"\nangle = 175\nedge = "1 ms"', "leaves nothing of a half period"),
        ('kind = "recording"\nsamples = [1, 2]', "2 of them; it takes 16 to 2000"),
        ('kind = "flat top"\nclip = 2', "clip: 2 is out of range"),
    ],
)
def test_what_no_mains_does_is_refused_by_its_field(table, said):
    text = STAIR.to_toml_text() + f"\n[mains.shape]\n{table}\n"
    with pytest.raises(LampFileError) as refused:
        Lamp.from_toml_text(text)
    assert said in str(refused.value)


def test_harmonics_go_with_a_sine_alone():
    with pytest.raises(ValueError, match="not with a phase cut"):
        Mains(230, 50, {3: (0.05, 0.0)}, PhaseCut())


def test_a_generator_drifts_to_four_corners():
    corners = Mains(230, 50, shape=Generator(0.1, 0.04)).extremes()
    assert {(round(mains.voltage), round(mains.frequency)) for mains in corners} == {
        (207, 48),
        (207, 52),
        (253, 48),
        (253, 52),
    }
