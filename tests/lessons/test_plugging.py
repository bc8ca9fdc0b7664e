"""Lesson 6's panel: what the dropper holds and what a meter sees of it; every row stays where it is."""

import itertools

import pytest
from dropper import Lamp, replace_at
from dropper.lessons.plugging import figure, view
from dropper.results import explain
from dropper.solver.transient import unplug

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
CASE = Lamp.from_toml("notebooks/lamps/display_case.toml")
TWIN = Lamp.from_toml("notebooks/lamps/classroom_twin.toml")


def rows(lamp, **setting):
    return {reading.key: reading for reading in view.view_of(view.Plugging(lamp, **setting)).readings}


def test_no_row_ever_goes():
    """Whatever is fitted and whenever it is plugged in or pulled out, the same readings stand in the same order."""
    keys = list(rows(STAIR))
    lamps = [replace_at(lamp, "bleeder", ohms) for lamp in (STAIR, CASE, TWIN) for ohms in (None, 1e4, 1e6, 1e7)]
    for lamp, angle, pulled in itertools.product(lamps, (0.0, 90.0), (0.0, 90.0)):
        seen = rows(lamp, angle=angle, pulled=pulled)
        assert list(seen) == keys, (lamp.name, lamp.bleeder, angle, pulled)
        for reading in seen.values():
            assert reading.text and "nan" not in reading.text and "inf" not in reading.text, reading
            assert reading.text != "–" or reading.note, f"{reading.name} has nothing to show and says no reason"
            assert explain.in_html(reading)


def test_what_the_dropper_holds_and_what_a_meter_shows_are_two_rows():
    seen = rows(STAIR)
    assert seen["held"].text == "12.4 V" and seen["pins"].text == "under 1 mV"
    assert "does not prove the dropper empty" in seen["pins"].note and not seen["pins"].derivation
    shown = rows(CASE)["pins"]
    trace = unplug(CASE, 90, 1.0, across=10e6)
    assert shown.value == pytest.approx(abs(trace.pins_voltage[-1]), abs=0.02) and shown.text == "12.5 V"
    assert explain.work_out(shown).value == pytest.approx(shown.value, abs=0.05), "the loop of Kirchhoff's law"


@pytest.mark.parametrize(
    ("changes", "text"),
    [
        # by hand: 330 nF from 255.9 V, 2.018 RC; 4.7 µF from 169.5 V, 1.607 RC
        ({"bleeder": None}, "never"),
        ({"bleeder": 1e7}, "6.66 s"),
        ({"dropper": 4.7e-6}, "7.55 s"),
        ({}, "666 ms"),
    ],
)
def test_the_time_to_the_limit_is_said_however_long(changes, text):
    lamp = STAIR
    for path, value in changes.items():
        lamp = replace_at(lamp, path, value)
    seen = rows(lamp)["to_limit"]
    assert seen.text == text
    if lamp.bleeder:
        left = view.held_voltage(lamp, 90.0)
        decay = unplug(lamp, 90, 30.0).time_below(34.0, "dropper")
        assert left > 34 and seen.value == pytest.approx(decay, rel=0.01)


def test_plugged_in_where_the_mains_passes_zero_the_rush_is_what_flows():
    quiet, worst = rows(STAIR, angle=0.0), rows(STAIR, angle=90.0)
    assert 0 < quiet["inrush_peak"].value < 0.1 * worst["inrush_peak"].value
    assert "no rush" in quiet["inrush_peak"].note


def test_the_picture_has_all_three_volts_and_says_what_nothing_proves():
    seen = view.view_of(view.Plugging(STAIR))
    words = figure.sentence(seen)
    drawn = figure.overlay(seen, figure.scales(seen), words)
    for name in ("the dropper", "the pins,", "on the"):
        assert name in drawn
    assert "holds 256 V" in words and "shows less than 0.1 V" in words
    assert "0 V between the pins does not prove the dropper empty" in words
