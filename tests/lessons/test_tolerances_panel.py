"""The panel on tolerance: what it counts, that a count can be stopped, and that nothing of it is lost."""

import numpy as np
import pytest
from dropper import Lamp, lessons, replace_at
from dropper.lessons.tolerances import view as tolerances

STAIR = "notebooks/lamps/stair_marker.toml"
CURRENT = "string_current_mean"


@pytest.fixture
def panel(monkeypatch):
    """A panel whose pieces of work wait to be called, as on a page."""
    made = lessons.Tolerances(STAIR, ask=False)
    made.waiting = []
    monkeypatch.setattr(
        made.deferred, "call_later", lambda what, _, act: made.waiting.append(act) if what == "count" else act()
    )
    return made


def go_on(panel, pieces):
    for _ in range(pieces):
        panel.waiting.pop(0)()


def test_a_count_grows_in_the_picture_until_all_are_there(panel):
    first = panel.view.sample
    panel.count()
    assert panel.count_button.disabled and not panel.stop_button.disabled
    go_on(panel, 2)
    assert panel.view.sample.count == 2048 and "2 048 of 20 000" in panel.progress.value
    np.testing.assert_array_equal(panel.view.sample.readings[CURRENT][:400], first.readings[CURRENT])
    while panel.waiting:
        go_on(panel, 1)
    assert panel.view.sample.complete and panel.view.sample.count == tolerances.MANY == 20_000
    assert not panel.count_button.disabled and panel.stop_button.disabled
    assert "20 000 lamps at random" in panel.curves.value and "Of 20 000 lamps" in panel.words
    assert panel.view.within_limit.high - panel.view.within_limit.low < 0.01


def test_a_stopped_count_keeps_its_lamps(panel):
    panel.count()
    go_on(panel, 3)
    panel.stop()
    assert panel.view.sample.count == 3072 and "Stopped after 3 072 of 20 000" in panel.progress.value
    go_on(panel, 1)
    assert panel.view.sample.count == 3072 and not panel.waiting, "what was due no longer is"


def test_an_interrupt_stops_it_too(panel, monkeypatch):
    panel.count()
    go_on(panel, 1)

    def interrupted(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(panel.counting, "step", interrupted)
    go_on(panel, 1)
    assert panel.counting is None and panel.view.sample.count == 1024 and not panel.waiting
    assert "they are kept" in panel.progress.value


def test_another_setting_ends_a_count_and_starts_from_a_small_sample(panel):
    panel.count()
    go_on(panel, 1)
    panel.sliders["dropper"].value = 5.0
    go_on(panel, 1)
    assert panel.view.sample.count == tolerances.FEW and panel.progress.value == "" and not panel.waiting
    assert not panel.count_button.disabled


@pytest.fixture
def page(panel, monkeypatch):
    """The same panel, as if there were a page that waits for the pieces."""
    monkeypatch.setattr(type(panel.deferred), "waits", property(lambda _: True))
    return panel


def test_every_move_has_its_many_lamps_counted_by_itself(page):
    assert not page.waiting, "nobody has moved anything yet"
    page.sliders["dropper"].value = 5.0
    assert page.view.sample.count == tolerances.FEW, "a few lamps are there at once"
    go_on(page, 2)
    assert page.view.sample.count == 2048
    page.sliders["led"].value = 3.0
    assert page.view.sample.count == tolerances.FEW and page.counting.spread == page.setting.spread
    while page.waiting:
        go_on(page, 1)
    assert page.view.sample.complete and page.view.sample.count == tolerances.MANY
    assert page.view.sample.spread == page.setting.spread


def test_the_limit_moves_without_a_new_count(page):
    page.sliders["years"].value = 2.0
    go_on(page, 1)
    page.sliders["limit"].value = 12.0
    assert page.view.sample.count == 1024 and page.view.setting.limit == 12.0, "the count goes on"
    while page.waiting:
        go_on(page, 1)
    whole = page.view.sample
    page.sliders["limit"].value = 8.0
    assert page.view.sample is whole and not page.waiting
    page.sliders["years"].value = 3.0
    go_on(page, 1)
    page.stop()
    page.sliders["limit"].value = 15.0
    assert page.counting is None and page.view.sample.count == 1024, "what was stopped stays stopped"


def test_the_limit_judges_the_same_lamps(panel):
    before = panel.view.sample
    panel.sliders["limit"].value = 10.0
    assert panel.view.sample is before and panel.view.within_limit.share < 0.85
    panel.sliders["limit"].value = 40.0
    assert panel.view.within_limit.share == 1.0


def test_years_fade_the_lamp_out_of_its_limits(panel):
    shares = []
    for years in (0.0, 5.0, 10.0):
        panel.sliders["years"].value = years
        shares.append(panel.view.within_limit.share)
    assert shares[0] > shares[1] > shares[2] and panel.view.design_current == pytest.approx(0.0167, rel=0.01)
    assert f"keep within ±{panel.setting.limit:g} %" in panel.curves.value


def test_a_place_that_is_not_kept_is_refused_in_words():
    import dataclasses

    with pytest.raises(
        ValueError, match=r"Tolerances.place: 'Atlantis' is not kept here; there are the lamp's own; Europe"
    ):
        dataclasses.replace(lessons.Tolerances(STAIR, ask=False).initial, place="Atlantis")


def test_a_lamp_without_a_file_is_named_in_the_list_and_can_be_had_again(monkeypatch):
    monkeypatch.chdir("notebooks")
    designed = replace_at(Lamp.from_toml("lamps/stair_marker.toml"), "name", "reading nook")
    panel = lessons.Tolerances(designed, ask=False)
    box = panel.lamp_box.choice
    assert box.options[0][0] == box.label == "reading nook", "never an empty list"
    box.value = "shelf_strip.toml"
    assert panel.setting.lamp.name == "shelf strip"
    box.value = box.options[0][1]
    assert panel.setting.lamp.name == "reading nook" and panel.complaint.value == ""
