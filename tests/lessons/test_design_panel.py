"""The panel on designing: the nearest, designs side by side, reasons, its sheet. What all panels do is in test_lessons."""

import pytest
from dropper import replace_at
from dropper.design import Brief, design
from dropper.lessons import Designer
from dropper.sheet import document, open_sheet
from dropper.sheet.attachment import embed

BRIEF = "notebooks/lamps/briefs/door_number.toml"


@pytest.fixture
def panel():
    return Designer(BRIEF, ask=False)


def test_what_is_shown_is_the_design(panel):
    made = design(Brief.from_toml(BRIEF))
    assert panel.design.lamp == panel.lamp == made.lamp
    for row in made.rows():
        assert row[2] in panel.parts_box.parts.value
    seen, folded = panel.parts_box.notes.value.split("<details>")
    assert "Fuse" in folded and "Varistor" in folded, "what goes to data sheets is behind one line"
    assert made.rule_check.words in seen and len(seen) < 1000


def test_a_part_stands_on_one_line_with_its_share_as_a_bar(panel):
    """The share is the worst found over what the kind stands, or with its margin where the line says so."""
    lines = [line for line in panel.parts_box.parts.value.splitlines() if line.startswith("<tr><th")]
    assert len(lines) == len(panel.design.parts)
    for line, part in zip(lines, panel.design.parts, strict=True):
        check = part.rating.tightest
        if part.rating.verdict == "ask the data sheet":
            assert "ask the data sheet" in line and "%" not in line
            continue
        share, margin = round(100 * check.needed / check.limit), "with its margin" in line
        assert f"{share} %" in line and f"width:{share}%" in line and check.limit_text in line, part
        assert margin == (check.needed > 1.001 * check.worst.value), part


def test_the_parts_before_a_move_say_so_until_the_new_ones_are_there(panel, monkeypatch):
    due, old = [], panel.parts_box.parts.value
    monkeypatch.setattr(
        panel.deferred, "call_later", lambda what, delay, act: due.append(act) if what == "design" else act()
    )
    panel.sliders["in_series"].value = 21
    assert "before the last move" in panel.parts_box.parts.value
    assert panel.parts_box.parts.value.partition("</caption>")[2] == old.partition("</caption>")[2], "nothing jumps"
    due.pop()()
    assert "before the last move" not in panel.parts_box.parts.value
    panel.sliders["in_series"].value = 90
    due.pop()()
    assert panel.design is None and panel.parts_box.parts.value == panel.parts_box.notes.value == ""


def test_wishes_that_cannot_be_met_are_answered_with_the_nearest(panel):
    initial = panel.brief
    panel.sliders["in_series"].value = 70
    assert "At most" in panel.words and "groups can be had" in panel.words and panel.design is None
    assert panel.nearest_button.layout.display == "" and panel.complaint.value == ""
    panel.take_nearest()
    assert panel.design is not None and panel.brief.in_series < 70
    assert panel.sliders["in_series"].value == panel.brief.in_series
    assert "Changed: LEDs in series from 70 to" in panel.concessions.value
    assert "groups can be had" in panel.concessions.value and panel.nearest_button.layout.display == "none"
    panel.reset()
    assert panel.brief == panel.initial == initial and panel.design.lamp == design(initial).lamp
    assert panel.concessions.value == "", "what was given up is told of the wishes that it was given up for"


def test_designs_are_kept_side_by_side(panel):
    panel.keep()
    panel.sliders["in_series"].value = 30
    panel.keep()
    assert (
        "1. door number" in panel.parts_box.kept_designs.value
        and "2. door number" in panel.parts_box.kept_designs.value
    )
    assert "(+50.0 %)" in panel.parts_box.kept_designs.value, "thirty groups against twenty"
    assert "<polyline" in panel.ghost.value
    assert "2. door number; LEDs in series 30" in panel.parts_box.kept_designs.value, "the heads tell what differs"
    panel.reset()
    assert "2. door number" in panel.parts_box.kept_designs.value
    panel.forget()
    assert "2. door number" not in panel.parts_box.kept_designs.value


def test_every_part_tells_why(panel):
    for _, part in panel.parts_box.part_choice.options[1:]:
        panel.parts_box.part_choice.value = part
        assert panel.design.of(part).why[:20].replace("'", "&#x27;") in panel.parts_box.part_reason.value
        assert "$$" in panel.parts_box.part_reason.value, part
    panel.sliders["in_series"].value = 90
    assert panel.parts_box.part_reason.value == "" and panel.parts_box.part_choice.options == (("none", ""),)


