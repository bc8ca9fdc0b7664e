"""The bench panel without a browser: every corner, bad input, and what its pictures say."""

import dataclasses
import itertools
import re
import shutil

import pytest
from dropper import Lamp, replace_at, steady_state
from dropper.bench.meter import PlugInMeter
from dropper.circuit.lamp import value_at
from dropper.circuit.schematic import draw, reading
from dropper.lessons import Bench
from dropper.lessons.bench import figure as picture
from dropper.lessons.kit.frame import nice_scale
from hypothesis import given
from hypothesis import strategies as st
from predict import predict

STAIR = "notebooks/lamps/stair_marker.toml"


@pytest.fixture(scope="module")
def bench():
    return Bench(STAIR, ask=False)


def ends(slider):
    """The values at a slider's two ends."""
    if hasattr(slider, "options"):
        return slider.options[0][1], slider.options[-1][1]
    return slider.min, slider.max


def test_every_corner_of_the_sliders_gives_a_picture_and_a_sentence(bench):
    bench.reset()
    for corner in itertools.product(*(ends(slider) for slider in bench.sliders.values())):
        for slider, value in zip(bench.sliders.values(), corner, strict=True):
            slider.value = value
        svg = bench.curves.value
        assert svg.count("<polyline") == 4 and "nan" not in svg
        assert "nan" not in bench.table.value + bench.sentence.value
        label = re.search(r'aria-label="([^"]+)"', svg)[1]
        assert len(label) > 60
    bench.reset()


def test_curves_stay_inside_their_axes(bench):
    bench.reset()
    for (_, axes), points in zip(picture.CURVES, re.findall(r'points="([^"]+)"', bench.curves.value), strict=True):
        left, top, width, height = (10 * part for part in picture.PICTURE.axes[axes].box)
        for pair in points.split():
            x, y = map(int, pair.split(","))
            assert left <= x <= left + width and top <= y <= top + height


def test_reset_brings_back_the_lamp_of_the_file(bench):
    for slider in bench.sliders.values():
        slider.value = ends(slider)[1]
    assert bench.lamp != bench.initial
    bench.reset()
    assert bench.lamp == bench.initial == Lamp.from_toml(STAIR)


def test_keep_shows_a_ghost_and_signed_changes_and_forget_takes_it_away(bench):
    bench.reset()
    bench.keep()
    bench.sliders["dropper"].value = 470e-9
    assert "<polyline" in bench.ghost.value and "+" in bench.table.value
    assert ">bench</th>" not in bench.table.value, "beside the picture there is no room for both"
    bench.forget()
    assert ">bench</th>" in bench.table.value
    assert bench.ghost.value == "" and "kept" not in bench.table.value
    bench.reset()


def test_a_wrong_lamp_file_complains_and_leaves_the_lamp(bench):
    bench.reset()
    before = bench.curves.value
    bench.complain("spoilt.toml: line 2: <script>alert(1)</script>")
    assert "&lt;script&gt;" in bench.complaint.value
    assert bench.curves.value == before


def test_another_lamp_brings_its_own_sliders(bench):
    bench.start_from(Lamp.from_toml("notebooks/lamps/shelf_strip.toml"))
    assert bench.sliders["mains.frequency"].value == 60
    assert bench.sliders["dropper"].value == 1.5e-6
    bench.start_from(replace_at(Lamp.from_toml(STAIR), "dropper", 443e-9))
    assert bench.sliders["dropper"].label == "443 nF"
    bench.start_from(replace_at(Lamp.from_toml(STAIR), "mains.voltage", 24.0))
    assert bench.sliders["mains.voltage"].options[0] == ("24 V", 24.0)
    odd = replace_at(replace_at(Lamp.from_toml(STAIR), "mains.voltage", 121.37), "mains.frequency", 59.94)
    bench.start_from(odd)
    assert bench.sliders["mains.voltage"].label == "121.37 V" and bench.sliders["mains.frequency"].label == "59.94 Hz"
    assert bench.lamp == odd
    bench.start_from(Lamp.from_toml(STAIR))


