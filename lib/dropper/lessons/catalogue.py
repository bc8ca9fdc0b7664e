"""Catalogue: every task of the workbook by its key, in the order in which the lessons ask them."""

from ..circuit.excerpt import excerpt
from .ageing import tasks as ageing
from .ageing import warmth_tasks
from .conduction import diodes_tasks
from .conduction import tasks as conduction
from .design import film_tasks, worst_case_tasks
from .design import tasks as designing
from .fault_finding import information_tasks
from .fault_finding import tasks as finding
from .faults import stress_tasks
from .faults import tasks as broken
from .load_line import string_tasks
from .load_line import tasks as load_line
from .markings import tasks as markings
from .measurement import tasks as measuring
from .odd_mains import tasks as odd_mains
from .plugging import pins_tasks, unplugging_tasks
from .plugging import tasks as plugging
from .powers import bill_tasks
from .powers import tasks as powers
from .resistor_or_capacitor import tasks as two_ways
from .sharing import tasks as side_by_side
from .smoothing import flicker_tasks
from .smoothing import tasks as smoothing
from .strings import tasks as choosing_strings
from .tasks.question import Choice, Question
from .tolerances import tasks as tolerances
from .touch_current import tasks as touch_current

_MODULES = (
    two_ways,
    load_line,
    string_tasks,
    conduction,
    diodes_tasks,
    smoothing,
    flicker_tasks,
    powers,
    bill_tasks,
    plugging,
    unplugging_tasks,
    pins_tasks,
    stress_tasks,
    broken,
    touch_current,
    warmth_tasks,
    ageing,
    choosing_strings,
    side_by_side,
    designing,
    film_tasks,
    worst_case_tasks,
    tolerances,
    markings,
    measuring,
    finding,
    information_tasks,
    odd_mains,
)
# Three of each lesson: those that serve its question and the beliefs it is about. They come first.
CORE = {
    1: ("volts_beside", "dropper_power", "which_warms"),
    2: ("string_current", "larger_resistor", "groups_bridged"),
    3: ("conduction_start", "which_pair", "diode_missing"),
    4: ("few_microfarads", "ripple_bound", "smoothing_needed"),
    5: ("heat_in_lamp", "bill", "lead_or_lag"),
    6: ("rush_power", "left_on_pins", "inrush_energy"),
    7: ("diode_reverse", "one_diode_short", "body_plug_turned"),
    8: ("looks_good", "faded_current", "electrolytic_life"),
    9: ("more_leds_power", "dead_led_bridged", "pair_difference"),
    10: ("dropper_for_leds", "brightest_corner", "film_on_the_mains"),
    11: ("film_code", "four_bands", "doubtful_band"),
    12: ("averaging_ammeter", "dropper_from_readings", "which_part_changed"),
    13: ("share_lost", "whose_readings", "safest_split"),
    14: ("stepped_heat", "lamp_on_dimmer", "edge_heat"),
}


def _place(task):
    """Where a task stands among all: its lesson's core first, in the order named there."""
    core = CORE[task.lesson]
    return task.lesson, core.index(task.key) if task.key in core else len(core)


_ALL = tuple(sorted((task for module in _MODULES for task in module.TASKS), key=_place))
QUESTIONS = {task.key: task for task in _ALL}
LESSONS = tuple(sorted({task.lesson for task in _ALL}))


def of_lesson(lesson: int) -> tuple[Question | Choice, ...]:
    """The tasks of one lesson in their order; empty for a lesson without tasks.

    Examples
    --------
    >>> [task.key for task in of_lesson(5)][:2]
    ['heat_in_lamp', 'bill']
    """
    return tuple(task for task in _ALL if task.lesson == lesson)


def question(key: str) -> Question | Choice:
    """One task by its key.

    Raises
    ------
    KeyError
        Naming the keys there are.

    Examples
    --------
    >>> question("string_current")
    <question string_current of lesson 2: Current of the string>
    >>> question("string_current").ask(seed=7)
    <task string_current with voltage: 220 V, frequency: 60 Hz, dropper: 470 nF, clamped_voltage: 115 V>
    """
    if key not in QUESTIONS:
        raise KeyError(f"there is no task {excerpt(key)}; choose from {', '.join(QUESTIONS)}")
    return QUESTIONS[key]


def number(key: str) -> str:
    """A task's number in its lesson, such as "2.3"."""
    task = question(key)
    return f"{task.lesson}.{of_lesson(task.lesson).index(task) + 1}"
