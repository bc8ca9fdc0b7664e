"""Readings that pass what their part stands carry a word of it; those that do not carry none."""

import pytest
from dropper import Lamp, replace_at
from dropper.lessons.ageing import view as ageing
from dropper.lessons.bench import view as bench
from dropper.lessons.design import view as design
from dropper.lessons.faults import view as faults
from dropper.lessons.load_line import view as load_line

STAIR = "notebooks/lamps/stair_marker.toml"
LAMPS = (STAIR, "notebooks/lamps/shelf_strip.toml", "notebooks/lamps/display_case.toml")


@pytest.fixture
def lamp():
    return Lamp.from_toml(STAIR)


def excess(view):
    """What is passed, by the key of the reading."""
    return {reading.key: reading.excess for reading in view.readings if reading.excess}


def views(lamp):
    yield bench.view_of(lamp)
    yield load_line.view_of(lamp)
    yield faults.view_of(faults.FaultyLamp(lamp))
    yield ageing.view_of(ageing.Ageing(lamp))


@pytest.mark.parametrize("path", LAMPS)
def test_the_lamps_of_the_course_pass_nothing(path):
    for view in views(Lamp.from_toml(path)):
        assert excess(view) == {}


def test_too_much_capacitance_is_marked_on_every_panel_with_a_string_current(lamp):
    """By hand: 4·50 Hz·1 µF·(325 V − 70 V) = 51 mA, through LEDs stated at 20 mA."""
    for view in views(replace_at(lamp, "dropper", 1e-6)):
        words = excess(view)
        key = "current" if "current" in words else "string_current_mean"
        assert words[key] == "above the 20 mA of its LEDs", type(view)


def test_leds_side_by_side_stand_their_current_together(lamp):
    two = replace_at(replace_at(lamp, "dropper", 560e-9), "string.in_parallel", 2)
    assert excess(load_line.view_of(two)) == {}
    assert excess(load_line.view_of(replace_at(two, "string.in_parallel", 1)))


def test_a_resistor_beyond_its_watts_is_marked(lamp):
    """The largest kept stands 3 W; 98 mA through 1 kΩ are 9.9 W."""
    words = excess(bench.view_of(replace_at(replace_at(lamp, "dropper", 4.7e-6), "series_resistor", 1000.0)))
    assert words["series_resistor"].startswith("above 3 W") and words["inrush_resistor"].startswith("above 3 W")


def test_the_bench_writes_the_mark_and_the_word_into_the_row(lamp):
    from dropper.lessons import Bench

    panel = Bench(STAIR, ask=False)
    assert "▲" not in panel.table.value + panel.sentence.value
    panel.sliders["dropper"].value = 4.7e-6
    assert "▲ above the 20 mA of its LEDs" in panel.table.value
    assert "▲ above 3 W" in panel.sentence.value
    assert "above the 20 mA of its LEDs" in panel.sentence.value.split('data-say="')[1].split('"')[0], "it is said too"


def test_the_designer_goes_by_the_limit_of_its_kind_of_led():
    from dropper.design import Brief

    view = design.view_of(Brief.from_toml("notebooks/lamps/briefs/door_number.toml"))
    assert excess(view) == {} and view.limit > 0
    row = next(row for row in view.readings if row.key == "string_current_mean")
    from dropper.results.excess import marked

    assert marked([row], view.lamp, 0.5 * row.value)[0].excess
