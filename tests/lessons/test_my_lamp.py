"""One's own lamp: typed, saved, and then on every panel; a slip loses nothing; what vanished is said."""

import shutil
from pathlib import Path

import pytest
from dropper import Lamp
from dropper.bench import own_lamp
from dropper.lessons import Bench, LoadLine, MyLamp, Smoothing

STAIR = "lamps/stair_marker.toml"
TYPED = {"dropper": "684J 400V", "bleeder": "1M", "leds": "19 × 2 LEDs", "led": "warm white"}
HOSTILE = "<img src=x onerror=hostile=1>"


@pytest.fixture
def form(tmp_path, monkeypatch):
    """The form, in a notebook's folder of its own."""
    shutil.copytree("notebooks/lamps", tmp_path / "lamps")
    monkeypatch.chdir(tmp_path)
    panel = MyLamp()
    panel.toggle()
    return panel.form


def type_in(form, name="hall lamp", **texts):
    form.name.value = name
    for key, text in (TYPED | texts).items():
        form.fields[key].value = text


def test_a_lamp_that_is_typed_and_saved_is_on_every_panel_and_stays_there(form):
    panels = [Bench(STAIR, ask=False), LoadLine(STAIR, ask=False)]
    type_in(form)
    form.save()
    assert Lamp.from_toml("my_lamps/hall_lamp.toml").dropper == pytest.approx(680e-9)
    for panel in [*panels, Smoothing(STAIR, ask=False)]:
        assert panel.setting.name == "hall lamp", f"{type(panel).__name__} shows the {panel.setting.name}"
        assert panel.lamp_box.choice.label == "mine: hall lamp"
    assert "hall lamp" in Smoothing(STAIR).question()[0]
    panels[0].lamp_box.choice.value = "shelf_strip.toml"
    assert panels[1].setting.name == "shelf strip", "another panel of the page keeps the lamp of before"
    assert Smoothing(STAIR, ask=False).setting.name == "shelf strip"


def test_a_lamp_that_vanished_is_said_and_the_pages_own_is_there(form):
    type_in(form)
    form.save()
    Path("my_lamps/hall_lamp.toml").unlink()
    panel = Smoothing(STAIR, ask=False)
    assert panel.setting.name == "stair marker"
    assert "hall_lamp.toml" in "".join(getattr(child, "value", "") for child in panel.lamp_box.children)


def test_a_slip_is_answered_at_its_field_and_nothing_is_saved_or_lost(form):
    type_in(form, dropper="680 nH")
    form.save()
    assert "nF" in form.answers["dropper"].value
    assert "wrong" in form.answers["dropper"].value
    assert "dropper C1" in form.message.value
    assert not Path("my_lamps").exists()
    assert form.fields["leds"].value == TYPED["leds"], "a slip in one field empties another"
    form.fields["dropper"].value = "684J 400V"
    form.save()
    assert Path("my_lamps/hall_lamp.toml").exists()


def test_the_drawing_shows_what_is_known_and_a_question_mark_for_the_rest(form):
    before = form.drawing.value.count(">?<")
    type_in(form)
    assert before > form.drawing.value.count(">?<") > 0
    assert "680 nF" in form.drawing.value


def test_renamed_copied_deleted_each_with_a_way_back(form):
    type_in(form)
    form.save()
    form.name.value = "stairs"
    form.save()
    assert [path.name for path in own_lamp.own_lamps()] == ["stairs.toml"]
    form.undo()
    form.copy()
    form.name.value = "second"
    form.save()
    assert [path.name for path in own_lamp.own_lamps()] == ["hall_lamp.toml", "second.toml"]
    form.delete()
    assert [path.name for path in own_lamp.own_lamps()] == ["hall_lamp.toml"]
    form.undo()
    assert [path.name for path in own_lamp.own_lamps()] == ["hall_lamp.toml", "second.toml"]


def test_the_log_keeps_readings_and_a_wrong_one_stays_in_its_field(form):
    type_in(form)
    form.save()
    life = form.life
    life.readings["current"].value = "2000"
    life.add_typed()
    assert "A" in form.message.value
    assert life.readings["current"].value == "2000"
    life.readings["current"].value = "21 mA"
    life.add_typed()
    assert own_lamp.read_log("hall lamp").entries[-1].readings.current == pytest.approx(0.021)
    Path("my_lamps/hall_lamp.log.toml").write_text("spoilt [", encoding="utf-8")
    form.take_from(form.path)
    assert "cannot be read" in life.lines.value
    assert form.lamp.name == "hall lamp", "a spoilt log takes the lamp with it"


def test_names_and_notes_are_text_and_nothing_else(form):
    type_in(form, name=HOSTILE, dropper=HOSTILE)
    type_in(form, name=HOSTILE)
    form.save()
    form.life.note.value = HOSTILE
    form.life.add_typed()
    shown = [form.drawing, form.message, form.life.lines, *form.answers.values()]
    assert form.path is not None
    assert "&lt;img" in form.life.lines.value
    assert not [box.value for box in shown if "<img src=x" in box.value]