def test_what_was_asked_about_stays_asked_while_the_design_is_worked_out(panel, monkeypatch):
    panel.explain_reading("worst_flicker")
    panel.parts_box.part_choice.value = "smoothing"
    due = []
    monkeypatch.setattr(
        panel.deferred, "call_later", lambda what, delay, act: due.append(act) if what == "design" else act()
    )
    panel.sliders["in_series"].value = 21
    assert panel.design is None and panel.parts_box.part_reason.value == "", "nothing of the old design"
    assert "Only a whole design has this figure." in panel.table.value
    assert panel.explained == "worst_flicker" and panel.parts_box.part_choice.value == "smoothing"
    due.pop()()
    assert panel.design.brief.in_series == 21
    assert "$$" in panel.table.value and panel.design.of("smoothing").sentence[:20] in panel.parts_box.part_reason.value


@pytest.mark.slow
def test_another_place_and_another_led_bring_their_own(panel, tmp_path):
    panel.sliders["flicker"].value = 20.0
    panel.sliders["place"].value = "Europe"
    assert panel.brief.supply.nominal == 230 and "253" in panel.parts_box.parts.value
    panel.sliders["led"].value = "red, 5 mm"
    assert panel.brief.led_kind.name == "red, 5 mm"
    mine = Brief.from_toml(BRIEF).but(place="", voltage=115.0, frequency=60.0)
    mine.to_toml(tmp_path / "mine.toml")
    other = Designer(tmp_path / "mine.toml", ask=False)
    other.sliders["place"].value = "Europe"
    other.sliders["place"].value = ""
    assert other.brief == mine


def test_the_sheet_of_what_is_shown(panel, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    box = panel.sheet()
    box.write()
    (page,) = (tmp_path / "sheets").glob("*.html")
    assert open_sheet(page) == panel.design.lamp
    panel.sliders["in_series"].value = 90
    box.write()
    assert "No lamp meets these wishes" in box.complaint.value


@pytest.mark.slow
def test_another_brief_and_another_name(panel):
    panel.brief_box.choice.value = "model_case.toml"
    assert panel.brief.name == panel.brief_box.lamp_name.value == "model case" and panel.design.sizing.clamp
    panel.brief_box.lamp_name.value = "my own"
    panel.sliders["in_series"].value = 12
    panel.reset()
    assert panel.brief.name == panel.design.lamp.name == panel.brief_box.lamp_name.value == "my own"
    panel.brief_box.lamp_name.value = "x" * 90
    assert "Name of the lamp: &#x27;xxx" in panel.complaint.value
    assert "at most 80 are allowed" in panel.complaint.value and panel.brief.name == "my own"


def test_an_opened_sheet_brings_its_wishes_back(panel, tmp_path, monkeypatch):
    panel.brief_box.choice.value = "model_case.toml"
    monkeypatch.chdir(tmp_path)
    panel.sliders["in_series"].value = 12
    wished, made = panel.brief, panel.design
    assert made.sizing.clamp
    box = panel.sheet()
    box.write()
    panel.sliders["in_series"].value = 8
    panel.sliders["flicker"].value = 20.0
    box.reopen()
    assert box.complaint.value == "" and "wishes that it was designed for" in box.message.value
    assert panel.opened == made.lamp and panel.brief == panel.initial == wished and panel.brief_box.choice.value is None
    assert panel.design.lamp == made.lamp and panel.design.sizing.clamp == made.sizing.clamp
    assert panel.design.kinds == made.kinds and panel.sliders["in_series"].value == 12


def test_a_sheet_that_another_version_designed_or_none_leaves_the_sliders(panel, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    other = replace_at(panel.design.lamp, "dropper", 2 * panel.design.lamp.dropper)
    before = panel.brief
    for name, kept in (("older", embed(other, panel.brief.but(in_series=18))), ("plain", embed(other))):
        (tmp_path / f"{name}.html").write_text(document(name, "<h1>x</h1>", data=kept), encoding="utf-8")
        panel.opened, box = None, panel.sheet()
        box.path.value = f"{name}.html"
        box.reopen()
        assert panel.opened == other and panel.brief == before
        assert ("another version" in box.complaint.value) == (name == "older")


def test_keeping_and_forgetting_leave_what_is_worked_out(panel, monkeypatch):
    """With the page open, the design of another setting comes only after a rest."""
    monkeypatch.setattr(panel.deferred, "call_later", lambda name, after, do: do() if name == "words" else None)
    made = panel.design
    panel.keep()
    assert panel.design is made and "1. door number" in panel.parts_box.kept_designs.value
    panel.forget()
    assert panel.design is made


def test_another_name_works_nothing_out_again(panel, monkeypatch):
    monkeypatch.setattr(panel.deferred, "call_later", lambda name, after, do: do() if name == "words" else None)
    panel.brief_box.lamp_name.value = "my own"
    assert panel.design is not None and panel.design.lamp.name == panel.lamp.name == "my own"
