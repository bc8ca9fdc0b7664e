"""Bands against the standard's table, against a general package, and back and forth, value by value."""

import itertools
import math

import eseries
import pytest
import resistors
from draws import examples
from dropper.circuit.series import E_SERIES
from dropper.components.marks import MarkError, bands
from dropper.components.marks.colours import COLOURS, colour
from hypothesis import given, settings
from hypothesis import strategies as st

# IEC 60062:2016+A1:2019 as restated in handbooks: digit, power of ten, tolerance in per cent. The temperature
# coefficients, ppm/K, are values from memory. Letters: IEC 60757, as an open encyclopedia restates it.
TABLE = {
    "black": ("BK", 0, 0, None, 250),
    "brown": ("BN", 1, 1, 1, 100),
    "red": ("RD", 2, 2, 2, 50),
    "orange": ("OG", 3, 3, 0.05, 15),
    "yellow": ("YE", 4, 4, 0.02, 25),
    "green": ("GN", 5, 5, 0.5, 20),
    "blue": ("BU", 6, 6, 0.25, 10),
    "violet": ("VT", 7, 7, 0.1, 5),
    "grey": ("GY", 8, 8, 0.01, 1),
    "white": ("WH", 9, 9, None, None),
    "gold": ("GD", None, -1, 5, None),
    "silver": ("SR", None, -2, 10, None),
    "pink": ("PK", None, -3, None, None),
}
# What the package calls otherwise, or does not have.
THEIRS = {"grey": "gray"}
THEIR_TOLERANCES = ("brown", "red", "green", "blue", "violet", "gold", "silver")


def test_the_colours_are_those_of_the_standard():
    assert {
        name: (each.letters, each.digit, each.power, each.tolerance, each.coefficient) for name, each in COLOURS.items()
    } == TABLE


@pytest.mark.parametrize("count", [4, 5])
def test_every_reading_is_that_of_a_general_package(count):
    """Every step of E24 or E48 with every multiplier and tolerance that the package has, from the left."""
    steps = E_SERIES[24] if count == 4 else E_SERIES[48]
    multipliers = [name for name in COLOURS if name != "pink"]
    for step, multiplier, tolerance in itertools.product(steps, multipliers, THEIR_TOLERANCES):
        digits = [next(name for name, row in TABLE.items() if row[1] == int(digit)) for digit in str(step)]
        row = [*digits, multiplier, tolerance]
        theirs = resistors.Resistor(*(THEIRS.get(name, name) for name in row)).get_resistance()
        ours = bands.from_end(bands.as_colours(row), "left")
        assert (ours.minus, ours.plus) == (theirs["tolerance"],) * 2
        assert ours.value == pytest.approx(theirs["value"], rel=1e-12), row


# The number of digits and the preferred values that go with it: the package holds the tables of IEC 60063.
@pytest.mark.parametrize(("series", "digits"), [("E24", 2), ("E96", 3), ("E192", 3)])
def test_every_preferred_value_is_written_and_read_back(series, digits):
    tolerances = [row[3] for row in TABLE.values() if row[3] is not None]
    for value in eseries.erange(eseries.ESeries[series], 0.1 if digits == 2 else 1.0, 9.9e9):
        for tolerance in tolerances if value < 2 else (5,):
            count = 4 if digits == 2 else 5
            names = bands.write(value, tolerance, count)
            back = bands.from_end(bands.as_colours(names), "left")
            assert back.value == pytest.approx(value, rel=1e-9) and back.minus == tolerance
            if value < 10:
                assert any(each.value == back.value and each.minus == tolerance for each in bands.read(names))
            if digits == 3 and value < 1.5 and tolerance == 5:
                for coefficient in (250, 100, 50, 15, 25, 20, 10, 5, 1):
                    six = bands.write(value, tolerance, 6, coefficient)
                    assert six[:5] == names and bands.from_end(bands.as_colours(six), "left").coefficient == coefficient
            if digits == 2:
                assert bands.write(value, 20, 3) == names[:3]


