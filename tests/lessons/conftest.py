"""What holds for the lessons' tests: predictions are kept in a file of the test, not in the learner's."""

import pytest
from dropper.lessons.kit import record
from dropper.lessons.tasks.progress import Progress


@pytest.fixture(autouse=True)
def progress(monkeypatch, tmp_path):
    """The progress file that predictions are kept in."""
    progress = Progress(tmp_path / "progress.json")
    monkeypatch.setattr(record, "progress_at", lambda: progress)
    return progress
