"""A design's sheet says what its panel says: its corners, its kinds, its clamp; and what data sheets have to answer."""

import re
from dataclasses import replace

import pytest
from dropper import sheet
from dropper.circuit.parsing import parse
from pages import DESIGNS, designed, lamp, made
from reading_back import Page

PARTS, MOMENTS = "Parts, and what each must stand", "Plugging in and pulling out"


def rows(name, caption=PARTS):
    return {row[0].split()[0]: row[1:] for row in Page(made(name).html).tables[caption][1:]}


@pytest.mark.parametrize("name", DESIGNS)
def test_the_worst_is_the_designs_own_in_its_corners(name):
    own, said = designed(name), rows(name)
    for rating in own.ratings.parts:
        symbol = own.of(rating.part).symbol
        assert rating.tightest.worst.text in said[symbol][2] and said[symbol][-1] == f"{rating.sign} {rating.verdict}"
    text = Page(made(name).html).text
    assert "Tolerances are counted" in text and "fitted" not in text
    assert "Tolerances are not counted" in Page(made("stair_marker").html).text


@pytest.mark.parametrize("name", DESIGNS)
def test_fuse_and_varistor_are_asked_for_and_the_headline_says_so(name):
    own, said, page = designed(name), rows(name), Page(made(name).html)
    assert said["F1"][-1] == said["RV1"][-1] == said["R1"][-1] == "? ask the data sheet"
    assert re.search(
        r"\? No part is over a limit that is kept here; data sheets still have to answer \d+ questions", page.text
    )
    assert "✓ No part" not in page.text
    # Ohm's law: with C1 short the inrush resistor alone, and the LEDs, keep the current of the mains.
    opens = parse(re.search(r"opens at ([\d.]+ m?A) with C1 short", page.text)[1], "A")
    assert 0.1 < opens * own.lamp.inrush_resistor / own.brief.supply.high <= 1
    assert not re.search(r"[mµ]A²s", page.text)


def test_a_clamp_is_drawn_listed_and_holds_what_it_holds():
    own, said = designed("model_case"), rows("model_case")
    assert said["D5"][0] == "56 V" and said["C2"][1] == own.kinds["smoothing"].name == "electrolytic, 63 V"
    assert said["R3"][0] == own.of("smoothing_bleeder").value_text
    held = next(row[1] for row in Page(made("model_case").html).tables[MOMENTS] if "held by D5" in row[0])
    assert own.sizing.clamp < parse(held.split(",")[0], "V") < 63
    assert "clamp D5, 56 V" in made("model_case").html and ",D5,clamp,1,56,V," in made("model_case").csv
    assert "D5" not in Page(made("reading_nook").html).text


def test_two_resistors_in_series_are_written_and_drawn_as_two():
    said = rows("reading_nook")
    assert said["R2"][0] == "2 × 510 kΩ" and said["D1–D4"][0] == "4"
    assert "bleeder R2, 2 × 510 kΩ" in made("reading_nook").html
    assert said["C1"][1] == "X2 film, 275 V ac, series use"


def test_a_lamp_that_the_design_is_not_of_is_refused():
    own = designed("model_case")
    with pytest.raises(ValueError, match="give the lamp it is of"):
        sheet.lamp_sheet(replace(own.lamp, dropper=470e-9), design=own)
    with pytest.raises(TypeError, match="is not a Design"):
        sheet.lamp_sheet(lamp("stair_marker"), design="model case")


def test_near_uv_is_warned_of():
    page = sheet.lamp_sheet(lamp("stair_marker"), fitted={"leds": "near-UV 375 nm, 5 mm"}).html
    assert "harms eyes and skin" in page and "harms eyes" not in made("stair_marker").html
    assert "Never near water, outdoors" in page
