"""Plans: minutes add up, tasks exist, figures are the library's, and what a class bets on is what its page asks."""

import re
from pathlib import Path

import pytest
from dropper import Lamp, replace_at, steady_state
from dropper.lessons.catalogue import LESSONS, of_lesson
from dropper.teaching.bets import bets_of
from dropper.teaching.folder import folder_for
from dropper.teaching.plan import LENGTH, Plan, lessons
from dropper.teaching.plans_command import plan_of
from for_every import for_every

NOTEBOOKS = Path(__file__).resolve().parents[2] / "notebooks"
LAMPS = NOTEBOOKS / "lamps"
STAIR = Lamp.from_toml(LAMPS / "stair_marker.toml")
SPOKEN = 130  # words a minute


def test_every_lesson_has_a_plan():
    assert lessons() == [0, *LESSONS]


@for_every(lessons())
def test_minutes_add_up_and_hold_reading_and_derivation(lesson):
    plan = Plan.of(lesson, LAMPS)
    assert sum(minutes for minutes, *_ in plan.minutes) == LENGTH
    steps = {name for _, name, _ in plan.minutes}
    assert {"Puzzle", "Bet", "Reading", "Derivation", "Exit ticket"} <= steps
    for minutes, name, how in plan.minutes:
        words = re.search(r"about (\d+) words", how)
        assert not words or int(words[1]) / SPOKEN < minutes, f"{name}: {words[1]} words in {minutes} minutes"


@for_every(LESSONS)
def test_both_paths_are_tasks_of_the_lesson_and_not_the_same(lesson):
    plan, keys = Plan.of(lesson, LAMPS), {task.key for task in of_lesson(lesson)}
    assert plan.easier and plan.harder and {*plan.easier, *plan.harder} <= keys
    assert not set(plan.easier) & set(plan.harder)
    for number in re.findall(rf"\b{lesson}\.\d+\b", plan.homework):
        assert int(number.split(".")[1]) <= len(keys)


def test_figures_are_those_of_the_solver():
    """By hand for the first: half of 22 LEDs of some 3 V more than the 256 V left over is 13 to 14 % of current."""
    changed = steady_state(replace_at(STAIR, "string.in_series", 11)).string_current_mean
    change = f"{100 * (changed / steady_state(STAIR).string_current_mean - 1):+.0f} %"
    plan = Plan.of(2, LAMPS)
    assert plan.figures["half"] == change == "+14 %" and any(change in answer for _, answer in plan.questions)
    assert f"{steady_state(STAIR).percent_flicker:.0f} %" in Plan.of(4, LAMPS).ticket[0][1]


def test_a_plan_has_the_bets_of_its_page_with_its_numbers():
    bets = bets_of(3, NOTEBOOKS)
    page = (NOTEBOOKS / "03_which_diodes_conduct.ipynb").read_text(encoding="utf-8")
    assert [bet.right for bet in bets] == ["before", "dark"]
    assert bets[1].question in page and "−36°" in bets[0].outcome
    text = plan_of(3, NOTEBOOKS)
    assert "−36°" in text and "behind a transformer" in text and "<script" not in text


@pytest.mark.wide
@for_every(lessons())
def test_every_page_of_a_plan_can_be_made(lesson):
    text = plan_of(lesson, NOTEBOOKS)
    assert "{" not in text.split("</style>")[1] and bets_of(lesson, NOTEBOOKS)


def test_nothing_for_teachers_goes_where_pupils_look():
    with pytest.raises(SystemExit, match="every pupil"):
        folder_for(NOTEBOOKS / "teaching")
    assert not (NOTEBOOKS / "teaching").exists()
