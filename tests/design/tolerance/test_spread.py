"""What a lamp's parts and its mains may be: bands of the standards, kinds of LEDs, letters, age."""

import math

import pytest
from dropper import Lamp, replace_at, standards
from dropper.components import kinds
from dropper.design.tolerance import FLAT, LETTERS, TRIANGLE, Spread
from scipy import stats

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
SHELF = Lamp.from_toml("notebooks/lamps/shelf_strip.toml")


def axes(lamp, spread):
    return {axis.key: axis for axis in spread.axes(lamp)}


@pytest.mark.parametrize(
    ("place", "nominal", "low", "high", "frequency"),
    [
        ("Europe", 230, 207, 253, 50),  # EN 50160, 95 % of 10-minute means; IEC 60038:2009
        ("Europe, all means", 230, 195.5, 253, 50),  # EN 50160, +10/−15 %
        ("United Kingdom", 230, 216.2, 253, 50),  # supply regulations, +10/−6 %
        ("United States", 120, 114, 126, 60),  # ANSI C84.1-2020, range A, service; value from memory
        ("Japan, west", 100, 95, 107, 60),  # Electricity Business Act Enforcement Regulation, Article 38
        ("Brazil, 127 V", 127, 117, 133, 60),  # PRODIST module 8; value from memory
        ("China", 220, 198, 235.4, 50),  # GB/T 12325, +7/−10 %; value from memory
        ("Korea", 220, 198, 242, 60),  # no band kept: ±10 %, typical practice, no source
    ],
)
def test_mains_are_those_of_the_place(place, nominal, low, high, frequency):
    spread = Spread.of(STAIR, standards.supply(place))
    centre = spread.centre(STAIR)
    assert (centre.mains.voltage, centre.mains.frequency) == (nominal, frequency)
    mains = axes(STAIR, spread)["mains"]
    assert mains.low * nominal == pytest.approx(low) and mains.high * nominal == pytest.approx(high)
    assert f"{place}:" in spread.words and mains.at(mains.high).startswith("mains ")


def test_a_lamp_brings_its_own_mains_and_a_kind_of_leds_that_is_near():
    stair, shelf = Spread.of(STAIR), Spread.of(SHELF)
    assert (stair.place, shelf.place) == ("Europe", "United States")
    assert (stair.led_below, stair.led_above) == pytest.approx((1 - 2.6 / 3.0, 3.4 / 3.0 - 1))  # warm white, read
    assert (shelf.led_below, shelf.led_above) == pytest.approx((1 - 2.6 / 2.8, 3.1 / 2.8 - 1))  # 0.2 W, read
    odd = replace_at(replace_at(STAIR, "string.led.ideality", 12.0), "string.led.forward_voltage", 20.0)
    assert Spread.of(odd).led_above == 0.10 and dict(Spread.of(odd).sources)["LEDs"].endswith("no source")
    twin = Spread.of(Lamp.from_toml("notebooks/lamps/classroom_twin.toml"))
    assert (twin.voltage, twin.voltage_high, twin.place) == (24.0, pytest.approx(26.4), "the lamp's own mains")
    chosen = Spread.of(STAIR, led_kind=kinds.led_kind("red, 5 mm"))
    assert chosen.led_above == pytest.approx(2.4 / 2.0 - 1)
    assert all(source for _, source in stair.sources) and len(stair.sources) == 7


def test_letters_are_those_of_the_standard():
    """IEC 60062, value from memory."""
    assert LETTERS == {"J": 0.05, "K": 0.10, "M": 0.20}


def test_years_fade_the_dropper_and_nothing_else():
    old = Spread.of(STAIR, years=10.0).centre(STAIR)
    assert old.dropper == pytest.approx(STAIR.dropper * 0.97**10)
    assert replace_at(old, "dropper", STAIR.dropper) == STAIR


def test_parts_that_are_not_fitted_have_no_axis():
    bare = replace_at(replace_at(STAIR, "smoothing", 0.0), "smoothing_bleeder", None)
    for path, value in (("bleeder", None), ("inrush_resistor", 0.0), ("series_resistor", 0.0)):
        bare = replace_at(bare, path, value)
    assert set(axes(bare, Spread.of(bare))) == {"mains", "dropper", "led", "frequency"}
    assert len(axes(STAIR, Spread.of(STAIR))) == 6


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"dropper": 0.6}, r"Spread.dropper: 0.6 is out of range; allowed is 0 to 0.5"),
        ({"voltage_low": 240.0}, r"Spread.voltage: 240 V, 230 V, 253 V are not least, nominal and greatest"),
        ({"frequency_high": 49.0}, r"Spread.frequency: 49.5 Hz, 50 Hz, 49 Hz are not least"),
        ({"years": -1}, r"Spread.years: -1 is out of range"),
    ],
)
def test_what_cannot_be_is_said(change, says):
    import dataclasses

    with pytest.raises(ValueError, match=says):
        dataclasses.replace(Spread.of(STAIR), **change)


def test_drawn_values_are_shaped_as_stated():
    """SciPy's own uniform and triangular distributions, by Kolmogorov and Smirnov; a seed that fails one in 100 is kept out."""
    import numpy as np

    spread = Spread.of(STAIR, standards.supply("United Kingdom"))
    for axis in spread.axes(STAIR):
        drawn = axis.draw(np.random.default_rng(4), 20_000)
        width = axis.high - axis.low
        law = stats.uniform(axis.low, width)
        if axis.shape == TRIANGLE:
            law = stats.triang((1 - axis.low) / width, axis.low, width)
        assert (axis.shape == FLAT) == (axis.key in ("dropper", "smoothing", "resistors"))
        assert stats.kstest(drawn, law.cdf).pvalue > 0.01, axis.key
        assert axis.deviation == pytest.approx(law.std(), rel=1e-9)
        assert drawn.min() >= axis.low and drawn.max() <= axis.high


def test_standard_uncertainties_are_those_of_the_guide():
    """JCGM 100:2008 (GUM), from memory: 4.3.7, bounds of 0.40 give 0.23; 4.3.9, a triangle gives a over the root of 6."""
    from dropper import theory

    assert theory.flat_deviation(tolerance=0.40) == pytest.approx(0.23, abs=0.005)
    assert theory.triangle_deviation(share_below=0.40, share_above=0.40) == pytest.approx(0.40 / math.sqrt(6))
