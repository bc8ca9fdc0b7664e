"""Lesson 7's panel: the volts of an open string, a guess before each fault, goals, the drawing and the parts table."""

import re
from html import unescape
from xml.dom import minidom

import pytest
from dropper import Lamp, replace_at, theory
from dropper.lessons import Faults
from dropper.lessons.beliefs import BELIEFS
from dropper.lessons.faults import verdicts, view
from dropper.lessons.faults.goals import GOALS
from dropper.lessons.faults.parts_table import parts_table
from dropper.lessons.faults.questions import LIGHT, question_of
from dropper.lessons.kit import faulty_circuit as circuit
from dropper.solver.transient import Fault, faults_of, settle, with_fault
from for_every import for_every

PATH = "notebooks/lamps/stair_marker.toml"
STAIR = Lamp.from_toml(PATH)
HEALTHY = settle(STAIR)


def cycle(*fault):
    return settle(with_fault(STAIR, Fault(*fault)))


def test_an_open_string_puts_the_peak_on_c2_and_the_diodes():
    """By hand: 325.3 V less two small drops, less what the smoothing bleeder takes: between 300 V and the peak."""
    right, found = verdicts.open_string_verdict(STAIR)
    assert right == "peak" and "309 V" in found and "310 V" in found
    assert 300 < cycle("open", "string").bus_voltage_peak < STAIR.mains.peak == pytest.approx(325.3, abs=0.1)
    text, answers = Faults(PATH).question()
    assert "stair marker" in text and set(answers) == {"string", "nothing", "peak", "twice"}
    assert answers["string"].startswith("67 V"), "the belief has this lamp's own volts"


def test_a_diode_beside_an_open_one_counts_with_twice_the_peak():
    right, found = verdicts.diode_verdict(STAIR)
    assert right == "twice" and "583 V" in found and "651 V" in found  # 2 · 325.27 V
    assert theory.diode_reverse_voltage_beside_open(peak_voltage=STAIR.mains.peak) == pytest.approx(650.5, abs=0.1)


@pytest.mark.parametrize(
    ("fault", "right", "belief"),
    [
        (("open", "D1"), "dark", "half"),
        (("short", "D1"), "more", "half"),
        (("short", "D1"), "more", "bang"),
        (("short", "dropper"), "away", "never"),
        (("short", "smoothing"), "little", "away"),
        (("open", "bleeder"), "nobody", "meter"),
    ],
)
def test_the_beliefs_of_a_fault_are_offered_refuted_and_explained(fault, right, belief):
    """Beliefs 13, 16, 14, 21, 15 and 17: the fault's own numbers decide, and a cause is said."""
    question = question_of(Fault(*fault))
    assert question.right(cycle(*fault), HEALTHY) == right
    assert set(question.causes) == set(question.answers) - {right}, "a cause for each wrong answer"
    panel = Faults(PATH, ask=True)
    panel.prediction.skip()
    panel.sliders["fault"].value = Fault(*fault)
    panel.guess(belief)
    said = panel.guess_text.value
    assert (
        "Not so:" in said and question.causes[belief].split(".")[0].split("'")[0] in said and re.search(r"\d mA", said)
    )


@for_every(faults_of(STAIR))
def test_every_fault_has_an_answer_that_holds(fault):
    question = question_of(fault)
    assert question.right(settle(with_fault(STAIR, fault)), HEALTHY) in question.answers, fault


def test_a_fault_is_guessed_before_it_is_shown():
    panel = Faults(PATH, ask=True)
    panel.prediction.skip()
    before = panel.curves.value
    panel.sliders["fault"].value = Fault("drifted", "inrush_resistor")
    assert panel.curves.value == before and "what does the light do?" in panel.guess_text.value
    assert panel.guess_buttons.layout.display == "" and len(panel.guess_buttons.children) == len(LIGHT.answers) + 1
    assert "Marked: inrush resistor drifted" in panel.drawing.value and 'fill-opacity="0.00"' in panel.drawing.value
    panel.guess("dim")
    assert panel.setting.fault == Fault("drifted", "inrush_resistor") and "Not so" in panel.guess_text.value
    assert panel.curves.value != before and panel.guess_buttons.layout.display == "none"
    panel.sliders["fault"].value = Fault("open", "D1")
    panel.guess(None)
    assert "No guess made" in panel.guess_text.value and panel.view.now.word == "dark"
    panel.sliders["fault"].value = ""
    assert panel.setting.fault is None
    panel.sliders["fault"].value = Fault("open", "D1")
    panel.reset()
    assert panel.setting.fault is None and panel.guess_buttons.layout.display == "none"
    panel.sliders["fault"].value = Fault("open", "D1")
    panel.set_lamp(Lamp.from_toml("notebooks/lamps/display_case.toml"))
    panel.guess("dark")
    assert panel.setting.fault is None and panel.complaint.value == ""


