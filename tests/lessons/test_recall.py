"""Questions from before: which ones come, how often, with which numbers; and their panel, without a browser."""

import os
import re
import subprocess
import sys
from collections import Counter

import pytest
from dropper import lessons
from dropper.lessons import Recall
from dropper.lessons.beliefs import BELIEFS, beliefs_of
from dropper.lessons.recall import FIRST, LAST, questions_before
from dropper.lessons.tasks.entries import Entry
from dropper.lessons.tasks.progress import FILE, Progress
from dropper.lessons.tasks.question import Choice

LEARNERS = range(6)


@pytest.fixture
def path(tmp_path):
    return tmp_path / FILE


def begin_with(path, seed):
    """A progress file of a learner of this seed."""
    path.write_text(f'{{"version": 1, "seed": {seed}, "tasks": {{}}}}')
    return Progress(path)


def lesson_of(question):
    return lessons.question(question.key).lesson


def test_two_of_the_last_lesson_one_of_three_back_one_of_six_back(path):
    for lesson in range(FIRST, LAST + 1):
        questions = questions_before(lesson, Progress(path))
        asked = [lesson_of(question) for question in questions]
        due = [back for back in (lesson - 1, lesson - 1, lesson - 3, lesson - 6) if back > 0]
        assert asked[: len(due)] == due, f"before lesson {lesson}"
        assert len(questions) <= 5 and len({question.key for question in questions}) == len(questions)
        assert all(number < lesson for number in asked), f"before lesson {lesson} nothing of it is asked"


def test_where_there_is_little_before_fewer_are_asked(path):
    questions = questions_before(2, Progress(path))
    assert 2 <= len(questions) < 5 and {lesson_of(question) for question in questions} == {1}


@pytest.mark.parametrize("lesson", [0, 1, 15, -2, "2", None, 2.0])
def test_a_lesson_that_has_none_is_refused_by_its_number(path, lesson):
    with pytest.raises(ValueError, match=r"has no questions from before; lessons 2 to 14 have"):
        questions_before(lesson, Progress(path))


def test_nothing_that_is_asked_answers_todays_own_question(path):
    for lesson in range(FIRST, LAST + 1):
        today = {belief.number for belief in BELIEFS if lesson in belief.lessons}
        for seed in LEARNERS:
            for question in questions_before(lesson, begin_with(path, seed)):
                assert not today & set(beliefs_of(question.key)), f"{question.key} before lesson {lesson}"


def course(path, seed, right=lambda key: True):
    """Each question of a learner who answers all of them, lesson by lesson."""
    progress, asked = begin_with(path, seed), []
    for lesson in range(FIRST, LAST + 1):
        for question in questions_before(lesson, progress):
            progress.note_recall(question.key, right(question.key))
            asked.append((lesson, question))
    return asked


@pytest.mark.parametrize("seed", LEARNERS)
def test_each_belief_comes_two_or_three_times_in_the_course(path, seed):
    times = Counter(number for _, question in course(path, seed) for number in beliefs_of(question.key))
    earlier = [belief for belief in BELIEFS if min(belief.lessons) < LAST]  # after the last lesson none follows
    off = {belief.number: times[belief.number] for belief in earlier if not 2 <= times[belief.number] <= 3}
    assert not off, f"how often these beliefs come: {off}"


def test_no_number_is_asked_twice_in_the_course(path):
    for seed in LEARNERS:
        asked = [(question.key, question.seed) for _, question in course(path, seed)]
        assert len(set(asked)) == len(asked)


def test_after_all_was_answered_the_same_lesson_asks_with_other_numbers(path):
    progress = Progress(path)
    first = questions_before(5, progress)
    assert questions_before(5, progress) == first, "nothing was answered, nothing changes"
    for question in first:
        progress.note_recall(question.key, True)
    again = questions_before(5, progress)
    assert {(question.key, question.seed) for question in again}.isdisjoint((one.key, one.seed) for one in first)