# By hand, with the steps that the lesson names; and four examples that handbooks give.
@pytest.mark.parametrize(
    ("names", "value", "tolerance"),
    [
        ("yellow violet black gold", 47, 5),
        ("brown black red gold", 1000, 5),
        ("red red orange gold", 22e3, 5),
        ("brown black black gold brown", 10, 1),
        ("orange orange green gold", 3.3e6, 5),
        ("brown black orange", 10e3, 20),
    ],
)
def test_examples(names, value, tolerance):
    meaning = bands.read(names.split())[0]
    assert (meaning.value, meaning.minus) == (value, tolerance)


def test_the_least_and_the_most_by_hand():
    meaning = bands.read(["yellow", "violet", "black", "gold"])[0]
    assert meaning.low == pytest.approx(44.65, abs=1e-9) and meaning.high == pytest.approx(49.35, abs=1e-9)


def test_both_ends_are_given_where_both_can_be_read():
    both = bands.read(["brown", "black", "black", "brown", "brown"])
    assert {(each.end, each.value) for each in both} == {("left", 1000.0), ("right", 110.0)}
    assert [each.end for each in bands.read(["gold", "black", "violet", "yellow"])] == ["right"]
    same = bands.read(["brown", "red", "brown"])
    assert len(same) == 1, "a row that reads alike from both ends is given once"


def test_the_usual_reading_goes_first():
    assert [each.usual for each in bands.read(["brown", "red", "orange"])] == [0, 1], "12 kΩ before 320 Ω"


def test_links_and_older_tables():
    assert bands.read(["black"])[0].value == 0 and bands.write(0) == ("black",)
    grey = bands.read(["brown", "black", "black", "brown", "grey"])[0]
    assert grey.minus == 0.01 and "0.05" in grey.notes[0]


@pytest.mark.parametrize(
    ("names", "match"),
    [
        (["gold", "gold", "gold", "gold"], "From the left: band 1, gold, cannot be the first digit.+band 4"),
        (["black", "brown", "red", "black"], "no value begins with 0"),
        (["brown", "black"], "2 bands: a resistor has 3, 4, 5 or 6"),
        (["brown"], "one band alone is a link"),
        (["brown", "mauve", "red", "gold"], "band 2: 'mauve' is no colour"),
        (["brown", None, "red", "gold"], "band 2: 'None' is no colour"),
        ([], "0 bands"),
    ],
)
def test_what_cannot_be_read_says_where_and_why(names, match):
    with pytest.raises(MarkError, match=match):
        bands.read(names)


@pytest.mark.parametrize(
    ("asked", "match"),
    [
        ({"value": 499.0}, "more than 2 digits"),
        ({"value": 12.34, "bands": 5}, "more than 3 digits"),
        ({"value": 47.0, "tolerance": 3}, "tolerance of ±3 %"),
        ({"value": 47.0, "bands": 3}, "needs a band of its own"),
        ({"value": 47.0, "bands": 6}, "give it in ppm/K"),
        ({"value": 47.0, "coefficient": 50}, "no room"),
        ({"value": 47.0, "bands": 6, "coefficient": 33}, "33 ppm/K"),
        ({"value": 47e12}, "multiplier of 10"),
        ({"value": -1.0}, "not a number of ohms"),
        ({"value": math.nan}, "not a number of ohms"),
        ({"value": True}, "not a number of ohms"),
        ({"value": 47.0, "bands": 2}, "3, 4, 5 or 6"),
    ],
)
def test_what_has_no_bands_says_so(asked, match):
    with pytest.raises(MarkError, match=match):
        bands.write(**asked)


@pytest.mark.parametrize("text", ["YE", "ye", "yellow", " Yellow ", "4 yellow", "YELLOW"])
def test_a_colour_is_known_by_name_letters_and_numeral(text):
    assert colour(text).name == "yellow"


@given(st.lists(st.one_of(st.sampled_from(list(COLOURS)), st.text(max_size=8)), max_size=8))
@settings(max_examples=examples(200))
def test_any_row_is_read_or_refused_in_words(row):
    try:
        found = bands.read(row)
    except MarkError as error:
        assert len(str(error)) > 20
    else:
        assert found and all(math.isfinite(each.value) and each.how for each in found)
