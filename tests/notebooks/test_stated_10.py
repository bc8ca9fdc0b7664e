"""What lesson 10 states in figures, held to the library."""

import functools
from dataclasses import replace
from pathlib import Path

import pytest
from dropper import replace_at, steady_state, theory
from dropper.components.marks.letters import TOLERANCES
from dropper.design import Brief, alternatives, design, nearest, two_in_parallel
from dropper.design.ratings import ratings
from dropper.lessons.design.film_view import dc_film_case, short_dropper_case
from dropper.lessons.tolerances.view import setting_for, share_within, view_of

BRIEFS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps" / "briefs"
HIGH = 2**0.5 * 253  # V: the peak of the highest mains


@functools.cache
def brief(name="reading_nook"):
    return Brief.from_toml(BRIEFS / f"{name}.toml")


@functools.cache
def made(name="reading_nook"):
    return design(brief(name))


@functools.cache
def longer():
    (found,) = [other for other in alternatives(made()) if other.brief.in_series == 55]
    return found


def held():
    return made().lamp.clamped_voltage(brief().current)


def more(lamp):
    """Per cent more current with the mains 10 % high."""
    up = steady_state(replace_at(lamp, "mains.voltage", 253.0)).string_current_mean
    return 100 * (up / steady_state(lamp).string_current_mean - 1)


def test_the_puzzle_s_lamp_is_the_reading_nook():
    one = brief()
    assert (one.in_series, one.current, one.supply.nominal) == (20, 0.015, 230) and "warm white" in one.led
    assert one.flicker_limit == pytest.approx(8)


def test_the_rule_of_thumb_says_72_mA_and_the_LEDs_get_11():
    rule = theory.short_circuit_current(frequency=50, voltage=230, dropper=1e-6)
    assert round(1e3 * rule) == 72 and 220e-9 * rule / 1e-6 > brief().current
    thumb = steady_state(replace_at(made().lamp, "dropper", 220e-9))
    assert 11e-3 < thumb.string_current_mean < 11.5e-3


def test_the_dropper_by_hand_is_283_nF():
    exact = theory.dropper_for_current(
        frequency=50, peak_voltage=made().lamp.mains.peak, clamped_voltage=held(), string_current_mean=brief().current
    )
    assert 60 < held() < 61 and round(1e9 * exact) == 283
    half = theory.dropper_for_half_wave(
        frequency=50,
        peak_voltage=made().lamp.mains.peak,
        output_voltage=held() - 1.4,
        diode_voltage=0.7,
        string_current_mean=0.015,
    )
    assert 1.75 < half / exact < 1.85, "half wave needs 1.8 times this dropper"


def test_the_next_value_up_gives_17_mA_14_per_cent_over_the_wish():
    lamp = made().lamp
    assert lamp.dropper == 330e-9 and round(1e3 * made().sizing.current) == 17
    assert round(100 * (made().sizing.current / brief().current - 1)) == 14
    pair = two_in_parallel(made().sizing)
    assert sorted(pair) == pytest.approx([68e-9, 220e-9])
    near = steady_state(replace_at(lamp, "dropper", sum(pair))).string_current_mean
    assert abs(near / brief().current - 1) < 0.02


def test_on_120_V_more_than_three_times_the_dropper_is_wanted_for_40_LEDs():
    row = [
        theory.dropper_for_current(
            frequency=hertz,
            peak_voltage=theory.peak_voltage(voltage=volts),
            clamped_voltage=3.0 * 40 + 1.6,
            string_current_mean=0.015,
        )
        for volts, hertz in ((230, 50), (120, 60))
    ]
    assert row[1] > 3 * row[0]


def test_the_string_s_slope_is_250_ohms_and_the_smoothing_105_µF():
    led = made().lamp.string.led
    slope = theory.string_resistance(
        string_current_mean=0.015,
        ideality=led.ideality,
        thermal_voltage=0.025852,
        in_series=20,
        in_parallel=1,
        series_resistance=led.series_resistance,
    )
    farads = theory.smoothing_for_modulation(
        frequency=50, clamped_fraction=held() / made().lamp.mains.peak, current_modulation=0.08, string_resistance=slope
    )
    assert 240 < slope < 260 and round(1e6 * farads / 0.8) == 105
    assert made().of("smoothing").value == 150e-6 and made().sizing.flicker < 8


def test_the_smoothing_works_at_60_V_and_must_stand_357():
    assert 59 < made().result.bus_voltage_mean < 60.5
    assert round(made().ratings.of("smoothing").tightest.worst.value) == 357 and round(HIGH) == 358


def test_the_bleeders_are_in_two_pieces():
    worst = {"time": 1, "dropper": 1.1 * made().lamp.dropper, "initial_voltage": HIGH, "limit_voltage": 34}
    largest = theory.largest_bleeder(**worst)
    assert round(largest * worst["dropper"], 3) == 0.425 and round(largest / 1e6, 2) == 1.17
    assert round(largest / 1.05 / 2e3) == 557
    behind = theory.largest_bleeder(time=60, dropper=1.2 * 150e-6, initial_voltage=HIGH, limit_voltage=50) / 1.05
    assert 150e3 < behind < 2 * 82e3 and round(behind / 1e3) == 161
    assert made().of("bleeder").value_text == "2 × 510 kΩ" and made().of("smoothing_bleeder").value_text == "2 × 75 kΩ"


