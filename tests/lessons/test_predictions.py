"""What a learner predicts of a panel: noted in one tap, seen, judged by this lamp's numbers, kept with the progress."""

import re

import pytest
from dropper import Lamp, lessons, replace_at
from dropper.lessons import Bench, LoadLine
from dropper.lessons.kit.observation import Observation
from dropper.results.reading import Reading
from panels_to_try import ALL, OF_LAMPS, OTHERS, STAIR, new_panel
from predict import predict

CASE, STRIP = "notebooks/lamps/display_case.toml", "notebooks/lamps/shelf_strip.toml"
TWIN = "notebooks/lamps/classroom_twin.toml"


@pytest.fixture
def panel():
    return LoadLine(STAIR)


def line(panel):
    """The line that an answered question has folded to, as it is read."""
    return re.sub("<[^>]+>", "", panel.prediction.reply.value).replace("&#x27;", "'").replace("\u00a0", " ")


def stripped(text):
    """A reading without the noughts that a sentence leaves out: 39 mA for 39.0 mA."""
    return text.replace(".0 ", " ")


def halve(panel):
    """Half of the LEDs are bridged."""
    panel.sliders["string.in_series"].value = panel.initial.string.in_series // 2


def test_one_tap_notes_the_answer_and_how_sure_one_is(panel):
    panel.prediction.choice.value = "double"
    panel.prediction.sure_buttons["fairly"].click()
    assert not any(slider.disabled for slider in panel.sliders.values())
    assert line(panel).startswith("stair marker: You said (fairly sure): it doubles")
    assert "To move: LEDs in series." in line(panel)
    assert panel.prediction.asked_box.layout.display == "none", "the question has folded"


def test_before_the_verdict_the_learner_says_what_was_seen(panel):
    predict(panel.prediction, "double")
    halve(panel)
    assert panel.prediction.seen_box.layout.display == ""
    assert "What did the string current do?" in panel.prediction.seen_box.children[0].value
    assert "Not so" not in line(panel)
    panel.prediction.seen_buttons["up"].click()
    assert panel.prediction.seen_box.layout.display == "none"
    before, after = (
        next(row.text for row in view.readings if row.key == "string_current_mean")
        for view in (panel.first_view, panel.view)
    )
    assert f"Seen: string current, {before} before, {after} now." in line(panel)
    assert "Not so: with half" in line(panel) and panel.causes["double"][-30:] in line(panel)


def test_a_wrong_observation_is_answered_with_the_two_numbers(panel):
    predict(panel.prediction, "some")
    halve(panel)
    panel.prediction.seen_buttons["down"].click()
    assert re.search(r"Look again: string current, 16.7 mA before, 19.0 mA now\. Right: with half", line(panel))


def test_what_was_seen_is_asked_no_more_once_the_slider_is_back(panel):
    predict(panel.prediction, "some")
    halve(panel)
    panel.reset()
    assert panel.prediction.seen_box.layout.display == "none"
    halve(panel)
    assert panel.prediction.seen_box.layout.display == ""


def test_who_skips_is_told_what_the_lamp_does_and_asked_nothing(panel):
    predict(panel.prediction, False)
    halve(panel)
    assert panel.prediction.seen_box.layout.display == "none"
    assert line(panel).startswith("stair marker: No prediction made. With half")


@pytest.mark.parametrize(
    ("before", "now", "right"),
    [
        (16.7e-3, 17.3e-3, {"up"}),
        (16.7e-3, 16.71e-3, {"same"}),
        (16.7e-3, 16.9e-3, {"up", "same"}),
        (16.7e-3, 9e-3, {"down"}),
        (16.7e-3, 0.0, {"down"}),
        (0.0, 0.0, {"same"}),
        (-35.0, -20.0, {"up"}),
    ],
)
def test_up_same_and_down_are_told_apart_and_near_the_border_both_hold(before, now, right):
    readings = [(Reading("i", "string current, mean", value, "A", ""),) for value in (before, now)]
    assert Observation.of("i", *readings).truths == right


def test_a_reading_that_is_not_there_is_not_asked_about(panel):
    """A string that stays dark has no current to be seen: the verdict comes at once."""
    panel.start_from(replace_at(panel.initial, "string.in_series", 100))
    predict(panel.prediction, "some")
    panel.sliders["mains.voltage"].value = 90.0
    panel.sliders["string.in_series"].value = 50
    assert panel.observation() is None
    assert "You said" in line(panel) and "To move" not in line(panel)


