"""Misconceptions: for each of the 27, where it is predicted, where it is seen not to hold, and the task that knows it.

The beliefs themselves, with predictions and tasks, stand in `dropper.lessons.beliefs`, for the questions from before
need them; here stands where each is observed. A prediction is (what the question is called in the progress file, key of
the wrong answer): a panel's class in small letters, the `key` of a `Guess`, or "faults_" with a fault. An observation is
(panel class or key of a `Guess`, key of a goal, key of a reading, or "verdict"). A task is (its key, a slip's name or an
option's key). Each must be in sight in a notebook of `lessons`; `test_misconceptions` looks each of them up.
"""

from typing import NamedTuple

from dropper.lessons.beliefs import BELIEFS

OBSERVED = {
    1: ("Bench", "verdict"),
    2: ("ResistorOrCapacitor", "capacitor_heat"),
    3: ("LoadLine", "far_off"),
    4: ("02_rule", "verdict"),
    5: ("LoadLine", "raised"),
    6: ("Powers", "bill"),
    7: ("Powers", "waste"),
    8: ("Powers", "lead"),
    9: ("LoadLine", "less"),
    10: ("LoadLine", "verdict"),
    11: ("Faults", "volts"),
    12: ("diode_volts", "verdict"),
    13: ("Faults", "diode"),
    14: ("Faults", "line"),
    15: ("Faults", "short"),
    16: ("Faults", "line"),
    17: ("Plugging", "kept"),
    18: ("02_mains", "verdict"),
    19: ("Sharing", "verdict"),
    20: ("Ageing", "verdict"),
    21: ("Faults", "fuse"),
    22: ("10_film", "verdict"),
    23: ("TouchCurrent", "minus"),
    24: ("TouchCurrent", "stays on"),
    25: ("OddMains", "heat"),
    26: ("Rush", "heat_in_use"),
    27: ("Smoothing", "low"),
}


class Row(NamedTuple):
    """A misconception and its places; an empty tuple for a place that is not there yet."""

    number: int
    words: str
    lessons: tuple
    predictions: tuple
    observed: tuple
    tasks: tuple


TABLE = tuple(
    Row(belief.number, belief.words, belief.lessons, belief.predictions, OBSERVED.get(belief.number, ()), belief.tasks)
    for belief in BELIEFS
)
