"""The panels on marks without a browser: every corner, garbage typed, every number explained, nothing cut off."""

import itertools
import re
from html import unescape
from xml.dom import minidom

import pytest
from draws import examples
from dropper.circuit.values import unbroken
from dropper.components.marks.colours import COLOURS
from dropper.lessons import Markings, PartCheck, WhichWay
from dropper.lessons.kit import part_drawing
from dropper.lessons.markings import figure as bands_picture
from dropper.lessons.markings import view as markings
from dropper.lessons.part_check import board
from dropper.lessons.part_check import figure as prints_picture
from dropper.lessons.part_check import view as prints
from hypothesis import given, settings
from hypothesis import strategies as st
from predict import predict

PRINTS = (
    "474K 275V~ X2",
    "474",
    "105J 400V",
    "2A104K",
    "4R7",
    "01C",
    "471K",
    "YE VT BK GD",
    "1N4007",
    "10 µF 100V",
    "000",
    "5W 4R7J",
    "479C",
    "brown black black brown brown",
    "10D471K",
    "474K",
)


@pytest.fixture(scope="module")
def bands():
    return Markings(ask=False)


@pytest.fixture(scope="module")
def check():
    return PartCheck(measured="430 nF", ask=False)


def look_over(panel):
    """Nothing on the panel may be empty, broken, outside of the picture or without its words."""
    svg = panel.curves.value
    minidom.parseString(svg)
    assert "nan" not in svg and "inf" not in svg
    assert len(re.search(r'aria-label="([^"]+)"', svg)[1]) > 40
    assert "nan" not in panel.sentence.value + panel.table.value and panel.complaint.value == ""
    width, height = panel.picture.PICTURE.size
    for x, y in re.findall(r'<text x="(-?[\d.]+)" y="(-?[\d.]+)"', svg):
        assert 0 <= float(x) <= width and 0 <= float(y) <= height, (x, y)
    for reading in panel.view.readings:
        assert f">{reading.name}</th>" in panel.table.value
        panel.explain_reading(reading.key)
        assert reading.name in panel.derivations[reading.key] and len(reading.note) > 20
    panel.explain_reading("")


@pytest.mark.parametrize("count", markings.COUNTS)
def test_every_colour_at_every_place_gives_a_picture_and_words(bands, count):
    bands.reset()
    bands.sliders["count"].value = count
    for place, name in itertools.product(markings.PLACES[:count], COLOURS):
        bands.sliders[place].value = name
        look_over(bands)
        assert bands.setting.names[markings.PLACES.index(place)] == name
    rows = [row for row in bands.slider_box.children if hasattr(row, "children")]
    assert [row.layout.display for row in rows] == [""] * count + ["none"] * (6 - count)


@pytest.mark.parametrize("count", markings.COUNTS)
@pytest.mark.parametrize("sight", markings.SIGHTS)
def test_every_doubt_is_shown_and_its_partners_named(bands, count, sight):
    bands.reset()
    bands.sliders["count"].value, bands.sliders["sight"].value = count, sight
    for place in range(1, count + 1):
        bands.sliders[f"unsure{place}"].value = True
        look_over(bands)
    listed = len(bands.view.candidates)
    assert bands.sentence.value.count("<li>") == (listed if listed > 1 else 0)
    bands.sliders["measured"].value = "268"
    look_over(bands)
    assert "ohmmeter" in bands.words
    bands.reset()
    assert bands.setting == bands.initial


def test_what_is_measured_chooses_among_doubtful_bands(bands):
    bands.reset()
    bands.sliders["unsure1"].value = True
    bands.sliders["measured"].value = "268 Ω"
    assert "fits 270 Ω ±5 % (band 1 red) alone" in bands.words
    bands.sliders["measured"].value = "3.1k"
    assert "none of the" in bands.words and "None of these fits" in bands.sentence.value
    bands.reset()


@pytest.mark.parametrize(
    ("typed", "names"),
    [
        ("4.7k", "yellow violet red gold"),
        ("499R 1 %", "yellow white white black brown"),
        ("1M 20%", "brown black green"),
        ("10k 0.1 % 25 ppm", "brown black black red violet yellow"),
        ("0.47 Ω", "yellow violet silver gold"),
        ("4,7 kΩ ±5 %", "yellow violet red gold"),
        ("4R7", "yellow violet gold gold"),
    ],
)
def test_a_value_is_written_as_bands(bands, typed, names):
    bands.reset()
    bands.sliders["wanted"].value = typed
    look_over(bands)
    assert bands.setting.names == tuple(names.split())
    assert [bands.sliders[place].value for place in markings.PLACES[: bands.setting.count]] == names.split()
    bands.sliders["first"].value = "blue"
    assert bands.sliders["wanted"].value == "", "these are another value's bands now"
    bands.reset()


