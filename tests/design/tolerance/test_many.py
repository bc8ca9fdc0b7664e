"""Many lamps at random: drawn as stated, cut anywhere, counted rightly; weights against an outside witness."""

import math
import signal

import numpy as np
import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.design import tolerance
from dropper.design.tolerance import KEYS, Counting, Limits, Spread, elasticities, monte_carlo
from uncertainties import ufloat
from uncertainties.umath import sqrt

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
SHELF = Lamp.from_toml("notebooks/lamps/shelf_strip.toml")
CURRENT = "string_current_mean"


def only(**kept):
    """The stair marker's spread with everything exact but what is named."""
    exact = {
        "voltage_low": 230.0,
        "voltage_high": 230.0,
        "frequency_low": 50.0,
        "frequency_high": 50.0,
        "dropper": 0.0,
        "smoothing": 0.0,
        "resistors": 0.0,
        "led_below": 0.0,
        "led_above": 0.0,
    }
    return Spread(voltage=230.0, frequency=50.0, **exact | kept)


def test_a_seed_draws_the_same_lamps_however_the_count_is_cut():
    spread = Spread.of(STAIR)
    whole = monte_carlo(STAIR, spread, 700, seed=3)
    counting = Counting(STAIR, spread, 700, seed=3)
    for lamps in (1, 99, 350, 1000):
        counting.step(lamps)
    assert counting.finished and whole.complete and whole.count == 700
    for key in KEYS:
        np.testing.assert_array_equal(whole.readings[key], counting.sample().readings[key])
    assert not np.array_equal(whole.readings[CURRENT], monte_carlo(STAIR, spread, 700, seed=4).readings[CURRENT])
    bare = replace_at(STAIR, "smoothing", 0.0)  # a part less leaves the others' draws as they were
    np.testing.assert_array_equal(
        whole.factors["dropper"], monte_carlo(bare, Spread.of(bare), 700, seed=3).factors["dropper"]
    )


def test_an_interrupt_keeps_what_was_computed():
    heard = []

    def progress(done, wanted):
        heard.append((done, wanted))
        if done > 2000:
            raise KeyboardInterrupt

    whole = monte_carlo(STAIR, Spread.of(STAIR), 4000)
    cut = monte_carlo(STAIR, Spread.of(STAIR), 4000, progress=progress)
    assert heard == [(1024, 4000), (2048, 4000)]
    assert (cut.count, cut.wanted, cut.complete) == (2048, 4000, False) and "Stopped after 2048 of 4000" in cut.words()
    np.testing.assert_array_equal(cut.readings[CURRENT], whole.readings[CURRENT][:2048])
    assert cut.yield_against(Limits.around(0.0167, 0.1)).count == 2048