def test_the_fault_of_the_question_is_shown_at_once_for_it_was_predicted():
    panel = Faults(PATH, ask=True)
    panel.prediction.choice.value = "string"
    panel.prediction.note("sure")
    panel.sliders["fault"].value = verdicts.QUESTION_FAULT
    assert panel.setting.fault == verdicts.QUESTION_FAULT and panel.guess_buttons.layout.display == "none"


@pytest.mark.parametrize(
    ("key", "fault", "figures"),
    [
        ("volts", ("open", "string"), ("309 V", "310 V")),
        ("diode", ("open", "D1"), ("82.4 µA", "16.7 mA")),
        ("line", ("short", "D1"), ("9.37 mA", "23 mA", "21.6 mA")),
        ("short", ("short", "smoothing"), ("23.8 mA", "214 mW", "1.32 W")),
        ("fuse", ("short", "dropper"), ("437 mA", "42 W")),
    ],
)
def test_a_goal_is_reached_by_its_fault_and_says_what_it_shows(key, fault, figures):
    goal = next(goal for goal in GOALS if goal.key == key)
    first, seen = (view.view_of(view.FaultyLamp(STAIR, one)) for one in (None, Fault(*fault)))
    assert goal.reached(seen, first, None) and not goal.reached(first, first, None)
    words = goal.words(seen, first, None)
    assert all(figure in words for figure in figures), words
    others = [one for one in faults_of(STAIR) if goal.reached(view.view_of(view.FaultyLamp(STAIR, one)), first, None)]
    assert len(others) <= 3, "a goal that nearly every fault reaches is none"


def test_the_drawing_has_every_diode_by_name_and_the_broken_part_as_it_is():
    """D1 and D3 meet at the dropper, D2 and D4 at the neutral: the solver's own bridge."""
    whole = circuit.draw(STAIR, None, HEALTHY)
    assert all(f">{name}<" in whole for name in ("D1", "D2", "D3", "D4", "C1", "C2", "R1", "R2", "R3", "R4"))
    marked = 'stroke-dasharray="6 4"'
    assert whole.count(marked) == 0
    for fault in faults_of(STAIR):
        drawn = circuit.draw(STAIR, fault, settle(with_fault(STAIR, fault)))
        minidom.parseString(drawn)
        assert drawn.count(marked) == len(circuit.broken_parts(fault)) >= 1, fault
        assert f"Marked: {fault.words(STAIR)}." in unescape(str(drawn))


def test_the_ways_of_a_half_bridge_are_those_that_the_solver_finds():
    """In which half cycle the string's bus is charged: by the line current's sign while the bus rises."""
    import numpy as np

    for name in ("D1", "D2", "D3", "D4"):
        (first, second), past = circuit.ways_of(Fault("short", name))
        now = cycle("short", name)
        rising = np.diff(now.bus_voltage) > 1e-6
        sign = np.sign(now.line_current[1:][rising].sum())
        assert {first, second} == ({"D1", "D4"} if sign > 0 else {"D2", "D3"}), name
        assert name in past and len({*past}) == 2
    assert circuit.ways_of(Fault("open", "D1")) == circuit.ways_of(None) == ()


def test_the_light_of_the_drawing_follows_the_current():
    def glow(*fault):
        state = cycle(*fault) if fault else HEALTHY
        drawn = circuit.draw(STAIR, Fault(*fault) if fault else None, state)
        return float(re.search(r'fill-opacity="([\d.]+)"/', drawn)[1])

    assert glow("open", "D1") == 0 < glow("short", "D1") < glow() < glow("short", "groups")


def test_the_parts_table_names_what_is_needed_and_the_builders_parts_that_are_too_weak():
    shown = parts_table(STAIR)._repr_html_()
    for text in (
        "253\u00a0V",
        "electrolytic, 400\u00a0V",
        "1N4006",
        "716\u00a0V",
        "53.7\u00a0W",
        "does not promise long service",
    ):
        assert text in shown, text
    weak = parts_table(STAIR, {"smoothing": "electrolytic, 100 V", "diodes": "1N4003", "bleeder": "carbon film 1/4 W"})
    assert {rating.part for rating in weak.ratings.over} == {"smoothing", "diodes", "bleeder"}
    assert weak._repr_html_().count("<tr>") == 4


def test_other_lamps_draw_and_ask_too():
    for name in ("display_case", "shelf_strip", "classroom_twin"):
        lamp = Lamp.from_toml(f"notebooks/lamps/{name}.toml")
        for one in (lamp, replace_at(lamp, "smoothing", 0.0)):
            minidom.parseString(circuit.draw(one, None, settle(one)))
        right, found = verdicts.open_string_verdict(lamp)
        assert right in Faults(lamp).question()[1] and re.search(r"\d V", found)


def test_the_beliefs_of_this_lesson_are_asked_here():
    asked = {belief.number for belief in BELIEFS if 7 in belief.lessons}
    assert {11, 12, 13, 14, 15, 16, 21, 23, 24} <= asked
