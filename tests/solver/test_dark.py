"""Lamps that the mains does not light, and lamps from anywhere: settled, with heat that is their power."""

from dataclasses import fields
from types import SimpleNamespace

import draws
import numpy as np
import pytest
from dropper import Lamp, Led, LedString, Mains, spread, steady_state, steady_states
from lamps_at_random import lamps_from_anywhere, one_lamp
from reference import periodic_orbit, readings, reference
from test_steady import real

TINY = Lamp(
    mains=Mains(72.0, 455.0, {2: (0.5, 57.0)}), string=LedString(Led(4.0, 0.020), 37), dropper=100e-12, smoothing=10e-6
)

OUT_OF_REACH = Lamp(mains=Mains(120, 60), string=LedString(Led(3.1, 0.02), 80), dropper=330e-9, smoothing=10e-6)


def lamps_of_a_bench(count, seed):
    """Lamps of the usual parts, lit or not."""
    rng = np.random.default_rng(seed)
    return [real(one_lamp(rng, f"lamp {seed}-{number}")) for number in range(count)]


@pytest.mark.parametrize("source", [lamps_of_a_bench, lamps_from_anywhere], ids=lambda source: source.__name__)
def test_every_lamp_settles_and_its_heat_is_its_power_to_a_millionth_of_its_apparent_power(source):
    """With --draws=anew these are ten thousand lamps of each kind."""
    result = steady_states(source(draws.examples(1000), draws.seed(4)))
    assert result.settled.all(), f"not settled: {np.flatnonzero(~result.settled)}"
    gap = np.abs(sum(result.heat.values()) - result.real_power)
    bound = 1e-6 * result.apparent_power + 1e-15  # W: of a lamp through which nothing flows at all
    assert (gap <= bound).all(), f"gaps {gap[gap > bound]} W in lamps {np.flatnonzero(gap > bound)}"
    assert (result.real_power >= -bound).all()


def dark_without_bleeder(count, seed):
    """Lamps as the witness wants them: dark, smoothed, and with nothing across the bus that would take a current."""
    rng = np.random.default_rng(seed)
    while count:
        drawn = one_lamp(rng, f"dark lamp {seed}-{count}")
        drawn.smoothing_bleeder = None
        drawn.smoothing = drawn.smoothing or 1e-6
        if steady_state(real(drawn), 128).dark:
            count -= 1
            yield drawn


@pytest.mark.slow
@pytest.mark.parametrize(
    "drawn", list(dark_without_bleeder(draws.examples(8), draws.seed(40))), ids=lambda lamp: lamp.name
)
def test_a_dark_lamp_takes_what_its_junctions_let_through(drawn):
    """Against the smooth laws, which know the diodes' reverse current: SciPy's Radau, tests/solver/reference.py.

    2 %: where the pulses are nanoamperes, the reverse current that is missing beneath them is some hundredth.
    """
    orbit = periodic_orbit(drawn)
    if not orbit.converged:
        pytest.skip("the witness itself did not settle")
    witness, lamp = readings(orbit), real(drawn)
    bound = 0.02
    for points in (1024, 128):
        result = steady_state(lamp, points)
        assert result.settled and result.dark
        for name in ("real_power", "line_current_rms", "string_current_mean", "bus_voltage_mean"):
            assert getattr(result, name) == pytest.approx(witness[name], rel=bound), (name, points)
        for part, watts in witness["heat"].items():
            assert result.heat[part] == pytest.approx(watts, abs=bound * witness["real_power"]), (part, points)


def test_a_dropper_of_picofarads_before_a_string_out_of_reach():
    """What settles to microwatts: against the same witness."""
    witness = reference(SimpleNamespace(**{field.name: getattr(TINY, field.name) for field in fields(TINY)}))
    for points in (128, 1024):
        result = steady_state(TINY, points)
        assert result.settled and result.dark
        assert sum(result.heat.values()) == pytest.approx(result.real_power, abs=1e-6 * result.apparent_power)
        assert result.real_power == pytest.approx(witness["real_power"], rel=0.02), points


def test_a_dark_lamp_gives_no_ratio_of_what_merely_leaks():
    result = steady_state(OUT_OF_REACH)
    ratios = ("power_factor", "displacement_factor", "current_thd", "percent_flicker", "flicker_index")
    assert all(np.isnan(getattr(result, name)) for name in ratios)
    assert "dark, line under 1 µA, under 0.1 mW: no more than parts leak" in repr(result)
    assert "<td>under 0.1 mW</td>" in result._repr_html_()


def test_the_bus_of_a_dark_lamp_rises_until_only_leakage_flows():
    """To the crest of the mains, less what the diodes need for the leakage: no more than a volt for two of them."""
    result = steady_state(OUT_OF_REACH)
    assert 120 * 2**0.5 - 1 < result.bus_voltage_mean < 120 * 2**0.5
    leakage = 2 * OUT_OF_REACH.diode.saturation_current  # of the two diodes that block
    assert result.heat["diodes"] >= 0.99 * leakage * result.bus_voltage_mean


def test_a_string_fades_into_the_dark_without_a_jump():
    """The pass for dark lamps takes over where the usual one ends: the line current falls all the way."""
    lamps = spread(
        Lamp(mains=Mains(120, 60), string=LedString(Led(3.1, 0.02), 30), dropper=330e-9, smoothing=1e-6),
        {"string.led.forward_voltage": np.linspace(5.0, 6.6, 41)},
    )
    current = steady_states(lamps, 512).line_current_rms
    steps = current[1:] / current[:-1]
    assert (steps < 1).all() and (steps[1:] / steps[:-1] > 0.5).all(), steps
