"""Plan of a lesson as data: aims, minutes, questions, paths; its figures are computed and put in by name."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .. import theory
from ..circuit.fields import about, documented
from ..circuit.lamp import Lamp, replace_at
from ..circuit.values import show, show_reading
from ..lessons.catalogue import QUESTIONS, number, of_lesson
from ..solver.steady import steady_state

PLANS = Path(__file__).resolve().parent / "plans"
LENGTH = 50  # minutes
_SAME_SEEDS = 24  # a task with one answer for so many seeds has it for everybody


@documented
@dataclass(frozen=True)
class Plan:
    """A lesson for a class."""

    lesson: int
    title: str
    aims: tuple = about("what they should be able to do")
    before: str = about("what must be known")
    words: str = about("words of a curriculum that it serves")
    minutes: tuple = about("(minutes, what, what happens) of each step")
    questions: tuple = about("(question, answer to expect) in the order in which they are asked")
    easier: tuple = about("keys of tasks")
    harder: tuple = about("keys of tasks")
    homework: str
    ticket: tuple = about("(question, answer) of the exit ticket")
    figures: dict = about("each text in braces: how it is computed, see `figure`")

    @classmethod
    def of(cls, lesson: int, lamps: Path) -> Plan:
        """The plan of a lesson, its figures computed for the lamps of a folder.

        Raises
        ------
        FileNotFoundError
            For a lesson without a plan.
        """
        with (PLANS / f"{lesson:02}.toml").open("rb") as file:
            read = tomllib.load(file)
        figures = {name: figure(lamps=lamps, **spec) for name, spec in read.pop("figures", {}).items()}
        numbers = {key: number(key) for key in QUESTIONS}
        return cls(lesson=lesson, figures=figures, **_filled(read, numbers | figures))

    def numbers(self, keys: tuple[str, ...]) -> str:
        """The numbers of some tasks, such as "2.1, 2.4"."""
        return ", ".join(number(key) for key in keys) or "–"

    def alike(self) -> list[str]:
        """Numbers of the tasks that have one answer for everybody, for a discussion."""
        tasks = of_lesson(self.lesson)
        return [number(task.key) for task in tasks if len({task.ask(seed).answer for seed in range(_SAME_SEEDS)}) == 1]


def lessons() -> list[int]:
    """The lessons that have a plan."""
    return sorted(int(path.stem) for path in PLANS.glob("*.toml"))


def figure(
    lamps: Path,
    unit: str = "",
    lamp: str = "stair_marker",
    change: dict[str, Any] | None = None,
    reading: str = "",
    against: bool = False,
    percent: bool = False,
    digits: int = 3,
    theorem: str = "",
    **inputs: float,
) -> str:
    """A figure of a plan, as text with its unit.

    Parameters
    ----------
    lamps
        The folder of lamp files.
    lamp
        Name of the file, without its ending.
    change
        Fields of the lamp that are changed, by path.
    reading
        Of the lamp's `SteadyState`.
    against
        Whether it is the change against the lamp as it is, in per cent.
    percent
        Whether a share is written in per cent.
    digits
        Of a reading without a unit.
    theorem
        A formula of `theory` in place of a reading; what is left are its inputs.
    """
    if theorem:
        return show(float(getattr(theory, theorem)(**inputs)), unit)
    whole = Lamp.from_toml(lamps / f"{lamp}.toml")
    changed = whole
    for path, value in (change or {}).items():
        changed = replace_at(changed, path, value)
    value = getattr(steady_state(changed), reading)
    if against:
        return f"{100 * (value / getattr(steady_state(whole), reading) - 1):+.0f} %".replace("-", "−")
    if percent:
        return f"{100 * value:.0f} %"
    return show_reading(value, unit) if unit else f"{value:.{digits}f}"


def _filled(value, figures):
    if isinstance(value, str):
        return value.format_map(figures)
    if isinstance(value, list):
        return tuple(_filled(each, figures) for each in value)
    return {key: _filled(each, figures) for key, each in value.items()} if isinstance(value, dict) else value
