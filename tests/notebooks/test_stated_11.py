"""What lesson 11 states in figures, held to the library."""

import pytest
from dropper import theory
from dropper.circuit.series import E_SERIES
from dropper.components.marks import any_mark, bands, codes, preferred_series
from dropper.components.marks import similar_colours as alike
from dropper.components.marks.letters import TOLERANCES, VOLTS, rated_volts
from dropper.components.marks.tolerance_check import check_tolerance
from dropper.lessons import Markings, PartCheck
from dropper.lessons.part_check.print_view import numerals_case

DOUBTFUL = ["orange", "violet", "brown", "gold"]
FIVE = ["brown", "black", "black", "brown", "brown"]


def judged(read):
    return check_tolerance(read, 470e-9, 10, 10, unit="F", percent=4, counts=5, digit=1e-9)


def test_the_first_band_is_red_for_270_is_sold_and_370_is_not():
    assert Markings().verdict()[0] == "red"
    listed, count = alike.candidates(DOUBTFUL, doubtful=[1], sights=["bench"])
    assert count == 1 and listed[0].bands[0] == "red" and listed[0].meaning.value == 270
    assert 37 not in E_SERIES[24] and 27 in E_SERIES[12]
    assert (preferred_series.below(24, 370), preferred_series.above(24, 370)) == (360, 390)


def test_the_bands_that_the_panel_starts_with_give_nothing_away():
    """470 Ω: yellow in the place of red or orange."""
    panel = Markings(("yellow", "violet", "brown", "gold"))
    assert panel.view.best.value == 470 and "270" not in panel.words + panel.table.value
    assert "370" not in panel.words + panel.table.value


@pytest.mark.parametrize(
    ("eyes", "ohms"), [("bench", {270}), ("protan", {270}), ("tritan", {270}), ("deutan", {270, 470})]
)
def test_what_is_left_of_the_first_band_for_other_eyes(eyes, ohms):
    found, _ = alike.candidates(DOUBTFUL, doubtful=[1], sights=["bench", eyes])
    assert {each.meaning.value for each in found} == ohms


def test_a_step_of_E24_is_the_24th_root_of_ten():
    """IEC 60063:2015: E48 and E96 are the rounded powers, E192 too but for one value; eight steps of E24 are older."""
    assert round(10 ** (1 / 24), 2) == 1.10 and len(E_SERIES[24]) == 24 and len(E_SERIES[12]) == 12
    assert preferred_series.of_tolerance(5) == 24 and preferred_series.of_tolerance(10) == 12
    assert preferred_series.of_tolerance(1) == 96
    assert [k for n, k in enumerate(E_SERIES[192]) if k != round(100 * 10 ** (n / 192))] == [920]
    assert E_SERIES[96] == tuple(round(100 * 10 ** (n / 96)) for n in range(96))
    by_rule = [round(10 * 10 ** (n / 24)) for n in range(24)]
    assert sum(kept != ruled for kept, ruled in zip(E_SERIES[24], by_rule, strict=True)) == 8


def test_yellow_violet_black_gold_is_47_ohms():
    meaning = bands.read(["yellow", "violet", "black", "gold"])[0]
    assert (meaning.value, round(meaning.low, 2), round(meaning.high, 2)) == (47, 44.65, 49.35)
    assert bands.write(47, tolerance=5) == ("yellow", "violet", "black", "gold")
    assert [one.end for one in bands.read(["red", "violet", "brown", "gold"])] == ["left"], "gold is no digit"


def test_five_bands_read_from_both_ends():
    read = bands.read(FIVE)
    assert {one.value for one in read} == {1000.0, 110.0} and {one.minus for one in read} == {1}


def test_a_meter_leaves_few_of_hundreds():
    _, count = alike.candidates(FIVE, doubtful=[1, 2, 3, 4, 5])
    fits, few = alike.candidates(FIVE, [1, 2, 3, 4, 5], keep=lambda low, high: low <= 1015 and high >= 991)
    assert 500 < count < 700 and few == 8 and {each.meaning.value for each in fits} == {1000.0, 1010.0}


def test_a_step_of_the_multiplier_is_ten():
    assert [bands.read(["brown", "black", third, "gold"])[0].value for third in ("red", "orange")] == [1e3, 1e4]


def test_colours_that_are_alike_to_some_eyes():
    assert alike.partners("brown", ["protan"]) == ("red",) and "green" in alike.partners("orange", ["deutan"])
    assert {"red", "orange"} & set(alike.partners("brown", ["bench"]))


def test_the_same_digits_are_nanofarads_or_kilohms():
    assert codes.read("474K")[0].text == "470 nF ±10 %"
    outcome, right = numerals_case("474K", "474")
    assert right == "part" and "470 nF ±10 %" in outcome and "470 kΩ" in outcome
    assert [TOLERANCES[letter] for letter in "JKM"] == [(5, 5), (10, 10), (20, 20)]
    texts = {one.text for one in any_mark.read("471K")}
    assert {"470 pF ±10 %", "470 V ±10 %"} <= texts


def test_voltage_codes_are_steps_of_R10():
    """ISO 3, R10, which rounds by 1.3 % at most."""
    for letter, n in zip("ABCDEFGHJK", range(10), strict=True):
        assert abs(VOLTS[letter] / 10 ** (n / 10) - 1) < 0.013, letter
    assert rated_volts(2, "A") == 100 and rated_volts(2, "J") == 630


def test_a_whole_print_has_its_volts_and_their_supply():
    film = codes.read("474K 275V~ X2")[0]
    assert (film.voltage, film.supply) == (275, "ac")
    assert codes.read("104 400V")[0].supply == "dc", "volts without ~ are dc"


def test_430_nF_cannot_be_judged_by_this_meter():
    check = judged(430e-9)
    assert PartCheck().verdict()[0] == check.word == "cannot tell"
    assert abs(check.least - 407.8e-9) < 1e-12 and abs(check.most - 452.2e-9) < 1e-12
    mark = codes.read("474K")[0]
    assert round(mark.low * 1e9) == 423 and round(mark.high * 1e9) == 517
    assert judged(460e-9).word == "within" and judged(380e-9).word == "outside" and judged(300e-9).word == "outside"


def test_the_current_goes_with_the_dropper_per_cent_for_per_cent():
    currents = [
        theory.mean_string_current(
            frequency=50, dropper=dropper, peak_voltage=theory.peak_voltage(voltage=230), clamped_voltage=68
        )
        for dropper in (423e-9, 470e-9, 517e-9)
    ]
    assert abs(currents[0] / currents[1] - 0.9) < 1e-9 and abs(currents[2] / currents[1] - 1.1) < 1e-9
