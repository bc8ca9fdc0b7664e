"""The ± on the panels: beside the lamp's own readings, rounded to it, for the lamp that is shown; and one field to judge."""

import re

import pytest
from dropper import Lamp, replace_at
from dropper.bench.meter import PlugInMeter
from dropper.circuit.values import show_estimate
from dropper.design.uncertainty import error_budget
from dropper.lessons import Bench, Designer, Measurement, Plugging, Smoothing

STAIR = "notebooks/lamps/stair_marker.toml"


def words(html):
    return re.sub(r"\s+", " ", re.sub("<[^>]+>", " ", str(html)))


def shown(bars, key, digit=0.0):
    bar = bars[key]
    return show_estimate(bar.value, bar.half_width, bar.unit, digit)


@pytest.fixture(scope="module")
def bench():
    return Bench(STAIR, ask=False)


def test_each_line_of_the_bench_has_its_bar_rounded_to_the_meter_s_digit(bench):
    bench.reset()
    bars, table = error_budget(bench.lamp).bars, words(bench.table.value)
    for key, digit in {"line_current_rms": 1e-3, "real_power": 0.1, "power_factor": 0.01, "percent_flicker": 1}.items():
        assert shown(bars, key, digit) in table
    for key in ("string_current_mean", "bus_voltage_mean", "bus_ripple"):
        assert shown(bars, key) in table
    assert "now ±" in table and table.count("±") == 1 + 8 + 1
    assert "Largest part of the ±: dropper (line current rms" in table


def test_a_slider_brings_the_bars_of_its_own_lamp(bench):
    bench.reset()
    bench.sliders["dropper"].value = 470e-9
    assert bench.error_bars == error_budget(replace_at(bench.initial, "dropper", 470e-9)).bars
    assert shown(bench.error_bars, "string_current_mean") in words(bench.table.value)
    bench.reset()


def test_a_dark_lamp_has_readings_without_bars(bench):
    bench.start_from(replace_at(Lamp.from_toml(STAIR), "mains.voltage", 24.0))
    assert not bench.error_bars and "Largest" not in bench.table.value
    bench.start_from(Lamp.from_toml(STAIR))


def test_the_bench_counts_the_error_of_its_own_meter():
    fine = Bench(STAIR, PlugInMeter(watt_digit=0.001, watt_error=1e-3, phase_error=1e-4), ask=False)
    usual = Bench(STAIR, ask=False)
    assert fine.error_bars["real_power"].half_width < 0.7 * usual.error_bars["real_power"].half_width


@pytest.mark.parametrize("panel", [Smoothing, Measurement])
def test_panels_of_a_lamp_s_readings_have_them_too(panel):
    one = panel(STAIR, ask=False)
    table = words(one.table.value)
    for reading in one.view.readings:
        if reading.key in one.error_bars:
            bar = one.error_bars[reading.key]
            assert bar.value == pytest.approx(reading.value, rel=1e-3), reading.key
            assert show_estimate(reading.value, bar.half_width, reading.unit) in table


def test_the_designer_s_lamp_has_them_beside_what_the_solver_says_of_it():
    one = Designer("notebooks/lamps/briefs/door_number.toml", ask=False)
    known = [reading for reading in one.view.readings if reading.key in one.error_bars]
    assert known and all(one.error_bars[r.key].value == pytest.approx(r.value, rel=2e-3) for r in known)


def test_a_panel_of_other_numbers_has_none():
    one = Plugging(STAIR, ask=False)
    assert one.error_bars is None and "±" not in one.table.value


@pytest.mark.parametrize(
    ("name", "text", "word"),
    [("line current", "23 mA", "inside"), ("line current", "15", "mA"), ("power", "1.3 W", "inside")],
)
def test_a_figure_is_judged_inside_or_outside(bench, name, text, word):
    bench.reset()
    box = bench.measured_box
    box.choice.value, box.field.value = name, text
    box.judge()
    assert word in box.verdict.value


@pytest.mark.parametrize("text", ["", "much", "-3 mA", "22 V", "<b>22</b>"])
def test_what_is_no_reading_is_answered_in_words_and_stays_in_the_field(bench, text):
    box = bench.measured_box
    box.choice.value, box.field.value = "line current", text
    box.judge()
    assert 'role="alert"' in box.verdict.value and "line current" in box.verdict.value
    assert box.field.value == text and "<b>22" not in box.verdict.value


def test_a_figure_beside_a_dark_lamp_is_answered_in_words(bench):
    bench.start_from(replace_at(Lamp.from_toml(STAIR), "mains.voltage", 24.0))
    bench.measured_box.field.value = "22 mA"
    bench.measured_box.judge()
    assert "stays dark" in bench.measured_box.verdict.value
    bench.start_from(Lamp.from_toml(STAIR))


def test_the_table_of_what_is_left_out_opens_and_follows_the_lamp():
    one = Measurement(STAIR, ask=False)
    assert one.budget.value == ""
    one.left_out.value = True
    before = words(one.budget.value)
    assert "harmonics of the mains" in before and "warmth of the LEDs" in before
    one.sliders["lamp.dropper"].value = 270e-9
    assert words(one.budget.value) != before
    assert shown(error_budget(one.setting.lamp).bars, "string_current_mean") in one.budget.value
    one.left_out.value = False
    assert one.budget.value == ""
