"""The panel on tolerance: what it counts, that a count can be stopped, and that nothing of it is lost."""

import numpy as np
import pytest
from dropper import lessons
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
