"""How far a learner is with a task, and with a lesson."""

from dataclasses import dataclass, replace

from .progress import MOST


@dataclass(frozen=True)
class Standing:
    """How far a learner is with a lesson.

    Parameters
    ----------
    total, solved, with_hints, shown : int
        Tasks in all, solved by the learner, solved with hints, and shown before they were solved.
    """

    total: int
    solved: int
    with_hints: int
    shown: int

    def __str__(self):
        words = f"{self.solved} of {self.total} solved"
        if self.with_hints:
            words += f", {self.with_hints} with hints"
        if self.shown:
            words += f"; {self.shown} shown before being solved"
        return words + "."


def standing(tasks, progress):
    """How far a learner is with some tasks.

    Parameters
    ----------
    tasks : iterable of Question and Choice
    progress : Progress

    Returns
    -------
    Standing
    """
    known = progress.known()
    tasks = list(tasks)
    entries = [known[task.key] for task in tasks if task.key in known]
    solved = [entry for entry in entries if entry.solved]
    shown = sum(entry.shown and not entry.solved for entry in entries)
    return Standing(len(tasks), len(solved), sum(entry.hints > 0 for entry in solved), shown)


def tried(entry, right):
    """An entry after one more try.

    Parameters
    ----------
    entry : progress.Entry
    right : bool

    Returns
    -------
    Entry
    """
    return replace(entry, tries=min(entry.tries + 1, MOST), solved=entry.solved or right)
