"""Lesson 6's panel: what the dropper holds and what a meter sees of it; every row stays where it is."""

import itertools

import pytest
from dropper import Lamp, replace_at
from dropper.lessons import question
from dropper.lessons.plugging import figure, view
from dropper.lessons.tasks.lamps import lamp_of
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
    assert seen["held"].text == "12.4 V" and seen["pins"].text == "0 V"
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


def test_nothing_on_the_meter_is_asked_where_the_meter_shows_nothing():
    """The task's own premise, by the solver: 0 V between the pins; and both answers come up."""
    task, answers = question("nothing_shown"), set()
    for seed in range(20):
        known = task.ask(seed)
        trace = unplug(lamp_of(known.known), 90, known.values["time"], across=10e6)
        held, bus = abs(float(trace.dropper_voltage[-1])), float(trace.bus_voltage[-1])
        assert abs(float(trace.pins_voltage[-1])) < 0.05 and (10 < held < bus or held < 1), known.values
        assert known.answer == ("volts" if held > 5 else "little")
        assert not known.judge("proved").right and "proves nothing" in known.judge("proved").sentence
        answers.add(known.answer)
    assert len(answers) == 2


def test_between_the_pins_by_hand_and_its_slips():
    """92 V of dropper against 68 V of bus and two diodes of half a volt: 23 V."""
    asked = question("pins_reading").with_values({"dropper_voltage": 92.0, "bus_voltage": 68.0, "diode_voltage": 0.5})
    assert asked.answer == pytest.approx(23.0)
    for typed, words in (("92 V", "what the dropper holds"), ("161 V", "does not help"), ("68 V", "stands against")):
        verdict = asked.judge(typed)
        assert not verdict.right and words in verdict.sentence, typed
