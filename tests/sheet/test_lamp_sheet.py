"""A lamp's sheet says what the solver, the ratings and the standards say, and nothing that was typed breaks out of it."""

import math
import re
from dataclasses import replace

import pytest
from draws import examples
from dropper import Lamp, Led, LedString, Mains, sheet, standards, steady_state
from dropper.bench.meter import PlugInMeter
from dropper.circuit.values import show
from dropper.design.ratings import ratings
from dropper.design.tolerance import Spread, corners
from dropper.solver.transient import worst_plug_in
from hypothesis import example, given, settings
from hypothesis import strategies as st
from pages import LAMPS, NASTY, POOR, lamp, made, poor_lamp
from reading_back import Page

PARTS, METERS, MOMENTS = "Parts, and what each must stand", "What the meters should show", "Plugging in and pulling out"


def rows(page, caption):
    return {row[0]: row[1:] for row in page.tables[caption][1:]}


@pytest.mark.parametrize("name", LAMPS)
def test_figures_are_the_solvers_to_the_digits_shown(name):
    own, page, meter = lamp(name), Page(made(name).html), PlugInMeter()
    result, shown = steady_state(own), rows(page, METERS)
    for key, words in (
        ("current", "line current"),
        ("power", "power"),
        ("apparent_power", "apparent power"),
        ("power_factor", "power factor"),
    ):
        _, digit, source = meter.digits()[key]
        text, band = shown[words][:2]
        scale = 1e-3 if "mA" in text else 1
        assert abs(float(text.split()[0]) * scale - getattr(result, source)) <= digit / 2 * (1 + 1e-9)
        low, high = (float(end) * scale for end in band.split(" to "))
        assert low - 1e-9 <= getattr(result, source) <= high + 1e-9 and math.isclose(high - low, digit)
    mark = "" if own.mains.voltage < 50 else " ⚠"  # isolated extra-low volts are not marked as live
    assert shown[f"string current, mean{mark}"][0] == show(result.string_current_mean, "A")
    assert show(result.real_power, "W") in page.text and f"power factor {result.power_factor:.2f}" in page.text


@pytest.mark.parametrize("name", LAMPS)
def test_least_and_greatest_are_those_of_the_corners(name):
    own = lamp(name)
    found = corners(own, Spread.of(own)).of("string_current_mean")
    said = rows(Page(made(name).html), METERS)[f"string current, mean{'' if own.mains.voltage < 50 else ' ⚠'}"][2]
    least, greatest = (float(end) for end in re.findall(r"[\d.]+", said))
    assert least == pytest.approx(found.least * 1e3, rel=5e-3) and greatest == pytest.approx(
        found.greatest * 1e3, rel=5e-3
    )
    assert least < steady_state(own).string_current_mean * 1e3 < greatest


@pytest.mark.parametrize("name", LAMPS)
def test_parts_are_those_of_the_ratings_with_their_verdicts_in_words(name):
    own, page = lamp(name), Page(made(name).html)
    (fuse, *said), table = page.tables[PARTS][1:], ratings(own)
    assert fuse[0] == "F1 fuse" and fuse[-1] == "? ask the data sheet"
    assert len(said) == len(table.parts)
    for row, part in zip(said, table.parts, strict=True):
        assert row[-1] == f"{part.sign} {part.verdict}" and part.tightest.worst.text in row[3]
        assert row[5] == part.tightest.limit_text
        assert f"{part.verdict}: " in page.text, "every verdict that stands there is explained"


def test_an_overstressed_part_is_told_in_words_with_what_to_take():
    page = Page(made("poor").html)
    said = rows(page, PARTS)
    assert said["D1–D4 bridge"][-1] == "✗ over" and "take 1N4006" in said["D1–D4 bridge"][1]
    assert said["C1 dropper"][-1] == "✓ within"
    assert "✗ Over a limit: inrush resistor, bleeder, bridge" in page.text
    assert float(said["D1–D4 bridge"][-2].removeprefix("× ")) < 1