def test_numbers_are_other_ones_than_on_the_tasks_panel_and_than_another_learners(path):
    progress = begin_with(path, 11)
    question = questions_before(3, progress)[0]
    assert question.instance().values != lessons.question(question.key).ask(11).values
    others = {seed: questions_before(3, begin_with(path, seed))[0].seed for seed in LEARNERS}
    assert len(set(others.values())) == len(others)


@pytest.mark.parametrize(
    ("entry", "comes"),
    [
        (Entry(1, tries=2), True),
        (Entry(1, hints=1, shown=True), True),
        (Entry(1, tries=1, solved=True), False),
        (Entry(1, hints=1), False),
    ],
)
def test_a_task_that_was_tried_and_not_solved_or_shown_comes_back(path, entry, comes):
    progress = begin_with(path, 1)
    progress.save("impedance" if "impedance" in lessons.QUESTIONS else "series_current", entry)
    questions = questions_before(6, progress)
    missed = [question.key for question in questions if question.why == "missed before"]
    assert missed == (["series_current"] if comes else [])


def test_a_prediction_that_was_sure_and_wrong_brings_a_task_of_its_belief(path):
    belief = next(belief for belief in BELIEFS if belief.predictions and max(belief.lessons) < 5)
    key, answer = belief.predictions[0]
    for sure, right, comes in (
        ("sure", False, True),
        ("guess", False, False),
        ("sure", True, False),
        ("sure", None, False),
    ):
        progress = begin_with(path, 1)
        progress.note_prediction(key, answer, sure, right)
        missed = [one.key for one in questions_before(6, progress) if one.why == "missed before"]
        assert bool(missed) == comes, (sure, right)
        assert not missed or belief.number in beliefs_of(missed[0])


def test_what_was_wrong_comes_back_until_it_is_right(path):
    progress = begin_with(path, 1)
    progress.note_recall("series_current", False)
    assert "series_current" in [question.key for question in questions_before(6, progress)]
    progress.note_recall("series_current", True)
    assert not [question for question in questions_before(6, progress) if question.why == "missed before"]


# the panel


def texts(panel):
    """All that a panel shows, in one string."""
    found, waiting = [], [panel]
    while waiting:
        widget = waiting.pop()
        found += [str(getattr(widget, "value", "") or ""), getattr(widget, "description", "")]
        waiting += getattr(widget, "children", ())
    return " ".join(found)


def answer(panel, right=True):
    instance = panel.instance
    if isinstance(instance.question, Choice):
        wrong = next(option for option in instance.options if option != instance.answer)
        panel.field.value = instance.answer if right else wrong
    else:
        panel.field.value = f"{instance.answer:.6g}" if right else f"{3.3 * instance.answer + 7.7:.6g}"
    panel.judge_button.click()


def test_it_is_one_line_until_it_is_begun(path):
    panel = Recall(4, path)
    shown = texts(panel)
    assert "Five questions from before (3 minutes)" in shown and "Begin" in shown and "Not today" in shown
    assert panel.instance is None and "Judge" not in shown
    assert len(panel.children) == 2, "the style sheet and one line"
    assert "Two questions from before (1 minute)" in texts(Recall(2, path)) or len(Recall(2, path).questions) != 2


def test_each_is_judged_once_and_explained_at_once(path):
    panel = Recall(4, path)
    panel.begin_button.click()
    key = panel.instance.question.key
    assert "1 of 5 from before" in panel.prompt.value and panel.next_button not in panel.children[-1].children
    answer(panel)
    assert "✓ Right" in panel.said.value and "Worked out with these numbers" in panel.solution.value
    assert panel.field.disabled and panel.next_button in panel.children[-1].children
    assert Progress(path).recalls()[key].asked == 1 and not Progress(path).recalls()[key].missed
    panel.judge()
    assert Progress(path).recalls()[key].asked == 1, "one try"
    assert Progress(path).entries() == {}, "the task on its own panel is as it was"


