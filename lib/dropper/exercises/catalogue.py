"""Every task of the workbook by its key, in the order in which the lessons ask them."""

from . import (
    ageing,
    at_the_ends,
    bills,
    broken,
    choosing_strings,
    conduction,
    designing,
    finding,
    load_line,
    markings,
    measuring,
    plugging,
    powers,
    side_by_side,
    smoothing,
    stresses,
    strings,
    telling,
    tolerances,
    two_ways,
    unplugging,
    warmth,
)

_MODULES = (
    two_ways, load_line, strings, conduction, smoothing, powers, bills, plugging, unplugging, stresses, broken,
    warmth, ageing, choosing_strings, side_by_side, designing, at_the_ends, tolerances,
    markings, measuring, finding, telling,
)  # fmt: skip
_ALL = tuple(task for module in _MODULES for task in module.TASKS)
QUESTIONS = {task.key: task for task in _ALL}
LESSONS = tuple(sorted({task.lesson for task in _ALL}))


def of_lesson(lesson):
    """The tasks of one lesson in their order.

    Parameters
    ----------
    lesson : int

    Returns
    -------
    tuple of Question and Choice
        Empty for a lesson without tasks.
    """
    return tuple(task for task in _ALL if task.lesson == lesson)


def question(key):
    """One task by its key.

    Parameters
    ----------
    key : str

    Returns
    -------
    Question or Choice

    Raises
    ------
    KeyError
        Naming the keys there are.
    """
    if key not in QUESTIONS:
        raise KeyError(f"there is no task {key!r}; choose from {', '.join(QUESTIONS)}")
    return QUESTIONS[key]


def number(key):
    """A task's number in its lesson, such as "2.3".

    Parameters
    ----------
    key : str

    Returns
    -------
    str
    """
    task = question(key)
    return f"{task.lesson}.{of_lesson(task.lesson).index(task) + 1}"
