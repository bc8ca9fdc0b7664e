"""The hunt: the same by its seed and its code, fair to whoever measures, and hidden until it is over."""

import re

import numpy as np
import pytest
from dropper import Lamp
from dropper.bench.diagnosis import MEASUREMENTS, Evidence, Hunt, causes_of
from dropper.bench.diagnosis.measurements import LIVE
from dropper.bench.diagnosis.posterior import posterior_of
from dropper.bench.diagnosis.prior import HUNT_WEIGHTS, LIMITS
from dropper.solver.transient import Fault, settle, unplug, with_fault
from dropper.teaching import pages

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
STRIP = Lamp.from_toml("notebooks/lamps/shelf_strip.toml")


def test_a_seed_gives_the_same_hunt_whatever_the_order_of_measuring():
    one, other = Hunt(STAIR, 7, live=True), Hunt(STAIR, 7, live=True)
    for key in ("plug-in", "light", "bus"):
        one.measure(key)
    for key in ("bus", "plug-in", "light"):
        other.measure(key)
    assert one.evidence == other.evidence and one.code == other.code
    assert Hunt(STAIR, 8).measure("plug-in").readings != one.steps[0].readings


def test_seeds_draw_all_kinds_about_as_often_as_is_said():
    drawn = [Hunt(STAIR, seed)._draw() for seed in range(1)] + [kind for seed in range(600) for kind in [_drawn(seed)]]
    assert None not in drawn and set(drawn) <= set(causes_of(STAIR))
    weights = {kind: HUNT_WEIGHTS[kind] for kind in causes_of(STAIR) if HUNT_WEIGHTS[kind]}
    for kind in (("lost", "dropper"), ("short", "D1"), ("open", "string")):
        expected = weights[kind] / sum(weights.values())
        assert drawn.count(kind) / len(drawn) == pytest.approx(expected, abs=0.05)


def _drawn(seed):
    hunt = object.__new__(Hunt)
    hunt.lamp, hunt.seed = STAIR, seed
    return hunt._draw()


def test_readings_are_the_hidden_lamp_s_within_the_meter_s_errors():
    hunt = Hunt(STAIR, 3, Fault("short", "D1"), live=True)
    real = hunt._hidden.real
    assert abs(real.dropper / STAIR.dropper - 1) <= LIMITS["dropper"]
    truth, read = settle(with_fault(real, Fault("short", "D1"))), hunt.measure("plug-in").readings
    assert read["voltage"] == pytest.approx(real.mains.voltage, rel=0.011, abs=0.2)
    assert read["current"] == pytest.approx(truth.line_current_rms, rel=0.021, abs=1.6e-3)
    assert hunt.measure("bus").readings["bus_voltage"] == pytest.approx(truth.bus_voltage_mean, rel=0.03)
    assert hunt.measure("bridge").readings == {"bridge": "one short"}


@pytest.mark.parametrize("kind", [kind for kind in causes_of(STAIR) if kind])
def test_every_fault_can_be_hunted_down_by_the_best_way(kind):
    hunt = Hunt(STAIR, 11, kind)
    for key in hunt.best_way():
        hunt.measure(key)
    found = hunt.diagnosis()
    assert found.causes[0].kind == kind, found.verdict
    score = hunt.name_part(found.causes[0].kind)
    assert score.right and score.points == 100 and hunt.over and len(hunt.steps) <= 9
    assert score.words == hunt.record()[-1] and "Found" in score.words