def test_volts_left_follow_the_exponential_law_and_the_rules_are_the_standards():
    # 470 nF and 1 MΩ from 230 V rms: 38.7 V at 1 s; 1.06 s to 34 V and 0.794 s to 60 V: V·exp(−t/RC), worked by hand.
    own = replace(lamp("stair_marker"), dropper=470e-9, bleeder=1e6)
    exact = Spread(voltage=230, voltage_low=230, voltage_high=230, frequency=50, frequency_low=50, frequency_high=50)
    page = Page(sheet.lamp_sheet(own, upper=230.0, spread=exact).html)
    said = rows(page, MOMENTS)
    assert said["The dropper holds at once, after 1 s"] == ["325 V, 38.7 V"]
    assert said["… until 60 V, 34 V are left"] == ["0.79 s, 1.1 s"]
    # with a meter on the pins the bridge and the bus stand against what the dropper holds: nothing is shown
    assert said["Pins after 1 s, meter of 10 MΩ"] == ["less than 0.1 V"]
    assert "The dropper's volts." in page.text
    rule = standards.touch_rule("household")
    assert f"✗ over: {show(rule.limit, 'V')} after {show(rule.seconds, 's')} (household, {rule.standard}" in page.text
    assert "✓ within: 60 V after 5 s (luminaire with plug" in page.text


def test_the_rush_is_the_transients_and_never_more_than_the_step_over_the_resistance():
    own = replace(lamp("stair_marker"), mains=Mains(253.0, 50.0))
    said = rows(Page(sheet.lamp_sheet(lamp("stair_marker")).html), MOMENTS)
    first, again = (
        float(said[key][0].split()[0])
        for key in ("Rush at 253 V, mains of 400 mΩ and 800 µH, all empty", "… plugged in again at once")
    )
    assert first == pytest.approx(worst_plug_in(own, periods=1).line_current_peak, abs=0.005)
    peak = math.sqrt(2) * 253.0
    assert (
        0.8 * peak / 220 < first < peak / 220 and first < again < 2 * peak / 220
    )  # Ohm's law, everything else left out


def test_cautions_stand_there_and_no_live_part_is_called_safe():
    for name in (*LAMPS, "poor"):
        text = Page(made(name).html).text
        said = (
            "Touch nothing in it while it is plugged in",
            "Unplugged is not discharged, and 0 V between the pins does not prove the dropper empty",
            "Only people trained and allowed to do so measure",
            "earth-leakage",
            "local codes and people licensed to do mains work",
        )
        if name == "classroom_twin":
            said = (
                "safety isolating transformer",
                "a class may measure",
                "Never connect this lamp to the mains",
                "one node: put both on the transformer's end of R1",
            )
            assert "licensed practice" not in text and "earth-leakage" not in text
            assert "(⚠ live)" not in text and "dc on the string's side ⚠" not in text
        for words in (*said, "Computed, not tested"):
            assert words in text, f"{name}: {words}"
        assert not re.search(r"\bsafe\b|touch-safe|harmless|no danger", text.lower())


def test_a_sheet_says_which_library_made_it_and_when():
    import dropper

    made_then = sheet.lamp_sheet(lamp("stair_marker"), date="2026-03-09").html
    assert f"dropper {dropper.__version__} on 2026-03-09" in Page(made_then).text
    for wrong in ("9 March", 20260309, "2026-13-01"):
        with pytest.raises(ValueError, match="write it like 2026-03-09"):
            sheet.lamp_sheet(lamp("stair_marker"), date=wrong)


def test_what_was_read_on_the_bench_stands_beside_what_should_be():
    shown = rows(Page(made("stair_marker").html), METERS)
    assert shown["line current"][-1] == "22 mA" and shown["power factor"][-1] == "0.26"
    assert rows(Page(made("classroom_twin").html), METERS)["line current"][-1] == "", "room for the pen"


def test_lamps_that_lack_parts_or_stay_dark_have_a_sheet_too():
    bare = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), dropper=330e-9, smoothing=0)
    said = rows(Page(sheet.lamp_sheet(bare).html), MOMENTS)
    assert said["… until 60 V, 34 V are left"] == ["never, never"]
    assert "No inrush resistor: C1 goes up to, first and again" in said
    dark = replace(lamp("stair_marker"), string=replace(lamp("stair_marker").string, in_series=150), name=" ")
    page = Page(sheet.lamp_sheet(dark).html)
    assert "the string stays dark" in page.text and "nan" not in page.text and "lamp without a name" in page.text
    idle = replace(dark, bleeder=None, smoothing_bleeder=None)
    assert "-0" not in str(rows(Page(sheet.lamp_sheet(idle).html), METERS))


