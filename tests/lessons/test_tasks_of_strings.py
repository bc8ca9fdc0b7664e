"""Tasks of lesson 9: a learner with a pencil comes to the same word as the solver."""

import pytest
from dropper import lessons

SEEDS = range(40)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_bridged_led_counts_the_same_by_pencil_and_by_solver(seed):
    instance = lessons.question("dead_led_bridged").ask(seed)
    left = instance.known.peak_voltage - 3.0 * instance.values["in_series"]
    pencil = 3.0 / left
    assert instance.answer == ("none" if pencil < 0.03 else "some" if pencil <= 0.10 else "much")
    assert not 0.025 < pencil < 0.035 and not 0.098 < pencil < 0.102


@pytest.mark.parametrize("seed", SEEDS)
def test_who_takes_the_current_is_beyond_doubt(seed):
    instance = lessons.question("two_colours_side_by_side").ask(seed)
    first, second = instance.values["forward_voltage"], instance.values["second_forward_voltage"]
    assert instance.answer == ("both" if first == second else "first" if first < second else "second")