def test_the_inrush_resistor_follows_from_the_re_plug():
    step = theory.replug_step(peak_voltage=HIGH)
    ohms = theory.surge_resistor(peak_voltage=step, greatest_current=10)
    once, again = (
        theory.inrush_energy(inrush_resistor=r, dropper=330e-9, step_voltage=step) for r in (ohms, 10 * ohms)
    )
    assert round(step) == 716 and 70 < ohms < 73 and 75 < ohms / 0.95 < 76 and once == again
    assert round(1e3 * once, 1) == 84.5 and made().result.heat["inrush_resistor"] < 0.05
    assert made().of("inrush_resistor").value == 75 and round(0.95 * 75) == 71
    assert round(75 * 330e-9 * 1e6) == 25
    assert made().ratings.of("inrush_resistor").verdict == "ask the data sheet"
    sentence = made().of("inrush_resistor").sentence
    assert "9.19 A at most" in sentence and "6.12 A on one" in sentence
    assert made().ratings.of("inrush_resistor").tightest.worst.text == "92.8 mJ"
    assert "78.2 mJ" in " ".join(made().advice)


def test_a_longer_string_has_more_power_and_swings_more_with_the_mains():
    assert 55 / 20 == 2.75 and 2.1 < longer().sizing.result.real_power / made().result.real_power < 2.3
    assert 1.8 < longer().sizing.result.power_factor / made().result.power_factor < 2.4
    assert 12 < more(made().lamp) < 13 and 19 < more(longer().sizing.lamp) < 20


def test_two_thirds_of_the_current_make_the_electrolytic_last_longer():
    dim = design(brief().but(current=0.010))
    cooler = made().warm.temperatures.air - dim.warm.temperatures.air
    assert dim.lamp.dropper == 220e-9 and 1.5 < 2 ** (cooler / 10) < 1.8


def test_no_dc_film_stands_the_volts_of_the_dropper():
    film = ratings(made().lamp, fitted={"dropper": "polyester film, 400 V dc"}, upper=253).of("dropper")
    assert film.verdict == "over"
    outcome, right = dc_film_case(made(), made("door_number"))
    assert right == "none" and "205 V of ac" in outcome and "253 V" in outcome and "200, 220 and 250 V" in outcome
    other = ratings(made("door_number").lamp, fitted={"dropper": "polyester film, 400 V dc"}, upper=126)
    assert other.of("dropper").verdict != "over", "on 120 V the volts alone would do"


def test_a_short_dropper_makes_a_hundred_watts_in_the_resistor():
    outcome, right = short_dropper_case(made())
    assert right == "short" and "1.16 A" in outcome and "100 W" in outcome


def test_K_is_ten_per_cent_and_the_mains_weighs_more_than_one():
    assert TOLERANCES["K"] == (10, 10) and brief().supply.high / brief().supply.nominal == pytest.approx(1.1)
    weights = view_of(setting_for(made().lamp)).formula.weights
    assert round(weights["mains"], 2) == 1.23 and weights["dropper"] == 1 and round(weights["led"], 2) == -0.23
    parts = {"peak_voltage": made().lamp.mains.peak, "clamped_voltage": held()}
    off = {"voltage_tolerance": 0.1, "dropper_tolerance": 0.05, "frequency_tolerance": 0.01, "clamped_tolerance": 0.13}
    added, squares = (each(**off, **parts) for each in (theory.worst_case_spread, theory.root_sum_square_spread))
    assert 0.20 < added < 0.22 and 0.13 < squares < 0.14
    assert made().sizing.greatest_current / made().sizing.current - 1 < 0.30, "the solver's own bright corner"


def test_a_better_dropper_gains_less_and_less():
    setting = setting_for(made().lamp)
    kept = [share_within(replace(setting, dropper=each), 10.0) for each in (10.0, 5.0, 1.0)]
    assert kept[0] < kept[1] and abs(kept[2] - kept[1]) < kept[1] - kept[0]
    assert view_of(replace(setting, years=10.0)).now.string_current_mean < 0.8 * made().sizing.current


def test_wishes_on_the_panel_change_what_they_should():
    calm, away = design(brief().but(flicker=5)), design(brief().but(place="United States"))
    assert calm.lamp.smoothing == 220e-6 and calm.lamp.smoothing_bleeder < made().lamp.smoothing_bleeder
    assert away.kinds["smoothing"] != made().kinds["smoothing"] and away.sizing.pieces["bleeder"][0] == 1
    assert nearest(brief().but(in_series=100))[1][0].wish == "in_series"


@pytest.mark.parametrize("name", ["reading_nook", "door_number", "model_case"])
def test_hand_and_solver_agree(name):
    found, wish = made(name), brief(name)
    hand = theory.mean_string_current(
        frequency=wish.supply.frequency,
        dropper=found.lamp.dropper,
        peak_voltage=found.lamp.mains.peak,
        clamped_voltage=found.lamp.clamped_voltage(wish.current),
    )
    assert abs(hand / found.sizing.current - 1) < 0.03


def test_two_figures_from_outside():
    """152.5 nF: Texas Instruments SBVS343A (2019), Table 2. 34 V after 1 s: IEC 60335-1, 22.5."""
    pump = theory.dropper_for_current(
        frequency=47,
        peak_voltage=theory.peak_voltage(voltage=85),
        clamped_voltage=4 * (3.3 + 0.6),
        string_current_mean=0.012 / 4,
    )
    rule = theory.largest_bleeder(time=1, dropper=1e-6, initial_voltage=357.8, limit_voltage=34)
    assert abs(pump - 152.5e-9) < 0.05e-9 and abs(rule * 1e-6 - 0.425) < 0.0005
