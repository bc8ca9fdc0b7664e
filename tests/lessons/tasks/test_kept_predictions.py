"""Predictions and questions from before are kept as safely as solved tasks, and two notebooks that write agree."""

import json
import os
import subprocess
import sys
import threading

import draws
import pytest
from dropper.lessons.tasks import lock, progress_file
from dropper.lessons.tasks.entries import Entry, PredictionEntry, RecallEntry
from dropper.lessons.tasks.progress import FILE, Progress

ASIDE = "my_progress_unreadable.json"
GOOD = {"answer": "resistor", "sure": "sure", "right": False}
OLDER = {"version": 1, "seed": 5, "tasks": {"reactance": vars(Entry(9, tries=4, solved=True))}}


@pytest.fixture
def path(tmp_path):
    return tmp_path / FILE


def write(path, **more):
    data = json.dumps(OLDER | more).encode()
    path.write_bytes(data)
    return data


def test_a_prediction_and_its_judgement_are_found_again_by_the_next_notebook(path):
    file = Progress(path)
    file.note_prediction("Bench", "resistor", "sure")
    assert Progress(path).predictions() == {"Bench": PredictionEntry("resistor", "sure", None)}
    file.note_prediction("Bench", "resistor", "sure", False)
    entry = Progress(path).predictions()["Bench"]
    assert (entry.answer, entry.sure, entry.right) == ("resistor", "sure", False)
    assert Progress(path).entries() == {}, "a prediction is no task"
    assert os.listdir(path.parent) == [FILE] and file.trouble == ""


def test_a_file_of_an_earlier_workbook_is_read_and_keeps_its_tasks(path):
    write(path)
    file = Progress(path)
    assert file.predictions() == {} and file.recalls() == {} and file.trouble == ""
    file.note_prediction("Bench", "dropper", "guess", True)
    again = Progress(path)
    assert again.entries() == {"reactance": Entry(9, tries=4, solved=True)} and again.seed == 5
    assert again.predictions() == {"Bench": PredictionEntry("dropper", "guess", True)}
    assert os.listdir(path.parent) == [FILE], "nothing was set aside"


@pytest.mark.parametrize(
    "wrong",
    [
        None,
        "resistor",
        {"answer": "resistor"},
        GOOD | {"answer": 3},
        GOOD | {"answer": "x" * 81},
        GOOD | {"sure": "very"},
        GOOD | {"sure": ["sure"]},
        GOOD | {"right": 1},
    ],
)
def test_one_damaged_prediction_does_not_cost_the_others(path, wrong):
    data = write(path, predictions={"Bench": GOOD, "Powers": wrong})
    file = Progress(path)
    assert file.predictions() == {"Bench": PredictionEntry(**GOOD)} and set(file.entries()) == {"reactance"}
    assert file.trouble == (
        "1 of the entries of my_progress.json could not be understood (Powers); the other 2 entries are read. "
        f"The file as it was is kept as {ASIDE}."
    )
    assert (path.parent / ASIDE).read_bytes() == data
    again = Progress(path)
    assert set(again.predictions()) == {"Bench"} and again.trouble == "", "it is said once, and set aside once"


@pytest.mark.parametrize("kind", ["predictions", "recalls"])
def test_predictions_that_are_no_list_of_any_cost_no_task(path, kind):
    data = write(path, **{kind: [GOOD]})
    file = Progress(path)
    assert set(file.entries()) == {"reactance"} and f"({kind})" in file.trouble
    assert (path.parent / ASIDE).read_bytes() == data


def test_a_damaged_count_of_recalls_is_kept_aside_alone(path):
    write(path, recalls={"reactance": {"asked": 2, "missed": True}, "charge": {"asked": -1, "missed": False}})
    file = Progress(path)
    assert file.recalls() == {"reactance": RecallEntry(2, missed=True)} and "(charge)" in file.trouble


def test_an_unknown_version_is_not_written_over_by_a_prediction(path):
    data = json.dumps(OLDER | {"version": 2, "predictions": {"Bench": GOOD}}).encode()
    path.write_bytes(data)
    Progress(path).note_prediction("Powers", "lags", "fairly", False)
    assert (path.parent / ASIDE).read_bytes() == data


def test_a_link_stays_a_link_when_a_prediction_is_noted(path, tmp_path):
    target = tmp_path / "elsewhere.json"
    target.write_text(json.dumps(OLDER))
    try:
        path.symlink_to(target)
    except OSError:
        pytest.skip("no links on this system")
    Progress(path).note_prediction("Bench", "dropper", "sure", True)
    assert path.is_symlink() and set(Progress(target).predictions()) == {"Bench"}


