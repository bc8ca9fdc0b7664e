"""What lesson 09 states in figures, held to the library."""

import functools
from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.circuit.lamp import Led
from dropper.components import kinds
from dropper.lessons.sharing.view import Sharing, view_of
from dropper.lessons.strings.bridged_view import bridged_case
from dropper.lessons.strings.panel import Strings
from dropper.solver.sharing import Branch, share, spread

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
STAIR, CASE = (Lamp.from_toml(LAMPS / f"{name}.toml") for name in ("stair_marker", "display_case"))
LED = CASE.string.led
PEAK = STAIR.mains.peak


@functools.cache
def with_leds(count):
    return steady_state(replace_at(STAIR, "string.in_series", count))


def current(count):
    return with_leds(count).string_current_mean


def watts(count):
    return with_leds(count).heat["leds"]


@functools.cache
def total():
    return round(steady_state(CASE).string_current_mean, 4)  # 29.9 mA, as on the panel


def slope():
    return theory.dynamic_resistance(
        ideality=LED.ideality,
        thermal_voltage=0.025852,
        junction_current=total() / 3,
        series_resistance=LED.series_resistance,
    )


@functools.cache
def many(arrangement="groups", resistor=0.0):
    return spread(
        LED,
        sigma=0.03,
        in_parallel=3,
        in_series=36,
        total=total(),
        branch_resistor=resistor,
        count=200,
        arrangement=arrangement,
    )


def test_22_LEDs_get_some_17_mA_and_96_some_2():
    assert STAIR.string.in_series == 22 and 16e-3 < current(22) < 17e-3 and 2e-3 < current(96) < 3e-3


def test_the_power_has_a_hump_at_52_LEDs_whatever_the_dropper():
    best = theory.in_series_of_greatest_power(peak_voltage=PEAK, forward_voltage=3.1, diode_voltage=0.8)
    assert round(best) == 52 and 1.4 < watts(44) / watts(22) < 1.45 and watts(88) < watts(22)
    other = replace_at(STAIR, "dropper", 680e-9)
    powers = {n: steady_state(replace_at(other, "string.in_series", n)).heat["leds"] for n in (46, 52, 58)}
    assert max(powers, key=powers.get) == 52


def test_neither_the_neighbour_nor_his_friend_is_right():
    assert Strings(LAMPS / "stair_marker.toml").verdict()[0] == "hump"


def test_55_or_56_LEDs_leave_10_mA():
    by_hand = theory.in_series_for_current(
        frequency=50,
        dropper=STAIR.dropper,
        peak_voltage=PEAK,
        string_current_mean=0.010,
        forward_voltage=3.1,
        diode_voltage=0.8,
    )
    assert 55 < by_hand < 56 and 9.8e-3 < current(55) < 10e-3


def test_the_smoothing_stands_at_the_volts_of_the_string():
    assert [round(with_leds(n).bus_voltage_mean) for n in (22, 88, 120)] == [67, 252, 309]


def test_a_single_LED_gets_nearly_what_a_short_would_and_its_peak_is_over_its_data_sheet():
    assert 0.7 < current(22) / current(1) < 0.8 and current(88) < 0.25 * current(22)
    assert 21.1e-3 < current(1) < 4 * 50 * STAIR.dropper * PEAK < 21.5e-3
    assert 33e-3 < with_leds(1).string_current_max < 34e-3 and STAIR.string.led.at_current == 0.020


def test_ten_bridged_do_13_per_cent_to_22_and_much_more_to_96():
    more = {whole: round(100 * (current(whole - 10) / current(whole) - 1)) for whole in (22, 96)}
    assert more[22] == 13 and more[96] > 60
    outcome, right = bridged_case(STAIR, 10, 96)
    assert right == "apart" and "13 % more" in outcome and f"{more[96]} % more" in outcome
    rise = theory.current_rise_on_short(peak_voltage=PEAK, clamped_voltage=69.1, lost_voltage=3.06)
    assert abs((current(12) / current(22) - 1) / (10 * rise) - 1) < 0.1


def test_256_V_are_left_over_22_LEDs_and_52_over_96():
    """51.6 V, of which ten LEDs of 2.83 V are 55 %."""
    left = {}
    for count in (22, 96):
        lamp, drop = replace_at(STAIR, "string.in_series", count), STAIR.diode.voltage_at(current(count))
        left[count] = PEAK - with_leds(count).bus_voltage_mean - 2 * drop
        assert lamp.clamped_voltage(current(count)) < PEAK
    assert round(left[22]) in (256, 257) and round(left[96], 1) == pytest.approx(51.6, abs=0.4)
    each = with_leds(96).bus_voltage_mean / 96
    assert round(each, 1) == 2.8 and 0.54 < 10 * each / left[96] < 0.56


