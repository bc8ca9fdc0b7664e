"""The panel's boxes for a recording and for typed readings."""

import math

import pytest
from dropper.lessons import Measurement

STAIR = "notebooks/lamps/stair_marker.toml"


@pytest.fixture(scope="module")
def panel():
    return Measurement(STAIR, ask=False)


def test_a_pasted_recording_is_measured_and_a_spoilt_one_leaves_what_was_there(panel):
    before = panel._curves.value
    panel._box._pasted.value = "t (s),u (V)\n0,1\n1,x\n"
    panel._box.take_pasted()
    assert "line 3, column 2" in panel._wrong.value and panel._curves.value == before
    from recordings import of_lamp

    made = of_lamp(noise=(1, 2e-4, 0.1))
    rows = zip(made.time, made.mains_voltage, made.line_current, strict=True)
    body = "\n".join(f"{t:.6f};{u:.2f};{1e3 * i:.4f}".replace(".", ",") for t, u, i in rows)
    panel._box._pasted.value = f"Zeit (s);Netz (V);Strom (mA)\n{body}"
    panel._box.take_pasted()
    assert panel._wrong.value == "" and panel._curves.value != before
    assert panel._box._rows["bus_voltage"]["column"].value == "not recorded"
    assert (panel._box._path.value, panel._box._path.placeholder) == ("", "table"), "no file is named that is not shown"
    assert panel.comparison.row("current").verdict == "agrees" and "bus voltage, mean" not in panel._words
    panel._box._path.value = "none.csv"
    panel._box.take_file()
    assert "cannot be opened" in panel._wrong.value
    panel._box._path.value = "stair_marker_scope.csv"
    panel._box.take_file()
    assert panel._wrong.value == "" and "dropper −16" in panel._words, "what its columns are is remembered"
    assert panel._box._rows["line_current"]["shunt"].value == "10 Ω"
    panel._box._rows["line_current"]["shunt"].value = ""
    panel._box.use()
    assert "say the ohms" in panel._wrong.value, "the shunt has to be said"
    panel._box._rows["line_current"]["shunt"].value = "10 Ω"
    panel._box.use()


def test_fields_that_cannot_be_read_are_named(panel):
    for row, key, text, said in (
        ("line_current", "shunt", "ten", "line current, across"),
        ("line_current", "shunt", "0", "line current, across: 0 Ω"),
        ("mains_voltage", "accuracy", "much", "written like 3 %"),
        ("mains_voltage", "accuracy", "3", "written like 3 %"),
        ("line_current", "column", "CH1", "both mains voltage and line current"),
        ("line_current", "volts_per_ampere", "0.1", "not both"),
    ):
        field = panel._box._rows[row][key]
        old, field.value = field.value, text
        panel._box.use()
        assert said in panel._wrong.value
        field.value = old
    panel._box._rows["line_current"]["inverted"].value = True
    panel._box.use()
    assert "negative" in panel._said.value
    panel._box._rows["line_current"]["inverted"].value = False
    panel._box.use()


def test_the_time_is_said_once_and_what_it_makes_of_the_mains_is_told(panel):
    box = panel._box
    box._interval.value = "1 ms"
    box.use()
    assert "one of the two, not both" in panel._wrong.value
    column, box._time.value = box._time.value, "not recorded"
    box.use()
    assert "no wave of the mains" in panel._wrong.value and "1 ms from sample to sample" in panel._wrong.value
    box._interval.value = "25 µs"
    box.use()
    assert panel._wrong.value == "" and panel.comparison.measured.frequency.value == pytest.approx(49.97, abs=0.01)
    box._interval.value, box._time.value = "", column
    was, box._in_step.value = panel.comparison.measured.power_factor.uncertainty, "1 µs"
    box.use()
    assert panel.comparison.measured.power_factor.uncertainty < 0.3 * was
    box._in_step.value = ""
    box.use()


def test_another_recording_gives_the_question_up():
    asked = Measurement(STAIR)
    asked._box.use()
    assert "Another recording" not in asked.prediction._said.value and asked._buttons.children[0].disabled
    asked._box._pasted.value = "t,u\n" + "".join(f"{k / 4000},{math.sin(0.0785 * k)}\n" for k in range(400))
    asked._box.take_pasted()
    assert "comes to 707 mV" in asked._wrong.value and "probe" in asked._wrong.value
    asked._box._rows["mains_voltage"]["factor"].value = 200.0
    asked._box.use()
    assert "Another recording" in asked.prediction._said.value and not asked._buttons.children[0].disabled


def test_harmonics_are_listed_when_asked_for(panel):
    panel._tell()
    assert "harmonic 3" not in panel._said.value
    panel._more.value = True
    assert "harmonic 3" in panel._said.value
    panel._more.value = False


def test_typed_readings_have_their_verdict(panel):
    panel._typed.judge()
    assert "agrees with itself" in panel._typed._said.value and panel._typed._said.value.count("inside") == 4
    assert "taken as read" in panel._typed._said.value
    panel._typed._fields["current"].value = "x"
    panel._typed.judge()
    assert "line current" in panel._typed._said.value and "inside" not in panel._typed._said.value
    panel._typed._fields["current"].value = "22"
    panel._typed.judge()
    assert "22 A is too much; did you mean 22 mA?" in panel._typed._said.value
