"""What a panel says aloud: one short line for a move, the verdict, what was kept, what was opened; nothing twice."""

import re
from html import unescape

import pytest
from dropper.lessons import Bench, LoadLine
from dropper.lessons.kit.voice import change_line
from dropper.results.reading import Reading
from panels_to_try import ALL, STAIR, ends, new_panel

STATUS = r'role="status"[^>]*>'


@pytest.fixture
def panel():
    return LoadLine(STAIR, ask=False)


def said(panel):
    """What the voice is given of the sentence."""
    return unescape(re.search(r'role="status" data-say="([^"]*)"', panel.sentence.value)[1])


def test_a_move_is_said_in_one_line_with_what_it_did(panel):
    panel.sliders["dropper"].value = 220e-9
    assert said(panel) == "string current 11.1 mA, 33 % less"
    panel.sliders["dropper"].value = 470e-9
    assert said(panel) == "string current 23.7 mA, 2.1 times as much, above the 20 mA of its LEDs"


def test_keeping_says_no_number_again(panel):
    panel.sliders["dropper"].value = 470e-9
    before = said(panel)
    panel.keep()
    assert said(panel) == before and "Kept to compare." in panel.spoken.value
    panel.sliders["dropper"].value = 330e-9
    assert "Kept" not in panel.spoken.value, "it can be said again"
    panel.forget()
    assert "Nothing is kept." in panel.spoken.value


def test_a_derivation_that_opens_is_said(panel):
    panel.explain_reading("clamped_voltage")
    assert re.search(STATUS + "How clamped voltage D, 69.1 V, comes about", panel.spoken.value)
    panel.explain_reading("")
    assert "How" not in panel.spoken.value


@pytest.mark.parametrize(
    ("unit", "before", "now", "line"),
    [
        ("A", 0.0167, 0.0173, "string current 17.3 mA, 4 % more"),
        ("A", 0.0167, 0.0, "string current 0 A, 100 % less"),
        ("°", -35.0, -20.0, "string current −20°, 15° more"),
        ("°C", 40.0, 52.0, "string current 52.0 °C, 12 K more"),
        ("A", 0.0, 0.01, "string current 10.0 mA"),
        ("A", float("nan"), 0.01, "string current 10.0 mA"),
    ],
)
def test_a_change_is_said_in_the_unit_that_fits(unit, before, now, line):
    first, last = (Reading("i", "string current, mean", value, unit, "") for value in (before, now))
    assert change_line(first, last) == line


@pytest.mark.parametrize("name", [*ALL, "Bench"])
def test_no_move_is_said_in_a_long_sentence(name):
    panel = new_panel(name)
    for slider in panel.sliders.values():
        for value in ends(slider):
            slider.value = value
            assert 5 < len(said(panel)) < 130, said(panel)


def test_nothing_is_said_in_two_places():
    """Of each change one place is a status: the sentence, the prediction's line, the goals, what is opened."""
    bench = Bench(STAIR, ask=False)
    bench.sliders["dropper"].value = 470e-9
    assert bench.sentence.value.count('role="status"') == 1 and 'role="status"' not in bench.table.value
