"""Flicker of a swing against quadrature of its definition, and against the solver's waveforms."""

import dataclasses
import math
from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp, steady_state, theory
from dropper.results import explain
from scipy.integrate import quad

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
SWINGS = [0.0, 0.03, 0.27, 0.8, 1.0]


def flicker_index(light, period):
    """By its definition in words: the area above the mean over the whole area of one cycle."""
    whole = quad(light, 0, period, epsabs=0)[0]
    mean = whole / period
    points = np.linspace(0, period, 13)
    above = quad(lambda x: max(light(x) - mean, 0.0), 0, period, points=points, limit=400, epsabs=1e-10)[0]
    return above / whole


@pytest.mark.parametrize("swing", SWINGS)
def test_a_sine_swing(swing):
    def light(angle):
        return 0.014 * (1 + swing * math.sin(angle))

    angles = np.linspace(0, 2 * math.pi, 4001)
    samples = [light(angle) for angle in angles]
    values = {"string_current_mean": 0.014, "current_modulation": swing}
    highest, lowest = theory.string_current_max_of_swing(**values), theory.string_current_min_of_swing(**values)
    assert highest == pytest.approx(max(samples), rel=1e-12)
    assert lowest == pytest.approx(min(samples), rel=1e-12, abs=1e-15)
    percent = theory.percent_flicker(string_current_max=highest, string_current_min=lowest)
    assert percent == pytest.approx(theory.percent_flicker_of_swing(current_modulation=swing), rel=1e-9, abs=1e-12)
    found = theory.flicker_index_of_swing(current_modulation=swing)
    assert found == pytest.approx(flicker_index(light, 2 * math.pi), rel=1e-7, abs=1e-9)
    ripple = theory.bus_ripple_of_swing(**values, string_resistance=180.0)
    assert ripple == pytest.approx(180.0 * (max(samples) - min(samples)), rel=1e-9, abs=1e-15)


def test_a_rectified_sine():
    found = theory.flicker_index_of_rectified_sine()
    assert found == pytest.approx(flicker_index(math.sin, math.pi), rel=1e-7)


def test_a_swing_below_nothing_is_refused():
    with pytest.raises(ValueError, match="current_modulation is at most 1.*cannot fall below nothing"):
        theory.percent_flicker_of_swing(current_modulation=1.01)
    with pytest.raises(ValueError, match="the least current cannot be above the greatest"):
        theory.percent_flicker(string_current_max=0.01, string_current_min=0.02)


@pytest.mark.parametrize(("asked", "reason"), [(0.0, "nothing swings"), (1.6, "no more than that without any")])
def test_a_swing_that_no_capacitor_gives_is_refused(asked, reason):
    with pytest.raises(ValueError, match=reason):
        theory.smoothing_for_modulation(
            frequency=50.0, clamped_fraction=0.4, string_resistance=180.0, current_modulation=asked
        )


@pytest.mark.parametrize("name", ["stair_marker", "shelf_strip", "display_case"])
@pytest.mark.parametrize("wanted", [0.3, 0.1, 0.03])
def test_smoothing_sized_for_a_swing(name, wanted):
    """The demo lamps without inrush resistor and bleeders, smoothed as the formula says, run by the solver.

    Flicker index within 5 %: faster swings hardly add area, and the string's curve bends a little. Percent flicker
    within 15 %: faster swings, some tenths of the slow one before smoothing, lower the darkest instant. Ripple within
    4 % of what belongs to the swing: the string's curve is taken as straight.
    """
    lamp = dataclasses.replace(
        Lamp.from_toml(LAMPS / f"{name}.toml"), inrush_resistor=0.0, bleeder=None, smoothing_bleeder=None
    )
    for _ in range(4):  # the clamped voltage depends a little on the ripple
        values = explain.values_for(theory.current_modulation, lamp, steady_state(lamp))
        del values["smoothing"]
        sized = theory.smoothing_for_modulation(**values, current_modulation=wanted)
        lamp = dataclasses.replace(lamp, smoothing=sized)
    assert theory.current_modulation(**values, smoothing=sized) == pytest.approx(wanted, rel=1e-9)
    result = steady_state(lamp)
    index = theory.flicker_index_of_swing(current_modulation=wanted)
    assert result.flicker_index == pytest.approx(index, rel=0.05)
    assert result.percent_flicker == pytest.approx(100 * wanted, rel=0.15)
    ripple = theory.bus_ripple_of_swing(
        string_current_mean=result.string_current_mean,
        current_modulation=result.percent_flicker / 100,
        string_resistance=values["string_resistance"],
    )
    assert result.bus_ripple == pytest.approx(ripple, rel=0.04)