def test_more_and_more_dangerous_measurements_cost_points_and_so_does_guessing():
    def points(*keys, before=()):
        hunt = Hunt(STAIR, 3, ("short", "D1"), live=True)
        for key in keys:
            hunt.measure(key)
        for kind in before:
            assert not hunt.name_part(kind).right and not hunt.over
        return hunt.name_part(Fault("short", "D1")).points

    best = Hunt(STAIR, 3, ("short", "D1")).best_way()
    assert points(*best) == 100
    assert points(*best, "string") < 100
    live = points(*best, "bus")
    assert live < points(*best, "dropper"), "as dear, but live"
    assert points(*best, before=[("open", "string")]) == 75
    assert points() == 50, "a guess"
    help_count = Hunt(STAIR, 3, ("short", "D1"))
    for key in best:
        help_count.hint(), help_count.odds(), help_count.measure(key)
    assert help_count.name_part(("short", "D1")).points == 100 - 5 * len(best), (
        "help is counted once before each measurement"
    )


def test_odds_that_come_from_how_common_a_cause_is_are_worth_a_guess():
    """At the plug one diode short and half of the groups short are one (see the pump's formula): counting parts them."""
    hunt = Hunt(STAIR, 1)
    hunt.measure("plug-in")
    assert hunt.diagnosis().posterior.causes()["short", "D1"] > 0.9 and hunt.diagnosis().word == "likely"
    assert "odds between them come from how common each is" in hunt.diagnosis().verdict
    guess = hunt.name_part(("short", "D1"))
    assert guess.right and guess.points == 50
    assert "several shorted groups" in guess.words and "the odds come from how common each is" in guess.words
    counted = Hunt(STAIR, 1)
    for key in ("plug-in", "leds"):
        counted.measure(key)
    score = counted.name_part(("short", "D1"))
    assert score.points == 100 and "how common" not in score.words


def test_readings_that_part_a_rare_cause_from_all_others_are_no_guess():
    """What is named counts by what was read: a shorted bleeder is among the rarest."""
    hunt = Hunt(STAIR, 11, ("short", "bleeder"))
    for key in hunt.best_way():
        hunt.measure(key)
    assert hunt.name_part(("short", "bleeder")).points == 100


def test_the_pins_are_read_once_and_as_the_circuit_has_them():
    """0 V with a sound bleeder, whatever the moment; many volts with an open one, as the transient says."""
    for seed in range(4):
        sound = Hunt(STAIR, seed, ("short", "group")).measure("pins")
        assert sound.readings["pins_residual"] < 0.5 and "ten times" not in sound.words, seed
        hunt = Hunt(STAIR, seed, ("open", "bleeder"))
        hidden = hunt._hidden
        faulty = with_fault(hidden.real, Fault("open", "bleeder"))
        volts = abs(float(unplug(faulty, hidden._table.pulled_at, 1.0, 10e6).pins_voltage[-1]))
        assert hunt.measure("pins").readings["pins_residual"] == pytest.approx(volts, rel=0.2, abs=1.0)


def test_live_measurements_can_be_declined():
    hunt = Hunt(STAIR, 5)
    assert not hunt.live, "it is asked for, never there by itself"
    assert all(measurement.hazard < LIVE for measurement in hunt.choices())
    with pytest.raises(ValueError, match="declined"):
        hunt.measure("bus")
    assert not {key for key in hunt.best_way() if MEASUREMENTS[key].hazard == LIVE}


@pytest.mark.parametrize("fault", [None, Fault("leaky", "smoothing"), Fault("open", "bleeder")])
def test_a_code_gives_the_class_the_same_hunt_and_does_not_name_the_fault(fault):
    hunt = Hunt(STAIR, 4711, fault, live=False)
    again = Hunt.from_code(STAIR, f" {hunt.code.lower()} ")
    assert again.measure("plug-in").readings == hunt.measure("plug-in").readings
    assert not again.live and again.code == hunt.code and len(hunt.code) == 8
    assert not any(part in hunt.code.lower() for part in ("leak", "bleed", "drop"))
    near = [Hunt(STAIR, 4711, ("open", "bleeder")).code, Hunt(STAIR, 4712, ("open", "bleeder")).code]
    assert sum(a == b for a, b in zip(*near, strict=True)) < 5, "neighbours do not look alike"