@pytest.mark.parametrize(
    ("field", "typed", "match"),
    [
        ("wanted", "some", "bands for: 'some' is not in Ω"),
        ("wanted", "12.345", "more than 3 digits"),
        ("wanted", "47 3 %", "no colour for a tolerance of ±3 %"),
        ("wanted", "0", "is a link"),
        ("wanted", "47 3 %", "bands for: there is no colour"),
        ("wanted", "1e12", "bands for: there is no colour"),
        ("measured", "many", "ohmmeter reads: 'many' is not in Ω"),
        ("measured", "0", "is not above 0"),
        ("measured", "440 nF", "is not in Ω"),
        ("measured", "1e99", "more than any ohmmeter reads"),
    ],
)
def test_what_cannot_be_is_told_and_leaves_the_picture(bands, field, typed, match):
    bands.reset()
    before = bands.curves.value, bands.setting
    bands.sliders[field].value = typed
    assert match in unescape(bands.complaint.value)
    assert (bands.curves.value, bands.setting) == before
    bands.reset()
    assert bands.complaint.value == ""


@pytest.mark.parametrize("text", PRINTS)
def test_every_print_and_every_meaning_of_it_is_shown(check, text):
    check.sliders["measured"].value = ""
    check.sliders["text"].value = text
    for name, _ in check.sliders["meaning"].options:
        check.sliders["meaning"].value = name
        for measured in ("", "440 nF", "46.5 Ω", "1.2 V"):
            check.sliders["measured"].value = measured
            look_over(check)
            assert check.sliders["meaning"].value == prints.name_of(check.view.meaning) == name
    check.reset()


def test_a_print_that_cannot_be_read_leaves_what_was_there(check):
    before = check.curves.value
    for wrong, match in (("47Q", "character 3"), ("", "nothing is typed"), ("yellow mauve", "band 2")):
        check.sliders["text"].value = wrong
        assert match in check.complaint.value and check.curves.value == before
    check.reset()
    check.sliders["measured"].value = "lots"
    assert "meter reads:" in check.complaint.value and check.curves.value == before
    check.sliders["measured"].value = "430 Ω"
    assert "is in Ω" in check.words and check.complaint.value == ""
    check.reset()


def test_the_meter_decides_and_typical_ones_follow_the_unit(check):
    check.reset()
    assert check.view.judgement.word == "cannot tell"
    check.sliders["percent"].value = 0.5
    check.sliders["counts"].value = 1
    assert check.view.judgement.word == "within"
    check.reset()
    assert (check.sliders["percent"].value, check.sliders["counts"].value) == prints.METERS["F"]
    check.sliders["text"].value = "4R7J"
    assert (check.sliders["percent"].value, check.sliders["counts"].value) == prints.METERS["Ω"]
    check.reset()


@given(st.text(max_size=30), st.text(max_size=12))
@settings(max_examples=examples(60))
def test_garbage_is_shown_or_refused_in_words(text, measured):
    try:
        view = prints.view_of(prints.Print(text=text, measured=measured or None))
    except ValueError as error:
        assert len(str(error)) > 15
    else:
        minidom.parseString(prints_picture.overlay(view, prints_picture.scales(view), prints_picture.sentence(view)))


@pytest.mark.parametrize("kind", [Markings, PartCheck])
def test_a_prediction_comes_first_and_is_judged_by_what_is_moved(kind):
    panel = kind()
    assert all(slider.disabled for slider in panel.sliders.values())
    predict(panel.prediction)
    assert not any(slider.disabled for slider in panel.sliders.values())
    before = panel.prediction.reply.value
    path = panel.decisive[0]
    panel.sliders[path].value = "red" if path == "first" else "452 nF"
    after = panel.prediction.reply.value
    assert after != before and unbroken(panel.verdict()[1])[1:15] in after


def test_the_kept_one_stays_as_a_ghost(bands, check):
    for panel, path, value in ((bands, "first", "red"), (check, "measured", "500 nF")):
        panel.reset()
        panel.keep()
        panel.sliders[path].value = value
        minidom.parseString(panel.ghost.value)
        assert 'aria-hidden="true"' in panel.ghost.value and ">kept<" in panel.table.value
        panel.forget()
        assert panel.ghost.value == ""
        panel.reset()
    minidom.parseString(bands_picture.backdrop())


def test_verdicts_of_the_predictions_are_computed():
    assert "270 Ω" in markings.verdict() and "E12" in markings.verdict()
    right, found = PartCheck(ask=False).verdict()
    assert right == "cannot tell" and right in found


def test_every_shape_is_drawn_with_its_way_round_in_words():
    which = WhichWay()
    for key, shape in board.SHAPES.items():
        which.choice.value = key
        drawn = which.drawing.value
        minidom.parseString(re.search(r"<svg.+?</svg>", drawn, flags=re.S)[0])
        assert shape.way.split(".")[0][:30] in unescape(drawn)
    assert set(board.SHAPES) == set(part_drawing.SHAPES)
    polar = {"electrolytic": "MINUS", "diode": "CATHODE", "led": "ANODE"}
    for key, word in polar.items():
        assert word in board.SHAPES[key].words
