"""Each of the 27 misconceptions is predicted, seen not to hold and recognised in a task; each place is looked up."""

import ast
import functools
import json
import re
from pathlib import Path

import panels_to_try
import pytest
from dropper import lessons
from dropper.lessons.faults.questions import question_of
from dropper.lessons.kit.panel import Panel
from dropper.lessons.kit.record import key_of
from dropper.lessons.tasks.question import Choice
from dropper.lessons.tasks.random_values import value_text
from dropper.solver.transient import Fault
from misconceptions import TABLE, Row

SERVED = 27  # of 27
SEEDS = range(12)
NOTEBOOKS = Path("notebooks")


def in_sight(cells):
    """The code cells of a notebook that are neither in a folded section nor within a fold of the text."""
    folded, level, within = False, 0, 0
    for cell in cells:
        source = "".join(cell["source"])
        if cell["cell_type"] == "markdown":
            heading = re.match(r"(#+) ", source)
            if heading and (not folded or len(heading[1]) <= level):
                folded = cell["metadata"].get("jp-MarkdownHeadingCollapsed", False)
                level = len(heading[1])
            within += source.count("<details") - source.count("</details>")
        elif cell["cell_type"] == "code" and not folded and within <= 0:
            yield source


@functools.cache
def calls(lesson):
    """The calls in sight in a lesson's notebook: the names that are called, and the guesses' answers by their key."""
    (path,) = NOTEBOOKS.glob(f"{lesson:02}_*.ipynb")
    names, guesses = set(), {}
    for source in in_sight(json.loads(path.read_text(encoding="utf-8"))["cells"]):
        for call in ast.walk(ast.parse(source)):
            if not (isinstance(call, ast.Call) and isinstance(call.func, ast.Name)):
                continue
            names.add(call.func.id)
            key = next((word.value for word in call.keywords if word.arg == "key"), None)
            if call.func.id == "Guess" and isinstance(key, ast.Constant):
                guesses[key.value] = {answer.value for answer in call.args[1].keys}
    return names, guesses


@functools.cache
def panel(name):
    return panels_to_try.new_panel(name, ask=True)


@functools.cache
def panel_classes():
    """The panels that may ask, by what their question is called in the progress file."""
    classes = {}
    for name in lessons.__all__:
        thing = getattr(lessons, name)
        if isinstance(thing, type) and issubclass(thing, Panel):
            classes[thing.question_key or key_of(thing)] = name
    return classes


def lacks_prediction(numbers, key, answer):
    """What is wrong with a prediction's place, as a sentence; "" for nothing."""
    for number in numbers:
        guesses = calls(number)[1]
        if key in guesses:
            return "" if answer in guesses[key] else f"the guess {key} of lesson {number} has no answer {answer!r}"
    if key.startswith("faults_"):
        _, kind, part = key.split("_", 2)
        answers, name = question_of(Fault(kind, part)).answers, "Faults"
    elif key in panel_classes():
        name = panel_classes()[key]
        question = panel(name).question()
        answers = question[1] if question else {}
    else:
        return f"no panel and no guess in sight in lessons {numbers} asks {key}"
    if answer not in answers:
        return f"the question {key} has no answer {answer!r} among {', '.join(answers)}"
    if not any(name in calls(number)[0] for number in numbers):
        return f"the panel {name} is not in sight in lessons {numbers}"
    return ""


def lacks_observation(numbers, place, key):
    """What is wrong with an observation's place, as a sentence; "" for nothing."""
    if any(place in calls(number)[1] for number in numbers):
        return "" if key == "verdict" else f"a guess shows a verdict, no {key!r}"
    if not any(place in calls(number)[0] for number in numbers):
        return f"{place} is not in sight in lessons {numbers}"
    shown = panel(place)
    goals, readings = {goal.key for goal in shown.goals}, {reading.key for reading in shown.view.readings}
    if key not in {"verdict"} | goals | readings:
        return f"{place} has neither a goal nor a reading {key!r}"
    if key == "verdict" and not shown.verdict()[1]:
        return f"{place} has no verdict"
    return ""


