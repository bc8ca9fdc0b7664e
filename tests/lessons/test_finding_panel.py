"""The panel for own readings without a browser."""

import re
from xml.dom import minidom

import pytest
from dropper.bench.diagnosis.evidence import WORDS, Observed
from dropper.lessons import FaultFinding
from dropper.lessons.fault_finding import figure as picture
from dropper.lessons.fault_finding import view as lesson

STAIR = "notebooks/lamps/stair_marker.toml"


@pytest.fixture
def panel():
    return FaultFinding(STAIR)


def put(panel, **texts):
    for field, text in texts.items():
        panel._fields[field].value = text


def test_every_reading_has_its_field_and_its_example_can_be_read():
    names = {field for field, _, _ in lesson.NUMBERS} | {field for field, _ in lesson.CHOICES}
    assert names == set(Observed.__dataclass_fields__) - {"pins_after", "bus_after"}
    texts = {field: example for field, _, example in lesson.NUMBERS} | {
        field: next(iter(WORDS[field])) for field in WORDS
    }
    assert set(lesson.read(texts).taken()) == names


def test_readings_change_the_odds_and_the_words(panel):
    assert "Nothing is read yet" in panel._said.value
    put(panel, voltage="230 V", current="11 mA", power="0.6 W", power_factor="0.25")
    assert panel.view.causes[0][0].startswith("a dropper that has lost") and panel.view.taken == 4
    assert "line current 11 mA" in panel._told.value and panel._wrong.value == ""
    svg = panel._curves.value
    minidom.parseString(svg)
    assert "dropper has lost" in re.search(r'aria-label="([^"]+)"', svg)[1]
    for x, y in re.findall(r'<text x="(-?\d+)" y="(-?\d+)"', svg):
        assert 0 <= int(x) <= 10 * picture.PICTURE.size[0] and 0 <= int(y) <= 10 * picture.PICTURE.size[1]
    panel.clear()
    assert panel.view.taken == 0


def test_a_wrong_reading_complains_by_its_name_and_leaves_the_picture(panel):
    put(panel, current="22 mA")
    before = panel._curves.value
    put(panel, power="1.3 V")
    assert "watts" in panel._wrong.value and panel._curves.value == before
    put(panel, power="1.3 W")
    assert panel._wrong.value == "" and panel._curves.value != before


def test_bench_readings_are_taken_from_the_lamp_file_and_live_is_only_on_request(panel):
    panel.take()
    assert panel._fields["current"].value and panel.view.taken == 5
    assert "licensed practice only" not in panel._said.value
    panel._live.value = True
    assert panel.view.taken == 5


def test_ohms_over_the_range_and_words_count(panel):
    put(panel, voltage="230", current="0 mA", power="0 W", light="none", inrush_resistance="over")
    assert panel.view.causes[0][0] == "an open inrush resistor"
    panel.children[1]._choice.value = "shelf_strip.toml"
    assert panel.lamp.name == "shelf strip" and panel._wrong.value == ""