@pytest.mark.parametrize(
    ("asked", "named"),
    [
        ({"notes": "x" * 501}, "notes: 501 characters; at most 500"),
        ({"notes": "a\n" * 6}, "notes: 6 lines; at most 5"),
        ({"builder": "x" * 61}, "builder: 61 characters"),
        ({"notes": 7}, "notes: 7 is no text"),
        ({"paper": "A3"}, "paper: 'A3' is not known; choose A4 or Letter"),
        ({"fitted": {"bleeder": "a nail"}}, "nail"),
        ({"upper": 100.0}, "upper: 100 V is below"),
    ],
)
def test_what_will_not_do_is_told(asked, named):
    with pytest.raises(ValueError, match=re.escape(named)):
        sheet.lamp_sheet(lamp("stair_marker"), **asked)


def built(page):
    """How a page is built, whatever stands in it; a long name is set smaller."""
    found = [tag for tag in Page(page).built if tag[0] not in ("br", "bdi")]
    return [("h1", ()) if tag[0] == "h1" else tag for tag in found]


@settings(max_examples=examples(8))
@given(notes=st.text(max_size=120), builder=st.text(max_size=50))
@example(notes=NASTY, builder=NASTY[:60])
@example(notes="</template><script>alert(1)</script>", builder="<!--")
@example(notes="=1+1\n@SUM(A1)", builder="\u202eelbisrever\x00")
def test_nothing_typed_becomes_a_tag_and_the_lamp_comes_back(notes, builder):
    own = lamp("stair_marker")
    try:
        page = sheet.lamp_sheet(own, notes=notes, builder=builder, spread=_corners()).html
    except ValueError as error:
        assert "lines; at most 5" in str(error)
        return
    assert built(page) == built(made("stair_marker").html)
    assert sheet.open_sheet(page) == own


def _corners(kept=[]):  # noqa: B006 (kept on purpose: the same for all examples)
    if not kept:
        kept.append(corners(lamp("stair_marker"), Spread.of(lamp("stair_marker"))))
    return kept[0]


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", [NASTY, '=HYPERLINK("http://example.org")', "ламп‑а Ω µ 灯 💡", "a & b < c > \"d\" 'e'", "]]>"]
)
def test_a_name_is_nothing_but_a_name(name):
    own = replace(lamp("stair_marker"), name=name)
    page = sheet.lamp_sheet(own, builder="A. Learner", spread=_corners()).html
    assert built(page) == built(made("stair_marker").html)
    assert name in Page(page).text and sheet.open_sheet(page) == own


def test_a_document_of_another_kind_takes_the_same_skeleton():
    page = sheet.document(
        "List <1>", "<h1>List</h1>" + sheet.table("A & B", ("what", "n"), [("x<y", "1\n2")], (1,)), paper="Letter"
    )
    assert page.startswith("<!DOCTYPE html>") and '<html lang="en">' in page and "size: Letter" in page
    assert "<title>List &lt;1&gt;</title>" in page and "A &amp; B" in page and "x&lt;y" in page and "1<br>2" in page
    assert "<script" not in page and "http" not in page.replace("http-equiv", "")


def test_poor_parts_are_poor_by_the_ratings_own_word():
    assert {rating.part for rating in ratings(poor_lamp(), fitted=POOR).over} >= {"diodes", "smoothing", "bleeder"}


def test_the_wait_at_worst_counts_the_tolerances():
    """t = R·C·ln(U/60 V) at C + 20 % and R + 5 %, the string open, U what the sheet itself says."""
    said = rows(Page(made("stair_marker").html), MOMENTS)["C2, string open: at once, until 60 V"][0]
    volts, seconds = (float(part.split()[0]) for part in said.split(", "))
    own = lamp("stair_marker")
    by_hand = 1.05 * own.smoothing_bleeder * 1.2 * own.smoothing * math.log(volts / 60.0)
    assert seconds == pytest.approx(by_hand, rel=0.03)
