"""Goals of a panel: none is reached before anything is moved; one that is reached stays ticked and is said once."""

import pytest
from dropper import Lamp, lessons
from dropper.lessons import LoadLine
from dropper.lessons.kit.goals import Goal, GoalList
from panels_to_try import ALL, OF_LAMPS, OTHERS, STAIR, new_panel

CURRENT = Goal(
    "more",
    "Raise the current by a tenth.",
    lambda view, first, kept: view.crossing[1] > 1.1 * first.crossing[1],
    lambda view, first, kept: f"{1e3 * view.crossing[1]:.1f} mA instead of {1e3 * first.crossing[1]:.1f} mA.",
)
KEPT = Goal(
    "against_kept",
    "Keep a curve, then beat it.",
    lambda view, first, kept: kept is not None and view.crossing[1] > kept.crossing[1],
    lambda view, first, kept: "More than what was kept.",
)


class WithGoals(LoadLine):
    goals = (CURRENT, KEPT)


def fresh(name):
    return getattr(lessons, name)(ask=False) if name in ("Markings", "PartCheck") else new_panel(name)


@pytest.fixture
def panel():
    return WithGoals(STAIR, ask=False)


def brighter(panel):
    panel.sliders["dropper"].value = 470e-9


def test_a_goal_is_ticked_when_it_is_reached_and_says_what_it_shows(panel):
    assert "☑" not in panel.goal_list.marks.value and panel.goal_list.marks.value.count("☐") == 2
    brighter(panel)
    assert panel.goal_list.marks.value.count("☑") == 1
    assert "instead of 16.7\xa0mA." in panel.goal_list.marks.value
    assert 'role="status"' in panel.goal_list.news.value and "Reached: " in panel.goal_list.news.value


def test_a_goal_that_is_reached_is_said_once_and_stays_as_it_was(panel):
    brighter(panel)
    marks, news = panel.goal_list.marks.value, panel.goal_list.news.value
    panel.sliders["dropper"].value = 560e-9
    assert (panel.goal_list.marks.value, panel.goal_list.news.value) == (marks, news)


def test_reset_keeps_the_ticks_and_another_lamp_takes_them_away(panel):
    brighter(panel)
    panel.reset()
    assert list(panel.goal_list.seen) == ["more"]
    panel.set_lamp(Lamp.from_toml(OTHERS[0]))
    assert panel.goal_list.seen == {} and "☑" not in panel.goal_list.marks.value


def test_a_goal_can_be_about_what_was_kept(panel):
    panel.keep()
    brighter(panel)
    assert list(panel.goal_list.seen) == ["more", "against_kept"]


def test_a_mark_is_not_told_by_its_sign_alone(panel):
    assert panel.goal_list.marks.value.count("not reached yet: ") == 2
    brighter(panel)
    assert panel.goal_list.marks.value.count(">reached: ") == 1


def test_a_goal_that_fails_ends_no_panel_on_a_page_but_fails_here():
    broken = Goal("broken", "Break.", lambda *views: 1 / 0, lambda *views: "")
    on_a_page = GoalList((broken, CURRENT), lambda: True)
    view = LoadLine(STAIR, ask=False).view
    on_a_page.check(view, view, None)
    assert on_a_page.seen == {}
    with pytest.raises(ZeroDivisionError):
        GoalList((broken,)).check(view, view, None)


@pytest.mark.parametrize("name", [*ALL, "Bench", "Markings", "PartCheck"])
def test_no_goal_is_reached_before_anything_is_moved(name):
    paths = (STAIR, *OTHERS) if name in (*OF_LAMPS, "Bench") else (None,)
    for path in paths:
        panel = new_panel(name, path=path) if path else fresh(name)
        for goal in panel.goals:
            assert not goal.reached(panel.first_view, panel.first_view, None), f"{goal.key} of {path}"
        assert panel.goal_list.seen == {}


@pytest.mark.parametrize("name", [*ALL, "Bench", "Markings", "PartCheck"])
def test_goals_are_few_and_short(name):
    goals = fresh(name).goals
    assert len({goal.key for goal in goals}) == len(goals) <= 5
    texts = [goal.text for goal in goals]
    assert sum(len(text.split()) for text in texts) <= 120
    long = [text for text in texts for part in text.split(". ") if len(part.split()) > 20]
    assert long == [], "a sentence of more than 20 words"
