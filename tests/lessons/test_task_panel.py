"""The task's panel without a browser: tries, hints, showing, other values, and nothing of a learner's left unescaped."""

import re
import subprocess
import sys

import pytest
from dropper import lessons
from dropper.lessons import Scorecard, Task
from dropper.lessons.tasks.entries import Entry
from dropper.lessons.tasks.progress import FILE, Progress


@pytest.fixture
def path(tmp_path):
    return tmp_path / FILE


def answered(task):
    """The task's own answer, as typed."""
    return f"{task.instance.answer:.6g}"


def test_a_wrong_try_a_slip_and_a_right_one(path):
    task = Task("string_current", path)
    assert task.instance.prompt.split(",")[0] in task.prompt.value and "Task 2.1" in task.prompt.value
    task.field.value = f"{task.instance.known.short_circuit_current:.6g}"
    task.judge()
    assert "✗" in task.feedback.value and "mains over reactance" in task.feedback.value
    assert 'role="status"' in task.feedback.value and not task.field.disabled
    task.field.value = answered(task)
    task.judge()
    assert "✓ Right" in task.feedback.value
    assert "Worked out with your values" in task.solution.value and r"\begin{aligned}" in task.solution.value
    task.judge()
    assert "done" in task.feedback.value and "Worked out" in task.solution.value
    entry = Progress(path).entry("string_current")
    assert (entry.tries, entry.hints, entry.solved, entry.shown) == (2, 0, True, False)


def test_enter_judges(path):
    task = Task("reactance", path)
    task.field.value = answered(task)
    task.field._handle_custom_msg({"event": "submit"}, [])
    assert "✓ Right" in task.feedback.value


@pytest.mark.parametrize(
    "reply", ["", "  ", "abc", "<script>alert(1)</script>", "12 V", "1e999", "9" * 500, "\x00", "1,500"]
)
def test_what_cannot_be_read_is_no_try_and_is_escaped(path, reply):
    task = Task("reactance", path)
    task.field.value = reply
    task.judge()
    assert "<script" not in task.feedback.value.replace("&lt;script", "")
    assert Progress(path).entry("reactance").tries == 0
    assert task.show_button.disabled, "nothing to be shown before a try or a hint"


def test_hints_come_one_by_one_and_are_counted(path):
    task = Task("operating_point", path)
    count = task.instance.hint_count
    for shown in range(1, count + 1):
        assert f"({count - shown + 1} left)" in task.step_button.description
        task.step_on()
        assert task.hints.value.count("<li>") == shown
    assert task.step_button.disabled and task.step_button.description == "No more steps"
    task.step_on()
    assert Progress(path).entry("operating_point").hints == count
    assert "$$" in task.hints.value and r"\frac" in task.hints.value


def test_the_answer_is_shown_only_after_a_try_or_a_hint_and_is_marked(path):
    task = Task("charge", path)
    task.show_answer()
    assert task.solution.value == "" and not Progress(path).entry("charge").shown
    task.step_on()
    assert not task.show_button.disabled
    task.show_answer()
    assert "Worked out" in task.solution.value and "Shown" in task.status.value
    task.field.value = answered(task)
    task.judge()
    entry = Progress(path).entry("charge")
    assert entry.shown and not entry.solved, "what was shown is not solved"


def test_other_values_after_showing_and_only_then(path):
    task = Task("charge", path)
    before = task.instance.values
    task.again()
    assert task.instance.values == before and task.again_button.layout.display == "none"
    task.step_on()
    task.show_answer()
    assert task.again_button.layout.display == ""
    task.again()
    assert task.instance.values != before
    assert task.solution.value == "" and task.hints.value == "" and not task.field.disabled
    task.field.value = answered(task)
    task.judge()
    assert Progress(path).entry("charge").solved


def test_a_task_is_found_as_it_was_left(path):
    task = Task("greatest_power", path)
    task.step_on()
    task.field.value = answered(task)
    task.judge()
    again = Task("greatest_power", path)
    assert again.instance.values == task.instance.values
    assert "✓ Solved" in again.feedback.value and "Worked out" in again.solution.value
    assert "Solved: 1 try, 1 step shown" in again.status.value


def test_a_choice_is_made_and_judged(path):
    task = Task("larger_resistor", path)
    task.judge()
    assert "Choose one" in task.feedback.value and Progress(path).entry("larger_resistor").tries == 0
    wrong = next(option for option in task.instance.options if option != task.instance.answer)
    task.field.value = wrong
    task.judge()
    assert "✗ Not so." in task.feedback.value
    task.field.value = task.instance.answer
    task.judge()
    assert "✓ Right" in task.feedback.value and "kΩ" in task.solution.value


@pytest.mark.slow
@pytest.mark.parametrize("key", lessons.QUESTIONS)
def test_every_task_can_be_hinted_shown_and_solved_on_its_panel(path, key):
    task = Task(key, path)
    while not task.step_button.disabled:
        task.step_on()
    task.show_answer()
    for part in (task.prompt, task.hints, task.solution, task.feedback):
        assert part.value and "{" not in re.sub(r"\$\$.*?\$\$|\$.*?\$", "", part.value, flags=re.S)
    assert "@formula" not in task.solution.value + task.hints.value
    assert task.solution.value.count("$") % 2 == 0
    task.again()
    if hasattr(task.field, "options"):
        task.field.value = task.instance.answer
    else:
        task.field.value = answered(task)
    task.judge()
    assert "✓ Right" in task.feedback.value


