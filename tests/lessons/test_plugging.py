"""Lesson 6's panel: what the dropper holds and what a meter sees of it; every row stays where it is."""

import itertools

import pytest
from dropper import Lamp, replace_at
from dropper.lessons import Plugging, question
from dropper.lessons.plugging import figure, rush_figure, rush_view, view
from dropper.lessons.plugging.goals import PULL_GOALS, RUSH_GOALS
from dropper.lessons.tasks.lamps import lamp_of
from dropper.results import explain
from dropper.solver.transient import unplug

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
CASE = Lamp.from_toml("notebooks/lamps/display_case.toml")
TWIN = Lamp.from_toml("notebooks/lamps/classroom_twin.toml")


def rows(lamp, **setting):
    return {reading.key: reading for reading in view.view_of(view.Plugging(lamp, **setting)).readings}


def rush_rows(lamp, **setting):
    return {reading.key: reading for reading in rush_view.view_of(rush_view.PluggingIn(lamp, **setting)).readings}


def test_no_row_ever_goes():
    """Whatever is fitted and whenever it is plugged in or pulled out, the same readings stand in the same order."""
    keys, rush_keys = list(rows(STAIR)), list(rush_rows(STAIR))
    lamps = [replace_at(lamp, "bleeder", ohms) for lamp in (STAIR, CASE, TWIN) for ohms in (None, 1e4, 1e6, 1e7)]
    for lamp, angle, pulled in itertools.product(lamps, (0.0, 90.0), (0.0, 90.0)):
        seen, rush = rows(lamp, pulled=pulled), rush_rows(lamp, angle=angle)
        assert list(seen) == keys and list(rush) == rush_keys, (lamp.name, lamp.bleeder, angle, pulled)
        for reading in (*seen.values(), *rush.values()):
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
    quiet, worst = rush_rows(STAIR, angle=0.0), rush_rows(STAIR, angle=90.0)
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


def test_without_its_bleeder_the_dropper_keeps_all_for_an_hour():
    """Beliefs 17 and that the LEDs empty it: by the law, no resistor across it leaves the volts as they are."""
    right, found = view.bleeder_verdict(STAIR)
    assert right == "all" and found.count("256 V") == 2 and "12.4 V" in found
    assert set(Plugging.causes) == {"leds", "some"} and set(Plugging(STAIR).question()[1]) == {"leds", "some", "all"}


def test_ten_times_the_resistor_leaves_the_heat_of_the_rush_as_it_is():
    """Belief 26; by hand: half of 330 nF times (325.3 V) squared, 17.5 mJ, whatever the ohms."""
    right, found = rush_view.heat_verdict(STAIR)
    energy = 0.5 * 330e-9 * STAIR.mains.peak**2
    seen = [rush_rows(replace_at(STAIR, "inrush_resistor", ohms))["inrush_energy"].value for ohms in (220.0, 2200.0)]
    assert right == "same" and all(0.88 < one / energy < 1 for one in seen)
    assert all(text in found for text in ("16.6 mJ", "15.8 mJ", "1.3 A", "146 mA", "103 mW"))


def test_a_second_and_a_half_after_the_pull_the_meter_shows_a_volt_and_the_dropper_holds_twenty():
    """Of a lamp that the panel above the question has not shown."""
    right, found = view.pins_verdict(CASE)
    assert right == "much" and "23 V" in found and "does not prove the dropper empty" in found
    assert view.pins_then(CASE) == "1 V"


def reached(goals, seen, first):
    """What each goal says that a view reaches, by its key."""
    return {goal.key: goal.words(seen, first, None) for goal in goals if goal.reached(seen, first, None)}


@pytest.mark.parametrize(
    ("key", "changes", "setting", "figures"),
    [
        ("kept", {"bleeder": None}, {}, ("256 V", "never")),
        ("quick", {"bleeder": 220e3}, {}, ("146 ms", "666 ms")),
        ("lucky", {}, {"pulled": 15.0}, ("6.49 V", "256 V")),
    ],
)
def test_a_goal_of_the_pull_says_what_it_shows(key, changes, setting, figures):
    lamp = STAIR
    for path, value in changes.items():
        lamp = replace_at(lamp, path, value)
    first, seen = view.view_of(view.Plugging(STAIR)), view.view_of(view.Plugging(lamp, **setting))
    said = reached(PULL_GOALS, seen, first)
    assert list(said) == [key] and not reached(PULL_GOALS, first, first)
    assert all(figure in said[key] for figure in figures), said[key]


@pytest.mark.parametrize(
    ("key", "changes", "setting", "figures"),
    [
        ("half", {"inrush_resistor": 470.0}, {}, ("1.3 A", "16.6 mJ", "103 mW")),
        ("twice", {}, {"precharge": -325.0}, ("2.61 A", "4.0 times")),
        ("gentle", {}, {"angle": 0.0}, ("32.6 mA",)),
        ("bare", {"inrush_resistor": 0.0}, {}, ("6.42 A", "621 V")),
    ],
)
def test_a_goal_of_the_rush_says_what_it_shows(key, changes, setting, figures):
    lamp = STAIR
    for path, value in changes.items():
        lamp = replace_at(lamp, path, value)
    first, seen = (
        rush_view.view_of(one) for one in (rush_view.PluggingIn(STAIR), rush_view.PluggingIn(lamp, **setting))
    )
    said = reached(RUSH_GOALS, seen, first)
    assert list(said) == [key] and not reached(RUSH_GOALS, first, first)
    assert all(figure in said[key] for figure in figures), said[key]
    assert rush_figure.sentence(seen)
