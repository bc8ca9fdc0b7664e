"""Sharing against equations of its own solved by bisection, against closed forms, and against a handbook's LED."""

import itertools
import math

import numpy as np
import pytest
from draws import examples
from dropper import Led, theory
from dropper.components import kinds
from dropper.solver.sharing import COLD, Branch, Warmth, share, spread
from dropper.solver.sharing.law import Laws
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

WHITE = Led(3.1, 0.020, 9.0, 2.0)
RED = Led(2.0, 0.020, 6.0, 2.0)
BARE = Led(3.1, 0.020, 0.0, 2.0)
VT = 0.025852  # V at 300 K


def volts(led, current):
    """The junction law written down once more, from the data sheet's point."""
    slope = led.ideality * VT
    saturation = led.at_current / math.expm1((led.forward_voltage - led.series_resistance * led.at_current) / slope)
    return slope * math.log1p(current / saturation) + led.series_resistance * current


def witness(branches, total):
    """Currents of branches (LEDs, resistor), each found by bisection inside a bisection for the common voltage."""

    def one(branch, voltage):
        leds, resistor = branch
        return brentq(
            lambda i: sum(volts(led, i) for led in leds) + resistor * i - voltage,
            0,
            1.001 * total,
            xtol=1e-17,
            rtol=1e-14,
        )

    def excess(voltage):
        return sum(one(branch, voltage) for branch in branches) - total

    alone = min(sum(volts(led, total) for led in leds) + resistor * total for leds, resistor in branches)
    found = brentq(excess, 0, alone * (1 + 1e-9), xtol=1e-15, rtol=1e-14)
    return found, [one(branch, found) for branch in branches]


leds = st.builds(
    Led, st.floats(1.7, 3.6), st.sampled_from([0.002, 0.02, 0.15]), st.floats(0.05, 6.0), st.floats(1.0, 2.5)
)
branches_of_any_kind = st.lists(
    st.tuples(st.lists(leds, min_size=1, max_size=4), st.sampled_from([0.0, 4.7, 100.0, 1000.0])),
    min_size=1,
    max_size=5,
)


@settings(max_examples=examples(20))
@given(branches_of_any_kind, st.floats(1e-4, 0.1))
def test_any_branches_share_as_bisection_finds(drawn, total):
    """Unlike LEDs in one branch become one law far above their saturation currents, which here reach 0.1 nA."""
    found = share([Branch(tuple(inner), ohms) for inner, ohms in drawn], total)
    voltage, currents = witness(drawn, total)
    assert found.voltage == pytest.approx(voltage, rel=1e-7)
    np.testing.assert_allclose(found.currents, currents, rtol=1e-6, atol=1e-9)
    assert math.fsum(found.currents) == pytest.approx(total, rel=1e-11)


@settings(max_examples=examples(30))
@given(st.lists(st.floats(1.5, 4.0), min_size=2, max_size=6), st.floats(1e-6, 1.0), st.just(0.0) | st.floats(1e-9, 50))
def test_who_drops_less_takes_more_and_order_does_not_matter(forward, total, ohms):
    made = [Branch.of(Led(each, 0.020, 0.0, 2.0), 1, ohms) for each in forward]
    found = share(made, total)
    back = share(made[::-1], total)
    np.testing.assert_allclose(found.currents, back.currents[::-1], rtol=1e-9, atol=1e-18)
    ordered = [current for _, current in sorted(zip(forward, found.currents, strict=True))]
    assert all(a >= b * (1 - 1e-9) for a, b in itertools.pairwise(ordered))
    for branch, current in zip(made, found.currents, strict=True):
        if current > 1e-12:
            assert branch.voltage_at(current) == pytest.approx(found.voltage, rel=1e-9)


def test_a_handbooks_led_behind_a_resistor():
    """9 V, an LED of 2 V, 470 Ω: 14.9 mA (Malvino and Bates, Electronic Principles, 7th edition, example 5-13).

    Half a unit of the last digit; the book's LED keeps 2 V at any current, ours has them at that current.
    """
    slope, log_saturation, ohms = Branch.of(Led(2.0, 0.0149, 0.0, 1.0), 1, 470.0).law()
    current = Laws(*(np.array([part]) for part in (slope, log_saturation, ohms))).current(9.0)
    assert current[0] == pytest.approx(14.9e-3, abs=0.05e-3)


