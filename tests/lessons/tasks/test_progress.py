"""The progress file survives what files suffer, and two notebooks that write one after the other."""

import json
import os
import stat
import subprocess
import sys
import threading
from pathlib import Path

import draws
import ipywidgets as widgets
import pytest
from dropper import lessons
from dropper.lessons.tasks import lock, progress_file
from dropper.lessons.tasks.entries import Entry
from dropper.lessons.tasks.progress import FILE, Progress, progress_at
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
    "version in words": b'{"version": "two", "seed": 3, "tasks": {}}',
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
    assert set(data) == {"about", "version", "seed", "tasks", "predictions", "recalls"}
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


def test_four_processes_that_write_without_a_pause_lose_nothing(path):
    code = (
        "import sys; from dropper.lessons.tasks.progress import Progress; from dropper.lessons.tasks.entries import Entry\n"
        "file = Progress(sys.argv[1]); sys.stdin.read()\n"
        "for task in range(int(sys.argv[3])): file.save(f'{sys.argv[2]} {task}', Entry(1, tries=1))\n"
        "print(file.trouble)"
    )
    each = draws.examples(25)
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "text": True}
    writers = [subprocess.Popen([sys.executable, "-c", code, path, name, str(each)], **pipes) for name in "abcd"]
    for writer in writers:
        writer.stdin.close()
    assert [writer.stdout.read().strip() for writer in writers] == [""] * 4
    assert [writer.wait() for writer in writers] == [0] * 4
    assert len(Progress(path).entries()) == 4 * each
    assert os.listdir(path.parent) == [FILE]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the writers are forked")
