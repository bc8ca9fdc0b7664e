"""The panel's boxes for a recording and for typed readings."""

import math

import pytest
from dropper.lessons import Measurement

STAIR = "notebooks/lamps/stair_marker.toml"


@pytest.fixture(scope="module")
def panel():
    return Measurement(STAIR, ask=False)


def test_a_pasted_recording_is_measured_and_a_spoilt_one_leaves_what_was_there(panel):
    before = panel.curves.value
    panel.record_box.pasted_text.value = "t (s),u (V)\n0,1\n1,x\n"
    panel.record_box.take_pasted()
    assert "line 3, column 2" in panel.complaint.value and panel.curves.value == before
    from recordings import of_lamp

    made = of_lamp(noise=(1, 2e-4, 0.1))
    rows = zip(made.time, made.mains_voltage, made.line_current, strict=True)
    body = "\n".join(f"{t:.6f};{u:.2f};{1e3 * i:.4f}".replace(".", ",") for t, u, i in rows)
    panel.record_box.pasted_text.value = f"Zeit (s);Netz (V);Strom (mA)\n{body}"
    panel.record_box.take_pasted()
    assert panel.complaint.value == "" and panel.curves.value != before
    assert panel.record_box.rows["bus_voltage"]["column"].value == "not recorded"
    assert (panel.record_box.path.value, panel.record_box.path.placeholder) == ("", "table"), (
        "no file is named that is not shown"
    )
    assert panel.comparison.row("current").verdict == "agrees" and "bus voltage, mean" not in panel.words
    panel.record_box.path.value = "none.csv"
    panel.record_box.take_file()
    assert "cannot be opened" in panel.complaint.value
    panel.record_box.path.value = "stair_marker_scope.csv"
    panel.record_box.take_file()
    assert panel.complaint.value == "" and "dropper −16" in panel.words, "what its columns are is remembered"
    assert panel.record_box.rows["line_current"]["shunt"].value == "10 Ω"
    panel.record_box.rows["line_current"]["shunt"].value = ""
    panel.record_box.use()
    assert "say the ohms" in panel.complaint.value, "the shunt has to be said"
    panel.record_box.rows["line_current"]["shunt"].value = "10 Ω"
    panel.record_box.use()


def test_fields_that_cannot_be_read_are_named(panel):
    for row, key, text, said in (
        ("line_current", "shunt", "ten", "line current, across"),
        ("line_current", "shunt", "0", "line current, across: 0 Ω"),
        ("mains_voltage", "accuracy", "much", "written like 3 %"),
        ("mains_voltage", "accuracy", "3", "written like 3 %"),
        ("line_current", "column", "CH1", "both mains voltage and line current"),
        ("line_current", "volts_per_ampere", "0.1", "not both"),
    ):
        field = panel.record_box.rows[row][key]
        old, field.value = field.value, text
        panel.record_box.use()
        assert said in panel.complaint.value
        field.value = old
    panel.record_box.rows["line_current"]["inverted"].value = True
    panel.record_box.use()
    assert "negative" in panel.sentence.value
    panel.record_box.rows["line_current"]["inverted"].value = False
    panel.record_box.use()


def test_the_time_is_said_once_and_what_it_makes_of_the_mains_is_told(panel):
    box = panel.record_box
    box.interval.value = "1 ms"
    box.use()
    assert "one of the two, not both" in panel.complaint.value
    column, box.time_column.value = box.time_column.value, "not recorded"
    box.use()
    assert "no wave of the mains" in panel.complaint.value and "1 ms from sample to sample" in panel.complaint.value
    box.interval.value = "25 µs"
    box.use()
    assert panel.complaint.value == "" and panel.comparison.measurement.frequency.value == pytest.approx(
        49.97, abs=0.01
    )
    box.interval.value, box.time_column.value = "", column
    was, box.in_step.value = panel.comparison.measurement.power_factor.uncertainty, "1 µs"
    box.use()
    assert panel.comparison.measurement.power_factor.uncertainty < 0.3 * was
    box.in_step.value = ""
    box.use()


def test_another_recording_gives_the_question_up():
    asked = Measurement(STAIR)
    asked.record_box.use()
    assert "Another recording" not in asked.prediction.reply.value and asked.buttons.children[0].disabled
    asked.record_box.pasted_text.value = "t,u\n" + "".join(f"{k / 4000},{math.sin(0.0785 * k)}\n" for k in range(400))
    asked.record_box.take_pasted()
    assert "comes to 707 mV" in asked.complaint.value and "probe" in asked.complaint.value
    asked.record_box.rows["mains_voltage"]["factor"].value = 200.0
    asked.record_box.use()
    assert "Another recording" in asked.prediction.reply.value and not asked.buttons.children[0].disabled


def test_harmonics_are_listed_when_asked_for(panel):
    panel.write_now()
    assert "harmonic 3" not in panel.sentence.value
    panel.harmonics.value = True
    assert "harmonic 3" in panel.sentence.value
    panel.harmonics.value = False


def test_typed_readings_have_their_verdict(panel):
    panel.typed_box.judge()
    assert "agrees with itself" in panel.typed_box.verdict.value and panel.typed_box.verdict.value.count("inside") == 4
    assert "taken as read" in panel.typed_box.verdict.value
    panel.typed_box.fields["current"].value = "x"
    panel.typed_box.judge()
    assert "line current" in panel.typed_box.verdict.value and "inside" not in panel.typed_box.verdict.value
    panel.typed_box.fields["current"].value = "22"
    panel.typed_box.judge()
    assert "22 A is too much; did you mean 22 mA?" in panel.typed_box.verdict.value


@pytest.mark.parametrize(
    "path", ["../../../../../../../../etc/passwd", "/etc/hostname", "stair_marker.toml", "a" * 5000]
)
def test_a_path_to_what_is_no_table_opens_nothing(panel, path):
    before = panel.curves.value
    panel.record_box.path.value = path
    panel.record_box.take_file()
    assert "does not end in .csv, .txt, .tsv" in panel.complaint.value and "root" not in panel.complaint.value
    assert panel.curves.value == before and len(panel.complaint.value) < 250
    panel.record_box.path.value = "stair_marker_scope.csv"
