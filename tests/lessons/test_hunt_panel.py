"""The hunt's panel without a browser: measuring, naming, codes, help, and nothing given away."""

import re
from xml.dom import minidom

import pytest
from dropper import Lamp, replace_at
from dropper.bench.diagnosis import cause_words, causes_of
from dropper.lessons import Hunt
from dropper.lessons.fault_finding import hunt_figure, hunt_view
from dropper.solver.transient import Fault

STAIR = "notebooks/lamps/stair_marker.toml"


@pytest.fixture
def panel():
    return Hunt(STAIR, seed=3, fault=Fault("short", "D1"))


def buy(panel, *keys):
    for key in keys:
        panel.measurement.value = key
        panel.measure()


def everything(panel):
    return "".join(part.value for part in (panel.sentence, panel.table, panel.result, panel.curves, panel.complaint))


def test_measuring_fills_the_table_and_a_measurement_is_there_once(panel):
    assert panel.table.value == "" and "Nothing has been measured" in panel.sentence.value
    assert "bus" not in dict(panel.measurement.options).values(), "nothing live unless it is asked for"
    panel.hunt_box.live.value = True
    panel.hunt_box.new()
    panel.measurement.value = "bus"
    assert "licensed practice" in panel.price.value and "Cost 4" in panel.price.value
    buy(panel, "plug-in")
    assert "line current" in panel.table.value and "plug-in" not in dict(panel.measurement.options).values()
    assert panel.complaint.value == ""
    panel.measurement.value = ""
    panel.measure()
    assert "Choose a measurement" in panel.complaint.value


def test_nothing_gives_the_fault_away_before_the_end(panel):
    buy(panel, "plug-in", "light")
    assert "one diode short" not in everything(panel) and "shorted diode" not in everything(panel)
    panel.suspect.value = ("open", "string")
    panel.name_part()
    assert "It is not an open string" in panel.result.value and not panel.hunt.over
    assert "shorted diode" not in panel.result.value
    panel.give_up()
    assert "one shorted diode" in panel.result.value and panel.hunt.over
    assert dict(panel.measurement.options) == {"–": ""}


def test_the_odds_are_help_and_have_their_words(panel):
    buy(panel, "plug-in")
    assert "not shown" in panel.sentence.value
    panel.odds.value = True
    svg = panel.curves.value
    minidom.parseString(svg)
    label = re.search(r'aria-label="([^"]+)"', svg)[1]
    assert "one diode short" in label and "%" in label and "one shorted diode" in panel.sentence.value
    for x, y in re.findall(r'<text x="(-?\d+)" y="(-?\d+)"', svg):
        assert 0 <= int(x) <= 10 * hunt_figure.PICTURE.size[0] and 0 <= int(y) <= 10 * hunt_figure.PICTURE.size[1]
    panel.suspect.value = ("short", "D1")
    panel.name_part()
    assert panel.hunt.score.right and "help" in panel.result.value and panel.hunt.score.points < 100


def test_a_name_that_the_readings_do_not_part_from_another_is_told_as_a_guess():
    panel = Hunt(STAIR, seed=1)
    buy(panel, "plug-in")
    panel.suspect.value = ("short", "D1")
    panel.name_part()
    assert panel.hunt.score.points == 50
    assert "the readings fit" in panel.result.value and "how common each is" in panel.result.value


def test_a_code_is_made_and_opens_the_same_hunt_on_another_panel(panel):
    panel.hunt_box.fault.value, panel.hunt_box.number.value = ("leaky", "smoothing"), 77
    panel.hunt_box.make_code()
    code = re.search(r"<b>(\S{8})</b>", panel.hunt_box.new_code.value)[1]
    assert panel.hunt.seed == 3, "the hunt on the panel goes on"
    other = Hunt(STAIR, code=code)
    assert other.hunt.seed == 77 and other.hunt.code == code
    panel.hunt_box.code.value = "7777-777"
    panel.hunt_box.open_code()
    assert "mistyped" in panel.complaint.value and panel.hunt.seed == 3
    panel.hunt_box.code.value = code
    panel.hunt_box.open_code()
    assert panel.hunt.code == code and panel.complaint.value == ""


def test_a_code_drawn_by_number_does_not_show_the_number(panel):
    """A list of numbers and what they hide goes round in a class."""
    panel.hunt_box.number.value = 8
    panel.hunt_box.make_code()
    code = re.search(r"<b>(\S{8})</b>", panel.hunt_box.new_code.value)[1]
    panel.hunt_box.number.value, panel.hunt_box.code.value = 3, code
    panel.hunt_box.open_code()
    assert panel.hunt.seed == 8 and panel.hunt_box.number.value == 3
    panel.hunt_box.new()
    assert panel.hunt.seed == 3, "the number that stands there is the one of a new hunt"