def test_sliders_sleep_until_a_prediction_is_made_or_skipped():
    bench = Bench(STAIR)
    assert all(slider.disabled for slider in bench.sliders.values())
    bench.prediction.sure_buttons["sure"].click()
    assert all(slider.disabled for slider in bench.sliders.values())
    predict(bench.prediction, "resistor")
    assert not any(slider.disabled for slider in bench.sliders.values())
    assert bench.prediction.answer == "resistor"
    bench.sliders["dropper"].value = 470e-9
    bench.sliders["series_resistor"].value = 1000.0
    assert "hundred times" in bench.prediction.reply.value
    skipped = Bench(STAIR)
    predict(skipped.prediction, False)
    assert not any(slider.disabled for slider in skipped.sliders.values())


def test_names_typed_by_a_learner_are_escaped():
    lamp = replace_at(Lamp.from_toml(STAIR), "name", '<b>"x"</b>')
    assert "<b>" not in draw(lamp) and "&lt;b&gt;" in draw(lamp)


@pytest.mark.parametrize(
    "left_out", ["bleeder", "smoothing_bleeder", "inrush_resistor", "series_resistor", "smoothing"]
)
def test_a_part_that_is_not_fitted_is_not_drawn(left_out):
    lamp = Lamp.from_toml(STAIR)
    symbol = {
        "bleeder": "R2",
        "smoothing_bleeder": "R3",
        "inrush_resistor": "R1",
        "series_resistor": "R4",
        "smoothing": "C2",
    }
    assert f">{symbol[left_out]}<" in draw(lamp)
    without = replace_at(lamp, left_out, None if "bleeder" in left_out else 0.0)
    assert f">{symbol[left_out]}<" not in draw(without)
    assert symbol[left_out] not in reading(without)


def test_the_drawing_shows_every_value_and_is_told_in_words():
    lamp = Lamp.from_toml(STAIR)
    svg = draw(lamp, "dropper")
    for text in ("230 V", "50 Hz", "220 Ω", "330 nF", "1 MΩ", "10 µF", "330 kΩ", "10 Ω", "22 × 1"):
        assert f">{text}<" in svg
    assert "@" not in svg
    assert "Marked: dropper" in svg and svg.count("<rect") == 1


def test_heat_adds_up_in_the_bars():
    result = steady_state(Lamp.from_toml(STAIR))
    shares = [int(share) for share in re.findall(r", (\d+) %</span>", picture.heat_bars(result.heat))]
    assert abs(sum(shares) - 100) <= len(shares) / 2


@given(st.floats(0, 1e6, allow_nan=False), st.floats(1e-6, 10))
def test_a_scale_holds_its_values_and_wastes_little(largest, least):
    scale = nice_scale(largest, least)
    assert scale >= min(largest, scale) and scale >= largest * (1 - 1e-9)
    assert scale <= 2.01 * max(largest, least)


def test_the_choice_goes_back_to_the_lamp_that_stayed(tmp_path):
    shutil.copy("notebooks/lamps/stair_marker.toml", tmp_path / "good.toml")
    (tmp_path / "spoilt.toml").write_text("nonsense")
    bench = Bench(tmp_path / "good.toml", ask=False)
    box = bench.lamp_box
    box.choice.value = "spoilt.toml"
    assert "spoilt.toml" in bench.complaint.value and box.choice.value == "good.toml"
    box.choice.value = "spoilt.toml"
    assert "spoilt.toml" in bench.complaint.value, "told again when it is chosen again"


