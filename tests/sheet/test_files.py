"""Sheets on the disk: whole or not at all, under good names, never over another lamp's."""

import os
from dataclasses import replace
from pathlib import Path

import pytest
from dropper import sheet
from hypothesis import example, given
from hypothesis import strategies as st
from pages import lamp, made


def test_a_page_is_written_whole_and_what_cannot_be_written_is_told(tmp_path):
    path = tmp_path / "a.html"
    path.write_text("before", encoding="utf-8")
    assert made("stair_marker").write(path) == path and path.read_text(encoding="utf-8") == made("stair_marker").html
    assert os.listdir(tmp_path) == ["a.html"], "nothing is left beside it"
    with pytest.raises(sheet.SheetError, match=r"b\.html: cannot be written in .*none"):
        made("stair_marker").write(tmp_path / "none" / "b.html")
    (tmp_path / "c.html").mkdir()
    with pytest.raises(sheet.SheetError, match=r"c\.html: cannot be written"):
        made("stair_marker").write(tmp_path / "c.html")
    assert sorted(os.listdir(tmp_path)) == ["a.html", "c.html"]
    with pytest.raises(sheet.SheetError, match=r"end it in \.html for the page or \.csv"):
        made("stair_marker").write(tmp_path / "a.pdf")


def test_a_writing_that_breaks_off_leaves_what_was_there(tmp_path, monkeypatch):
    path = tmp_path / "a.html"
    path.write_text("before", encoding="utf-8")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(sheet.SheetError, match="No space left"):
        made("stair_marker").write(path)
    assert path.read_text(encoding="utf-8") == "before" and os.listdir(tmp_path) == ["a.html"]


@given(st.text(max_size=200))
@example("../../etc/passwd")
@example("CON")
@example("a/b\\c:d*e?f|g")
@example("灯" * 80)
def test_any_name_makes_a_name_of_a_file(name):
    made_of_it = sheet.file_name(name)
    assert made_of_it and Path(made_of_it).name == made_of_it and len(made_of_it.encode()) <= 200
    assert not set(made_of_it) & set('/\\:*?"<>|. ') and made_of_it.upper() not in ("CON", "NUL", "COM1")


def test_another_lamps_sheet_is_never_written_over(tmp_path):
    own = lamp("stair_marker")
    other = replace(own, dropper=470e-9)
    first = sheet.place_for(tmp_path, own)
    assert first.name == "stair_marker.html"
    made("stair_marker").write(first)
    assert sheet.place_for(tmp_path, own) == first, "its own may be"
    assert sheet.place_for(tmp_path, other).name == "stair_marker_2.html"
    (tmp_path / "stair_marker_2.csv").write_text("mine", encoding="utf-8")
    assert sheet.place_for(tmp_path, other).name == "stair_marker_3.html"