@pytest.mark.parametrize("sure", ["very", "Sure", None, 3])
def test_another_word_for_how_sure_is_refused_and_nothing_is_written(path, sure):
    with pytest.raises(ValueError, match="guess, fairly, sure"):
        Progress(path).note_prediction("Bench", "resistor", sure)
    assert not path.exists()


# several writers


def test_of_two_notebooks_the_prediction_noted_last_counts(path):
    one, other = Progress(path), Progress(path)
    one.note_prediction("Bench", "resistor", "sure", False)
    other.note_prediction("Bench", "dropper", "fairly", True)
    assert one.predictions()["Bench"] == PredictionEntry("dropper", "fairly", True)
    one.note_prediction("Bench", "resistor", "sure", False)
    assert other.predictions()["Bench"] == PredictionEntry("resistor", "sure", False)


def test_the_same_answer_noted_anew_does_not_undo_its_judgement(path):
    one, other = Progress(path), Progress(path)
    one.note_prediction("Bench", "resistor", "sure", False)
    other.note_prediction("Bench", "resistor", "guess")
    assert one.predictions()["Bench"] == PredictionEntry("resistor", "guess", False)
    other.note_prediction("Bench", "dropper", "guess")
    assert one.predictions()["Bench"] == PredictionEntry("dropper", "guess", None), (
        "another answer has no judgement yet"
    )


def test_questions_from_before_are_counted_together_and_the_last_answer_counts(path):
    one, other = Progress(path), Progress(path)
    one.note_recall("reactance", False)
    other.note_recall("reactance", True)
    assert one.recalls() == {"reactance": RecallEntry(2, missed=False)}
    one.note_recall("reactance", False)
    assert other.recalls() == {"reactance": RecallEntry(3, missed=True)}


def test_threads_that_note_different_things_at_once_lose_nothing(path):
    def work(number):
        file = Progress(path)
        for turn in range(5):
            file.note_prediction(f"panel {number} {turn}", "resistor", "sure", turn % 2 == 0)
            file.note_recall("reactance", True)
            file.save(f"task {number} {turn}", Entry(1, tries=1))

    threads = [threading.Thread(target=work, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    file = Progress(path)
    assert len(file.predictions()) == 20 and len(file.entries()) == 20
    assert file.recalls()["reactance"].asked == 20


def test_processes_that_write_without_a_pause_lose_no_prediction(path):
    code = (
        "import sys; from dropper.lessons.tasks.progress import Progress\n"
        "file = Progress(sys.argv[1]); sys.stdin.read()\n"
        "for turn in range(int(sys.argv[3])): file.note_prediction(f'{sys.argv[2]} {turn}', 'a', 'sure', True)\n"
        "print(file.trouble)"
    )
    each = draws.examples(15)
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "text": True}
    writers = [subprocess.Popen([sys.executable, "-c", code, path, name, str(each)], **pipes) for name in "abc"]
    for writer in writers:
        writer.stdin.close()
    assert [writer.stdout.read().strip() for writer in writers] == [""] * 3
    assert [writer.wait() for writer in writers] == [0] * 3
    assert len(Progress(path).predictions()) == 3 * each and os.listdir(path.parent) == [FILE]


def test_what_cannot_be_written_is_kept_and_written_later(path, monkeypatch):
    file = Progress(path)
    file.note_prediction("Bench", "resistor", "sure")

    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    with monkeypatch.context() as broken:
        broken.setattr(progress_file.os, "replace", refuse)
        file.note_prediction("Bench", "resistor", "sure", False)
        file.note_recall("reactance", False)
        assert file.predictions()["Bench"].right is False and "Permission denied" in file.trouble
        assert Progress(path).predictions()["Bench"].right is None
    file.save("charge", Entry(1))
    again = Progress(path)
    assert again.predictions()["Bench"].right is False and again.recalls()["reactance"].missed
    assert file.trouble == ""


def test_a_locked_file_keeps_a_prediction_in_memory_and_says_so(path, monkeypatch):
    def refuse(*_, **__):
        raise lock.Timeout("held")

    monkeypatch.setattr(lock.FileLock, "acquire", refuse)
    file = Progress(path)
    file.note_prediction("Bench", "resistor", "sure")
    assert file.predictions()["Bench"].answer == "resistor" and "another program" in file.trouble


def test_what_watches_the_progress_hears_of_a_prediction(path):
    file, heard = Progress(path), []
    file.watch(lambda: heard.append(file.predictions()))
    file.note_prediction("Bench", "resistor", "sure")
    assert [list(entries) for entries in heard] == [["Bench"]]
