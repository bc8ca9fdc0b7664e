"""Colours that are alike, computed a second time; and what doubtful bands could be, by trying everything."""

import itertools

import numpy as np
import pytest
from colorspacious import cspace_convert, deltaE
from dropper.components.marks import bands, colour_pairs, similar_colours
from dropper.components.marks.colours import COLOURS

NAMES = list(COLOURS)
KINDS = {"protan": "protanomaly", "deutan": "deuteranomaly", "tritan": "tritanomaly"}


def rgb(name):
    paint = COLOURS[name].paint
    return [int(paint[at : at + 2], 16) / 255 for at in (1, 3, 5)]


def apart(one, other, kind=None):
    """How far two colours are apart, in CAM02-UCS, for an eye of a kind (Machado, Oliveira and Fernandes 2009)."""
    seen = np.array([rgb(one), rgb(other)])
    if kind:
        seen = cspace_convert(seen, {"name": "sRGB1+CVD", "cvd_type": kind, "severity": 100}, "sRGB1").clip(0, 1)
    return float(deltaE(*seen, input_space="sRGB1", uniform_space="CAM02-UCS"))


@pytest.mark.parametrize("sight", KINDS)
def test_the_pairs_are_those_that_lie_near_for_such_an_eye(sight):
    near = {
        frozenset(pair) for pair in itertools.combinations(NAMES, 2) if apart(*pair, KINDS[sight]) <= colour_pairs.NEAR
    }
    assert colour_pairs.PAIRS[sight] == near


def test_what_lies_near_for_every_eye_is_doubtful_on_the_bench():
    near = {frozenset(pair) for pair in itertools.combinations(NAMES, 2) if apart(*pair) <= colour_pairs.NEAR}
    assert near <= colour_pairs.PAIRS["bench"]
    assert np.mean([apart(*pair) for pair in itertools.combinations(NAMES, 2)]) == pytest.approx(41, abs=1)


def test_letters_on_the_bands_tell_them_apart_without_any_colour():
    assert len({each.letters for each in COLOURS.values()}) == len(COLOURS)


@pytest.mark.parametrize(
    ("row", "doubtful"),
    [
        ("orange violet brown gold", (1,)),
        ("brown black red gold", (1, 3)),
        ("brown black black brown brown", (1, 2, 4)),
        ("red violet silver", (1, 3)),
        ("brown red black brown brown red", (2, 5)),
        ("yellow violet gold silver", (3, 4)),
    ],
)
@pytest.mark.parametrize("sight", colour_pairs.SIGHTS)
def test_candidates_are_all_that_trying_everything_finds(row, doubtful, sight):
    row = row.split()
    choices = [
        [name, *(similar_colours.partners(name, [sight]) if place in doubtful else [])]
        for place, name in enumerate(row, 1)
    ]
    found = {}
    for names in itertools.product(*choices):
        try:
            readings = bands.read(names)
        except ValueError:
            continue
        for each in readings:
            found.setdefault((each.value, each.minus, each.coefficient), each.usual)
    least = min((usual for usual in found.values() if usual < 2), default=None)
    expected = {key for key, usual in found.items() if usual == least} if least is not None else set()
    listed, count = similar_colours.candidates(row, doubtful, [sight], most=10**6)
    assert {(each.meaning.value, each.meaning.minus, each.meaning.coefficient) for each in listed} == expected
    assert count == len(listed) == len(expected)


def test_the_likeliest_come_first_and_say_what_would_be_changed():
    listed, count = similar_colours.candidates(["yellow", "violet", "red", "gold"], [1, 2, 3, 4])
    assert count > len(listed) == similar_colours.MOST
    assert listed[0].misread_bands == () and listed[0].meaning.text == "4.7 kΩ ±5 %"
    assert all(each.meaning.minus >= 5 for each in listed), "two digits go with 5 % and wider"
    changes = [len(each.misread_bands) for each in listed]
    assert changes == sorted(changes)
    for each in listed:
        assert any(meaning.value == each.meaning.value for meaning in bands.read(each.bands))


def test_what_was_measured_may_choose():
    asked = ["yellow", "violet", "red", "gold"], [1, 2, 3, 4]
    every, _ = similar_colours.candidates(*asked, most=10**6)
    kept, count = similar_colours.candidates(*asked, keep=lambda low, high: high < 500)
    assert count == sum(each.meaning.high < 500 for each in every) and all(each.meaning.high < 500 for each in kept)


def test_deciding_names_what_the_ohmmeter_has_to_tell():
    two, _ = similar_colours.candidates(["orange", "violet", "brown", "gold"], [1])
    assert "any ohmmeter" in similar_colours.decide(two)
    # 1.1 kΩ less 5 % against 1 kΩ and 5 % more: 1045 and 1050 overlap; by hand.
    near, _ = similar_colours.candidates(["brown", "brown", "red", "gold"], [2])
    values = {each.meaning.value for each in near}
    assert {1000.0, 1100.0} <= values and "overlap" in similar_colours.decide(near)
    assert similar_colours.decide(two[:1]) == ""


def test_the_accuracy_asked_for_is_the_one_that_is_needed():
    """100 Ω and 110 Ω, both ±1 %: 101 and 108.9 are told apart by a meter of (108.9 − 101)/(108.9 + 101) = 3.7 %."""
    both = [similar_colours.Candidate((), bands.read(bands.write(value, 1.0, 5))[0], ()) for value in (100.0, 110.0)]
    both = [each for each in both if each.meaning.value in (100.0, 110.0)]
    assert len(both) == 2 and "better than ±3 %" in similar_colours.decide(both)


def test_what_no_board_carries_gives_way():
    """Yellow, white, white, black, brown is 499 Ω ±1 %, and from the right 109 GΩ ±0.02 %, which no board carries."""
    listed, count = similar_colours.candidates(["yellow", "white", "white", "black", "brown"])
    assert [each.meaning.value for each in listed] == [499.0] and count == 1
    assert [each.usual for each in bands.read(["yellow", "white", "white", "black", "brown"])] == [0, 1]