@pytest.fixture
def interrupts():
    """Interrupts are heard, also where these tests were started in the background and SIGINT is ignored."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("interrupts")
def test_a_real_interrupt_in_the_middle_of_a_piece_loses_no_more_than_that_piece(monkeypatch):
    solve, calls = monte_carlo.__globals__["steady_states"], []

    def interrupted(*given):
        calls.append(given)
        solved = solve(*given)
        if len(calls) == 3:
            signal.raise_signal(signal.SIGINT)  # as from the keyboard or the notebook's stop button
        return solved

    monkeypatch.setitem(monte_carlo.__globals__, "steady_states", interrupted)
    cut = monte_carlo(STAIR, Spread.of(STAIR), 8000)
    assert (cut.count, cut.wanted, cut.complete) == (2048, 8000, False) and len(calls) == 3
    assert {len(values) for values in (*cut.readings.values(), *cut.factors.values(), cut.dark)} == {2048}


def test_a_long_count_says_how_far_it_is_and_a_short_one_nothing(capsys, monkeypatch):
    monte_carlo(STAIR, Spread.of(STAIR), 100)
    assert capsys.readouterr().out == ""
    monkeypatch.setitem(monte_carlo.__globals__, "_PATIENCE", 0.0)
    monte_carlo(STAIR, Spread.of(STAIR), 1500)
    assert capsys.readouterr().out == "\r1024 of 1500 lamps\r1500 of 1500 lamps\n"


def test_nothing_solved_is_told_and_not_counted():
    empty = Counting(STAIR, Spread.of(STAIR), 10).sample()
    assert empty.count == 0 and np.isnan(empty.quantiles(CURRENT)).all()
    with pytest.raises(ValueError, match="no lamp yet to judge"):
        empty.yield_against(Limits())
    with pytest.raises(ValueError, match=r"count: 0 is out of range; allowed is a whole number from 1"):
        monte_carlo(STAIR, Spread.of(STAIR), 0)
    with pytest.raises(ValueError, match=r"seed: 1.5 is not whole"):
        monte_carlo(STAIR, Spread.of(STAIR), 10, seed=1.5)


def test_quantiles_of_one_flat_part_are_on_a_straight_line():
    """Only the dropper is off, flat between ±10 %: the current of the share p is that of the dropper at p."""
    sample = monte_carlo(STAIR, only(dropper=0.10), 4000, seed=7)
    for share, current in zip((0.05, 0.5, 0.95), sample.quantiles(CURRENT), strict=True):
        exact = steady_state(replace_at(STAIR, "dropper", STAIR.dropper * (0.9 + 0.2 * share)), 128)
        spacing = 0.2 * math.sqrt(share * (1 - share) / 4000)  # standard error of that quantile, over the nominal
        assert current == pytest.approx(exact.string_current_mean, rel=4 * spacing)


def test_quantiles_of_one_triangle_are_those_of_the_triangle():
    """Only the mains is off, 207 V to 253 V about 230 V: its quantile at p is 207 + 23·√(2p) below the middle."""
    sample = monte_carlo(STAIR, only(voltage_low=207.0, voltage_high=253.0), 4000, seed=7)
    low, high = sample.quantiles(CURRENT, (0.1, 0.9))
    for current, volts in ((low, 207 + 23 * math.sqrt(0.2)), (high, 253 - 23 * math.sqrt(0.2))):
        exact = steady_state(replace_at(STAIR, "mains.voltage", volts), 128)
        assert current == pytest.approx(exact.string_current_mean, rel=0.006)  # four standard errors of the quantile


@pytest.mark.parametrize("lamp", [STAIR, SHELF], ids=lambda lamp: lamp.name)
def test_errors_carried_by_an_outside_package_agree(lamp):
    """`uncertainties` differentiates I = 4fC(Vp − D) by itself: its deviation is ours, and near the sample's."""
    spread = Spread.of(lamp)
    centre = spread.centre(lamp)
    formula = tolerance.by_formula(lamp, spread, steady_state(centre))
    at, off = formula.lamp, formula.deviations
    mains = ufloat(centre.mains.voltage, off["mains"] * centre.mains.voltage)
    frequency = ufloat(at["frequency"], off["frequency"] * at["frequency"])
    dropper = ufloat(at["dropper"], off["dropper"] * at["dropper"])
    clamped = ufloat(at["clamped_voltage"], off["led"] * at["clamped_voltage"])
    current = 4 * frequency * dropper * (sqrt(2) * mains - clamped)
    ours = theory.root_sum_square_spread(**formula.chance_values)
    assert ours == pytest.approx(current.std_dev / current.nominal_value, rel=1e-9)
    for key, part in (("mains", mains), ("frequency", frequency), ("dropper", dropper), ("led", clamped)):
        weight = current.derivatives[part] * part.nominal_value / current.nominal_value
        assert formula.weights[key] == pytest.approx(weight, rel=1e-9), key
    drawn = monte_carlo(lamp, spread, 4000).readings[CURRENT]
    # 1.1 % is one standard error of a deviation from 4000 lamps; the string's own slope takes up to 3 % off it
    assert drawn.std() / steady_state(centre).string_current_mean == pytest.approx(ours, rel=0.06)


