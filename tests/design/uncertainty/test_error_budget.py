"""The ± of readings: against figures worked out by hand, lamps drawn at random, and published ways to combine."""

import math
from dataclasses import replace

import draws
import numpy as np
import pytest
from dropper import Lamp, replace_at, steady_state, steady_states, theory
from dropper.bench.meter import PlugInMeter
from dropper.circuit.lamp import Mains
from dropper.circuit.values import show_estimate, show_percent
from dropper.design.uncertainty import budget_table, combined, error_budget, judge
from dropper.design.uncertainty.table import COLUMNS
from dropper.results import explain
from dropper.solver.transient import Fault, settle, with_fault

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
NAMES = ("stair_marker", "display_case", "shelf_strip", "classroom_twin")
LAMPS = [Lamp.from_toml(f"notebooks/lamps/{name}.toml") for name in NAMES]


def percent(lamp, source, reading):
    budget = error_budget(lamp)
    return 100 * budget.half_width(source, reading) / budget.bars[reading].value


# Worked out by hand and by a separate time-domain model of the stair marker; tolerance half a unit of the last digit.
@pytest.mark.parametrize(
    ("source", "reading", "by_hand", "allowed"),
    [
        ("harmonics", "string_current_mean", 3.6, 0.15),  # 3.6 with the fifth alone; the third has a little more
        ("harmonics", "power_factor", 3.9, 0.05),
        ("harmonics", "line_current_peak", 15.0, 0.5),
        ("dropper_loss", "real_power", 0.3, 0.05),
        ("warmth", "string_current_mean", 0.9, 0.05),
        ("warmth", "real_power", 1.8, 0.1),  # worked out for 32 K; these LEDs are 33 K warmer
        ("smoothing", "percent_flicker", 100 * (67 / 59 - 1), 1.3),  # from 59 to 67 %, each to half a unit
    ],
)
def test_shares_are_those_worked_out_by_hand(source, reading, by_hand, allowed):
    assert percent(STAIR, source, reading) == pytest.approx(by_hand, abs=allowed)


def test_three_per_cent_of_the_fifth_moves_the_mean_by_hand_figure():
    lamps = [replace(STAIR, mains=Mains(230, 50, {5: (0.03, phase)})) for phase in (0, 180)]
    moved = 100 * (steady_states(lamps, 1024).string_current_mean / steady_state(STAIR).string_current_mean - 1)
    assert np.abs(moved) == pytest.approx(3.6, abs=0.05)


def test_small_omissions_are_small():
    """Bounds by hand: the film's loss and the mains' impedance are no reason for a lamp to read otherwise."""
    assert percent(STAIR, "smoothing_series", "percent_flicker") < 4
    for lamp in LAMPS:
        assert percent(lamp, "steps", "line_current_rms") < 0.1
        for reading in COLUMNS:
            assert percent(lamp, "impedance", reading) < 0.2


def test_loss_of_the_dropper_is_the_formula_s():
    """Two ways to put one loss: a resistor in series in the solver, the tangent in the closed form."""
    volts, tangent = steady_state(STAIR).dropper_voltage_rms, 1e-3
    watts = theory.dropper_loss(
        dropper_voltage_rms=volts, dissipation_factor=tangent, frequency=50.0, dropper=STAIR.dropper
    )
    # in series the harmonics of the current count too, which an ideal dropper's volts hardly have
    assert watts < error_budget(STAIR).half_width("dropper_loss", "real_power") < 1.3 * watts


def drawn(lamp, count, chance):
    """Lamps with every source at once, each spread evenly over its own half-width, either way."""

    def factor(part):
        return 1 + part * chance.uniform(-1, 1)

    for _ in range(count):
        order, size, phase = chance.choice((3, 5)), 0.03 * chance.uniform(0, 1), chance.uniform(-180, 180)
        volts = lamp.mains.voltage + chance.uniform(-1, 1) * (0.01 * lamp.mains.voltage + 0.15)
        mains = Mains(volts, lamp.mains.frequency * factor(0.01), {int(order): (size, phase)})
        ohms = factor(0.05)
        yield replace(
            replace_at(lamp, "string.led.forward_voltage", lamp.string.led.forward_voltage * factor(0.13)),
            mains=mains,
            dropper=lamp.dropper * factor(0.10),
            smoothing=lamp.smoothing * factor(0.20),
            inrush_resistor=lamp.inrush_resistor * ohms,
            bleeder=lamp.bleeder * ohms,
            smoothing_bleeder=lamp.smoothing_bleeder * ohms,
            series_resistor=lamp.series_resistor * ohms,
        )


