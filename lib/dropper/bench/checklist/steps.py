"""Steps of the check-list: a step, a stage of it, and the list as words and rows."""

from collections.abc import Sequence
from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...results.reading import Reading


@documented
@dataclass(frozen=True)
class Step:
    """One thing to do."""

    key: str = about("What it is called in code.")
    do: str = about("What to do, in a sentence or two.")
    why: str = about("Why, in a sentence or two.")
    expect: str = about(
        'What should be found, with this lamp\'s numbers; "" where there is nothing to read.', default=""
    )
    reading: Reading | None = about(
        "The number behind what is expected, which can explain itself.", default=None, hash=False
    )
    stop: str = about('What means: go no further; "" for none.', default="")


@documented
@dataclass(frozen=True)
class Stage:
    """Steps that belong together, in their order."""

    title: str
    steps: tuple
    caution: str = about('what to beware of; "" for none', default="")


WHO = (
    "A new lamp begins with its parts, read and measured alone. A repair begins with the lamp proved dead, and leaves"
    " out “Put together” where nothing is soldered."
)


@documented
@dataclass(frozen=True)
class CheckList:
    """What to do with one lamp on the bench, in its order."""

    lamp: Lamp
    stages: tuple = about("a `Stage` after the other, in their order")

    def __repr__(self) -> str:
        return f"<CheckList of {self.lamp.name!r}: {len(self.steps)} steps in {len(self.stages)} stages>"

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps in their order."""
        return tuple(step for stage in self.stages for step in stage.steps)

    def next_step(self, done: Sequence[bool]) -> tuple[Stage | None, Step | None, Step | None]:
        """The step that comes next, and one that was ticked before its turn.

        Stages of which nothing is ticked are left out on purpose, up to the last one that is begun.

        Parameters
        ----------
        done
            For each of `steps`.

        Returns
        -------
        (Stage or None, Step or None, Step or None)
            The next step and its stage, None where nothing is left; and the step that was ticked too early, if any.
        """
        remaining = iter(done)
        ticked = [[next(remaining) for _ in stage.steps] for stage in self.stages]
        last = max((place for place, ticks in enumerate(ticked) if any(ticks)), default=-1)
        for place, (stage, ticks) in enumerate(zip(self.stages, ticked, strict=True)):
            if all(ticks) or (not any(ticks) and place < last):
                continue
            step = stage.steps[ticks.index(False)]
            after = done[self.steps.index(step) :]
            early = self.steps[self.steps.index(step) + list(after).index(True)] if any(after) else None
            return stage, step, early
        return None, None, None

    def of(self, key: str) -> Step:
        """One step by its key; KeyError where this lamp asks for none."""
        for step in self.steps:
            if step.key == key:
                return step
        raise KeyError(
            f"{excerpt(key)} is no step of this list; there are {', '.join(step.key for step in self.steps)}"
        )

    def rows(self) -> list[tuple[str, ...]]:
        """A tuple a step: number, name, what to do, what to expect, what means stop, why."""
        return [
            (str(number), step.key, step.do, step.expect, step.stop, step.why)
            for number, step in enumerate(self.steps, 1)
        ]