def test_whether_the_files_readings_agree_is_worked_out_once_for_a_lamp(monkeypatch):
    """The sliders do not decide it."""
    lamp = Lamp.from_toml(STAIR)
    own = dataclasses.replace(lamp, readings=dataclasses.replace(lamp.readings, voltage=231.7))
    agrees, calls = PlugInMeter.check_agreement, []
    monkeypatch.setattr(
        PlugInMeter, "check_agreement", lambda meter, readings: calls.append(readings) or agrees(meter, readings)
    )
    bench = Bench(STAIR, ask=False)
    bench.start_from(own)
    for value in (220e-9, 470e-9, 1e-6):
        bench.sliders["dropper"].value = value
    assert calls.count(own.readings) == 1
    assert agrees(bench.meter, own.readings)[1] in bench.table.value


def test_every_number_explains_itself_unless_the_lamp_is_dark(bench):
    bench.reset()
    shown = bench.table.value + bench.sentence.value
    for number in bench.view.readings:
        bench.explain_reading(number.key)
        told = bench.derivations[number.key]
        assert "$$" in told and number.text in told, number.key
        assert (told in bench.table.value) != (told in bench.explanation.value), "below its row, or below the words"
    of_rows = {line.key for line in bench.view.lines}
    assert all(f'data-explain="{key}"' in shown for key in (*of_rows, "inrush_resistor", "leds")), (
        "a button in each row"
    )
    bench.sliders["string.in_series"].value = 100
    bench.sliders["mains.voltage"].value = 90.0
    assert "The string stays dark" in bench.explanation.value and "$$" not in bench.explanation.value
    bench.reset()
    bench.explain_reading("")
    assert bench.explanation.value == "" and bench.derivations == {}


def test_the_other_parts_have_sliders_once_they_are_asked_for():
    bench = Bench(STAIR, ask=False)
    few = set(bench.sliders)
    bench.parts_box.toggle()
    more = set(bench.sliders) - few
    parallel = "string.in_parallel"
    assert more == {"inrush_resistor", "bleeder", "smoothing_bleeder", "string.led.forward_voltage", parallel}
    before = bench.view.result.string_current_mean
    bench.sliders["inrush_resistor"].value = 2200.0
    assert bench.view.result.string_current_mean < before, "a slider of the fold moves nothing"
    bench.sliders[parallel].value = 2
    bench.parts_box.toggle()
    assert set(bench.sliders) == few
    assert bench.setting.string.in_parallel == 2, "what was set is lost when the fold closes"
    bench.reset()
    assert bench.setting == bench.initial


def test_a_value_between_the_steps_can_be_typed_and_a_wrong_one_is_answered():
    bench = Bench(STAIR, ask=False)
    bench.parts_box.toggle()
    for path, text, value in (("dropper", "331 nF", 331e-9), ("bleeder", "none", None), ("string.in_series", "23", 23)):
        bench.parts_box.choice.value = path
        bench.parts_box.field.value = text
        assert value_at(bench.setting, path) == value, f"{text} typed for {path}"
    lamp = bench.setting
    bench.parts_box.choice.value = "dropper"
    bench.parts_box.field.value = "331 V"
    assert "331 V" in bench.complaint.value
    assert bench.setting == lamp
    bench.reset()
    assert bench.setting == bench.initial


def test_nothing_is_typed_past_a_question():
    bench = Bench(STAIR)
    bench.parts_box.toggle()
    bench.parts_box.choice.value = "dropper"
    bench.parts_box.field.value = "1 µF"
    assert bench.setting == bench.initial
    assert "question" in bench.complaint.value


@pytest.mark.parametrize(
    ("name", "inside", "outside"), [("bus voltage, mean", "67 V", "90 V"), ("percent flicker", "55 %", "5 %")]
)
def test_a_reading_inside_the_lamp_is_judged_too(name, inside, outside):
    box = Bench(STAIR, ask=False).measured_box
    box.choice.value = name
    for text, word in ((inside, ": inside."), (outside, ": outside.")):
        box.field.value = text
        box.judge()
        assert word in box.verdict.value, box.verdict.value
