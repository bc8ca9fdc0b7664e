"""Sliders, lists and answers of a panel go back to where a page had them, on a panel made anew."""

import ipywidgets as widgets
from dropper.lessons import Smoothing, Task
from dropper.lessons.kit.positions import controls, put_back, restore
from predict import predict

LAMP = "notebooks/lamps/stair_marker.toml"
KINDS = {
    widgets.SelectionSlider: "slider",
    widgets.Dropdown: "list",
    widgets.RadioButtons: "radio",
    widgets.Text: "text",
}


def rows(panel):
    """What the page reads off itself of a panel: kind, label, position, asleep."""
    found = []
    for control, _ in controls(panel):
        position = control.index if hasattr(control, "index") else control.value
        found.append([KINDS[type(control)], " ".join(control.description.split()), position, control.disabled])
    return found


def test_a_panel_goes_back_to_its_lamp_its_prediction_and_its_sliders():
    panel = Smoothing(LAMP)
    panel.lamp_box.choice.index = (panel.lamp_box.choice.index + 1) % len(panel.lamp_box.choice.options)
    predict(panel.prediction, panel.prediction.choice.options[1][1])
    for slider in panel.sliders.values():
        slider.index = max(slider.index - 2, 0)
    panel.explain_reading(panel.view.readings[1].key)
    panel.write_now()
    fresh = Smoothing(LAMP)
    assert rows(fresh) != rows(panel)
    assert put_back(fresh, rows(panel)) == len(rows(panel))
    assert rows(fresh) == rows(panel)
    assert fresh.setting == panel.setting
    assert fresh.prediction.answer == panel.prediction.answer
    assert fresh.table.value == panel.table.value


def test_a_prediction_that_was_skipped_is_skipped_and_an_open_one_stays_open():
    skipped, fresh = Smoothing(LAMP), Smoothing(LAMP)
    predict(skipped.prediction, False)
    put_back(fresh, rows(skipped))
    assert fresh.prediction.answered and fresh.prediction.answer is None
    open_still, fresh = Smoothing(LAMP), Smoothing(LAMP)
    open_still.prediction.choice.index = 0
    put_back(fresh, rows(open_still))
    assert fresh.prediction.choice.index == 0 and not fresh.prediction.answered
    assert all(slider.disabled for slider in fresh.sliders.values())


def test_what_was_typed_comes_back_without_being_judged(tmp_path):
    one, other = (Task("string_current", tmp_path / f"{name}.json") for name in "ab")
    one.field.value = "12 mA"
    put_back(other, rows(one))
    assert other.field.value == "12 mA" and other.entry.tries == 0


def test_controls_that_are_no_longer_there_are_left_out():
    panel = Smoothing(LAMP, ask=False)
    first = next(iter(panel.sliders.values()))
    place = first.index
    assert put_back(panel, [["slider", "no such slider", 3, False], ["slider", first.description, 9999, False]]) == 1
    assert first.index == place
    restore([("no such widget", [["slider", "dropper C1", 1, False]])])