def test_a_wrong_answer_is_explained_and_comes_back(path):
    panel = Recall(4, path)
    panel.begin_button.click()
    key = panel.instance.question.key
    answer(panel, right=False)
    assert "✗" in panel.said.value and panel.solution.value and panel.field.disabled
    assert Progress(path).recalls()[key].missed


def test_what_cannot_be_read_is_no_answer(path):
    panel = Recall(4, path)
    panel.begin_button.click()
    if isinstance(panel.instance.question, Choice):
        panel.field.value = None
    else:
        panel.field.value = "<script>alert(1)</script>"
    panel.judge_button.click()
    assert panel.said.value and "<script" not in panel.said.value and not panel.field.disabled
    assert Progress(path).recalls() == {}


def test_one_after_the_other_to_a_line_that_sums_up(path):
    panel = Recall(4, path)
    panel.begin_button.click()
    for number in range(5):
        answer(panel, right=number != 2)
        panel.next_button.click()
    assert "Questions from before: 4 of 5 right." in texts(panel) and "comes back" in texts(panel)
    assert len(panel.children) == 2, "one line is left"
    assert len(Progress(path).recalls()) == 5


@pytest.mark.parametrize("after", [0, 1, 2, 3, 4])
def test_it_may_be_skipped_at_any_time_in_one_click(path, after):
    panel = Recall(4, path)
    panel.begin_button.click()
    for _ in range(after):
        answer(panel)
        panel.next_button.click()
    panel.skip_button.click()
    assert len(panel.children) == 2
    assert (f"{after} of {after} right" if after else "skipped") in texts(panel)
    assert len(Progress(path).recalls()) == after


def test_not_today_leaves_one_line_and_a_way_to_begin_after_all(path):
    panel = Recall(4, path)
    panel.later_button.click()
    assert "not today" in texts(panel) and "Not today" not in texts(panel) and len(panel.children) == 2
    panel.begin_button.click()
    assert panel.instance is not None
    assert Progress(path).recalls() == {}


def test_enter_judges(path):
    panel = Recall(5, path)
    panel.begin_button.click()
    while isinstance(panel.instance.question, Choice):
        answer(panel)
        panel.next_button.click()
    panel.field.value = f"{panel.instance.answer:.6g}"
    panel.field._handle_custom_msg({"event": "submit"}, [])
    assert "✓ Right" in panel.said.value


def test_where_nothing_can_be_written_it_still_asks_and_says_so(tmp_path):
    panel = Recall(4, tmp_path / "gone" / FILE)
    panel.begin_button.click()
    answer(panel)
    panel.skip_button.click()
    assert "until this notebook is closed" in texts(panel)


def test_each_button_says_what_it_does(path):
    panel = Recall(4, path)
    for button in (panel.begin_button, panel.later_button, panel.judge_button, panel.next_button, panel.skip_button):
        assert button.description and button.tooltip


def test_opening_it_writes_no_file_and_loads_no_sympy(path):
    code = f"import sys; from dropper.lessons import Recall\nRecall(8, {str(path)!r})\nprint('sympy' in sys.modules)"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "False"
    assert not os.path.exists(path)


@pytest.mark.slow
def test_every_question_of_a_course_can_be_put_judged_and_explained(path):
    progress = begin_with(path, 3)
    for lesson in range(FIRST, LAST + 1):
        panel = Recall(lesson, progress)
        panel.begin_button.click()
        for number in range(len(panel.questions)):
            answer(panel, right=number % 2 == 0)
            shown = panel.prompt.value + panel.said.value + panel.solution.value
            assert ("✓" in panel.said.value) == (number % 2 == 0), shown
            assert "{" not in re.sub(r"\$\$.*?\$\$|\$.*?\$", "", shown, flags=re.S)
            panel.next_button.click()
        assert len(panel.children) == 2
