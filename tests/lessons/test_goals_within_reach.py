"""Goals of the bench, the load line and the two ways to drop a voltage: within reach, and true in what they say."""

import re

import pytest
from dropper import Lamp, replace_at
from dropper.lessons import Bench, LoadLine, Powers, ResistorOrCapacitor
from panels_to_try import OTHERS, STAIR, ends

TWIN = "notebooks/lamps/classroom_twin.toml"
MAKERS = {
    **{("Bench", path): lambda path=path: Bench(path, ask=False) for path in (STAIR, *OTHERS, TWIN)},
    **{("LoadLine", path): lambda path=path: LoadLine(path, ask=False) for path in (STAIR, *OTHERS, TWIN)},
    ("ResistorOrCapacitor", ""): lambda: ResistorOrCapacitor(ask=False),
}


def settings(panel):
    """What the panel shows with one slider moved, at each of its places."""
    for path, slider in panel.sliders.items():
        values = [value for _, value in slider.options] if hasattr(slider, "options") else ends(slider)
        for value in values:
            yield panel.lesson.view_of(replace_at(panel.initial, path, value))


@pytest.mark.slow
@pytest.mark.parametrize("key", MAKERS, ids=lambda key: " ".join(key))
def test_every_goal_is_reached_by_one_slider_and_says_so_in_figures(key):
    panel = MAKERS[key]()
    missing = {goal.key: goal for goal in panel.goals}
    for view in settings(panel):
        for goal in list(missing.values()):
            if goal.reached(view, panel.first_view, None):
                words = goal.words(view, panel.first_view, None)
                assert re.search(r"\d", words) and "nan" not in words and words.endswith("."), words
                del missing[goal.key]
    assert not missing, f"no slider alone reaches {list(missing)}"


def said(panel, key, *changes):
    """What a goal says once a lamp is changed so; None where it is not reached."""
    setting = panel.initial
    for path, value in changes:
        setting = replace_at(setting, path, value)
    goal = next(goal for goal in panel.goals if goal.key == key)
    views = panel.lesson.view_of(setting), panel.first_view, None
    return goal.words(*views) if goal.reached(*views) else None


@pytest.fixture(scope="module")
def bench():
    return Bench(STAIR, ask=False)


@pytest.fixture(scope="module")
def load_line():
    return LoadLine(STAIR, ask=False)


def test_a_goal_that_asks_for_one_slider_is_not_reached_by_two(bench, load_line):
    assert said(bench, "halved", ("dropper", 150e-9)) and said(load_line, "halved", ("dropper", 150e-9))
    both = ("dropper", 150e-9), ("series_resistor", 1000.0)
    assert said(bench, "halved", *both) is None and said(bench, "end", *both) is None
    assert said(load_line, "halved", ("dropper", 150e-9), ("mains.voltage", 240.0)) is None


def test_the_resistor_at_its_end_and_the_dropper_at_half(bench):
    assert "10 Ω to 1 kΩ" in said(bench, "end", ("series_resistor", 1000.0))
    assert "−6.8 %" in said(bench, "end", ("series_resistor", 1000.0))
    assert said(bench, "halved", ("series_resistor", 1000.0)) is None
    assert "the dropper C1, 330 nF to 150 nF" in said(bench, "halved", ("dropper", 150e-9))
    assert "59 % to 100 %" in said(bench, "flicker", ("smoothing", 0.0))


def test_the_capacitance_and_the_current_go_together(load_line):
    share, current = re.findall(r"(\d+) %", said(load_line, "halved", ("dropper", 150e-9)))
    assert int(share) == 45 and int(current) == pytest.approx(45, abs=1)


def test_a_lamp_that_is_dark_reaches_nothing():
    panel = LoadLine(replace_at(Lamp.from_toml(STAIR), "string.in_series", 200), ask=False)
    assert panel.first_view.dark
    assert (
        said(panel, "raised", ("mains.voltage", 264.0)) is None
        and said(panel, "less", ("mains.voltage", 264.0)) is None
    )


def test_the_moment_does_not_matter_to_the_goals_about_parts():
    panel = ResistorOrCapacitor(ask=False)
    assert said(panel, "warm", ("dissipation_factor", 0.008), ("phase", 90.0))
    assert said(panel, "warm", ("dissipation_factor", 0.008), ("current", 0.01)) is None
    assert "170 V to 153 V" in said(panel, "cooler", ("load_voltage", 77.0), ("phase", 10.0))
    assert "28.3 mA" in said(panel, "crest", ("phase", 270.0))


def test_twice_the_current_leaves_the_power_factor_and_ten_times_does_not():
    """That the ratio changes little is said only where the two figures beside it are close together."""
    powers = Powers(STAIR, ask=False)
    assert "0.27 to 0.30: watts and volt-amperes grow together" in said(powers, "light", ("dropper", 680e-9))
    assert "0.27 to 0.61: 62 % of the watts reach the LEDs" in said(powers, "light", ("dropper", 4.7e-6))
