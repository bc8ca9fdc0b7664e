"""The panel on one's own LED: tables pasted and opened, bad ones told, nothing lost."""

import dataclasses
import datetime
import itertools
import re
from xml.dom import minidom

import numpy as np
import pytest
from dropper.circuit.lamp import Led
from dropper.lessons import LedCurve
from dropper.results import explain

BENCH = "notebooks/lamps/bench_led.csv"


def table(led, amps, noise=0.002, seed=1):
    off = np.random.default_rng(seed).normal(0, noise, len(amps))
    rows = [f"{led.voltage_at(i) + e:.4f}; {1e3 * i:.4f}" for i, e in zip(amps, off, strict=True)]
    return "\n".join(["voltage (V); current (mA)", *rows])


OTHERS = {
    "red": table(Led(2.0, 0.020, 6.0, 1.8), np.geomspace(1e-4, 0.03, 12)),
    "three junctions": table(Led(9.0, 0.060, 4.5, 6.0), np.geomspace(1e-3, 0.09, 12)),
    "strong": table(Led(3.0, 0.7, 0.3, 2.0), np.geomspace(1e-2, 0.9, 9)),
    "feeble": table(Led(2.6, 1e-4, 100.0, 2.0), np.geomspace(1e-6, 1.5e-4, 9)),
    "exact": table(Led(3.1, 0.020, 9.0, 2.0), np.geomspace(1e-4, 0.02, 6), noise=0),
}


@pytest.fixture
def panel():
    return LedCurve(BENCH, ask=False)


def paste(panel, text):
    panel.paste_box.text.value = text
    panel.paste_box.use()


def upload(panel, name, content):
    """What the page sends when a file is chosen."""
    file = {"name": name, "type": "", "size": len(content), "content": memoryview(content)}
    panel.paste_box.upload.value = ({**file, "last_modified": datetime.datetime.now(datetime.UTC)},)


def test_the_example_is_shown_with_its_slip(panel):
    assert [point.row for point in panel.fit.outliers] == [11]
    assert "line 11" in panel.curves.value and "Line 11 stands 310 mV above the curve" in panel.words
    assert "At 20 mA the curve reads 3.037 V" in panel.words and "this one lies within" in panel.words
    assert panel.curves.value.count("<path d=") >= 14 * 2, "a mark for each point, above and below"


@pytest.mark.parametrize("name", OTHERS)
def test_other_leds_can_be_pasted_and_moved(panel, name):
    paste(panel, OTHERS[name])
    assert panel.complaint.value == "" and panel.paste_box.text.value == OTHERS[name]
    ends = [(s.options[0][-1], s.options[-1][-1]) for s in panel.sliders.values()]
    for corner in itertools.product(*ends):
        for slider, value in zip(panel.sliders.values(), corner, strict=True):
            slider.value = value
        svg = panel.curves.value
        minidom.parseString(svg)
        assert "nan" not in svg + panel.sentence.value + panel.table.value and panel.complaint.value == ""
        width, height = (10 * side for side in panel.picture.PICTURE.size)
        for x, y in re.findall(r"translate\((-?\d+),(-?\d+)\)", svg):
            assert 0 <= int(x) <= width and 0 <= int(y) <= height
    for reading in panel.view.readings:
        if reading.derivation:
            assert explain.work_out(reading).value == pytest.approx(reading.value, rel=1e-9)
    panel.reset()
    assert panel.setting == panel.initial


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "it is empty"),
        ("voltage (V), current (mA)\n2.6, 1\n2.7, x\n2.8, 8\n2.9, 14\n", "line 3, column 2"),
        ("voltage (V), current (mA)\n2.6, 1\n2.7, 3\n", "2 with a current are too few"),
        ("voltage (V), current\n2.6, 1\n2.7, 3\n2.8, 8\n2.9, 14\n", "no column is in A"),
        ("2.6 1", "no column is in V"),
        (
            "voltage (V), current (mA)\n2,6; 1\n2,7; 3\n2,8; 8\n2,9; 14\n",
            "have commas between them, the rows have semicolons",
        ),
    ],
)
def test_a_bad_table_is_told_and_nothing_is_lost(panel, text, words):
    panel.sliders["junction_temperature"].value = 60.0
    before = panel.curves.value, panel.initial, panel.setting, panel.table.value
    paste(panel, text)
    assert words in panel.complaint.value and 'role="alert"' in panel.complaint.value
    assert (panel.curves.value, panel.initial, panel.setting, panel.table.value) == before
    assert panel.paste_box.text.value == text, "what was typed stays"
    paste(panel, OTHERS["red"])
    assert panel.complaint.value == "" and panel.fit.led.forward_voltage < 2.2


def test_what_is_not_the_tables_stays_as_it_was_set(panel):
    panel.sliders["junction_temperature"].value = 60.0
    panel.sliders["kind"].value = "red, 5 mm"
    paste(panel, OTHERS["red"])
    assert panel.setting.junction_temperature == 60.0 and panel.setting.kind == "red, 5 mm"
    assert panel.setting.current == 0.020
    paste(panel, OTHERS["feeble"])
    assert panel.setting.current < 2e-4, "the points do not reach 20 mA"


def test_a_file_is_opened_whatever_its_letters(panel):
    for encoding in ("utf-8-sig", "latin-1", "utf-16"):
        content = ("# gemessen am Küchentisch\n" + OTHERS["red"]).encode(encoding)
        upload(panel, "red.csv", content)
        assert "Küchentisch" in panel.paste_box.text.value and panel.complaint.value == ""
    upload(panel, "long.csv", b"1" * 300_000)
    assert "long.csv: longer than 200,000 bytes" in panel.complaint.value
    upload(panel, "led.png", b"\x89PNG\x00\x01")
    assert "led.png" in panel.complaint.value and "no text" in panel.complaint.value
    assert "Küchentisch" in panel.paste_box.text.value


def test_too_many_junctions_are_told(panel):
    wrong = dataclasses.replace(panel.setting, junctions=12)
    with pytest.raises(ValueError, match="12 in series take more than"):
        panel.view_of(wrong)


def test_the_right_answer_is_the_one_with_hardly_less():
    panel = LedCurve(BENCH, ask=True)
    question, answers = panel.question()
    assert "20 mA" in question and "2 mA" in question and answers["right"].startswith("2.7 V")
    assert "logarithm" in panel.verdict()[1]
    paste(panel, OTHERS["red"])
    assert panel.sliders["current"].disabled, "a new table does not wake the sliders"
    (question, _), (_, verdict) = panel.question(), panel.verdict()
    volts = re.search(r"this LED drops (\S+ V)", question)[1]
    assert f"of {volts}" in verdict and volts != "3.04 V", "question and verdict are on the LED that is shown"