def test_a_new_number_and_another_lamp_begin_anew(panel):
    buy(panel, "plug-in")
    panel.hunt_box.number.value = 8
    panel.hunt_box.new()
    assert panel.table.value == "" and panel.hunt.seed == 8
    assert "bus" not in dict(panel.measurement.options).values()
    panel.lamp_box.choice.value = "shelf_strip.toml"
    assert panel.hunt.lamp.name == "shelf strip" and panel.complaint.value == ""
    panel.set_lamp(replace_at(Lamp.from_toml(STAIR), "mains.harmonics", {3: (0.03, 0.0)}))
    assert panel.hunt.lamp.mains.harmonics == {}


def test_two_faults_that_look_alike_at_the_plug_are_bet_on_and_judged_once_a_part_is_named():
    panel = Hunt(STAIR, seed=1)
    question, answers = panel.question()
    assert "stair marker shows 23\xa0mA and 0.8\xa0W" in question and set(panel.causes) == set(answers) - {"neither"}
    assert panel.measurement.disabled and panel.goal_list.layout.display == "none"
    panel.prediction.choice.value = "diode"
    panel.prediction.note("sure")
    assert not panel.measurement.disabled and "buy readings" in panel.prediction.reply.value
    buy(panel, "plug-in")
    assert "Not so" not in panel.prediction.reply.value
    panel.suspect.value = ("short", "D1")
    panel.name_part()
    said = panel.prediction.reply.value
    assert "Not so:" in said and said.count("23\xa0mA and 0.8\xa0W") == 2 and "12 of 22 LEDs" in said


def test_the_broken_part_is_marked_in_the_circuit_once_the_hunt_is_over(panel):
    buy(panel, "plug-in", "leds")
    assert "Marked" not in panel.drawing.value and "#f0b400" not in panel.drawing.value
    panel.suspect.value = ("open", "string")
    panel.name_part()
    assert "Marked" not in panel.drawing.value, "a wrong name marks nothing"
    panel.suspect.value = ("short", "D1")
    panel.name_part()
    assert "Marked: diode D1 short" in panel.drawing.value and "#f0b400" in panel.drawing.value
    panel.hunt_box.new()
    assert "Marked" not in panel.drawing.value


@pytest.mark.parametrize(
    ("number", "keys", "name", "goals"),
    [
        (1, ("plug-in", "leds"), ("short", "D1"), {"reasoned"}),
        (1, ("plug-in",), ("short", "D1"), set()),
        (3, ("plug-in",), ("lost", "dropper"), {"single"}),
        (8, ("plug-in", "smoothing", "smoothing bleeder"), ("open", "smoothing_bleeder"), {"reasoned", "unseen"}),
        (5, ("plug-in", "bridge"), ("short", "smoothing"), {"reasoned", "dark"}),
    ],
)
def test_goals_are_reached_by_readings_that_leave_nothing_else(number, keys, name, goals):
    panel = Hunt(STAIR, seed=number, ask=False)
    assert panel.goal_list.seen == {}
    buy(panel, *keys)
    panel.suspect.value = name
    panel.name_part()
    assert set(panel.goal_list.seen) == goals
    if "unseen" in goals:
        assert "22 mA and 1.3 W with it" in panel.goal_list.seen["unseen"].replace("\xa0", " ")
    panel.lamp_box.choice.value = "shelf_strip.toml"
    assert panel.goal_list.seen == {}


def test_the_longest_bars_are_drawn_in_their_order_and_the_others_are_folded(panel):
    buy(panel, "plug-in")
    panel.odds.value = True
    drawn = hunt_view.longest(panel.view.bars)
    assert [bar.now for bar in drawn] == sorted((bar.now for bar in panel.view.bars), reverse=True)[:5]
    assert panel.curves.value.count('fill="var(--dropper-blue)"') == 5 and hunt_figure.scales(panel.view) == 100
    assert "<details" in panel.others.value and panel.others.value.count("<li") == len(panel.view.bars) - 5
    assert all(bar.name not in panel.others.value for bar in drawn)


def test_every_cause_has_a_short_name_and_a_bar():
    lamp = Lamp.from_toml("notebooks/lamps/display_case.toml")
    assert set(causes_of(lamp)) <= set(hunt_view.NAMES) and len(set(hunt_view.NAMES.values())) == len(hunt_view.NAMES)
    panel = Hunt("notebooks/lamps/display_case.toml", seed=1)
    panel.odds.value = True
    assert {bar.kind for bar in panel.view.bars} == set(causes_of(lamp)) - {None}
    assert all(len(name) < 26 and cause_words(kind) for kind, name in hunt_view.NAMES.items())
