"""A pupil's folder on a hub gets what is missing and loses nothing."""

from dropper.lab.own_folder import fill


def test_a_pupil_gets_lessons_and_lamps_and_none_of_what_is_the_teachers(tmp_path):
    ours = tmp_path / "notebooks"
    for name in (
        "04_a.ipynb",
        "lamps/b.toml",
        "teaching/key.md",
        "my_progress.json",
        "sheets/c.html",
        "my_lamps/d.toml",
    ):
        (ours / name).parent.mkdir(parents=True, exist_ok=True)
        (ours / name).write_text(f"ours: {name}")
    folder = tmp_path / "ada" / "notebooks"
    assert [path.as_posix() for path in fill(folder, ours)] == ["04_a.ipynb", "lamps/b.toml"]
    (folder / "04_a.ipynb").write_text("with the pupil's own line")
    (folder / "my_progress.json").write_text("solved")
    (ours / "05_new.ipynb").write_text("ours")
    assert [path.name for path in fill(folder, ours)] == ["05_new.ipynb"], "only what is missing"
    assert (folder / "04_a.ipynb").read_text() == "with the pupil's own line"
    assert (folder / "my_progress.json").read_text() == "solved"
    assert not (folder / "teaching").exists()
