"""The panel for own readings without a browser."""

import re
from xml.dom import minidom

import pytest
from dropper.bench.diagnosis.evidence import WORDS, Evidence
from dropper.lessons import FaultFinding
from dropper.lessons.fault_finding import figure as picture
from dropper.lessons.fault_finding import view as lesson

STAIR = "notebooks/lamps/stair_marker.toml"


@pytest.fixture
def panel():
    return FaultFinding(STAIR)


def type_in(panel, **texts):
    for field, text in texts.items():
        panel.fields[field].value = text


def test_every_reading_has_its_field_and_its_example_can_be_read():
    names = {field for field, _, _ in lesson.NUMBERS} | {field for field, _ in lesson.CHOICES}
    assert names == set(Evidence.__dataclass_fields__) - {"pins_after", "bus_after"}
    texts = {field: example for field, _, example in lesson.NUMBERS} | {
        field: next(iter(WORDS[field])) for field in WORDS
    }
    assert set(lesson.read(texts).reading_names()) == names


def test_readings_stand_by_where_they_are_read_and_live_ones_are_folded(panel):
    groups = {title: set(fields) for title, fields in lesson.grouped(panel.fields)}
    closed, unplugged, live = groups.values()
    assert {"voltage", "current", "power", "power_factor", "light", "leds_dark"} == closed
    assert {"bus_voltage", "bus_ripple", "bus_residual"} == live
    assert closed | unplugged | live == set(panel.fields) and "pins_residual" in unplugged
    assert panel.live_box.layout.display == "none"
    panel.live.value = True
    assert panel.live_box.layout.display is None
    panel.live.value = False
    assert panel.live_box.layout.display == "none"
    panel.take()
    assert panel.live_box.layout.display is None, "what counts is in sight"


def test_bars_end_near_the_longest_and_the_others_are_folded(panel):
    assert picture.scales(panel.view) == 40, "28 % before anything is read"
    assert panel.curves.value.count('fill="var(--dropper-blue)"') == 5 and "The other 16 causes" in panel.others.value
    assert "dropper has lost 28" not in panel.sentence.value


def test_readings_change_the_odds_and_the_words(panel):
    assert "Nothing is read yet" in panel.sentence.value
    type_in(panel, voltage="230 V", current="11 mA", power="0.6 W", power_factor="0.25")
    assert panel.view.causes[0][0].startswith("a dropper that has lost") and panel.view.count == 4
    assert "line current 11 mA" in panel.reasons.value and panel.complaint.value == ""
    svg = panel.curves.value
    minidom.parseString(svg)
    assert "dropper has lost" in re.search(r'aria-label="([^"]+)"', svg)[1]
    for x, y in re.findall(r'<text x="(-?\d+)" y="(-?\d+)"', svg):
        assert 0 <= int(x) <= 10 * picture.PICTURE.size[0] and 0 <= int(y) <= 10 * picture.PICTURE.size[1]
    panel.clear()
    assert panel.view.count == 0


def test_a_wrong_reading_complains_by_its_name_and_leaves_the_picture(panel):
    type_in(panel, current="22 mA")
    before = panel.curves.value
    type_in(panel, power="1.3 V")
    assert "watts" in panel.complaint.value and panel.curves.value == before
    type_in(panel, power="1.3 W")
    assert panel.complaint.value == "" and panel.curves.value != before


def test_a_milliampere_forgotten_is_asked_about(panel):
    type_in(panel, voltage="230", current="22 mA")
    before = panel.curves.value
    type_in(panel, current="22")
    assert "line current: 22 A is too much; did you mean 22 mA?" in panel.complaint.value
    assert panel.curves.value == before


def test_odds_that_the_prior_alone_decides_are_told_as_such(panel):
    """The note of lesson 13: at the plug one diode short and half of the groups short are one."""
    type_in(panel, voltage="230 V", current="23 mA", power="0.8 W", power_factor="0.16")
    assert "Most likely it is one shorted diode" in panel.sentence.value
    assert "the odds between them come from how common each is" in panel.sentence.value
    type_in(panel, leds_dark="0")
    assert "how common" not in panel.sentence.value and "It is one shorted diode" in panel.sentence.value


def test_no_volts_on_the_pins_name_no_part(panel):
    type_in(panel, pins_residual="0 V")
    assert "cannot tell" in panel.sentence.value
    for words, _, why in panel.view.causes:
        assert words.startswith("nothing worse") or not why.startswith("For it"), words


def test_bench_readings_are_taken_from_the_lamp_file_and_live_is_only_on_request(panel):
    panel.take()
    assert panel.fields["current"].value and panel.view.count == 5
    assert "licensed practice only" not in panel.sentence.value
    panel.live.value = True
    assert panel.view.count == 5


def test_ohms_over_the_range_and_words_count(panel):
    type_in(panel, voltage="230", current="0 mA", power="0 W", light="none", inrush_resistance="over")
    assert panel.view.causes[0][0] == "an open inrush resistor"
    panel.lamp_box.choice.value = "shelf_strip.toml"
    assert panel.lamp.name == "shelf strip" and panel.complaint.value == ""
