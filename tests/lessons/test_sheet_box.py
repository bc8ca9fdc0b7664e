"""The part of a notebook that writes sheets: what it writes and says, and that bad input loses nothing."""

import csv
import os
from dataclasses import replace
from pathlib import Path

import pytest
from dropper import sheet
from dropper.lessons import SheetBox
from dropper.lessons.kit.sheet_box import served
from pages import NASTY, lamp


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("JPY_SESSION_NAME", raising=False)


def test_it_writes_both_files_says_where_and_shows_the_page():
    box = SheetBox(lamp("stair_marker"))
    assert not os.path.exists("sheets"), "nothing is made before it is asked for"
    box.builder.value, box.notes.value, box.paper.value = "A. Learner", "one\ntwo <3>", "Letter"
    box.write()
    assert sorted(os.listdir("sheets")) == ["stair_marker.csv", "stair_marker.html"]
    page = Path("sheets/stair_marker.html").read_text(encoding="utf-8")
    assert "A. Learner" in page and "two &lt;3&gt;" in page and "size: Letter" in page
    with open("sheets/stair_marker.csv", encoding="utf-8-sig", newline="") as file:
        assert next(csv.reader(file))[0] == "lamp"
    assert "sheets/stair_marker.html" in box.message.value and "save a copy" in box.message.value
    assert (
        "<iframe" in box.preview.value
        and "sandbox" in box.preview.value
        and 'title="Sheet of stair marker"' in box.preview.value
    )
    assert box.path.value == "sheets/stair_marker.html" and box.complaint.value == ""


def test_another_lamp_of_that_name_gets_a_number():
    SheetBox(lamp("stair_marker")).write()
    box = SheetBox(lambda: replace(lamp("stair_marker"), dropper=470e-9))
    box.write()
    assert "stair_marker_2.html" in box.message.value and len(os.listdir("sheets")) == 4
    assert sheet.open_sheet("sheets/stair_marker.html") == lamp("stair_marker")


def test_what_will_not_do_is_told_and_what_was_there_stays():
    box = SheetBox(lamp("stair_marker"))
    box.write()
    shown = box.preview.value
    box.notes.value = "x" * 501
    box.write()
    assert 'role="alert"' in box.complaint.value and "501 characters" in box.complaint.value
    assert (box.preview.value, box.notes.value) == (shown, "x" * 501)
    assert "Nothing new was written" in box.message.value and "sheets/stair_marker.html" in box.message.value
    for path in ("", "nowhere.html", "sheets/stair_marker.csv", NASTY, "a\nb"):
        box.path.value = path
        box.reopen()
        assert 'role="alert"' in box.complaint.value and "<img" not in box.complaint.value
        assert box.lamp == lamp("stair_marker") and box.preview.value == shown
        assert "sheets/stair_marker.html" in box.complaint.value or path == "nowhere.html"
    box.notes.value = ""
    box.write()
    assert box.complaint.value == ""


def test_a_sheet_opens_again_into_the_box_or_onto_a_bench():
    SheetBox(lamp("shelf_strip")).write()
    box = SheetBox(lamp("stair_marker"))
    assert box.path.options == ("sheets/shelf_strip.html",)
    box.path.value = "sheets/shelf_strip.html"
    box.reopen()
    assert box.lamp == lamp("shelf_strip") and "shelf strip" in box.message.value
    opened_sheets = []
    bench = SheetBox(lambda: lamp("stair_marker"), then=lambda *opened: opened_sheets.append(opened))
    bench.path.value = "sheets/shelf_strip.html"
    bench.reopen()
    assert opened_sheets == [(lamp("shelf_strip"), None)] and bench.lamp == lamp("stair_marker")


def test_a_folder_that_cannot_be_made_is_told():
    Path("sheets").touch()
    box = SheetBox(lamp("stair_marker"))
    box.write()
    assert "sheets: cannot be made" in box.complaint.value


def test_the_link_leads_to_where_jupyter_serves_the_file(tmp_path, monkeypatch):
    (tmp_path / "first.ipynb").touch()
    (tmp_path / "my own").mkdir()
    monkeypatch.setenv("DROPPER_NOTEBOOK", "first.ipynb")
    assert served("sheets/a.html") == ""
    monkeypatch.setenv("JPY_SESSION_NAME", str(tmp_path / "my own" / "b.ipynb"))
    assert served("sheets/ä b.html") == "/files/my%20own/sheets/%C3%A4%20b.html"
    monkeypatch.delenv("DROPPER_NOTEBOOK")
    assert served("sheets/a.html") == ""
