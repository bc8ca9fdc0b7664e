"""What years do: life of an electrolytic against a published table, fading droppers against the load line."""

import math
from pathlib import Path

import numpy as np
import pytest
from draws import examples
from dropper import Lamp, standards, steady_state, theory
from dropper.circuit.lamp import replace_at
from dropper.circuit.numerals import short
from dropper.components import kinds
from dropper.solver import heat
from hypothesis import given, settings
from hypothesis import strategies as st

LAMPS = Path(__file__).resolve().parents[3] / "notebooks" / "lamps"
LAMP = Lamp.from_toml(LAMPS / "stair_marker.toml")
PUBLISHED = next(life for life in kinds.LIVES if life.name == "1000 h at 105 °C")


# Cosel FAQ a0057, read: 1000 h at 105 °C is 64 000, 32 000, 16 000 h at 45, 55, 65 °C.
@pytest.mark.parametrize(("degrees", "hours"), [(45, 64000), (55, 32000), (65, 16000), (105, 1000)])
def test_published_lives(degrees, hours):
    found = heat.smoothing_life(PUBLISHED, degrees)
    assert found.hours == pytest.approx(hours, rel=1e-12)
    assert f"a can of 1000 h at 105 °C lasts {short(hours)} h" in found.words


def test_published_mix():
    """Cosel FAQ a0057, read: 8 h at each of the three wears like a steady 57.2 °C; the life is the harmonic mean."""
    found = heat.smoothing_life(PUBLISHED, [45, 55, 65])
    assert found.temperature == pytest.approx(57.2, abs=0.05)
    assert found.hours == pytest.approx(3 / (1 / 64000 + 1 / 32000 + 1 / 16000), rel=1e-9)
    assert heat.smoothing_life(PUBLISHED, [45, 55, 65], [8, 8, 8]).hours == pytest.approx(found.hours, rel=1e-12)
    uneven = heat.smoothing_life(PUBLISHED, [45, 65], [16, 8])
    assert uneven.hours == pytest.approx(24 / (16 / 64000 + 8 / 16000), rel=1e-9)


def test_years_of_use():
    found = heat.smoothing_life(PUBLISHED, 65)
    assert found.years(2920) == pytest.approx(16000 / 2920) and found.years() == pytest.approx(16000 / 8766)
    assert "1.8 years without a pause" in found.words
    cool = heat.smoothing_life(kinds.LIVES[4], 40)
    assert "which nobody trusts beyond some 15 years" in cool.words


@given(st.floats(25, 100), st.floats(0.1, 40))
def test_warmer_is_shorter(degrees, more):
    assert heat.smoothing_life(PUBLISHED, degrees + more).hours < heat.smoothing_life(PUBLISHED, degrees).hours


def test_a_tighter_enclosure_shortens_the_life():
    """The can stands in the air inside: each 10 K more halve its life."""
    result = steady_state(LAMP, 256)
    found = [heat.temperatures(LAMP, result, heat.Surroundings.typical(where)) for where in ("open", "enclosed")]
    lives = [heat.smoothing_life(kinds.LIVES[3], each.parts["smoothing"]).hours for each in found]
    assert lives[0] / lives[1] == pytest.approx(2 ** ((found[1].air - found[0].air) / 10), rel=1e-9)
    assert lives[0] > 2 * lives[1]


# --- fading droppers --------------------------------------------------------------------------------------------


def test_scenarios_say_where_they_come_from():
    """IEC 60384-14 as restated: 10 % in the endurance test of X2, 5 % in damp heat; the years have no source."""
    made = heat.scenarios()
    rates = [scenario.loss_each_year for scenario in made]
    assert rates == sorted(rates) and rates[0] == 0
    by_test = [scenario for scenario in made if "60384-14" in scenario.source]
    assert [(1 - scenario.loss_each_year) ** 10 for scenario in by_test] == pytest.approx([0.95, 0.90], rel=1e-12)
    assert all("scenario, no source" in scenario.source for scenario in made)