@pytest.mark.parametrize("apart", [0.01, 0.05, 0.2, 1.1])
def test_two_leds_without_resistance_split_by_the_closed_form(apart):
    lower = Led(3.1 - apart, 0.020, 0.0, 2.0)
    found = share([Branch.of(lower), Branch.of(BARE)], 0.012)
    formula = theory.current_share(forward_voltage_difference=apart, ideality=2.0, thermal_voltage=VT)
    assert found.shares[0] == pytest.approx(formula, rel=1e-9)


@pytest.mark.parametrize(("in_series", "ohms"), [(1, 0.0), (1, 47.0), (5, 100.0), (20, 0.0)])
def test_small_differences_and_the_resistor_against_them_follow_straight_lines(in_series, ohms):
    """5 mV over tens of ohms: the curve's bend costs below 1 %."""
    even = 0.008
    apart = 5e-3 * in_series
    lower = Branch.of(Led(3.1 - 5e-3, 0.020, 9.0, 2.0), in_series, ohms)
    found = share([lower, Branch.of(WHITE, in_series, ohms)], 2 * even)
    led = theory.dynamic_resistance(ideality=2.0, thermal_voltage=VT, junction_current=even, series_resistance=9.0)
    slope = theory.branch_resistance(
        in_series=in_series,
        dynamic_resistance=led,
        branch_resistor=ohms,
        forward_voltage=3.1,
        junctions=1,
        voltage_coefficient=0.0,
        thermal_resistance=0.0,
    )
    difference = theory.current_difference(forward_voltage_difference=apart, dynamic_resistance=slope)
    assert found.currents[0] - found.currents[1] == pytest.approx(difference, rel=0.01)


@pytest.mark.parametrize("imbalance", [0.05, 0.1, 0.2])
def test_the_resistor_for_an_imbalance_keeps_it(imbalance):
    even = 0.010
    led = theory.dynamic_resistance(ideality=2.0, thermal_voltage=VT, junction_current=even, series_resistance=9.0)
    ohms = theory.branch_resistor_for_imbalance(
        forward_voltage_difference=0.1, imbalance=imbalance, junction_current=even, dynamic_resistance=led
    )
    found = share([Branch.of(Led(3.0, 0.020, 9.0, 2.0), 1, ohms), Branch.of(WHITE, 1, ohms)], 2 * even)
    assert (found.currents[0] - found.currents[1]) / even == pytest.approx(imbalance, rel=0.01)


def test_where_the_leds_own_slope_is_enough_no_resistor_is_reckoned():
    with pytest.raises(ValueError, match="own slope keeps them closer"):
        theory.branch_resistor_for_imbalance(
            forward_voltage_difference=0.01, imbalance=0.5, junction_current=0.01, dynamic_resistance=14.0
        )


@pytest.mark.parametrize("opened", [0, 1, 2])
def test_those_that_are_left_take_over(opened):
    made = [Branch((WHITE,), open=place < opened) for place in range(3)]
    found = share(made, 0.030)
    each = theory.shared_current(string_current_mean=0.030, in_parallel=3, opened=opened)
    assert found.currents[:opened] == (0.0,) * opened
    np.testing.assert_allclose(found.currents[opened:], each, rtol=1e-10)
    assert found.hottest == pytest.approx(3 / (3 - opened), rel=1e-10)
    with pytest.raises(ValueError, match="one LED at least must be left"):
        theory.shared_current(string_current_mean=0.030, in_parallel=3, opened=3)


def test_a_short_led_in_a_group_takes_all_and_one_in_a_long_branch_takes_more():
    assert share([Branch(()), Branch.of(WHITE)], 0.02).currents == (0.02, 0.0)
    assert share([Branch(()), Branch(()), Branch.of(WHITE)], 0.02).currents == (0.01, 0.01, 0.0)
    found = share([Branch.of(WHITE, 9, 100.0), Branch.of(WHITE, 10, 100.0)], 0.02)
    assert 0.8 < found.shares[0] < 0.82, "one LED of ten short: its branch takes four fifths"
    with_wire = share([Branch((), 100.0), Branch.of(WHITE, 1, 100.0)], 0.02)
    assert with_wire.shares[0] > 0.99


def test_nothing_shared_is_nothing_each():
    found = share([Branch.of(WHITE), Branch.of(RED)], 0.0)
    assert found.voltage == 0 and found.currents == (0.0, 0.0) and found.shares == (0.5, 0.5)


def test_two_colours_in_series_add_and_side_by_side_the_lower_takes_all():
    assert Branch((WHITE, RED)).voltage_at(0.02) == pytest.approx(5.1, rel=1e-9)
    assert share([Branch.of(RED), Branch.of(WHITE)], 0.02).shares[0] > 0.9999


# many lamps at random


