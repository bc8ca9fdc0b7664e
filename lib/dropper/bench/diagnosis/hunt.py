"""Hunt: a hidden fault to be found; readings are bought one at a time, and few and safe ones score best."""

from __future__ import annotations

import dataclasses
import functools
from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.lamp import Lamp
from ...solver.transient import Fault
from . import share_code
from .diagnose import Diagnosis, diagnose
from .evidence import Evidence
from .hidden_fault import HiddenFault
from .measurements import Measurement, measurement_named, measurements_for
from .meters import Meters
from .prior import HUNT_WEIGHTS, causes_of, fault_of, kind_of, weights_for
from .scoring import WRONG, Score, best_way, cost_of, danger_of, score_of
from .separation import rivals_of
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

    Attributes
    ----------
    coded : bool
        Whether a teacher's code opened it: then its number is for nobody to read, who has a list of them.

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
        live: bool = False,
    ):
        if isinstance(seed, bool) or not isinstance(seed, int) or not 0 <= seed < share_code.SEEDS:
            raise ValueError(f"seed: {excerpt(seed)} is not a whole number from 0 to {share_code.SEEDS - 1}")
        kind = kind_of(fault) if isinstance(fault, Fault) else fault
        if fault is not None and kind not in causes_of(lamp):
            raise ValueError(f"fault: {excerpt(kind)} cannot happen to the {lamp.name}")
        self.lamp, self.seed, self.live, self.meters = lamp, seed, bool(live), meters or Meters()
        self._drawn, self.coded = fault is None, False
        self._hidden = HiddenFault(lamp, seed, self._draw() if self._drawn else kind, self.meters)
        self.steps, self.claims, self.score = [], [], None
        self._help_requests = set()  # after how many measurements help was asked for

    def __repr__(self) -> str:
        return (
            f"<Hunt {self.code} in {self.lamp.name!r}: {len(self.steps)} measurements, cost {self.cost:g}, danger"
            f" {self.danger:g}{', over' * self.over}>"
        )

    @classmethod
    def from_code(cls, lamp: Lamp, code: str, meters: Meters | None = None) -> Hunt:
        """The hunt that a teacher's code stands for; ValueError in words if it stands for none of this lamp's."""
        seed, kind, drawn, live = share_code.decode(lamp, code)
        hunt = cls(lamp, seed, None if drawn else kind, meters, live)
        hunt.coded = True
        return hunt

    @property
    def code(self) -> str:
        """A short text for a class: the same lamp and code give the same hunt, and do not show the fault."""
        return share_code.encode(self.lamp, self.seed, self._hidden.kind, self._drawn, self.live)

    @property
    def evidence(self) -> Evidence:
        """What has been read so far."""
        return Evidence(**{name: value for step in self.steps for name, value in step.readings.items()})

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

    def choices(self) -> tuple[Measurement, ...]:
        """What can still be measured."""
        done = {step.key for step in self.steps}
        return tuple(item for item in measurements_for(self.lamp, self.live) if item.key not in done)

    def suspects(self) -> tuple[tuple[str, tuple], ...]:
        """What can be named: (words, name) by cause, without amounts; the healthy lamp is none of them."""
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
        measurement = measurement_named(key)
        if measurement not in self.choices():
            why = measurement.why_not(self.lamp) or (
                "it has been done" if any(step.key == key for step in self.steps) else "live measurements are declined"
            )
            raise ValueError(f"measurement: {measurement.words}: {why}")
        readings = self._hidden.read(key)
        values = ", ".join(_reading_words(name, value, self.meters) for name, value in readings.items())
        step = Step(key, readings, f"{measurement.words[0].upper()}{measurement.words[1:]}: {values}.")
        self.steps.append(step)
        return step

    def diagnosis(self) -> Diagnosis:
        """What the readings and the wrong names so far say."""
        return _diagnosis(self.lamp, self.evidence, self.meters, self.live, self._wrong_claims())

    def previous_diagnosis(self) -> Diagnosis:
        """What the readings said before the last measurement, as a `Diagnosis`."""
        earlier = {name: value for step in self.steps[:-1] for name, value in step.readings.items()}
        return _diagnosis(self.lamp, Evidence(**earlier), self.meters, self.live, self._wrong_claims())

    def odds(self) -> Diagnosis:
        """What `posterior` gives, asked for as help: it costs points, once for each measurement."""
        if not self.over:
            self._help_requests.add(len(self.steps))
        return self.diagnosis()

    def hint(self) -> str:
        """What to measure next, and why, in a sentence; the fault itself is not looked at. Costs points."""
        advice = self.odds().next
        if advice is None:
            return "Nothing left would tell much more. Name the part."
        measurement = advice.measurement
        words = f"{measurement.words[0].upper()}{measurement.words[1:]}"
        return f"{words}: of what is left it tells most for its cost of {measurement.cost:g} ({measurement.danger})."

    def name_part(self, fault: Fault | tuple) -> Score:
        """Name the part that is at fault, and how; the amount does not count.

        Parameters
        ----------
        fault
            A fault, or its name as in `WEIGHTS`.

        Raises
        ------
        ValueError
            If the lamp cannot have it, or the hunt is over.
        """
        if self.over:
            raise ValueError("part: the hunt is over; start a new one")
        kind = kind_of(fault) if isinstance(fault, Fault) else fault
        if kind is None or kind not in causes_of(self.lamp):
            raise ValueError(f"part: {excerpt(kind)} cannot happen to the {self.lamp.name}")
        rivals = rivals_of(self.diagnosis().posterior, kind)
        self.claims.append(kind)
        score = self._score(kind == self._hidden.kind, rivals)
        if score.right:
            self.score = score
            return score
        more = f"It is not {cause_words(kind)}. {WRONG} points are gone; go on measuring."
        return dataclasses.replace(score, words=more)

    def give_up(self) -> Score:
        """Show the fault; the score is 0."""
        self.score = self._score(False)
        return self.score

    def answer(self) -> str | None:
        """The hidden fault in words, with its amount; ValueError before the hunt is over."""
        if not self.over:
            raise ValueError("answer: it is shown once the hunt is over")
        return cause_words(self._hidden.kind, self._hidden.amount)

    def fault(self) -> Fault:
        """The hidden fault with its amount; ValueError before the hunt is over."""
        if not self.over:
            raise ValueError("fault: it is shown once the hunt is over")
        return fault_of(self._hidden.kind, self._hidden.amount)

    def record(self) -> tuple[str, ...]:
        """What was done, in sentences."""
        sentences = [step.words for step in self.steps]
        sentences += [f"Named wrongly: {cause_words(kind)}." for kind in self._wrong_claims()]
        return (*sentences, *([self.score.words] if self.over else []))

    def best_way(self) -> tuple[str, ...]:
        """The best way through this hunt, as keys of `MEASUREMENTS`.

        It does not know the fault: each step is what is expected to tell most for its cost, the safer first, until
        one cause holds 95 % and the readings fit no other as well.
        """
        return best_way(self._hidden, self.live)

    def _draw(self):
        weights = weights_for(self.lamp, HUNT_WEIGHTS)
        kinds = list(weights)
        return kinds[np.random.default_rng([self.seed, 0]).choice(len(kinds), p=list(weights.values()))]

    def _wrong_claims(self):
        return tuple(kind for kind in self.claims if kind != self._hidden.kind)

    def _score(self, right, rivals=()):
        wrong = len(self._wrong_claims())
        keys = [step.key for step in self.steps]
        return score_of(self._hidden, self.live, keys, wrong, right, rivals, len(self._help_requests))


@functools.lru_cache(maxsize=64)
def _diagnosis(lamp, evidence, meters, live, cleared) -> Diagnosis:
    return diagnose(lamp, evidence, meters, HUNT_WEIGHTS | dict.fromkeys(cleared, 0.0), live)


def _reading_words(name, value, meters):
    return f"{NAMES[name]}{':' * isinstance(value, str)} {reading_words(name, value, meters)}"
