"""The log of a lamp: what goes in comes out, and a damaged one loses neither the lamp nor its own text."""

import pytest
from dropper.bench.own_lamp import log_entry, read_log
from dropper.circuit.lamp import Readings


def test_lines_come_back_with_their_readings_in_their_order(tmp_path):
    read = Readings(voltage="231 V", current="21 mA", power="1.3 W", note="cold")
    log_entry("Hall lamp", "built", "as on the board", date="2026-03-01", folder=tmp_path)
    log_entry("Hall lamp", "measured", "", readings=read, date="2026-03-02", folder=tmp_path)
    log = read_log("Hall lamp", tmp_path)
    assert [entry.kind for entry in log.entries] == ["built", "measured"]
    assert log.entries[1].readings == read, "readings changed on their way through the log"
    assert not log.damage


@pytest.mark.parametrize("text", ["entry = 3", "[[entry]]\ndate = 'x'\nkind = 'built'", "not toml [", "\x00"])
def test_a_damaged_log_is_said_kept_aside_and_goes_on(tmp_path, text):
    path = tmp_path / "hall_lamp.log.toml"
    path.write_text(text, encoding="utf-8")
    assert read_log("hall lamp", tmp_path).damage, "nothing is said of a log that cannot be read"
    log_entry("hall lamp", "note", "goes on", folder=tmp_path)
    assert [entry.text for entry in read_log("hall lamp", tmp_path).entries] == ["goes on"]
    assert (tmp_path / "hall_lamp.log.toml.damaged_1").read_text(encoding="utf-8") == text, "the old text is lost"


@pytest.mark.parametrize(
    ("kind", "text", "date", "names"),
    [
        ("mended", "x", None, "repaired"),
        ("note", "x", "9.3.2026", "2026-03-09"),
        ("note", " ", None, "words"),
        ("note", "x" * 501, None, "500"),
    ],
)
def test_a_line_that_will_not_do_is_answered_with_what_is_allowed(tmp_path, kind, text, date, names):
    with pytest.raises(ValueError, match=names):
        log_entry("hall lamp", kind, text, date=date, folder=tmp_path)
    assert not list(tmp_path.iterdir()), "a file was written all the same"