def test_more_than_nine_lamps_in_ten_lie_inside_and_the_bar_is_no_wider_than_it_must_be():
    """Brute force: lamps that have every error at once, drawn at random and solved one by one."""
    count = draws.examples(600)
    chance = np.random.default_rng(draws.seed(11))
    states = steady_states(list(drawn(STAIR, count, chance)))
    budget = error_budget(STAIR)
    meter = {field: name for name, (_, _, field) in PlugInMeter().digits().items()}
    for key in COLUMNS:
        bar, values = budget.bars[key], np.asarray(getattr(states, key))
        display = budget.half_width("meter", key)
        shown = values + display * chance.uniform(-1, 1, count)
        assert (display > 0) == (key in meter)
        off = np.abs(shown - bar.value) / bar.half_width
        inside = (off <= 1).mean()
        assert inside > 0.9, f"{key}: {100 * inside:.0f} % inside {bar.text}"
        assert np.quantile(off, 0.95) > 0.6, f"{key}: nine in ten within {np.quantile(off, 0.95):.2f} of {bar.text}"


@pytest.mark.parametrize("lamp", LAMPS, ids=NAMES)
def test_a_bar_is_no_less_than_its_largest_share_and_less_than_their_sum(lamp):
    budget = error_budget(lamp)
    for key, bar in budget.bars.items():
        widths = [share.half_widths[key] for share in budget.shares]
        assert max(widths) == bar.share <= bar.half_width <= sum(widths)
        assert bar.half_width**2 == pytest.approx(sum(width**2 for width in widths))
        assert bar.value == pytest.approx(getattr(steady_state(lamp), key), rel=1e-12)


def test_published_way_to_combine():
    """JCGM 100:2008, example H.1 (end gauge): 25, 9.7, 2.9 and 16.6 nm come to 32 nm. From memory."""
    assert combined((25, 9.7, 2.9, 16.6)) == pytest.approx(32, abs=0.5)


def test_published_way_to_write_it():
    """JCGM 100:2008, 7.2.4: 100.021 47 ± 0.000 79 (grams there); 7.2.6: 10.057 62 Ω and 27 mΩ. From memory."""
    assert show_estimate(100.02147, 0.00079, "V") == "100.02147 ± 0.00079 V"
    assert show_estimate(10.05762, 0.027, "Ω") == "10.058 ± 0.027 Ω"


@pytest.mark.parametrize(
    ("value", "width", "unit", "digit", "text"),
    [
        (0.0216, 0.0030, "A", 1e-3, "22 ± 3 mA"),
        (1.32, 0.31, "W", 0.1, "1.3 ± 0.3 W"),
        (1.32, 0.004, "W", 0.1, "1.3 ± 0.1 W"),  # a display knows no less than its digit
        (0.265, 0.039, "", 0.01, "0.27 ± 0.04"),
        (59.0, 9.96, "%", 0.0, "59 ± 10 %"),
        (1450.0, 123.0, "%", 0.0, "1450 ± 120 %"),
        (0.0996, 0.00996, "A", 0.0, "100 ± 10 mA"),
    ],
)
def test_no_more_than_two_digits_of_a_half_width_are_written(value, width, unit, digit, text):
    assert show_estimate(value, width, unit, digit) == text


def test_per_cent_have_two_digits():
    assert [show_percent(part, 1.0) for part in (0.1234, 0.01234, 0.00099999, 1.1126, 5e-5)] == [
        "12 %",
        "1.2 %",
        "0.1 %",
        "110 %",
        "< 0.01 %",
    ]


def test_a_reading_is_judged_at_the_ends_of_its_bar():
    bar = error_budget(STAIR).bars["line_current_rms"]
    for sign in (-1, 1):
        assert judge(bar, bar.value + sign * 0.999 * bar.half_width).word == "inside"
        outside = judge(bar, bar.value + sign * 1.001 * bar.half_width)
        assert outside.word == "outside" and bar.largest.name in outside.words
    assert "proves no part sound" in judge(bar, bar.value).words
    assert judge(bar, bar.value - 2 * bar.half_width).times == pytest.approx(2)