def test_the_bleeder_takes_a_part_of_the_current_of_a_long_string():
    emptied = with_leds(96).bus_voltage_mean / STAIR.smoothing_bleeder
    assert 0.82e-3 < emptied < 0.83e-3 and 3.25e-3 < current(96) + emptied < 3.35e-3


def test_three_side_by_side_take_no_more_watts():
    threes = steady_state(replace_at(STAIR, "string.in_parallel", 3)).heat["leds"]
    assert 1.08 < threes < 1.10 < watts(22) < 1.14


def test_100_LEDs_lose_two_fifths_with_5_per_cent_of_mains():
    hundred = replace_at(STAIR, "string.in_series", 100)
    lower = replace_at(hundred, "mains.voltage", 219.0)
    assert steady_state(lower).string_current_mean < 0.65 * steady_state(hundred).string_current_mean


def test_30_mV_are_17_per_cent_of_a_share():
    apart = theory.current_difference(forward_voltage_difference=0.03, dynamic_resistance=slope())
    assert round(slope(), 1) == 17.4 and round(1e3 * apart, 1) == 1.7 and round(100 * apart / (total() / 3)) == 17
    assert round(100 * 0.03 / LED.forward_voltage) == 1 and CASE.string.in_series == 36 and CASE.string.in_parallel == 3


def test_the_worst_of_36_groups_and_whole_strings():
    assert 1.35 < many().hottest.mean() < 1.37 and many("strings").hottest.mean() < 1.05
    one_group = view_of(Sharing(CASE, in_parallel=3, total=total())).many.hottest.mean()
    assert 1.14 < one_group < 1.16


def test_one_open_and_one_red():
    one, red = Branch.of(LED), Branch.of(kinds.led_kind("red, 5 mm").led())
    assert abs(share([one, one, Branch((LED,), open=True)], total()).hottest - 1.5) < 1e-9
    assert share([one, one, red], total()).shares[2] > 0.999


def test_resistors_even_it_out_at_the_price_of_heat():
    cost = 36 * 3 * 47 * (total() / 3) ** 2
    assert many(resistor=47).hottest.mean() < 1.15 and 0.4 < cost < 0.6
    of_33 = view_of(Sharing(CASE, resistor=33.0, in_parallel=3, total=total())).many.hottest.mean()
    assert 1.04 < of_33 < 1.055


def test_warmth_makes_differences_a_seventh_larger():
    warm = theory.branch_resistance(
        in_series=1,
        dynamic_resistance=slope(),
        branch_resistor=0,
        junctions=1,
        forward_voltage=3.0,
        voltage_coefficient=-3e-3,
        thermal_resistance=250,
    )
    assert slope() / warm - 1 == pytest.approx(1 / 7, abs=0.03)


def test_scatter_shorts_and_colours_on_the_panel():
    case = {"in_parallel": 3, "total": total()}
    assert view_of(Sharing(CASE, scatter=100.0, **case)).many.percentile(95) > 1.9
    assert 0.48 < view_of(Sharing(CASE, in_branch=20, odd="short", **case)).shared.shares[2] < 0.54
    assert 1.1 < view_of(Sharing(CASE, in_branch=20, odd="colour", **case)).shared.hottest < 1.2


def test_a_handbook_s_led_and_an_article_s_48():
    """14.9 mA: Malvino and Bates, Electronic Principles, 7th edition, example 5-13. 48 LEDs: open encyclopedia."""
    branch = Branch.of(Led(2.0, 0.020, series_resistance=0.0, ideality=1.0), 1, 470.0)
    amperes = np.linspace(1e-3, 30e-3, 1000)
    assert abs(np.interp(9.0, branch.voltage_at(amperes), amperes) - 0.0149) < 0.0001
    few = theory.in_series_for_current(
        frequency=50,
        dropper=330e-9,
        peak_voltage=theory.peak_voltage(voltage=230),
        string_current_mean=0.020,
        forward_voltage=3.1,
        diode_voltage=0,
    )
    assert round(few) == 7, "an article says 48 of them get 20 mA"