def test_writers_that_are_killed_at_any_moment_lose_nothing(path):
    script = Path(__file__).with_name("killed_writers.py")
    kills, seed = str(draws.examples(30)), str(draws.seed(0))
    run = subprocess.run([sys.executable, script, path, kills, seed], capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    assert ", 0 lost" in run.stdout, run.stdout
    file = Progress(path)
    file.save(KEY, Entry(1))
    assert os.listdir(path.parent) == [FILE], "the next writer sweeps what the killed ones left"
    assert file.trouble == ""


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


def test_a_second_file_that_cannot_be_understood_does_not_take_the_place_of_the_first(path):
    for number, text in enumerate((b"first", b"second", b"third")):
        path.write_bytes(text)
        file = Progress(path)
        file.save(KEY, Entry(1))
        aside = f"my_progress_unreadable{f'_{number + 1}' if number else ''}.json"
        assert f"kept as {aside}" in file.trouble and (path.parent / aside).read_bytes() == text
    assert len(os.listdir(path.parent)) == 4


def test_a_version_that_is_not_known_is_kept_and_said(path):
    data = b'{"version": 2, "seed": 3, "tasks": {"reactance": {"marks": 5}}}'
    path.write_bytes(data)
    file = Progress(path)
    file.save(KEY, Entry(1, tries=1))
    assert file.trouble == (
        "my_progress.json is of version 2, and this workbook knows version 1 only. "
        "It is kept as my_progress_unreadable.json, and a new one was begun."
    )
    assert (path.parent / "my_progress_unreadable.json").read_bytes() == data
    assert Progress(path).entry(KEY).tries == 1


def file_of(entries, seed=5):
    return json.dumps({"version": 1, "seed": seed, "tasks": entries}).encode()


GOOD = vars(Entry(9, tries=4, solved=True))


@pytest.mark.parametrize("mark", ["utf-8-sig", "utf-16"])
def test_a_byte_order_mark_costs_no_entry_and_is_said(path, mark):
    """Editors write one unasked: the byte EF BB BF or FF FE before the text (Unicode standard, 23.8)."""
    path.write_bytes(file_of({"reactance": GOOD}).decode().encode(mark))
    file = Progress(path)
    assert file.entry("reactance") == Entry(**GOOD)
    assert "begins with a byte-order mark" in file.trouble and "all of it is read" in file.trouble
    file.save(KEY, Entry(1))
    again = Progress(path)
    assert set(again.entries()) == {"reactance", KEY} and again.trouble == ""
    assert os.listdir(path.parent) == [FILE]


@pytest.mark.parametrize("wrong", ["solved", {"seed": 3}, GOOD | {"tries": -1}, GOOD | {"solved": 1}, None])
def test_one_bad_entry_does_not_cost_the_others(path, wrong):
    data = file_of({"reactance": GOOD, "charge": wrong, KEY: GOOD})
    path.write_bytes(data)
    file = Progress(path)
    assert file.entries() == {"reactance": Entry(**GOOD), KEY: Entry(**GOOD)}
    assert file.trouble == (
        "1 of the entries of my_progress.json could not be understood (charge); the other 2 entries are read. "
        "The file as it was is kept as my_progress_unreadable.json."
    )
    assert (path.parent / "my_progress_unreadable.json").read_bytes() == data
    again = Progress(path)
    assert len(again.entries()) == 2 and again.trouble == "", "it is said once, and set aside once"
    assert again.entry("charge").seed == 5, "the learner's own seed is kept"


def test_a_bad_seed_costs_no_entry(path):
    path.write_bytes(file_of({"reactance": GOOD}, seed="five"))
    file = Progress(path)
    assert file.entries() == {"reactance": Entry(**GOOD)}
    assert "(seed)" in file.trouble
    assert Progress(path).entry("charge").seed == file.entry("impedance").seed, "a new one is drawn once"


def test_what_was_set_aside_before_a_kill_is_not_set_aside_again(path):
    data = file_of({"reactance": GOOD, "charge": None})
    path.write_bytes(data)
    (path.parent / "my_progress_unreadable.json").write_bytes(data)
    assert len(Progress(path).entries()) == 1
    assert sorted(os.listdir(path.parent)) == [FILE, "my_progress_unreadable.json"]


def test_a_link_stays_a_link_and_what_it_leads_to_is_written(path, tmp_path):
    other = tmp_path / "elsewhere"
    other.mkdir()
    target = other / "of_the_class.json"
    target.write_bytes(file_of({"reactance": GOOD}))
    try:
        path.symlink_to(target)
    except OSError:
        pytest.skip("no links on this system")
    file = Progress(path)
    file.save(KEY, Entry(1, tries=1))
    assert path.is_symlink() and set(Progress(target).entries()) == {"reactance", KEY}
    assert "my_progress.json is a link" in file.trouble and "of_the_class.json" in file.trouble
    assert os.listdir(other) == [target.name] and Progress(target).trouble == ""


def test_a_link_that_leads_nowhere_or_round(path):
    try:
        path.symlink_to(path.parent / "gone" / FILE)
    except OSError:
        pytest.skip("no links on this system")
    assert_kept_in_memory(Progress(path))
    path.unlink()
    path.symlink_to(path)
    assert_kept_in_memory(Progress(path))


def test_a_file_that_may_not_be_read_is_not_written_over(path, monkeypatch):
    path.write_bytes(file_of({"reactance": GOOD}))

    def refuse(*_, **__):
        raise PermissionError(13, "Permission denied")

    file = Progress(path)
    with monkeypatch.context() as closed:
        closed.setattr(progress_file.Path, "open", refuse)
        file.save(KEY, Entry(1, tries=1))
        assert "cannot be read (Permission denied)" in file.trouble
    assert file.entries() == {"reactance": Entry(**GOOD), KEY: Entry(1, tries=1)}
    file.save("charge", Entry(1))
    assert set(Progress(path).entries()) == {"reactance", KEY, "charge"} and file.trouble == ""


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_a_pipe_in_place_of_the_file_holds_nobody_up(path):
    os.mkfifo(path)
    file = Progress(path)
    assert_kept_in_memory(file)
    assert "is not a plain file" in file.trouble


def test_a_damaged_file_in_a_folder_that_cannot_be_written_is_said(path, monkeypatch):
    path.write_bytes(file_of({"reactance": GOOD, "charge": None}))

    def refuse(*_, **__):
        raise OSError(30, "Read-only file system")

    monkeypatch.setattr(lock.FileLock, "acquire", refuse)
    file = Progress(path)
    assert file.entry("reactance").solved
    assert "(charge)" in file.trouble and "Read-only file system" in file.trouble


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
        broken.setattr(progress_file.os, "replace", refuse)
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
        full.setattr(progress_file.os, "fsync", break_off)
        file.save("reactance", Entry(1, tries=3))
    assert path.read_text() == before and os.listdir(path.parent) == [FILE]
    assert "No space left" in file.trouble


def test_deleting_the_file_starts_everything_again(path):
    file = Progress(path)
    file.save(KEY, after_try(file.entry(KEY), True))
    path.unlink()
    assert file.entries() == {}
    entry = file.entry(KEY)
    assert not entry.solved and entry.tries == 0


def test_locks_and_parts_left_by_dead_writers_are_taken_away(path):
    left = ["my_progress.lock", "my_progress.part", "my_progress.abc123.part"]
    for name in left:
        path.with_name(name).write_text("")
    path.with_name("my_notes.part").write_text("mine")
    Progress(path).save(KEY, Entry(1, solved=True))
    assert Progress(path).entry(KEY).solved
    assert sorted(os.listdir(path.parent)) == ["my_notes.part", FILE]


def test_the_lock_of_a_living_writer_is_not_taken_away(path, monkeypatch):
    """What cannot be written meanwhile is kept, said, and written when the other has ended."""
    code = f"import sys; from pathlib import Path; from dropper.lessons.tasks.lock import file_lock\nwith file_lock(Path({str(path)!r})): print('held', flush=True); sys.stdin.read()"
    other = subprocess.Popen([sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert other.stdout.readline() == "held\n"
    os.utime(path.with_name("my_progress.lock"), (1, 1))  # however old it is
    monkeypatch.setattr(lock, "PATIENCE", 0.05)
    file = Progress(path)
    file.save(KEY, Entry(1, tries=3))
    assert file.trouble == (
        "my_progress.json is being written by another program. "
        "What you solve is remembered only until this notebook is closed."
    )
    assert file.entries()[KEY].tries == 3 and not path.exists()
    other.kill()  # its lock file stays, and holds nobody up
    other.wait()
    other.stdin.close()
    other.stdout.close()
    file.save("charge", Entry(1))
    assert set(Progress(path).entries()) == {KEY, "charge"} and file.trouble == ""
    assert os.listdir(path.parent) == [FILE]


@pytest.mark.parametrize("panel", [lessons.Scorecard, lessons.Tasks])
def test_trouble_is_said_where_the_learner_sees_it(path, panel):
    path.write_bytes(file_of({"reactance": GOOD, "charge": None}))
    shown = "".join(getattr(widget, "value", None) or "" for widget in every_text(panel(1, Progress(path))))
    assert "could not be understood (charge)" in shown and "kept as my_progress_unreadable.json" in shown


def every_text(widget):
    yield from [widget] if isinstance(widget, widgets.HTML) else []
    for child in getattr(widget, "children", ()):
        yield from every_text(child)


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
    assert str(summary(tasks, file)) == "4 of 6 solved, 2 with steps shown; 1 shown before being solved."


def test_git_does_not_see_it():
    seen = subprocess.run(
        ["git", "check-ignore", f"notebooks/{FILE}", "notebooks/my_progress_unreadable.json"],
        capture_output=True,
        text=True,
    )
    if seen.returncode == 128:
        pytest.skip("no git here")
    assert len(seen.stdout.split()) == 2
