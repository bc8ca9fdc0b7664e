"""What the panels on marks refuse, ask back or leave open: nothing typed is lost, nothing is promised too much."""

import pytest
from dropper.lessons import Markings, PartCheck
from dropper.lessons.part_check import figure as prints_picture
from dropper.lessons.part_check import view as prints


@pytest.fixture(scope="module")
def bands():
    return Markings(ask=False)


@pytest.fixture(scope="module")
def check():
    return PartCheck(measured="430 nF", ask=False)


def test_a_complaint_stays_until_its_field_is_mended(bands, check):
    bands.reset()
    bands.sliders["measured"].value = "banana"
    bands.sliders["first"].value = "red"
    assert "banana" in bands.complaint.value and bands.sliders["measured"].value == "banana"
    bands.sliders["wanted"].value = "12.345"
    assert "banana" in bands.complaint.value and "12.345" in bands.complaint.value
    bands.sliders["wanted"].value = ""
    bands.sliders["measured"].value = "268"
    assert bands.complaint.value == ""
    bands.sliders["measured"].value = "banana"
    bands.reset()
    assert bands.complaint.value == "" and bands.sliders["measured"].value == ""
    check.reset()
    check.sliders["measured"].value = "4.68"
    check.sliders["counts"].value = 2
    assert "4.68" in check.complaint.value
    check.sliders["text"].value = "4R7J"
    assert check.complaint.value == "" and check.view.judgement.word == "within", "with this part it will do"
    check.reset()


@pytest.mark.parametrize(
    ("text", "read", "said"),
    [
        ("474K", "0.43", "did you mean 0.43 µF?"),
        ("474K", "430", "did you mean 430 nF?"),
        ("474K", "2k", "2 kF"),
        ("474K", "0", "Write the unit"),
        ("474K", "1e99", "Write the unit"),
        ("4R7J", "1e30", "Write the unit"),
        ("5W 4R7J", "2000000", "Write the unit"),
        ("474K", "0.43 F", "did you mean 0.43 µF?"),
    ],
)
def test_a_reading_that_no_such_part_gives_is_asked_back(text, read, said):
    with pytest.raises(ValueError, match="measured") as told:
        prints.view_of(prints.Print(text=text, measured=read))
    assert said in str(told.value)


def test_a_dead_or_open_part_may_read_what_it_reads():
    for text, read in (("474K", "0.1 nF"), ("474K", "0 nF"), ("4R7J", "2.00 MΩ"), ("474", "0 nF")):
        view = prints.view_of(prints.Print(text=text, measured=read))
        assert (view.judgement and view.judgement.word == "outside") or "no tolerance" in view.reason


def test_a_varistor_gets_no_verdict_and_no_rating():
    view = prints.view_of(prints.Print(text="10D471K", measured="470 V"))
    assert view.judgement is None and "do not try" in view.reason
    assert "much lower" in prints_picture.sentence(view)
    other = prints.view_of(prints.Print(text="471K", measured="470 V"))
    assert "choose “470 V ±10 %: varistor”" in other.reason


def test_doubt_that_no_usual_value_ends_is_told(bands):
    bands.reset()
    for sight in ("protan", "tritan"):
        bands.sliders["sight"].value = sight
        bands.sliders["unsure3"].value = True
        assert "no value of E24 comes of it" in bands.words and "preferred value" not in bands.words
    bands.reset()
    for name in ("first", "second", "third"):
        bands.sliders[name].value = "red"
    bands.sliders["count"].value = 3
    assert "Both ends say the same" in bands.words
    bands.reset()


def test_own_eyes_still_look_by_lamp_light(bands):
    """Orange or red by lamp light, orange or yellow to eyes without green cones."""
    bands.reset()
    bands.sliders["unsure1"].value = True
    found = {"bench": {270}, "protan": {270}, "deutan": {270, 470}, "tritan": {270}, "all": {270, 470}}
    for sight, ohms in found.items():
        bands.sliders["sight"].value = sight
        assert {each.meaning.value for each in bands.view.candidates} == ohms
    bands.reset()


def test_no_advice_from_a_few_of_many(bands):
    bands.reset()
    bands.sliders["wanted"].value = "1k 1 %"
    for place in range(1, 6):
        bands.sliders[f"unsure{place}"].value = True
    assert bands.view.count > 500 and "Measure to decide" not in bands.words
    bands.reset()