def test_after_its_years_a_scenario_is_at_the_limit_of_its_test():
    scenario = heat.scenario_of_test(standards.X2_ENDURANCE, 7.0)
    faded = heat.film_years(LAMP, [0, 7, 7.1], scenario)
    change = 100 * (faded.capacitance / LAMP.dropper - 1)
    assert change[1] == pytest.approx(-10, rel=1e-9)
    assert standards.change_verdict(change[1] + 1e-9, standards.X2_ENDURANCE).word == "within"
    assert standards.change_verdict(change[2], standards.X2_ENDURANCE).word == "over"


@pytest.mark.parametrize("scenario", heat.scenarios(), ids=lambda scenario: scenario.name)
def test_current_over_the_years(scenario):
    found = heat.film_years(LAMP, range(11), scenario)
    assert found.years.shape == found.capacitance.shape == found.string_current.shape == (11,)
    steps = np.diff(found.string_current)
    assert (steps < 0).all() if scenario.loss_each_year else np.allclose(steps, 0, atol=1e-12)
    # one year by itself, as a lamp of its own
    alone = steady_state(replace_at(LAMP, "dropper", LAMP.dropper * (1 - scenario.loss_each_year) ** 6), 128)
    assert found.string_current[6] == pytest.approx(alone.string_current_mean, rel=1e-9)
    # the closed form at the clamped voltage of the end; 4 %, for the smoothing bleeder, which takes the more of the
    # current the less there is, and the inrush resistor, which the form leaves out
    last = steady_state(replace_at(LAMP, "dropper", float(found.capacitance[-1])), 128)
    held = last.bus_voltage_mean + 2 * LAMP.diode.voltage_at(last.string_current_mean / last.conduction_fraction)
    form = theory.mean_string_current(
        frequency=50.0, dropper=found.capacitance[-1], peak_voltage=LAMP.mains.peak, clamped_voltage=held
    )
    assert found.string_current[-1] == pytest.approx(form, rel=0.04)
    assert f"{scenario.name}: from year 0 to year 10 the dropper loses" in found.words


@settings(max_examples=examples(25))
@given(st.floats(0, 0.2), st.floats(0, 0.2), st.floats(0.5, 20))
def test_the_faster_it_fades_the_less_is_left(one, other, years):
    slow, fast = sorted((one, other))
    left = [
        heat.film_years(LAMP, [years], heat.Scenario("so", rate, "scenario, no source")).capacitance[0]
        for rate in (slow, fast)
    ]
    assert left[0] >= left[1]


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: heat.smoothing_life(2000, 65), "grade: 2000 is no life that a maker states; take one of kinds.LIVES"),
        (lambda: heat.smoothing_life(PUBLISHED, 65, [8]), "hours: belong to several temperatures; there is one"),
        (lambda: heat.smoothing_life(PUBLISHED, [45, 55], [8]), "2 temperatures and 1 hours"),
        (lambda: heat.smoothing_life(PUBLISHED, 900), "temperature = 900 °C is not allowed"),
        (lambda: heat.smoothing_life(PUBLISHED, 65).years(0), "hours_a_year: 0 h is out of range; allowed is 1 h to"),
        (
            lambda: heat.Scenario("all at once", 0.9, "none"),
            "Scenario.loss_each_year: 0.9 is out of range; allowed is 0 to 0.5",
        ),
        (lambda: heat.scenario_of_test(10, 5), "test: 10 will not do; take standards.X2_ENDURANCE"),
        (lambda: heat.scenario_of_test(standards.X2_ENDURANCE, 0), "nothing is lost in no time"),
        (lambda: heat.film_years(LAMP, [], heat.scenarios()[0]), "years: there are none"),
        (lambda: heat.film_years(LAMP, [math.nan], heat.scenarios()[0]), "years = nan is not allowed"),
        (lambda: heat.film_years(LAMP, [500], heat.scenarios()[-1]), "out of range"),
    ],
)
def test_errors_speak_to_a_person(call, words):
    with pytest.raises(ValueError) as caught:
        call()
    assert words in str(caught.value)