def test_another_lamp_takes_question_line_and_verdict_with_it(panel):
    """The answer is one about lamps, and is kept; every number is the new lamp's."""
    predict(panel.prediction, "double")
    halve(panel)
    panel.prediction.seen_buttons["up"].click()
    first = line(panel)
    panel.set_lamp(Lamp.from_toml(CASE))
    assert line(panel).startswith("display case: You said of the stair marker (sure): it doubles")
    assert not set(re.findall(r"\d+(?:\.\d+)? mA", first)) & set(re.findall(r"\d+(?:\.\d+)? mA", line(panel)))
    halve(panel)
    panel.prediction.seen_buttons["up"].click()
    now = next(row.text for row in panel.view.readings if row.key == "string_current_mean")
    assert f"{now} now." in line(panel) and f"to {stripped(now)}" in line(panel), "the table and the verdict agree"


def test_an_open_question_is_about_the_lamp_that_is_put_on():
    panel = lessons.Smoothing(STAIR)
    panel.prediction.choice.value = "twice"
    panel.set_lamp(Lamp.from_toml(STRIP))
    assert "shelf strip" in panel.prediction.asked_box.children[0].value
    assert panel.prediction.choice.value == "twice" and panel.sliders["smoothing"].disabled


@pytest.mark.parametrize("name", OF_LAMPS)
@pytest.mark.parametrize("path", OTHERS)
def test_no_panel_judges_one_lamp_by_the_numbers_of_another(name, path):
    panel = new_panel(name, ask=True)
    predict(panel.prediction)
    lamp = Lamp.from_toml(path)
    panel.set_lamp(lamp)
    assert panel.question_setting == panel.initial and panel.first_view is not None
    right, outcome = panel.verdict()
    fresh = new_panel(name, ask=True, path=path)
    assert (right, outcome) == fresh.verdict() and panel.question() == fresh.question()
    assert line(panel).startswith(f"{lamp.name}: ")


def test_the_bench_judges_the_twin_by_the_twin():
    """The classroom twin has no 330 nF: neither before nor after its lamp is chosen in the box."""
    bench = Bench(STAIR)
    bench.lamp_box.choice.value = "classroom_twin.toml"
    predict(bench.prediction, "resistor")
    bench.sliders["dropper"].value = bench.sliders["dropper"].options[-1][1]
    bench.sliders["series_resistor"].value = 1000.0
    assert "classroom twin" in line(bench).lower() and "330 nF" not in line(bench)
    from dropper.circuit.values import show

    assert show(Lamp.from_toml(TWIN).dropper, "F") in line(bench)


def test_the_verdict_is_of_the_lamp_as_the_sliders_have_it(panel):
    predict(panel.prediction, "some")
    panel.sliders["dropper"].value = 680e-9
    halve(panel)
    panel.prediction.seen_buttons["up"].click()
    now = next(row.text for row in panel.view.readings if row.key == "string_current_mean")
    assert f"to {stripped(now)}" in line(panel)


def test_moves_of_other_sliders_do_not_make_a_right_answer_a_wrong_one(panel):
    """On a mains that hardly reaches the string halving it doubles the current; the question was about the lamp as it came."""
    predict(panel.prediction, "some")
    panel.sliders["mains.voltage"].value = 90.0
    halve(panel)
    if panel.prediction.seen_box.layout.display == "":
        panel.prediction.seen_buttons["up"].click()
    assert "Right: " in line(panel)


def test_a_prediction_is_kept_with_the_progress_and_judged_there(panel, progress):
    predict(panel.prediction, "double", "guess")
    kept = progress.predictions()["load_line"]
    assert (kept.answer, kept.sure, kept.right) == ("double", "guess", None)
    halve(panel)
    panel.prediction.seen_buttons["up"].click()
    assert progress.predictions()["load_line"].right is False


def test_skipping_keeps_nothing_and_no_file_is_no_trouble(panel, progress, tmp_path):
    predict(panel.prediction, False)
    assert progress.predictions() == {}
    progress.path = tmp_path / "no such folder" / "progress.json"
    other = LoadLine(STAIR)
    predict(other.prediction)
    assert other.prediction.answered and other.complaint.value == ""


@pytest.mark.parametrize("name", [*ALL, "Bench"])
def test_causes_are_of_answers_that_there_are_and_what_is_observed_is_a_reading(name):
    panel = new_panel(name, ask=True)
    _, answers = panel.question()
    assert set(panel.causes) <= set(answers), "a cause of an answer that there is not"
    if panel.observed:
        assert panel.observed in {reading.key for reading in panel.first_view.readings}


def test_the_circuit_shows_no_path_before_the_bet_on_when_it_begins():
    """At 70° the diodes D1 and D4 conduct: to see them lit is half of the answer."""
    panel = lessons.Conduction(STAIR)
    assert "conduct" not in panel.drawing.value, "the path is read out before the answer"
    assert "stroke-width:3.2" not in panel.drawing.value, "parts are drawn as if they carried current"
    panel.prediction.skip()
    assert "D1 and D4 conduct" in panel.drawing.value and "stroke-width:3.2" in panel.drawing.value
