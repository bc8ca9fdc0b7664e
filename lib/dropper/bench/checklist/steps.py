"""A step of the check-list, a stage of it, and the list as words and rows."""

from dataclasses import dataclass, field

from ...circuit.lamp import Lamp
from ...results.reading import Reading


@dataclass(frozen=True)
class Step:
    """One thing to do.

    Parameters
    ----------
    key : str
        What it is called in code.
    do : str
        What to do, in a sentence or two.
    why : str
        Why, in a sentence or two.
    expect : str
        What should be found, with this lamp's numbers; "" where there is nothing to read.
    reading : Reading or None
        The number behind what is expected, which can explain itself.
    stop : str
        What means: go no further; "" for none.
    """

    key: str
    do: str
    why: str
    expect: str = ""
    reading: Reading | None = field(default=None, hash=False)
    stop: str = ""


@dataclass(frozen=True)
class Stage:
    """Steps that belong together, in their order.

    Parameters
    ----------
    title : str
    steps : tuple of Step
    caution : str
    """

    title: str
    steps: tuple
    caution: str = ""


WHO = (
    "A new lamp begins with its parts, read and measured alone. A repair begins with the lamp proved dead, and leaves"
    " out “Put together” where nothing is soldered."
)


@dataclass(frozen=True)
class CheckList:
    """What to do with one lamp on the bench, in its order.

    Parameters
    ----------
    lamp : Lamp
    stages : tuple of Stage
    """

    lamp: Lamp
    stages: tuple

    @property
    def steps(self):
        """All steps in their order."""
        return tuple(step for stage in self.stages for step in stage.steps)

    def next_step(self, done):
        """The step that comes next, and one that was ticked before its turn.

        Stages of which nothing is ticked are left out on purpose, up to the last one that is begun.

        Parameters
        ----------
        done : sequence of bool
            For each of `steps`.

        Returns
        -------
        (Stage or None, Step or None, Step or None)
            The next step and its stage, None where nothing is left; and the step that was ticked too early, if any.
        """
        left = iter(done)
        ticked = [[next(left) for _ in stage.steps] for stage in self.stages]
        last = max((place for place, ticks in enumerate(ticked) if any(ticks)), default=-1)
        for place, (stage, ticks) in enumerate(zip(self.stages, ticked, strict=True)):
            if all(ticks) or (not any(ticks) and place < last):
                continue
            step = stage.steps[ticks.index(False)]
            after = done[self.steps.index(step) :]
            early = self.steps[self.steps.index(step) + list(after).index(True)] if any(after) else None
            return stage, step, early
        return None, None, None

    def of(self, key):
        """One step by its key; KeyError where this lamp asks for none."""
        for step in self.steps:
            if step.key == key:
                return step
        raise KeyError(f"{key!r} is no step of this list; there are {', '.join(step.key for step in self.steps)}")

    def rows(self):
        """A tuple a step: number, name, what to do, what to expect, what means stop, why."""
        return [
            (str(number), step.key, step.do, step.expect, step.stop, step.why)
            for number, step in enumerate(self.steps, 1)
        ]
