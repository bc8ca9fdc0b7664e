"""A hidden fault to be found: readings are bought one at a time, and whoever needs few and safe ones does best."""

from __future__ import annotations

import dataclasses
import functools
from dataclasses import dataclass

import numpy as np

from ...circuit.lamp import Lamp
from ...solver.transient import Fault
from . import share_code
from .diagnose import Diagnosis, diagnose
from .evidence import Observed
from .hidden_fault import Hidden
from .measurements import Act, act_named, acts_for
from .prediction import Meters
from .prior import HUNTED, causes_of, kind_of, weights_for
from .scoring import WRONG, Score, best_way, cost_of, danger_of, scored
from .wording import NAMES, cause_words, reading_words


@dataclass(frozen=True)
class Step:
    """One measurement taken: its key, what was read, and both in words."""

    key: str
    readings: dict
    words: str


class Hunt:
    """A lamp with a hidden fault.

    Parameters
    ----------
    lamp
        As it should be.
    seed
        0 to 99999; draws the fault, its amount, the parts and the meters' errors, the same each time.
    fault
        Fixes the fault; its amount is drawn all the same. Without it the seed draws one.
    live
        Whether live parts may be measured.

    Raises
    ------
    ValueError
        For a seed out of range, a fault that the lamp cannot have, or a lamp that is dark without one.
    """

    def __init__(
        self,
        lamp: Lamp,
        seed: int = 1,
        fault: Fault | tuple | None = None,
        meters: Meters | None = None,
        live: bool = True,
    ):
        if isinstance(seed, bool) or not isinstance(seed, int) or not 0 <= seed < share_code.SEEDS:
            raise ValueError(f"seed: {seed!r} is not a whole number from 0 to {share_code.SEEDS - 1}")
        kind = kind_of(fault) if isinstance(fault, Fault) else fault
        if fault is not None and kind not in causes_of(lamp):
            raise ValueError(f"fault: {kind!r} cannot happen to the {lamp.name}")
        self.lamp, self.seed, self.live, self.meters = lamp, seed, bool(live), meters or Meters()
        self._drawn = fault is None
        self._hidden = Hidden(lamp, seed, self._draw() if self._drawn else kind, self.meters)
        self.steps, self.accusations, self.score = [], [], None
        self._helped = set()  # after how many measurements help was asked for

    @classmethod
    def from_code(cls, lamp: Lamp, code: str, meters=None) -> Hunt:
        """The hunt that a teacher's code stands for; ValueError in words if it stands for none of this lamp's."""
        seed, kind, drawn, live = share_code.decode(lamp, code)
        return cls(lamp, seed, None if drawn else kind, meters, live)

    @property
    def code(self) -> str:
        """A short text for a class: the same lamp and code give the same hunt, and do not show the fault."""
        return share_code.encode(self.lamp, self.seed, self._hidden.kind, self._drawn, self.live)

    @property
    def observed(self) -> Observed:
        """What has been read so far."""
        return Observed(**{name: value for step in self.steps for name, value in step.readings.items()})

    @property
    def cost(self) -> int:
        """Time and trouble of all measurements taken."""
        return cost_of(step.key for step in self.steps)

    @property
    def danger(self) -> int:
        """Danger of all measurements taken, by `scoring.DANGERS`."""
        return danger_of(step.key for step in self.steps)

    @property
    def over(self) -> bool:
        """Whether the fault has been found, or shown."""
        return self.score is not None

    def choices(self) -> tuple[Act, ...]:
        """Acts that can still be done, as a tuple of `Act`."""
        done = {step.key for step in self.steps}
        return tuple(act for act in acts_for(self.lamp, self.live) if act.key not in done)

    def suspects(self) -> tuple[tuple[str, tuple], ...]:
        """What can be accused: (words, name) by cause, without amounts; the healthy lamp is none of them."""
        return tuple((cause_words(kind), kind) for kind in causes_of(self.lamp) if kind is not None)

    def measure(self, key: str) -> Step:
        """Take a measurement.

        Parameters
        ----------
        key
            Of `choices()`.

        Raises
        ------
        ValueError
            If it is unknown, taken already, or not possible here.
        """
        act = act_named(key)
        if act not in self.choices():
            why = act.why_not(self.lamp) or (
                "it has been done" if any(step.key == key for step in self.steps) else "live measurements are declined"
            )
            raise ValueError(f"measurement: {act.words}: {why}")
        readings = self._hidden.read(key)
        told = ", ".join(_told(name, value, self.meters) for name, value in readings.items())
        step = Step(key, readings, f"{act.words[0].upper()}{act.words[1:]}: {told}.")
        self.steps.append(step)
        return step

    def belief(self) -> Diagnosis:
        """What the readings and the wrong accusations so far say."""
        return _diagnosed(self.lamp, self.observed, self.meters, self.live, self._cleared())

    def before(self) -> Diagnosis:
        """What the readings said before the last measurement, as a `Diagnosis`."""
        earlier = {name: value for step in self.steps[:-1] for name, value in step.readings.items()}
        return _diagnosed(self.lamp, Observed(**earlier), self.meters, self.live, self._cleared())

    def odds(self) -> Diagnosis:
        """What `belief` gives, asked for as help: it costs points, once for each measurement."""
        if not self.over:
            self._helped.add(len(self.steps))
        return self.belief()

    def hint(self) -> str:
        """What to measure next, and why, in a sentence; the fault itself is not looked at. Costs points."""
        found = self.odds()
        if found.next is None:
            return "Nothing left would tell much more. Accuse."
        act, bits = found.next.act, found.next.bits
        return (
            f"{act.words[0].upper()}{act.words[1:]}: of what is left it tells most for its trouble ({bits:.2g} bits;"
            f" {act.danger})."
        )

    def accuse(self, fault: Fault | tuple) -> Score:
        """Name the fault; the amount does not count.

        Parameters
        ----------
        fault
            A fault, or its name as in `prior.WEIGHTS`.

        Raises
        ------
        ValueError
            If the lamp cannot have it, or the hunt is over.
        """
        if self.over:
            raise ValueError("accusation: the hunt is over; start a new one")
        kind = kind_of(fault) if isinstance(fault, Fault) else fault
        if kind is None or kind not in causes_of(self.lamp):
            raise ValueError(f"accusation: {kind!r} cannot happen to the {self.lamp.name}")
        self.accusations.append(kind)
        score = self._scored(kind == self._hidden.kind, self.belief().belief.causes()[kind])
        if score.right:
            self.score = score
            return score
        more = f"It is not {cause_words(kind)}. {WRONG} points are gone; go on measuring."
        return dataclasses.replace(score, words=more)

    def give_up(self) -> Score:
        """Show the fault; the score is 0."""
        self.score = self._scored(False)
        return self.score

    def answer(self) -> str | None:
        """The hidden fault in words, with its amount; ValueError before the hunt is over."""
        if not self.over:
            raise ValueError("answer: it is shown once the hunt is over")
        return cause_words(self._hidden.kind, self._hidden.amount)

    def record(self) -> tuple[str, ...]:
        """What was done, in sentences."""
        told = [step.words for step in self.steps]
        told += [f"Accused wrongly: {cause_words(kind)}." for kind in self._cleared()]
        return (*told, *([self.score.words] if self.over else []))

    def best_way(self) -> tuple[str, ...]:
        """The best way through this hunt, as keys of acts.

        It does not know the fault: each step is what is expected to tell most for its cost, the safer first, until
        one cause holds 95 %.
        """
        return best_way(self._hidden, self.live)

    def _draw(self):
        weights = weights_for(self.lamp, HUNTED)
        kinds = list(weights)
        return kinds[np.random.default_rng([self.seed, 0]).choice(len(kinds), p=list(weights.values()))]

    def _cleared(self):
        return tuple(kind for kind in self.accusations if kind != self._hidden.kind)

    def _scored(self, right, chance=0.0):
        wrong = len(self._cleared())
        keys = [step.key for step in self.steps]
        return scored(self._hidden, self.live, keys, wrong, right, chance, len(self._helped))


@functools.lru_cache(maxsize=64)
def _diagnosed(lamp, observed, meters, live, cleared) -> Diagnosis:
    return diagnose(lamp, observed, meters, HUNTED | dict.fromkeys(cleared, 0.0), live)


def _told(name, value, meters):
    return f"{NAMES[name]}{':' * isinstance(value, str)} {reading_words(name, value, meters)}"
