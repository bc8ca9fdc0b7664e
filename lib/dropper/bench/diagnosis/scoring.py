"""Scoring: a hunt against the best way that knows nothing, in cost and in danger."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.fields import about, documented
from .evidence import Evidence
from .information import next_measurement
from .measurements import measurement_named
from .posterior import posterior_of
from .prior import HUNT_WEIGHTS
from .separation import rivals_of
from .wording import cause_words

if TYPE_CHECKING:
    from .hidden_fault import HiddenFault

# What a step counts in danger, by its class; points taken for a wrong name, for each unit of danger that the best way
# did without, for a guess that happens to be right, for help. Our own rules.
DANGERS = (0, 0, 1, 3)
WRONG, _DANGER, _LUCK, _HELP = 25, 8, 50, 5
_MOST_STEPS = 12
_MOST_NAMED = 3  # rivals that are named
SURE = 0.95  # from here on the best way names the part, if the readings fit no other


@documented
@dataclass(frozen=True)
class Score:
    """What naming a part comes to."""

    right: bool
    points: int = about("0 to 100.")
    cost: float = about("Of the measurements taken.")
    danger: float = about("Of the measurements taken.")
    best_cost: float = about("Of the best way: always what is expected to tell most for its cost, the safer first.")
    best_danger: float = about("Of the same way.")
    words: str

    def __repr__(self) -> str:
        verdict = "right" if self.right else "wrong"
        return f"<Score: {verdict}, {self.points} points, cost {self.cost:g}, danger {self.danger:g}>"


def cost_of(keys: Iterable[str]) -> float:
    """Time and trouble of some measurements."""
    return sum(measurement_named(key).cost for key in keys)


def danger_of(keys: Iterable[str]) -> float:
    """Danger of some measurements, by `DANGERS`."""
    return sum(DANGERS[measurement_named(key).hazard] for key in keys)


@functools.lru_cache(maxsize=64)
def best_way(hidden: HiddenFault, live: bool) -> tuple[str, ...]:
    """The best way through a hunt that does not know the fault.

    Each step is what is expected to tell most for its cost, the safer first, until one cause holds 95 % and the
    readings fit no other as well.

    Returns
    -------
    tuple of str
        Keys of `MEASUREMENTS`.
    """
    evidence, way = Evidence(), []
    for _ in range(_MOST_STEPS):
        posterior = posterior_of(hidden.lamp, evidence, hidden.meters, HUNT_WEIGHTS)
        first, chance = next(iter(posterior.causes().items()))
        if chance >= SURE and not rivals_of(posterior, first):
            break
        gain = next_measurement(posterior, live)
        if gain is None:
            break
        way.append(gain.measurement.key)
        evidence = evidence.replace(**hidden.read(gain.measurement.key))
    return tuple(way)


def score_of(
    hidden: HiddenFault,
    live: bool,
    keys: Sequence[str],
    wrong: int,
    right: bool,
    rivals: Sequence[tuple] = (),
    help_count: int = 0,
) -> Score:
    """What naming a part comes to.

    Parameters
    ----------
    keys
        Of the measurements taken.
    wrong
        Names that were wrong.
    rivals
        Other causes that what was read fits as well, the most probable first: as long as there are any, a name is a
        guess, however common the part's fault is.
    help_count
        How often help was asked for.
    """
    best = best_way(hidden, live)
    cost, danger, best_cost, best_danger = cost_of(keys), danger_of(keys), cost_of(best), danger_of(best)
    economy = min(1.0, best_cost / cost) if cost > 0 else 1.0
    guessed = bool(rivals)
    deduction = WRONG * wrong + _HELP * help_count + _DANGER * max(danger - best_danger, 0)
    points = max(0, round((100 - _LUCK * guessed) * economy - deduction)) if right else 0
    way = "; ".join(measurement_named(key).words for key in best) or "to name the part at once"
    fault = cause_words(hidden.kind, hidden.amount)
    if right:
        count = "1 measurement" if len(keys) == 1 else f"{len(keys)} measurements"
        words = f"Found: {fault}. {points} points: {count} of cost {cost:g} and danger {danger:g}"
        words += f", {wrong} wrong name{'s' * (wrong > 1)}" * (wrong > 0)
        words += f", help {help_count} time{'s' * (help_count > 1)}" * (help_count > 0)
        words += f"; {_guess_words(keys, rivals)}" * guessed
        words += f". The best way that knows nothing costs {best_cost:g}: {way}."
    else:
        words = f"It was {fault}. The best way that knows nothing: {way}."
    return Score(right, points, cost, danger, best_cost, best_danger, words)


def _guess_words(keys, rivals):
    if not keys:
        return "a guess, for nothing was read"
    named = [cause_words(kind) for kind in rivals[:_MOST_NAMED]]
    more = f" and {len(rivals) - len(named)} more" if len(rivals) > len(named) else ""
    fit = "both" if len(rivals) == 1 else "them all"
    return (
        f"a guess, for what was read does not tell it from {', '.join(named)}{more}: the readings fit {fit}, the odds"
        " come from how common each is"
    )
