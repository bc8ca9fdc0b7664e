"""The designer's folded wishes: typed, taken over, refused in words, kept in files."""

import base64
import re
from pathlib import Path

import pytest
from dropper.design import Brief, Design
from dropper.lessons.design import wishes_box
from dropper.lessons.design.panel import Designer

BRIEFS = Path(__file__).parents[2] / "notebooks" / "lamps" / "briefs"


@pytest.fixture
def panel():
    return Designer(BRIEFS / "reading_nook.toml", ask=False)


def test_wishes_that_no_list_has_are_typed_and_met(panel):
    box = panel.wishes_box
    for name, typed in {"voltage": "115 V", "frequency": "400", "mains_tolerance": "5 %"}.items():
        box.fields[name].value = typed
    box.use_mains()
    box.fields["best"].value, box.fields["swing"].value = True, "25 %"
    box.use_light()
    box.fields["enclosure"].value = "100 × 60 × 30 mm plastic"
    box.use_case()
    box.drawer.value = 'dropper = ["68 nF", "100 nF"]'
    box.use_parts()
    assert panel.setting.supply.frequency == 400 and panel.setting.in_series == "best" and panel.setting.swing == 25
    panel._work_out()
    assert isinstance(panel.design, Design) and panel.lamp.dropper in (68e-9, 100e-9)
    panel.brief_box.save()
    files = re.findall(r"base64,([\w+/=]+)", panel.brief_box.saved.value)
    brief, order = (base64.b64decode(data).decode("utf-8-sig") for data in files)
    assert Brief.from_toml_text(brief) == panel.setting
    assert "dropper" in order and "nF" in order
    box.fields["best"].value = False
    box.use_light()
    assert panel.setting.in_series == panel.lamp.string.in_series, "what was open stays what it was settled to"


def test_a_wrong_wish_is_said_and_what_was_typed_stays(panel):
    before = panel.setting
    panel.wishes_box.fields["swing"].value = "lots"
    panel.wishes_box.use_light()
    assert "swing" in panel.complaint.value and panel.setting == before
    assert panel.wishes_box.fields["swing"].value == "lots"


def test_a_drawer_is_kept_in_a_file_of_the_learners(panel, tmp_path, monkeypatch):
    monkeypatch.setattr(wishes_box, "DRAWER", tmp_path / "mine" / "drawer.toml")
    box = panel.wishes_box
    box.drawer.value = 'dropper = ["220 nF"]'
    box.keep_drawer()
    box.drawer.value = ""
    box.open_drawer()
    assert "220 nF" in box.drawer.value
