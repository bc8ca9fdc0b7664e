"""A step of the check-list, a stage of it, and the list as words and rows."""

from dataclasses import dataclass, field

from ..lamp import Lamp
from ..reading import Reading


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

    def of(self, key):
        """One step by its key; KeyError where this lamp asks for none."""
        for step in self.steps:
            if step.key == key:
                return step
        raise KeyError(f"{key!r} is no step of this list; there are {', '.join(step.key for step in self.steps)}")

    def rows(self):
        """A tuple a step: number, what to do, what to expect, why."""
        return [
            (str(number), step.do, " ".join(filter(None, (step.expect, step.stop))), step.why)
            for number, step in enumerate(self.steps, 1)
        ]