@pytest.mark.parametrize("measured", [-0.01, math.nan, math.inf, "22 mA", None])
def test_what_no_meter_shows_is_refused_in_words(measured):
    with pytest.raises(ValueError, match="line current, rms"):
        judge(error_budget(STAIR).bars["line_current_rms"], measured)


def test_only_what_a_lamp_has_is_in_its_budget():
    keys = {share.source.key for share in error_budget(STAIR).shares}
    bare = replace(STAIR, smoothing=0.0, smoothing_bleeder=None)
    without = {share.source.key for share in error_budget(bare).shares}
    assert keys - without == {"smoothing", "smoothing_series"}
    measured = replace(STAIR, mains=Mains(230, 50, {5: (0.02, 170.0)}))
    assert keys - {share.source.key for share in error_budget(measured).shares} == {"harmonics"}


def test_lamps_that_differ_in_their_mains_harmonics_alone_have_budgets_of_their_own():
    fifth, third = (replace(STAIR, mains=Mains(230, 50, {order: (0.03, 0.0)})) for order in (5, 3))
    means = [error_budget(lamp).bars["string_current_mean"].value for lamp in (fifth, third)]
    assert abs(means[0] / means[1] - 1) > 0.05
    assert error_budget(STAIR) is error_budget(Lamp.from_toml("notebooks/lamps/stair_marker.toml"))


def test_a_better_meter_makes_the_bar_of_what_it_shows_shorter_and_no_other():
    better = PlugInMeter(watt_digit=0.001, watt_error=1e-3, phase_error=1e-4)
    usual, fine = error_budget(STAIR).bars, error_budget(STAIR, better).bars
    assert fine["real_power"].half_width < 0.7 * usual["real_power"].half_width
    assert fine["string_current_mean"].half_width == usual["string_current_mean"].half_width


def test_a_dark_lamp_has_no_bars_and_the_table_says_so():
    dark = replace_at(STAIR, "mains.voltage", 24.0)
    assert error_budget(dark).bars == {} and "stays dark" in budget_table(error_budget(dark))


@pytest.mark.parametrize("lamp", LAMPS, ids=NAMES)
def test_the_table_has_a_row_for_each_source_and_every_figure_in_it(lamp):
    budget = error_budget(lamp)
    html = str(budget_table(budget))
    assert html.count("<tr>") == len(budget.shares) + 3
    for share in budget.shares:
        assert share.source.name in html and share.source.amount.replace("'", "&#39;") in html
    for key in COLUMNS:
        assert budget.bars[key].text in html
        assert show_percent(budget.bars[key].half_width, budget.bars[key].value) in html
    assert set(COLUMNS) <= set(explain.QUESTIONS) and "nan" not in html


def test_every_bar_names_its_largest_part_in_words():
    words = error_budget(STAIR).bars["string_current_mean"].words
    assert words.startswith("String current, mean: 16.7 ± 1.9 mA, 11 %.") and "dropper" in words


def test_series_resistance_of_the_smoothing_capacitor_is_that_of_one_dried_out():
    """The same circuit by two ways: as a fault of the part, and as a sound one with so much less and so many ohms."""
    dried = settle(with_fault(STAIR, Fault("dried out", "smoothing", 0.5)))
    left = 0.5 * STAIR.smoothing
    told = settle(replace(STAIR, smoothing=left), smoothing_series=1 / (2 * math.pi * 100 * left))
    for key in ("string_current_mean", "percent_flicker", "line_current_rms", "bus_ripple"):
        assert getattr(told, key) == pytest.approx(getattr(dried, key), rel=1e-4), key
    with pytest.raises(ValueError, match="smoothing_series"):
        settle(STAIR, smoothing_series=-1.0)


def test_dropper_behind_the_line_has_the_impedance_of_both():
    """Against complex numbers: the impedances of an inductance and a capacitor in series, added."""
    omega = 2 * math.pi * 60
    for farads, henries in ((330e-9, 0.8e-3), (4.7e-6, 0.05)):
        both = 1j * omega * henries + 1 / (1j * omega * farads)
        alone = theory.dropper_behind_line(frequency=60.0, dropper=farads, line_inductance=henries)
        assert 1 / (1j * omega * alone) == pytest.approx(both, rel=1e-12)
    with pytest.raises(ValueError, match="outweighs"):
        theory.dropper_behind_line(frequency=60.0, dropper=0.05, line_inductance=1.0)
