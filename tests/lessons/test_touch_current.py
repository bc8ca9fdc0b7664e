"""The panel of a person in the circuit: what it says in every setting, and that none of it is leave to touch."""

import itertools
import re

import pytest
from dropper import Lamp, lessons, standards
from dropper.lessons.touch_current import figure, path, view
from dropper.solver.transient import HANDS, LIVE

STAIR = "notebooks/lamps/stair_marker.toml"
LAMPS = (STAIR, "notebooks/lamps/display_case.toml", "notebooks/lamps/shelf_strip.toml")
LEAVE = r"\b(safe|safely|harmless|fine|no danger|may be touched|can be touched)\b"


@pytest.mark.parametrize("path", LAMPS)
def test_every_setting_ends_in_a_caution_and_gives_no_leave(path):
    lamp = Lamp.from_toml(path)
    for hand, live, state, ohms in itertools.product(HANDS, LIVE, view.states_of(lamp), (500.0, 10000.0)):
        seen = view.view_of(view.Contact(lamp, ohms, hand, live, state))
        words = figure.sentence(seen)
        assert words.endswith(standards.NO_LEAVE), (hand, live, state)
        assert not re.search(LEAVE, words.lower()), words
        assert seen.now.settled
        assert (seen.device == "nothing") == (hand == "string")


def test_turning_the_plug_takes_the_dropper_out_of_the_way():
    """Of a wet hand to earth, some ten times as much; of a dry one of 2 kΩ, some six times."""
    contact = view.Contact(Lamp.from_toml(STAIR))
    seen = view.view_of(contact)
    assert 11 < seen.turned.current_rms / seen.now.current_rms < 13
    assert seen.device == "either" and view.view_of(contact.turned).device == "trips"
    assert len(standards.thresholds_reached(seen.now.current_rms)) == 3, "above let-go, below the device's rating"
    drier = view.view_of(view.Contact(contact.lamp, 2000.0))
    assert 5.5 < drier.turned.current_rms / drier.now.current_rms < 7


def test_the_four_beliefs_of_the_question_meet_their_figures():
    panel = lessons.TouchCurrent(STAIR)
    text, answers = panel.question()
    assert set(answers) == {"string", "dropper", "breaker", "mains"} and "1 kΩ" in text
    right, found = panel.verdict()
    assert right == "mains" and found.endswith(standards.NO_LEAVE)
    for figure_of in ("16.1 mA", "193 mA", "67.4 V", "325 V"):
        assert figure_of in found


def test_a_lamp_without_inrush_resistor_offers_no_state_of_it():
    from dropper import replace_at

    bare = replace_at(Lamp.from_toml(STAIR), "inrush_resistor", 0.0)
    assert list(view.states_of(bare)) == ["sound", "short"]


def test_tasks_of_the_breaker_lie_away_from_where_the_device_changes():
    for key, hand in (("breaker_and_hand", "minus"), ("breaker_hand_to_hand", "string")):
        from dropper.lessons.touch_current.tasks import _touch

        answers = set()
        for seed in range(40):
            instance = lessons.question(key).ask(seed)
            amperes = _touch(instance.known, hand, "dropper").earth_current_rms
            answers.add(instance.answer)
            for border in (standards.HOUSEHOLD_DEVICE.holds, standards.HOUSEHOLD_DEVICE.trips):
                assert abs(amperes / border - 1) > 0.04, instance.prompt
        assert answers == ({"nothing"} if hand == "string" else {"stays on", "either", "trips"})


def test_a_lamp_behind_an_isolating_transformer_is_told_what_the_figures_are_of():
    seen = view.view_of(view.Contact(Lamp.from_toml("notebooks/lamps/classroom_twin.toml")))
    words = figure.sentence(seen)
    assert "ties neither wire to earth" in words and words.endswith(standards.NO_LEAVE)
    assert "isolating" not in figure.sentence(view.view_of(view.Contact(Lamp.from_toml(STAIR))))


def test_wrong_settings_are_refused_in_words():
    lamp = Lamp.from_toml(STAIR)
    with pytest.raises(ValueError, match=r"Contact.state: 'wet' is unknown; it can be sound"):
        view.Contact(lamp, state="wet")


def test_the_drawn_way_passes_earth_or_comes_back_by_the_other_wire():
    lamp = Lamp.from_toml(STAIR)
    for hand, live in itertools.product(HANDS, LIVE):
        points = path.way(view.Contact(lamp, hand=hand, live=live))
        heights = [height for _, height in points]
        assert (min(heights) < 1) == (hand != "string"), (hand, live)
        assert points[0][0] == points[-1][0] and points[0][1] != points[-1][1], (
            "from one wire of the mains to the other"
        )


def test_turned_the_drawn_way_to_earth_leaves_the_dropper_out():
    lamp, dropper = Lamp.from_toml(STAIR), 33.0  # where C1 stands, across
    for hand, live in itertools.product(HANDS, LIVE):
        points = path.way(view.Contact(lamp, hand=hand, live=live))
        upper = max(points[0][1], points[-1][1])
        passes = any(
            first[1] == second[1] == upper and min(first[0], second[0]) < dropper < max(first[0], second[0])
            for first, second in itertools.pairwise(points)
        )
        assert passes == (live == "dropper" or hand == "string"), (hand, live)