def slope_of(led, even, in_series=1, ohms=0.0):
    each = theory.dynamic_resistance(
        ideality=led.ideality, thermal_voltage=VT, junction_current=even, series_resistance=led.series_resistance
    )
    return in_series * each + ohms


@pytest.mark.parametrize(
    ("in_parallel", "in_series", "ohms"), [(2, 1, 0.0), (3, 1, 47.0), (6, 1, 0.0), (3, 12, 0.0), (4, 5, 100.0)]
)
def test_small_scatter_follows_the_closed_form(in_parallel, in_series, ohms):
    """2 mV: the bend of the curves costs below 1 %; 20 000 branches know a deviation to half a per cent."""
    even = 0.008
    found = spread(
        WHITE,
        sigma=2e-3,
        in_parallel=in_parallel,
        in_series=in_series,
        branch_resistor=ohms,
        total=even * in_parallel,
        count=20_000 // in_parallel,
        seed=4,
        arrangement="strings",
    )
    formula = theory.share_deviation(
        in_series=in_series,
        in_parallel=in_parallel,
        forward_voltage_deviation=2e-3,
        junction_current=even,
        branch_resistance=slope_of(WHITE, even, in_series, ohms),
    )
    assert found.deviation == pytest.approx(formula, rel=0.03)
    assert found.currents.mean() == pytest.approx(even, rel=1e-10)


def test_the_hotter_of_two_follows_the_mean_of_a_folded_normal():
    """Half of |x - y| with x, y normal: on average sigma over the root of pi (any textbook of statistics, from memory)."""
    even, sigma = 0.008, 2e-3
    found = spread(WHITE, sigma=sigma, in_parallel=2, total=2 * even, count=40_000, seed=1)
    assert found.hottest.mean() - 1 == pytest.approx(
        sigma / math.sqrt(math.pi) / slope_of(WHITE, even) / even, rel=0.02
    )


def test_each_lamp_of_a_spread_is_shared_as_one_alone():
    found = spread(WHITE, least=2.9, greatest=3.3, in_parallel=3, in_series=2, total=0.03, count=40, seed=7)
    forward = np.random.default_rng(7).uniform(2.9, 3.3, (40, 2, 3, 1))[..., 0]
    for lamp in (0, 11, 39):
        for group in (0, 1):
            made = [Branch.of(Led(volts, 0.020, 9.0, 2.0)) for volts in forward[lamp, group]]
            np.testing.assert_allclose(found.currents[lamp, group], share(made, 0.03).currents, rtol=1e-9)
    assert found.hottest == pytest.approx(found.currents.max(axis=(1, 2)) / 0.01, rel=1e-12)


def test_the_same_seed_draws_the_same_lamps_whatever_is_drawn_at_once(monkeypatch):
    from dropper.solver.sharing import scatter

    settings = {"sigma": 0.05, "in_parallel": 3, "in_series": 4, "total": 0.03, "count": 60}
    once = spread(WHITE, seed=5, **settings)
    monkeypatch.setattr(scatter, "_AT_ONCE", 100)
    again = spread(WHITE, seed=5, **settings)
    np.testing.assert_allclose(once.currents, again.currents, rtol=1e-11)
    assert (spread(WHITE, seed=6, **settings).hottest != once.hottest).any()


def test_whole_strings_side_by_side_share_better_than_groups():
    alike = {"sigma": 0.05, "in_parallel": 3, "in_series": 20, "total": 0.03, "count": 200}
    groups, strings = (spread(WHITE, arrangement=kind, **alike) for kind in ("groups", "strings"))
    assert groups.hottest.mean() > 1.5 > 1.2 > strings.hottest.mean() > 1


def test_a_kind_brings_its_own_least_and_greatest():
    kind = kinds.led_kind("warm white, 5 mm")
    found = spread(kind, in_parallel=2, total=0.02, count=100)
    bounds = spread(kind.led(), least=kind.least, greatest=kind.greatest, in_parallel=2, total=0.02, count=100)
    np.testing.assert_array_equal(found.hottest, bounds.hottest)
    assert "100 lamps drawn at random" in found.words


@pytest.mark.parametrize("last", [Branch((), open=True), Branch(()), Branch.of(RED), Branch((), 100.0)])
def test_a_last_branch_of_its_own_stands_in_every_lamp(last):
    found = spread(WHITE, sigma=0.03, in_parallel=3, total=0.03, count=20, last=last, seed=2)
    assert found.currents.shape == (20, 1, 3)
    np.testing.assert_allclose(found.currents.sum(axis=-1), 0.03, rtol=1e-10)
    if last.open:
        assert (found.currents[..., 2] == 0).all() and (found.hottest >= 1.5).all()
    else:
        assert (found.currents[..., 2] > 0.027).all(), "by far most, and beside 100 Ω not quite all"


