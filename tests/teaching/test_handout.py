"""Sheets and keys: each pupil's own numbers, the key with what is accepted, and nothing of it on the sheet."""

import json
import re

import pytest
from dropper.__main__ import main
from dropper.lessons.catalogue import LESSONS, of_lesson
from dropper.lessons.tasks.progress import Progress
from dropper.teaching.handout import Handout, key_rows
from for_every import for_every


@for_every([task for lesson in LESSONS for task in of_lesson(lesson)])
def test_both_ends_of_what_the_key_accepts_are_graded_right(task):
    instance = task.ask(7)
    ((_, _, answer, _, accepted),) = key_rows([instance])
    if hasattr(instance, "options"):
        assert answer.split(": ", 1)[1] == instance.options[instance.answer]
        return
    low, _, high = accepted.partition(" to ")
    assert instance.judge(answer).right, answer
    assert all(instance.judge(text).right for text in (low, high or low)), (answer, accepted)


def test_every_pupil_has_numbers_of_their_own_and_the_same_each_time():
    handout = Handout(lesson=4, seed=7, pupils=24)
    text = handout.sheets()
    assert text == Handout(lesson=4, seed=7, pupils=24).sheets() and text.count("Name: ____") == 24
    assert len({str([task.values for task in handout.instances(seed)]) for seed in handout.seeds.values()}) == 24
    assert "<script" not in text and "A. below 10 %" not in text and "below 10 %" in text


def test_the_answers_stand_on_the_key_alone():
    handout = Handout(lesson=2, seed=7)
    answers = [row[2] for row in key_rows(handout.instances(7)) if re.match(r"\d", row[2])]
    assert len(answers) >= 4
    assert all(answer in handout.key() and f"{answer}<" not in handout.sheets() for answer in answers)


def test_the_screen_asks_what_the_sheet_asks(tmp_path, capsys):
    main(["sheets", "--lesson", "2", "--seed", "3", "--pupils", "2", "--progress", str(tmp_path)])
    seed = Progress(tmp_path / "pupil_2" / "my_progress.json").seed
    assert seed == Handout(lesson=2, seed=3, pupils=2).seeds["pupil 2"]
    assert of_lesson(2)[0].ask(seed).prompt in (tmp_path / "lesson_02_seed_3_sheets.html").read_text(encoding="utf-8")
    assert "key.html" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"lesson": 99}, "1 to 14"),
        ({"lesson": 2, "seed": -1}, "seed"),
        ({"lesson": 2, "pupils": 1000}, "0 to 99"),
        ({"lesson": 2, "tasks": ("3.1",)}, "2.1 to"),
    ],
)
def test_what_cannot_be_made_is_said(given, said):
    with pytest.raises(ValueError, match=said):
        Handout(**{"seed": 1} | given)


def test_a_class_becomes_a_table_and_bad_files_are_said(tmp_path, capsys):
    task = {"seed": 7, "tries": 2, "hints": 1, "solved": True, "shown": False}
    good = {"version": 1, "seed": 7, "tasks": {"string_current": task, "no_such": task}}
    good["predictions"] = {"faults_open_D1": {"answer": "half", "sure": "sure", "right": False}}
    for name in ("ada/my_progress.json", "=cmd()<b>.json", "bo.json"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(json.dumps(good), encoding="utf-8")
    (tmp_path / "cut.json").write_text('{"version": 1, "tas', encoding="utf-8")
    (tmp_path / "deep.json").write_text("[" * 100_000, encoding="utf-8")
    (tmp_path / "large.json").write_bytes(b" " * 2_000_000)
    (tmp_path / "folder.json").mkdir()
    main(["class", str(tmp_path), "--to", str(tmp_path / "made")])
    said = capsys.readouterr().out
    assert all(f"{name}: " in said for name in ("cut", "deep", "large", "folder"))
    page = (tmp_path / "made" / "class.html").read_text(encoding="utf-8")
    assert "3 pupils" in page and "<b>" not in page and "half its light" in page and "cut.json" in page
    lines = (tmp_path / "made" / "class_tasks.csv").read_text(encoding="utf-8-sig").splitlines()
    assert lines[1:] == [f"{name},2.1,Current of the string,yes,2,1,no" for name in ("'=cmd()<b>", "ada", "bo")]
    beliefs = (tmp_path / "made" / "class_predictions.csv").read_text(encoding="utf-8-sig")
    assert "With one diode of the bridge open the lamp has half its light." in beliefs


def test_a_folder_without_pupils_is_said(tmp_path):
    with pytest.raises(SystemExit, match="No progress file"):
        main(["class", str(tmp_path)])
