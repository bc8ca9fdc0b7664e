"""The progress file survives what files suffer, and two notebooks that write one after the other."""

import json
import os
import stat
import subprocess
import sys
import threading

import pytest
from dropper import lessons
from dropper.lessons.tasks import progress
from dropper.lessons.tasks.progress import FILE, Entry, Progress, progress_at
from dropper.lessons.tasks.summary import after_try, summary

KEY = "string_current"
WRONG = {
    "empty": b"",
    "half written": b'{"version": 1, "seed": 3, "tasks": {"rea',
    "no text": b"\xff\xfe\x00\x01",
    "a list": b"[1, 2, 3]",
    "a number": b"7",
    "no tasks": b'{"version": 1, "seed": 3}',
    "tasks in a list": b'{"version": 1, "seed": 3, "tasks": []}',
    "another version": b'{"version": 2, "seed": 3, "tasks": {}}',
    "seed in words": b'{"version": 1, "seed": "three", "tasks": {}}',
    "seed below zero": b'{"version": 1, "seed": -3, "tasks": {}}',
    "no number": b'{"version": 1, "seed": NaN, "tasks": {}}',
    "an entry in words": b'{"version": 1, "seed": 3, "tasks": {"reactance": "solved"}}',
    "tries in words": b'{"version": 1, "seed": 3, "tasks": {"reactance": {"seed": 3, "tries": "two", "hints": 0, "solved": true, "shown": false}}}',
    "solved in numbers": b'{"version": 1, "seed": 3, "tasks": {"reactance": {"seed": 3, "tries": 1, "hints": 0, "solved": 1, "shown": false}}}',
    "nested without end": b"[" * 100_000,
    "far too long": b'{"version": 1, "seed": 3, "tasks": {}}' + b" " * 1_100_000,
}


@pytest.fixture
def path(tmp_path):
    return tmp_path / FILE


def test_an_entry_is_found_again_by_the_next_notebook(path):
    first = Progress(path)
    entry = first.entry(KEY)
    first.save(KEY, after_try(entry, True))
    again = Progress(path).entry(KEY)
    assert again == Entry(entry.seed, tries=1, solved=True)
    assert Progress(path).entry("reactance").seed == entry.seed, "one learner, one seed"
    assert first.trouble == ""


def test_the_file_says_what_it_is_and_nothing_of_the_learner(path):
    file = Progress(path)
    file.save(KEY, after_try(file.entry(KEY), False))
    data = json.loads(path.read_text())
    assert set(data) == {"about", "version", "seed", "tasks"}
    assert set(data["tasks"][KEY]) == {"seed", "tries", "hints", "solved", "shown"}
    assert "Delete this file" in data["about"]
    assert os.listdir(path.parent) == [FILE], "neither lock nor part is left behind"


def test_two_notebooks_do_not_lose_each_others_entries(path):
    one, other = Progress(path), Progress(path)
    one.save("reactance", after_try(one.entry("reactance"), True))
    other.save(KEY, after_try(other.entry(KEY), True))
    one.save("charge", after_try(one.entry("charge"), False))
    entries = Progress(path).entries()
    assert {key: entry.solved for key, entry in entries.items()} == {"reactance": True, KEY: True, "charge": False}