def test_mistyped_codes_and_those_of_another_lamp_are_told():
    code = Hunt(STAIR, 12).code
    with pytest.raises(ValueError, match="another lamp"):
        Hunt.from_code(STRIP, code)
    with pytest.raises(ValueError, match="no hunt's code"):
        Hunt.from_code(STAIR, "hello")
    rng, caught = np.random.default_rng(1), 0
    for _ in range(40):
        place = rng.integers(0, 4)
        letter = "23456789"[rng.integers(8)]
        if code[place] == letter:
            caught += 1
            continue
        try:
            Hunt.from_code(STAIR, code[:place] + letter + code[place + 1 :])
        except ValueError:
            caught += 1
    assert caught >= 39


def test_the_answer_is_hidden_until_the_hunt_is_over():
    hunt = Hunt(STAIR, 2)
    with pytest.raises(ValueError, match="once the hunt is over"):
        hunt.answer()
    assert "hint" not in hunt.hint() and len(hunt.hint()) > 30
    hunt.measure("plug-in")
    with pytest.raises(ValueError, match="it has been done"):
        hunt.measure("plug-in")
    score = hunt.give_up()
    assert score.points == 0 and not score.right and hunt.answer() in score.words
    with pytest.raises(ValueError, match="over"):
        hunt.name_part(("open", "D1"))


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Hunt(STAIR, -1), "seed"),
        (lambda: Hunt(STAIR, 1, Fault("open", "LED")), "cannot happen"),
        (lambda: Hunt(STAIR, 1).measure("sniff"), "measurement"),
        (lambda: Hunt(STAIR, 1).name_part(None), "part"),
    ],
)
def test_what_cannot_be_is_refused_in_words(make, words):
    with pytest.raises(ValueError, match=words):
        make()


def test_a_hint_rests_on_what_was_read_alone():
    hunt, other = Hunt(STAIR, 31, ("short", "D1")), Hunt(STAIR, 31, ("open", "string"))
    assert hunt.hint() == other.hint(), "before anything is read it cannot differ"
    hunt.measure("plug-in")
    posterior = posterior_of(STAIR, Evidence(**hunt.steps[0].readings), priors=HUNT_WEIGHTS)
    assert hunt.diagnosis().posterior.causes() == pytest.approx(posterior.causes())


def test_a_wrong_name_is_believed():
    """What has been ruled out by naming it has no odds any more, and the others share what it had."""
    hunt = Hunt(STAIR, 1, Fault("short", "D1"))
    hunt.measure("plug-in")
    before = hunt.diagnosis().posterior.causes()
    hunt.name_part(("short", "groups"))
    after = hunt.diagnosis().posterior.causes()
    assert after["short", "groups"] == 0 and after["short", "D1"] > before["short", "D1"]
    assert "shorted groups" not in hunt.diagnosis().verdict


def test_what_is_told_in_words_stands_behind_a_colon():
    hunt = Hunt(STAIR, 5, ("short", "smoothing"))
    assert hunt.measure("bridge").words == "Test the four diodes: the diode test: all four conduct one way only."


def test_hunts_that_the_plan_for_a_class_names_are_what_it_says():
    plan = pages.source("fault_hunt")
    rows = re.findall(r"^\| (\d+) \| (an?|one) ([^|]+) \| ([^|]+) \|", plan, flags=re.M)
    assert len(rows) >= 7
    for number, article, cause, way in rows:
        hunt = Hunt(STAIR, int(number), live=False)
        assert ", ".join(hunt.best_way()) == way, number
        assert hunt.name_part(dict(hunt.suspects())[f"{article} {cause}"]).right, number


def test_without_live_measurements_no_meter_is_on_the_lamp_while_it_runs():
    """What is clipped on before power is on live parts later, though the plug is out when it is read."""
    from dropper.bench.diagnosis.measurements import measurements_for

    lamp = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
    assert {measurement.key for measurement in measurements_for(lamp)} - {
        measurement.key for measurement in measurements_for(lamp, live=False)
    } == {"bus", "ripple", "bus left"}
