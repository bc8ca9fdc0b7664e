"""The printed check-list and the one to tick: all steps, in order, nothing typed taken for HTML."""

import shutil

import pytest
from dropper import Lamp, sheet
from dropper.bench.checklist import checklist
from dropper.lessons import BenchList

STAIR = "notebooks/lamps/stair_marker.toml"


def test_the_page_has_every_step_a_box_for_each_and_room_to_write():
    listed = checklist(Lamp.from_toml(STAIR))
    page = sheet.bench_page(listed, builder="<b>A & B</b>", date="2026-03-09", paper="Letter").html
    assert page.count("☐") == len(listed.steps)
    places = [page.index(f"☐ {number}<br>") for number in range(1, len(listed.steps) + 1)]
    assert places == sorted(places)
    assert "&lt;b&gt;A &amp; B&lt;/b&gt;" in page and "<b>A" not in page
    assert "2026-03-09" in page and "size: Letter" in page
    assert "local codes" in page and "<script" not in page


def test_what_will_not_do_is_told():
    listed = checklist(Lamp.from_toml(STAIR))
    with pytest.raises(ValueError, match="builder: 61 characters"):
        sheet.bench_page(listed, builder="x" * 61)
    with pytest.raises(TypeError, match="is not a CheckList"):
        sheet.bench_page("list")


def test_ticking_out_of_order_is_noticed_and_the_next_step_named():
    panel = BenchList(STAIR)
    assert "0 of" in panel.sentence.value and "“unplug”" in panel.sentence.value
    panel.step_list.children[1].children[0].value = True
    panel.tick(5, True)
    assert "“wait”" in panel.sentence.value and "You ticked “open” before it" in panel.sentence.value
    for place in range(len(panel.checklist.steps)):
        panel.tick(place, True)
    assert "Nothing is left" in panel.sentence.value and "counts as live" in panel.sentence.value


def test_a_repair_may_leave_out_the_soldering():
    panel = BenchList(STAIR)
    first = len(panel.checklist.stages[0].steps) + len(panel.checklist.stages[1].steps)
    for place in range(first):
        panel.tick(place, True)
    assert "“order”" in panel.sentence.value
    panel.tick(first + len(panel.checklist.stages[2].steps), True)
    assert "“series lamp”" in panel.sentence.value and "before it" not in panel.sentence.value


def test_what_means_stop_says_so_on_paper():
    page = sheet.bench_page(checklist(Lamp.from_toml(STAIR))).html
    for stop in ("No class for the mains on it", "Neither of them: fit one", "Any glow is a stop"):
        assert f"STOP: {stop}" in page, stop


def test_every_step_is_on_a_stage_with_its_reason():
    panel, shown = BenchList(STAIR), ""
    for _, stage in panel.stage_choice.options:
        panel.stage_choice.value = stage
        shown += "".join(row.children[1].value for row in panel.step_list.children[1:])
    assert shown.count("<summary>Why</summary>") == len(panel.checklist.steps)


def test_a_tick_is_kept_when_another_stage_is_looked_at():
    panel = BenchList(STAIR)
    panel.step_list.children[1].children[0].value = True
    panel.stage_choice.value = 2
    assert not any(line.children[0].value for line in panel.step_list.children[1:])
    panel.stage_choice.value = 0
    assert [line.children[0].value for line in panel.step_list.children[1:]].count(True) == 1


def test_the_page_is_written_beside_the_notebook(tmp_path):
    folder = tmp_path / "lamps"
    folder.mkdir()
    shutil.copy(STAIR, folder)
    panel = BenchList(folder / "stair_marker.toml")
    panel.write()
    assert "stair_marker_bench_list.html" in panel.message.value
    page = (tmp_path / "sheets" / "stair_marker_bench_list.html").read_text(encoding="utf-8")
    assert page.startswith("<!DOCTYPE html>") and page.count("☐") == len(panel.checklist.steps)


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    folder = tmp_path / "lamps"
    folder.mkdir()
    shutil.copy(STAIR, folder)
    (tmp_path / "sheets").write_text("in the way")
    panel = BenchList(folder / "stair_marker.toml")
    panel.write()
    assert "sheets" in panel.complaint.value and panel.message.value == ""


def test_the_page_of_a_lamp_on_low_volts_begins_with_its_transformer():
    lamp = Lamp.from_toml("notebooks/lamps/classroom_twin.toml")
    page = sheet.bench_page(checklist(lamp)).html
    assert (
        "only behind a safety isolating transformer" in page
        and "All of this lamp is connected to the mains" not in page
    )