def test_many_writers_at_once_lose_nothing(path):
    def work(number):
        file = Progress(path)
        for task in range(5):
            key = f"task {number} {task}"
            file.save(key, after_try(file.entry(key), True))

    threads = [threading.Thread(target=work, args=(number,)) for number in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    entries = Progress(path).entries()
    assert len(entries) == 30 and all(entry.solved for entry in entries.values())
    assert len({entry.seed for entry in entries.values()}) == 1, "all began with the same learner's seed"


def test_writers_in_other_processes_lose_nothing(path):
    code = (
        "import sys; from dropper.lessons.tasks.progress import Progress; from dropper.lessons.tasks.summary import after_try\n"
        "file = Progress(sys.argv[1])\n"
        "for task in range(8): key = f'{sys.argv[2]} {task}'; file.save(key, after_try(file.entry(key), True))"
    )
    running = [subprocess.Popen([sys.executable, "-c", code, str(path), name]) for name in "abc"]
    assert [process.wait() for process in running] == [0, 0, 0]
    assert len(Progress(path).entries()) == 24


@pytest.mark.parametrize("what", WRONG)
def test_a_file_that_cannot_be_understood_is_set_aside_and_said(path, what):
    path.write_bytes(WRONG[what])
    file = Progress(path)
    entry = file.entry("reactance")
    assert entry.tries == 0 and not entry.solved
    assert "could not be understood" in file.trouble and "my_progress_unreadable.json" in file.trouble
    assert (path.parent / "my_progress_unreadable.json").read_bytes() == WRONG[what], "nothing is thrown away"
    file.save("reactance", after_try(entry, True))
    assert Progress(path).entry("reactance").solved


def test_entries_of_tasks_that_are_not_known_here_are_kept(path):
    data = {"version": 1, "seed": 5, "tasks": {"of_a_later_lesson": vars(Entry(9, tries=4))}}
    path.write_text(json.dumps(data))
    file = Progress(path)
    file.save(KEY, after_try(file.entry(KEY), True))
    assert Progress(path).entries()["of_a_later_lesson"] == Entry(9, tries=4)


def assert_kept_in_memory(file):
    entry = file.entry(KEY)
    file.save(KEY, after_try(entry, True))
    assert file.entry(KEY) == Entry(entry.seed, tries=1, solved=True)
    assert file.entry("reactance").seed == entry.seed
    assert file.entries()[KEY].solved
    assert "remembered only until this notebook is closed" in file.trouble


def test_a_directory_in_place_of_the_file(path):
    path.mkdir()
    (path / "mine.txt").write_text("mine")
    assert_kept_in_memory(Progress(path))
    assert (path / "mine.txt").read_text() == "mine"
    assert os.listdir(path.parent) == [FILE]


def test_a_folder_that_is_not_there(tmp_path):
    assert_kept_in_memory(Progress(tmp_path / "gone" / FILE))


def test_a_file_in_place_of_the_folder(tmp_path):
    (tmp_path / "file").write_text("")
    assert_kept_in_memory(Progress(tmp_path / "file" / FILE))


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written_to(path):
    path.parent.chmod(stat.S_IREAD | stat.S_IEXEC)
    try:
        assert_kept_in_memory(Progress(path))
    finally:
        path.parent.chmod(stat.S_IRWXU)


def test_a_disk_that_refuses_and_later_takes_it(path, monkeypatch):
    file = Progress(path)
    entry = file.entry("reactance")

    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    with monkeypatch.context() as broken:
        broken.setattr(progress.os, "replace", refuse)
        file.save(KEY, after_try(file.entry(KEY), True))
        assert file.entry(KEY).solved and "Permission denied" in file.trouble
        assert os.listdir(path.parent) == [FILE], "no part is left behind"
    file.save("charge", after_try(file.entry("charge"), False))
    assert file.trouble == ""
    entries = Progress(path).entries()
    assert entries[KEY].solved and entries["reactance"] == entry and entries["charge"].tries == 1


def test_a_write_that_breaks_off_leaves_the_old_file_whole(path, monkeypatch):
    file = Progress(path)
    file.save(KEY, after_try(file.entry(KEY), True))
    before = path.read_text()

    def break_off(*_, **__):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as full:
        full.setattr(progress.tempfile, "NamedTemporaryFile", break_off)
        file.save("reactance", Entry(1, tries=3))
    assert path.read_text() == before
    assert "No space left" in file.trouble


def test_deleting_the_file_starts_everything_again(path):
    file = Progress(path)
    file.save(KEY, after_try(file.entry(KEY), True))
    path.unlink()
    assert file.entries() == {}
    entry = file.entry(KEY)
    assert not entry.solved and entry.tries == 0


def test_a_lock_left_by_a_dead_writer_is_taken_away(path, monkeypatch):
    lock = path.with_name("my_progress.lock")
    lock.write_text("")
    os.utime(lock, (1, 1))
    file = Progress(path)
    file.save(KEY, after_try(file.entry(KEY), True))
    assert Progress(path).entry(KEY).solved and not lock.exists()


def test_starting_afresh_draws_other_values(path):
    file = Progress(path)
    first = file.entry(KEY)
    file.save(KEY, Entry(first.seed, tries=2, shown=True))
    again = file.restart(KEY)
    assert again.seed != first.seed and (again.tries, again.hints, again.shown) == (0, 0, False)
    task = lessons.question(KEY)
    assert task.ask(again.seed).values != task.ask(first.seed).values


def test_panels_of_one_notebook_share_one_object(path):
    assert progress_at(path) is progress_at(str(path))


def test_standing_counts_what_was_solved_and_how(path):
    file = Progress(path)
    tasks = lessons.of_lesson(1)[:6]
    assert str(summary(tasks, file)) == "0 of 6 solved."
    for task in tasks[:4]:
        file.save(task.key, Entry(1, tries=1, hints=2 if task in tasks[:2] else 0, solved=True))
    file.save(tasks[4].key, Entry(1, tries=1, shown=True))
    file.save("string_current", Entry(1, solved=True))
    assert str(summary(tasks, file)) == "4 of 6 solved, 2 with hints; 1 shown before being solved."


def test_git_does_not_see_it():
    seen = subprocess.run(
        ["git", "check-ignore", f"notebooks/{FILE}", "notebooks/my_progress_unreadable.json"],
        capture_output=True,
        text=True,
    )
    if seen.returncode == 128:
        pytest.skip("no git here")
    assert len(seen.stdout.split()) == 2
