"""What stands where, what must not be said, and documents that keep up with the code."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
TOP = {"README.md", "DEVELOPERS.md", "requirements.txt", "notebooks", "lib", "tests", "binder"}


def tracked():
    """Files of the project: what git tracks, or all of them where there is no git."""
    try:
        listed = subprocess.run(
            ["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True, check=True
        ).stdout.split("\n")
    except (OSError, subprocess.CalledProcessError):
        return [path for path in ROOT.rglob("*") if path.is_file() and ".venv" not in path.parts]
    return [ROOT / name for name in listed if name and (ROOT / name).is_file()]


def test_the_visible_top_level_is_what_it_should_be():
    seen = {path.relative_to(ROOT).parts[0] for path in tracked()}
    assert {name for name in seen if not name.startswith(".")} == TOP


def test_readme_opens_with_the_job_and_two_commands():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    first = text.split("\n\n")[0]
    assert not first.startswith("#") and len(first) > 200, "the job in one paragraph comes first"
    commands = re.findall(r"```sh\n(.+?)\n```", text, flags=re.S)
    assert all("\n" not in command for command in commands[:2]), "one line each"
    assert commands[0].endswith("-m dropper") and "venv" in commands[0]
    assert commands[1].endswith("pytest") and "venv" in commands[1]


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md"])
def test_links_in_documents_lead_somewhere(document):
    text = (ROOT / document).read_text(encoding="utf-8")
    for target in re.findall(r"\]\(([^)#]+)\)", text):
        if not target.startswith("http"):
            assert (ROOT / target).exists(), f"{document} links to {target}"


def test_readme_maps_every_notebook():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    for path in (ROOT / "notebooks").glob("*.ipynb"):
        assert path.name in text, path.name


def test_every_dependency_is_named_with_its_reason():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").lower()
    for source in ("lib/pyproject.toml", "requirements.txt", "tests/requirements.txt"):
        for name in re.findall(r"^\s*\"?([A-Za-z][\w-]*)>=", (ROOT / source).read_text(), flags=re.M):
            assert f"`{name.lower()}`" in text, f"{name} of {source}"


def test_notebooks_are_kept_without_outputs():
    import nbformat

    for path in (ROOT / "notebooks").rglob("*.ipynb"):
        if ".ipynb_checkpoints" in path.parts:
            continue
        book = nbformat.read(path, as_version=4)
        nbformat.validate(book)
        assert all(not cell.get("outputs") for cell in book.cells), f"clear the outputs of {path.name}"
        words = sum(len(cell.source.split()) for cell in book.cells if cell.cell_type == "markdown")
        assert words > 300
        longest = max(len(c.source.splitlines()) for c in book.cells if c.cell_type == "code")
        assert longest <= 12, f"{path.name}: a code cell of {longest} lines"