def lacks_task(key, slip):
    """What is wrong with a task's place, as a sentence; "" for nothing."""
    if key not in lessons.QUESTIONS:
        return f"there is no task {key}"
    task, met = lessons.question(key), 0
    if isinstance(task, Choice):
        if slip not in task.options:
            return f"the task {key} has no option {slip!r}"
        verdicts = [task.ask(seed).judge(slip) for seed in SEEDS]
        met = sum(not verdict.right and verdict.slips == (slip,) for verdict in verdicts)
    else:
        if slip not in {one.name for one in task.slips}:
            return f"the task {key} has no slip {slip!r}"
        for seed in SEEDS:
            instance = task.ask(seed)
            values = [value for name, value, _ in instance.slips if name == slip]
            met += any(slip in instance.judge(value_text(value, task.unit, 6)).slips for value in values)
    return "" if met >= 3 else f"the task {key} recognises {slip!r} for {met} of {len(SEEDS)} learners only"


def faults_of(row: Row):
    """What a misconception lacks, in sentences."""
    found = [lacks_prediction(row.lessons, *place) for place in row.predictions]
    found += ["it is predicted nowhere"] if not row.predictions else []
    found += [lacks_observation(row.lessons, *row.observed) if row.observed else "it is observed nowhere"]
    found += [lacks_task(*place) for place in row.tasks]
    found += ["no task knows it"] if not row.tasks else []
    return [f"{row.number}, “{row.words}”: {sentence}." for sentence in found if sentence]


def test_the_table_has_each_of_the_27_once():
    assert [row.number for row in TABLE] == list(range(1, 28))
    assert len({row.words for row in TABLE}) == 27


@pytest.mark.slow
def test_each_misconception_has_its_prediction_observation_and_task():
    lacking = {row.number: faults_of(row) for row in TABLE}
    served = [number for number, sentences in lacking.items() if not sentences]
    said = "\n".join(sentence for sentences in lacking.values() for sentence in sentences)
    assert len(served) == SERVED, f"{len(served)} of 27 are served, not {SERVED}:\n{said}"


# the test itself: what it must notice


def test_what_is_folded_is_not_in_sight():
    def markdown(source, **metadata):
        return {"cell_type": "markdown", "source": source, "metadata": metadata}

    def code(source):
        return {"cell_type": "code", "source": source, "metadata": {}}

    folded = {"jp-MarkdownHeadingCollapsed": True}
    cells = [
        code("a"),
        markdown("## Derivation", **folded),
        code("b"),
        markdown("### step"),
        code("c"),
        markdown("## Questions"),
        code("d"),
        markdown("<details><summary>more</summary>"),
        code("e"),
        markdown("</details>"),
        code("f"),
    ]
    assert list(in_sight(cells)) == ["a", "d", "f"]


@pytest.mark.parametrize(
    ("look", "place", "sentence"),
    [
        (lacks_prediction, ((2,), "load_line", "nonsense"), "no answer 'nonsense'"),
        (lacks_prediction, ((3,), "load_line", "same"), "not in sight"),
        (lacks_prediction, ((2,), "nobody_asks", "same"), "no panel and no guess"),
        (lacks_observation, ((2,), "LoadLine", "nonsense"), "neither a goal nor a reading"),
        (lacks_observation, ((3,), "LoadLine", "raised"), "not in sight"),
        (lacks_task, ("nonsense", "x"), "no task nonsense"),
        (lacks_task, ("string_current", "nonsense"), "no slip"),
        (lacks_task, ("bill", "nonsense"), "no option"),
        (lacks_task, ("bill", "same"), "for 0 of 12"),
    ],
)
def test_a_place_that_is_not_there_is_said(look, place, sentence):
    assert sentence in look(*place)
