"""Lesson 8's panel: a dropper that looks good and is not, what the meter shows of it, goals, one number a page."""

import re

import pytest
from dropper import Lamp, replace_at, steady_state
from dropper.lessons import Ageing
from dropper.lessons.ageing import view
from dropper.lessons.ageing.goals import GOALS

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")


def seen(lamp=STAIR, **setting):
    return view.view_of(view.Ageing(lamp, **({"loss": 0.0} | setting)))


FIRST = seen()


def test_before_the_prediction_nothing_has_faded():
    """The panel starts with a new dropper: no reading and no sentence answers its question."""
    panel = Ageing("notebooks/lamps/stair_marker.toml")
    left = next(reading for reading in panel.view.readings if reading.key == "left")
    assert left.value == STAIR.dropper and panel.view.current == pytest.approx(panel.view.film_years.string_current[0])


def test_a_third_of_the_capacitance_is_a_third_of_the_light():
    """Belief 20; the current is 4 f C (Vp − D), in proportion to C."""
    right, found = view.looks_verdict(view.Ageing(STAIR))
    assert right == "yes" and "11.2 mA instead of 16.8 mA" in found
    assert pytest.approx(2 / 3, rel=0.01) == 11.2 / 16.8
    assert set(Ageing.causes) == set(Ageing(STAIR).question()[1]) - {"yes"}


def test_the_verdict_and_the_readings_have_the_same_new_lamp():
    current = next(reading for reading in FIRST.readings if reading.key == "current")
    assert f"instead of {current.text}" in view.looks_verdict(view.Ageing(STAIR))[1]


def test_current_and_watts_fall_together_at_nearly_the_same_power_factor():
    right, found = view.meter_verdict(STAIR)
    assert right == "same" and "0.26 to 0.25" in found
    old = steady_state(replace_at(FIRST.warm_lamp.lamp, "dropper", STAIR.dropper * 2 / 3))
    new = FIRST.warm_lamp.result
    assert old.line_current_rms / new.line_current_rms == pytest.approx(old.real_power / new.real_power, rel=0.05)


@pytest.mark.parametrize(
    ("key", "lamp", "setting", "figures"),
    [
        ("faded", STAIR, {"loss": 13.0}, ("164 nF", "8.35 mA", "16.8 mA", "0.25, new 0.26")),
        ("bright", STAIR, {"loss": 1.0, "years": 10.0}, ("15.2 mA of 16.8 mA", "10 years")),
        ("worn", STAIR, {"room": 35.0}, ("54.3 °C", "44.4 °C", "0.5 times")),
        ("hot", replace_at(STAIR, "inrush_resistor", 2200.0), {"room": 10.0}, ("fire risk",)),
    ],
)
def test_a_goal_says_what_it_shows(key, lamp, setting, figures):
    now = seen(lamp, **setting)
    said = {goal.key: goal.words(now, FIRST, None) for goal in GOALS if goal.reached(now, FIRST, None)}
    assert key in said and all(figure in said[key] for figure in figures), said
    assert not any(goal.reached(FIRST, FIRST, None) for goal in GOALS)


def test_a_life_that_nobody_knows_stays_below_a_word():
    """No figure beyond 100 000 h and fifteen years."""
    for setting in ({}, {"room": -20.0}, {"enclosure": 0.0}):
        texts = {reading.key: reading.text for reading in seen(**setting).readings}
        assert texts["life"] == "over 100 000 h" and texts["life_years"] == "over 15 years"
    short = {reading.key: reading.text for reading in seen(room=60.0, hours=24.0).readings}
    assert re.fullmatch(r"[\d.]+ years", short["life_years"])
