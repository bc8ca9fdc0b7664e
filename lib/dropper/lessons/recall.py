"""Recall: which questions of earlier lessons come before a lesson.

Two of the lesson before, one of three lessons back, one of six back, and one that was missed: a task that was tried
and not solved, or shown, or answered wrong as a question from before; or one of a belief that was predicted, sure and
wrong.
Where one of these is not to be had, a belief that has come less than twice so far takes its place, if there is one.
Tasks that know a belief come first, the least asked of them; none that would answer what today's lesson asks.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from random import Random

from ..circuit.excerpt import excerpt
from ..circuit.fields import about, documented
from . import catalogue
from .beliefs import BELIEFS, beliefs_of
from .tasks.instance import Instance
from .tasks.progress import Progress

FIRST, LAST = 2, 14  # the lessons that begin with questions from before
BACK = (1, 1, 3, 6)
MOST = 5
OFTEN = 2  # how many times each belief is to come


@documented
@dataclass(frozen=True)
class PastQuestion:
    """A task of an earlier lesson, with numbers that were not asked before."""

    key: str = about("of the task")
    seed: int = about("what its values are drawn from")
    why: str = about("why it is asked, in a few words")

    def instance(self) -> Instance:
        """The task with its values."""
        return catalogue.question(self.key).ask(self.seed)


def questions_before(lesson: int, progress: Progress) -> list[PastQuestion]:
    """The questions that come before a lesson, for a learner.

    Parameters
    ----------
    lesson
        From 2 to 14.

    Raises
    ------
    ValueError
        For another lesson.
    """
    if not isinstance(lesson, int) or not FIRST <= lesson <= LAST:
        raise ValueError(f"lesson {excerpt(lesson)} has no questions from before; lessons {FIRST} to {LAST} have")
    return _Round(lesson, progress).questions


class _Round:
    """The questions of one lesson, chosen one after the other."""

    def __init__(self, lesson, progress):
        self._lesson, self._seed = lesson, progress.seed
        self._recalls = progress.recalls()
        self._asked = Counter()
        for key, recall in self._recalls.items():
            self._count(key, recall.asked)
        today = {belief.number for belief in BELIEFS if lesson in belief.lessons}
        earlier = [task for number in range(1, lesson) for task in catalogue.of_lesson(number)]
        self._tasks = {task.key: task for task in earlier if not today & set(beliefs_of(task.key))}
        self.questions = []
        for back in BACK:
            self._take(self._of_lesson(lesson - back), f"from lesson {lesson - back}")
        self._take(self._missed(progress), "missed before")
        while len(self.questions) < MOST and self._take(self._rare(), "once more"):
            pass

    def _take(self, keys, why):
        """Ask the best of some tasks; whether there was one."""
        chosen = {question.key for question in self.questions}
        keys = [key for key in keys if key in self._tasks and key not in chosen]
        if not keys:
            return False
        best = min(keys, key=self._rank)
        recall = self._recalls.get(best)
        count = recall.asked if recall else 0
        seed = Random(f"{self._seed}:{best}:from before:{count}").randrange(2**31)
        self._count(best, 1)
        self.questions.append(PastQuestion(best, seed, why))
        return True

    def _count(self, key, times):
        self._asked[key] += times
        for number in beliefs_of(key):
            self._asked[number] += times

    def _rank(self, key):
        """The less, the sooner a task is asked: beliefs that have not come first, then what was asked least."""
        wanted = [OFTEN - self._asked[number] for number in beliefs_of(key)]
        chance = Random(f"{self._seed}:{key}:{self._lesson}").random()
        enough = bool(wanted) and max(wanted) <= 0
        own = self._tasks[key].lesson
        later = sum(self._lesson < own + back <= LAST for back in BACK)  # how often its lesson's turn is still to come
        return -max([*wanted, 0]), -sum(max(want, 0) for want in wanted), enough, self._asked[key], later, chance

    def _of_lesson(self, number):
        return [key for key, task in self._tasks.items() if task.lesson == number]

    def _rare(self):
        """Tasks of the beliefs that have not come often enough."""
        return [key for key in self._tasks if any(self._asked[number] < OFTEN for number in beliefs_of(key))]

    def _missed(self, progress):
        """Tasks that went wrong, and tasks of beliefs that were predicted, sure and wrong; not those mended since."""
        missed = {key for key, entry in progress.entries().items() if not entry.solved and (entry.tries or entry.shown)}
        missed |= {key for number in _believed(progress) for key, _ in BELIEFS[number - 1].tasks}
        missed = {key for key in missed if key not in self._recalls}
        return missed | {key for key, recall in self._recalls.items() if recall.missed}


def _believed(progress):
    """The numbers of the beliefs behind predictions that were sure and wrong."""
    wrong = {(key, entry.answer) for key, entry in progress.predictions().items() if _is_sure_and_wrong(entry)}
    return [belief.number for belief in BELIEFS if wrong & set(belief.predictions)]


def _is_sure_and_wrong(entry):
    return entry.sure == "sure" and entry.right is False