# warmth


def test_warmth_is_the_fixed_point_of_heat_and_voltage():
    """Temperatures iterated by hand: each LED's voltage falls with its own watts, taken at its rated voltage."""
    warmth = Warmth(-3e-3, 250.0)
    forward = (3.0, 3.1)
    currents = [0.01, 0.01]
    for _ in range(200):
        warm = [volts - 3e-3 * 250.0 * volts * i for volts, i in zip(forward, currents, strict=True)]
        _, currents = witness([((Led(volts, 0.020, 9.0, 2.0),), 0.0) for volts in warm], 0.02)
    found = share([Branch.of(Led(volts, 0.020, 9.0, 2.0)) for volts in forward], 0.02, warmth)
    np.testing.assert_allclose(found.currents, currents, rtol=1e-6)
    cold = share([Branch.of(Led(volts, 0.020, 9.0, 2.0)) for volts in forward], 0.02)
    assert found.hottest > cold.hottest


def test_warmth_enlarges_a_small_difference_as_the_branch_resistance_says():
    warmth, even = Warmth(-3e-3, 250.0), 0.010
    found = share([Branch.of(Led(3.098, 0.020, 9.0, 2.0)), Branch.of(WHITE)], 2 * even, warmth)
    slope = theory.branch_resistance(
        in_series=1,
        dynamic_resistance=slope_of(WHITE, even),
        branch_resistor=0.0,
        forward_voltage=3.1,
        junctions=1,
        voltage_coefficient=-3e-3,
        thermal_resistance=250.0,
    )
    assert found.currents[0] - found.currents[1] == pytest.approx(2e-3 / slope, rel=0.02)


def test_warmth_that_takes_more_than_there_is_is_refused_with_its_ohms():
    with pytest.raises(ValueError, match=r"takes 2\.33 Ω from a branch that has 0 Ω.*Give each a resistor"):
        share([Branch.of(BARE)] * 2, 0.02, Warmth(-3e-3, 250.0))
    with pytest.raises(ValueError, match="draws more and more"):
        theory.branch_resistance(
            in_series=1,
            dynamic_resistance=2.0,
            branch_resistor=0.0,
            forward_voltage=3.1,
            junctions=1,
            voltage_coefficient=-3e-3,
            thermal_resistance=250.0,
        )
    assert COLD.taken_from(WHITE) == 0


# what is refused


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: share([], 0.02), "one at least"),
        (lambda: share([Branch((WHITE,), open=True)], 0.02), "one at least"),
        (lambda: share([Branch.of(WHITE)], -0.02), r"total: -20 mA is out of range"),
        (lambda: share([Branch.of(WHITE)], math.nan), "total: nan is not a finite number"),
        (lambda: Branch.of(WHITE, 1, -1.0), "Branch.resistor"),
        (lambda: Branch.of(WHITE, 2000), "2000 are too many"),
        (lambda: Warmth(2e-3, 100.0), "Warmth.coefficient"),
        (lambda: spread(WHITE, sigma=0.05, in_parallel=0, total=0.02), "in_parallel: 0 is out of range"),
        (lambda: spread(WHITE, sigma=0.05, in_parallel=2.5, total=0.02), "in_parallel: 2.5 is not whole"),
        (lambda: spread(WHITE, sigma=0.9, in_parallel=2, total=0.02), "scatter them less"),
        (lambda: spread(WHITE, in_parallel=2, total=0.02), "give that, or both least and greatest"),
        (lambda: spread(WHITE, sigma=0.1, least=3.0, in_parallel=2, total=0.02), "either that, or"),
        (lambda: spread(WHITE, least=3.3, greatest=3.0, in_parallel=2, total=0.02), "3.3 V is not below"),
        (lambda: spread(WHITE, sigma=0.1, in_parallel=2, total=0.02, arrangement="rings"), "choose groups or strings"),
        (lambda: spread(WHITE, sigma=0.1, in_parallel=2, in_series=3, total=0.02, last=Branch(())), "a single group"),
        (
            lambda: spread(WHITE, sigma=0.1, in_parallel=1, total=0.02, last=Branch((), open=True)),
            "one branch at least",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_words(call, said):
    with pytest.raises(ValueError, match=said):
        call()


def test_a_branch_takes_leds_only():
    with pytest.raises(TypeError, match="no tuple of Led"):
        Branch((3.1, 3.2))