@pytest.mark.parametrize("lamp", [STAIR, SHELF], ids=lambda lamp: lamp.name)
def test_weights_by_formula_and_by_the_solver(lamp):
    """The string's own slope takes a few per cent off; LEDs near the mains' peak would take more."""
    rows = elasticities(lamp)
    sizes = [abs(row.formula if row.derivation else row.solver) for row in rows]
    assert sizes == sorted(sizes, reverse=True)
    assert rows[0].path == "mains.voltage" and rows[0].formula > 1, "the mains is magnified"
    for row in rows:
        if row.derivation:
            near = 0.05 if row.formula > 0 else 0.10
            assert row.solver == pytest.approx(row.formula, rel=near), row.path
        else:
            assert abs(row.solver) < 0.02, "it hardly matters"
    assert elasticities(replace_at(lamp, "string.in_series", 300)) == ()


def test_yield_counts_and_says_how_well_it_is_known():
    """Wilson's interval by its own formula: (p + z²/2n ± z·√(p(1−p)/n + z²/4n²)) / (1 + z²/n), z = 1.959964."""
    sample = monte_carlo(STAIR, Spread.of(STAIR), 400)
    nominal = steady_state(STAIR).string_current_mean
    limits = Limits.around(nominal, 0.10, flicker_greatest=65.0)
    found = sample.yield_against(limits)
    current, flicker = sample.readings[CURRENT], sample.readings["percent_flicker"]
    good = (current >= 0.9 * nominal) & (current <= 1.1 * nominal) & (flicker <= 65)
    assert found.passing == good.sum() and found.share == good.mean()
    assert found.broken == {
        "too little current": (current < 0.9 * nominal).sum(),
        "too much current": (current > 1.1 * nominal).sum(),
        "too much flicker": (flicker > 65).sum(),
    }
    z, n, p = 1.959964, 400, good.mean()
    middle, half = p + z * z / (2 * n), z * math.sqrt(p * (1 - p) / n + z * z / (4 * n * n))
    assert (found.low, found.high) == pytest.approx(
        [(middle - half) / (1 + z * z / n), (middle + half) / (1 + z * z / n)]
    )
    assert str(found.passing) in found.words and "too much flicker" in found.words
    assert sample.yield_against(Limits()).share == 1.0


def test_a_small_sample_and_a_large_one_agree_within_their_intervals():
    """95 of 100 intervals hold the true share: of 40 small samples 32 at least must hold that of a large one."""
    spread, limits = Spread.of(STAIR), Limits.around(steady_state(STAIR).string_current_mean, 0.10)
    large = monte_carlo(STAIR, spread, 8000, seed=99).yield_against(limits).share
    held = 0
    for seed in range(40):
        small = monte_carlo(STAIR, spread, 100, seed=seed).yield_against(limits)
        held += small.low <= large <= small.high
    assert held >= 34  # fewer than that in one of 100 runs, were the intervals right


def test_dark_lamps_give_too_little_light():
    long = replace_at(STAIR, "string.in_series", 108)
    sample = monte_carlo(long, Spread.of(long), 400)
    assert 0 < sample.dark.sum() < 400
    found = sample.yield_against(Limits(current_least=1e-4, power_greatest=50.0))
    assert found.broken["too little current"] >= sample.dark.sum() and not found.broken["too much power"]


def test_limits_that_cannot_be_are_said():
    with pytest.raises(ValueError, match=r"Limits.current_least: 20 mA is more than current_greatest, 10 mA"):
        Limits(0.02, 0.01)
    with pytest.raises(ValueError, match=r"Limits.flicker_greatest: 120 % is out of range|120"):
        Limits(flicker_greatest=120.0)
    assert Limits().words == "No limit is set." and "15 mA" in Limits(current_least=0.015).words
