"""Formulas for choosing the string against the solver, and against a lamp printed elsewhere."""

import numpy as np
import pytest
from dropper import Lamp, Led, LedString, Mains, replace_at, steady_state, steady_states, theory
from dropper.solver.steady import spread

MAINS = Mains(230.0, 50.0)


def bare(in_series, dropper=330e-9, volts=3.1, mains=MAINS):
    """A lamp near the formulas' ideal: much smoothing, nothing else in the line, steep LEDs."""
    led = Led(volts, 0.012, 0.5, 1.0)
    return Lamp(mains, LedString(led, in_series), dropper, 1e-3)


@pytest.mark.parametrize("wanted", [0.006, 0.010, 0.014])
def test_leds_for_a_current_get_it(wanted):
    """Rounded to whole LEDs the solver's current is within one LED's worth of the wanted one."""
    fed = {"frequency": 50.0, "dropper": 330e-9}
    count = theory.in_series_for_current(
        **fed, peak_voltage=MAINS.peak, string_current_mean=wanted, forward_voltage=3.1, diode_voltage=0.85
    )
    found = steady_state(bare(round(count))).string_current_mean
    one = 4 * 50 * 330e-9 * 3.1
    assert found == pytest.approx(wanted, abs=one)


def test_leds_for_a_current_that_is_too_much_are_refused():
    with pytest.raises(ValueError, match="does not give so much current even without LEDs"):
        theory.in_series_for_current(
            frequency=50.0,
            dropper=330e-9,
            peak_voltage=MAINS.peak,
            string_current_mean=0.030,
            forward_voltage=3.1,
            diode_voltage=0.85,
        )


def test_the_best_number_of_leds_is_where_the_solver_has_its_hump():
    counts = np.arange(35.0, 70.0)
    many = steady_states(spread(bare(50), {"string.in_series": counts}))
    best = theory.in_series_of_greatest_power(peak_voltage=MAINS.peak, forward_voltage=3.1, diode_voltage=0.85)
    assert counts[many.real_power.argmax()] == pytest.approx(best, abs=1)
    most = theory.greatest_power(frequency=50.0, dropper=330e-9, peak_voltage=MAINS.peak)
    assert many.real_power.max() == pytest.approx(most, rel=0.01)


@pytest.mark.parametrize("times", [0.5, 1.5, 2.0, 3.0])
def test_times_the_leds_times_the_power_as_the_solver_has_it(times):
    """With three times the LEDs a third of the current is left, and 78 LEDs drop 2 V less of the 82 V to spare: 5 %."""
    few = 26
    before, after = (steady_state(bare(int(few * each))).real_power for each in (1, times))
    held = few * 3.1 + 1.7
    formula = theory.power_of_more_leds(peak_voltage=MAINS.peak, clamped_voltage=held, times_leds=times)
    assert after / before == pytest.approx(formula, rel=0.05 if times == 3 else 0.02)


def test_twice_the_leds_is_the_same_power_from_a_third_of_the_peak():
    """k(Vp - kD) = Vp - D at k = 2 gives D = Vp/3, by hand."""
    assert theory.power_of_more_leds(peak_voltage=300.0, clamped_voltage=100.0, times_leds=2.0) == pytest.approx(1.0)
    with pytest.raises(ValueError, match="with so many LEDs the lamp stays dark"):
        theory.power_of_more_leds(peak_voltage=300.0, clamped_voltage=160.0, times_leds=2.0)


def test_a_lamp_in_print_that_takes_the_rule_for_the_current():
    """48 LEDs of 3.1 V on 330 nF, 230 V, 50 Hz "at 20 mA" (an open encyclopedia's article): for 20 mA it takes few.

    Kept as a figure that must differ: by the load line 48 LEDs get 11.6 mA, and 20 mA leave volts for seven.
    """
    fed = {"frequency": 50.0, "dropper": 330e-9, "peak_voltage": MAINS.peak, "forward_voltage": 3.1}
    assert theory.in_series_for_current(**fed, string_current_mean=0.020, diode_voltage=0.0) == pytest.approx(
        7.2, abs=0.1
    )
    assert theory.in_series_for_current(**fed, string_current_mean=0.01165, diode_voltage=0.0) == pytest.approx(
        48, abs=0.1
    )


def test_two_colours_are_held_at_their_sum():
    """12 of 3.1 V and 8 of 2 V and two diodes of 0.8 V: 54.8 V, by hand."""
    held = theory.mixed_clamped_voltage(
        in_series=12, forward_voltage=3.1, second_in_series=8, second_forward_voltage=2.0, diode_voltage=0.8
    )
    assert held == pytest.approx(54.8, rel=1e-12)


def test_a_steeper_scatter_of_more_branches_and_none_of_one():
    values = {"in_series": 1, "forward_voltage_deviation": 0.03, "junction_current": 0.01, "branch_resistance": 15.0}
    two, many = (theory.share_deviation(in_parallel=count, **values) for count in (2, 1000))
    assert two == pytest.approx(0.2 / 2**0.5, rel=1e-12) and many == pytest.approx(0.2, rel=1e-3)
    assert theory.share_deviation(in_parallel=1, **values) == 0


def test_a_lamp_of_a_file_has_its_hump_where_its_panel_says():
    lamp = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
    watts = [steady_state(replace_at(lamp, "string.in_series", count), 256).heat["leds"] for count in (40, 52, 64)]
    assert watts[1] > watts[0] and watts[1] > watts[2]


@pytest.mark.parametrize("in_series", [2, 96, 120])
def test_the_panel_tells_what_a_bridged_group_does_by_the_solver(in_series):
    """Near the peak the smoothing capacitor's bleeder takes most of the current; the formula knows no bleeder."""
    from dropper.lessons.strings import view as strings

    lamp = replace_at(Lamp.from_toml("notebooks/lamps/stair_marker.toml"), "string.in_series", in_series)
    told = {reading.key: reading for reading in strings.view_of(lamp).readings}
    less = steady_state(replace_at(lamp, "string.in_series", in_series - 1)).string_current_mean
    rise = less / steady_state(lamp).string_current_mean - 1
    assert told["bridged"].value == pytest.approx(100 * rise, rel=0.01)
    assert told["bus_voltage_max"].value == pytest.approx(steady_state(lamp).bus_voltage.max(), rel=1e-3)
    assert ("bleeder" in told["real_power"].note) == (in_series == 120)


def test_a_single_led_has_no_other_to_gain():
    from dropper.lessons.strings import view as strings

    lamp = replace_at(Lamp.from_toml("notebooks/lamps/stair_marker.toml"), "string.in_series", 1)
    told = {reading.key: reading for reading in strings.view_of(lamp).readings}
    assert told["bridged"].text == "–" and "No other group" in told["bridged"].note