def test_a_broken_progress_file_is_told_on_the_panel(path):
    path.write_text("spoilt")
    task = Task("reactance", path)
    assert "could not be understood" in task.status.value


def test_a_task_works_where_nothing_can_be_written(tmp_path):
    task = Task("reactance", tmp_path / "gone" / FILE)
    task.field.value = answered(task)
    task.judge()
    assert "✓ Right" in task.feedback.value and "until this notebook is closed" in task.status.value


def test_the_scorecard_follows_the_tasks(path):
    card = Scorecard(2, path)
    total = len(lessons.of_lesson(2))
    assert f"Lesson 2: 0 of {total} solved." in card.report.value
    task = Task("string_current", path)
    task.step_on()
    task.field.value = answered(task)
    task.judge()
    assert f"1 of {total} solved, 1 with steps shown." in card.report.value
    assert "✓ solved, 1 step shown" in card.report.value and card.report.value.count("○ not begun") == total - 1
    Progress(path).save("charge", Entry(1, hints=1, shown=True))
    card.update()
    assert "– shown" in card.report.value


def test_a_lesson_without_tasks_and_a_key_without_a_task_are_named(path):
    with pytest.raises(ValueError, match="lesson 77 has no tasks; those with tasks are 1, 2, 3, 4, 5"):
        Scorecard(77, path)
    with pytest.raises(KeyError, match="no task 'nothing'"):
        Task("nothing", path)


def test_everything_to_be_pressed_says_what_it_does(path):
    task = Task("reactance", path)
    for button in task.buttons.children:
        assert button.description and button.tooltip
    assert task.field.description and task.field.placeholder


def test_showing_a_task_does_not_load_sympy(path):
    code = (
        "import sys; from dropper.lessons import Task, Scorecard\n"
        f"Task('string_current', {str(path)!r}); Task('more_leds', {str(path)!r}); Scorecard(2, {str(path)!r})\n"
        "print('sympy' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "False"


def test_a_page_that_has_fallen_behind_takes_nothing_back(path):
    first, second = Task("charge", path), Task("charge", path)
    first.field.value = answered(first)
    first.judge()
    second.step_on()
    kept = Task("charge", path).entry
    assert kept.solved and kept.tries == 1 and kept.hints == 1
    assert "Solved" in second.status.value


def test_three_of_the_core_come_first_and_the_rest_behind_a_button(path):
    for lesson in lessons.LESSONS:
        panel, whole = lessons.Tasks(lesson, path), lessons.of_lesson(lesson)
        assert [key for _, key in panel.choice.options] == [task.key for task in whole[:3]], lesson
        assert panel.more_button.description == f"More questions ({len(whole) - 3})"
        panel.more_button.click()
        assert [key for _, key in panel.choice.options] == [task.key for task in whole]
        assert panel.more_button.layout.display == "none" and panel.choice.value == whole[3].key
        assert panel.task.question.key == whole[3].key


def test_the_core_of_each_lesson_is_three_of_its_tasks_and_knows_a_belief():
    from dropper.lessons.beliefs import beliefs_of
    from dropper.lessons.catalogue import CORE

    assert set(CORE) == set(lessons.LESSONS)
    for lesson, core in CORE.items():
        assert len(set(core)) == 3 and all(lessons.question(key).lesson == lesson for key in core)
    for lesson in range(1, 11):
        assert any(beliefs_of(key) for key in CORE[lesson]), f"lesson {lesson} has core tasks that know no belief"


def test_what_was_begun_beyond_the_core_is_found_again(path):
    key = lessons.of_lesson(2)[5].key
    Progress(path).save(key, Entry(1, tries=1))
    panel = lessons.Tasks(2, path)
    assert len(panel.choice.options) == len(lessons.of_lesson(2))


def test_the_task_that_is_shown_stays_until_the_next_one_is_chosen(path):
    panel = lessons.Tasks(2, path)
    assert panel.previous_button.disabled and not panel.next_button.disabled
    panel.next_button.click()
    panel.next_button.click()
    assert panel.next_button.disabled and panel.task.question.key == lessons.of_lesson(2)[2].key


def test_how_near_an_answer_has_to_be_is_told_where_it_is_near(path):
    task = Task("string_current", path)
    task.field.value = f"{1.04 * task.instance.answer:.6g}"
    task.judge()
    assert "Close, but not within 2 %." in task.feedback.value
    task.field.value = f"{1.015 * task.instance.answer:.6g}"
    task.judge()
    assert "✓ Right" in task.feedback.value and "Yours is within 2 %" in task.feedback.value
    degrees = Task("conduction_angle", path)
    degrees.field.value = f"{degrees.instance.answer + 3.5:.6g}"
    degrees.judge()
    assert "not within 2°" in degrees.feedback.value


def test_answers_have_three_digits_zeros_too():
    current = lessons.question("string_current").ask(1)
    assert re.search(
        r"Right: \d\.\d\d |Right: \d\d\.\d |Right: \d{3} ", current.judge(f"{current.answer:.9g}").sentence
    )
    for seed in range(40):
        watts = lessons.question("resistor_heat").ask(seed)
        number = re.search(r"Answer: \*\*([\d.]+) ", watts.solution())[1]
        assert len(number.replace(".", "").lstrip("0")) == 3, number
    count = lessons.question("bleeders_in_series").ask(1)
    assert f"Right: {count.answer:.0f}." in count.judge(f"{count.answer:.0f}").sentence
