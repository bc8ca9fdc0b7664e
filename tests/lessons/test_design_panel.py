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
        assert row[2] in panel._said.value
    assert "Fuse" in panel._said.value and "Varistor" in panel._said.value


def test_wishes_that_cannot_be_met_are_answered_with_the_nearest(panel):
    own = panel.brief
    panel._sliders["in_series"].value = 70
    assert "At most" in panel._words and "groups can be had" in panel._words and panel.design is None
    assert panel._nearest.layout.display == "" and panel._wrong.value == ""
    panel.take_nearest()
    assert panel.design is not None and panel.brief.in_series < 70
    assert panel._sliders["in_series"].value == panel.brief.in_series
    assert "Changed: LEDs in series from 70 to" in panel._given_up.value
    assert "groups can be had" in panel._given_up.value and panel._nearest.layout.display == "none"
    panel.reset()
    assert panel.brief == panel.own == own and panel.design.lamp == design(own).lamp
    assert panel._given_up.value == "", "what was given up is told of the wishes that it was given up for"


def test_designs_are_kept_side_by_side(panel):
    panel.keep()
    panel._sliders["in_series"].value = 30
    panel.keep()
    assert "1. door number" in panel._said.value and "2. door number" in panel._said.value
    assert "(+50.0 %)" in panel._said.value, "thirty groups against twenty"
    assert "<polyline" in panel._ghost.value
    assert "2. door number; LEDs in series 30" in panel._said.value, "the heads tell what differs"
    panel.reset()
    assert "2. door number" in panel._said.value
    panel.forget()
    assert "2. door number" not in panel._said.value


def test_every_part_tells_why(panel):
    for _, part in panel._part.options[1:]:
        panel._part.value = part
        assert panel.design.of(part).why[:20].replace("'", "&#x27;") in panel._part_told.value
        assert "$$" in panel._part_told.value, part
    panel._sliders["in_series"].value = 90
    assert panel._part_told.value == "" and panel._part.options == (("none", ""),)


def test_what_was_asked_about_stays_asked_while_the_design_is_worked_out(panel, monkeypatch):
    panel._why.value, panel._part.value = "worst_flicker", "smoothing"
    due = []
    monkeypatch.setattr(panel._later, "soon", lambda what, delay, act: due.append(act) if what == "design" else act())
    panel._sliders["in_series"].value = 21
    assert panel.design is None and panel._explained.value == panel._part_told.value == "", "nothing of the old design"
    assert panel._why.value == "worst_flicker" and panel._part.value == "smoothing"
    due.pop()()
    assert panel.design.brief.in_series == 21
    assert "$$" in panel._explained.value and panel.design.of("smoothing").sentence[:20] in panel._part_told.value


def test_another_place_and_another_led_bring_their_own(panel, tmp_path):
    panel._sliders["flicker"].value = 20.0
    panel._sliders["place"].value = "Europe"
    assert panel.brief.supply.nominal == 230 and "253" in panel._said.value
    panel._sliders["led"].value = "red, 5 mm"
    assert panel.brief.led_kind.name == "red, 5 mm"
    mine = Brief.from_toml(BRIEF).but(place="", voltage=115.0, frequency=60.0)
    mine.to_toml(tmp_path / "mine.toml")
    other = Designer(tmp_path / "mine.toml", ask=False)
    other._sliders["place"].value = "Europe"
    other._sliders["place"].value = ""
    assert other.brief == mine


def test_the_sheet_of_what_is_shown(panel, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    box = panel.sheet()
    box.write()
    (page,) = (tmp_path / "sheets").glob("*.html")
    assert open_sheet(page) == panel.design.lamp
    panel._sliders["in_series"].value = 90
    box.write()
    assert "No lamp meets these wishes" in box._wrong.value


def test_another_brief_and_another_name(panel):
    panel._box._choice.value = "model_case.toml"
    assert panel.brief.name == panel._box._name.value == "model case" and panel.design.draft.clamp
    panel._box._name.value = "my own"
    panel._sliders["in_series"].value = 12
    panel.reset()
    assert panel.brief.name == panel.design.lamp.name == panel._box._name.value == "my own"
    panel._box._name.value = "x" * 90
    assert "Name of the lamp: &#x27;xxx" in panel._wrong.value
    assert "at most 80 characters" in panel._wrong.value and panel.brief.name == "my own"


def test_an_opened_sheet_brings_its_wishes_back(panel, tmp_path, monkeypatch):
    panel._box._choice.value = "model_case.toml"
    monkeypatch.chdir(tmp_path)
    panel._sliders["in_series"].value = 12
    wished, made = panel.brief, panel.design
    assert made.draft.clamp
    box = panel.sheet()
    box.write()
    panel._sliders["in_series"].value = 8
    panel._sliders["flicker"].value = 20.0
    box.reopen()
    assert box._wrong.value == "" and "wishes that it was designed for" in box._said.value
    assert panel.opened == made.lamp and panel.brief == panel.own == wished and panel._box._choice.value is None
    assert panel.design.lamp == made.lamp and panel.design.draft.clamp == made.draft.clamp
    assert panel.design.kinds == made.kinds and panel._sliders["in_series"].value == 12


def test_a_sheet_that_another_version_designed_or_none_leaves_the_sliders(panel, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    other = replace_at(panel.design.lamp, "dropper", 2 * panel.design.lamp.dropper)
    before = panel.brief
    for name, kept in (("older", embed(other, panel.brief.but(in_series=18))), ("plain", embed(other))):
        (tmp_path / f"{name}.html").write_text(document(name, "<h1>x</h1>", data=kept), encoding="utf-8")
        panel.opened, box = None, panel.sheet()
        box._path.value = f"{name}.html"
        box.reopen()
        assert panel.opened == other and panel.brief == before
        assert ("another version" in box._wrong.value) == (name == "older")


def test_keeping_and_forgetting_leave_what_is_worked_out(panel, monkeypatch):
    """With the page open, the design of another setting comes only after a rest."""
    monkeypatch.setattr(panel._later, "soon", lambda name, after, do: do() if name == "words" else None)
    made = panel.design
    panel.keep()
    assert panel.design is made and "1. door number" in panel._said.value
    panel.forget()
    assert panel.design is made


def test_another_name_works_nothing_out_again(panel, monkeypatch):
    monkeypatch.setattr(panel._later, "soon", lambda name, after, do: do() if name == "words" else None)
    panel._box._name.value = "my own"
    assert panel.design is not None and panel.design.lamp.name == panel.lamp.name == "my own"
