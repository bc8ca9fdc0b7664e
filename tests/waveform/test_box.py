"""The panel's boxes for a recording and for typed readings."""

import pytest
from dropper.panels import Measured

STAIR = "notebooks/lamps/stair_marker.toml"


@pytest.fixture(scope="module")
def panel():
    return Measured(STAIR, ask=False)


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
    assert panel.compared.row("current").verdict == "agrees" and "bus voltage, mean" not in panel._words
    panel._box._path.value = "none.csv"
    panel._box.take_file()
    assert "cannot be opened" in panel._wrong.value
    panel._box._path.value = "stair_marker_scope.csv"
    panel._box.take_file()
    assert "say the ohms" in panel._wrong.value, "the shunt has to be said"
    panel._box._rows["line_current"]["shunt"].value = "10 Ω"
    panel._box._rows["mains_voltage"]["factor"].value = 100.0
    panel._box._rows["bus_voltage"]["factor"].value = 10.0
    panel._box.use()
    assert panel._wrong.value == "" and "dropper −16" in panel._words


def test_fields_that_cannot_be_read_are_named(panel):
    for row, key, text, said in (
        ("line_current", "shunt", "ten", "line current, across"), ("mains_voltage", "accuracy", "much", "limit of error"),
    ):  # fmt: skip
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


def test_typed_readings_have_their_verdict(panel):
    panel._typed.judge()
    assert "agrees with itself" in panel._typed._said.value and panel._typed._said.value.count("inside") == 5
    panel._typed._fields["current"].value = "x"
    panel._typed.judge()
    assert "line current" in panel._wrong.value
