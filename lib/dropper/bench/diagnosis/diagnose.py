"""The answer: causes by probability, what cannot be told apart, what to measure next."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...solver.transient import Fault
from ..meter import agreement
from .evidence import Observed
from .information import Worth, chosen, riskier, worths
from .posterior import Belief, believe
from .prediction import Meters
from .prior import fault_of, kind_of
from .wording import cause_words, percent, why

# From these probabilities on a cause is called found, or likely; the three most probable must hold TOLD together,
# or nothing is claimed. Of readings that nothing explains the rest is said.
FOUND, LIKELY, TOLD, UNKNOWN = 0.95, 0.5, 0.95, 0.5
_SHOWN, _MENTIONED = 1e-3, 0.03
_ALIKE = math.log(6)  # one likelihood over another's, at most, where readings do not tell two causes apart


@documented
@dataclass(frozen=True)
class Cause:
    """One cause."""

    kind: tuple | None = about("Its name in `prior.WEIGHTS`; None is the healthy lamp.")
    fault: Fault | None = about("With the estimate of its amount.")
    words: str
    probability: float
    amount: tuple | None = about("Median of the amount, and the ends of its middle nine tenths.")
    why: str = about("Which readings speak for it and which against, in a sentence.")


@documented
@dataclass(frozen=True, eq=False)
class Diagnosis:
    """What a set of readings says of a lamp."""

    causes: tuple = about("The most probable first; what is below a thousandth is left out.")
    alike: tuple = about("Groups of causes, by name, that these readings do not tell apart.")
    unknown: float = about("Probability that it is none of them, or that the readings contradict one another.")
    word: str = about('"found", "likely", "among three", "cannot tell", or "contradictory".')
    verdict: str = about("All of it in a few sentences.")
    next: Worth | None = about("What to measure next; None where nothing left would tell more.")
    belief: Belief = field(repr=False)

    @property
    def cannot_tell(self) -> bool:
        """Whether nothing is claimed: three causes together do not hold 95 %, or the readings fit none."""
        return self.word in ("cannot tell", "contradictory")

    def probability(self, fault: Fault | None) -> float:
        """Probability of a fault's cause whatever its amount; None asks for the healthy lamp."""
        return self.belief.causes().get(kind_of(fault), 0.0)


def diagnose(
    lamp: Lamp,
    observed: Observed | None = None,
    meters: Meters | None = None,
    priors: dict | None = None,
    live: bool = True,
) -> Diagnosis:
    """From readings to causes, their probabilities, and what to measure next.

    Parameters
    ----------
    lamp
        As it is when healthy.
    observed
        What was read; nothing gives the causes as they are usually met.
    meters
        Whose digits and errors count; typical ones unless given.
    priors
        Other weights for some causes; see `prior.weights_for`.
    live
        False: no measurement on live parts is proposed.

    Raises
    ------
    ValueError
        If a prior is not allowed.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> from dropper.bench.diagnosis import Observed
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> found = diagnose(lamp, Observed(voltage=230, current=0.011, power=0.6, power_factor=0.25))
    >>> found.causes[0].kind, found.word
    (('lost', 'dropper'), 'found')
    """
    return of_belief(believe(lamp, observed, meters, priors), live)


def of_belief(belief: Belief, live: bool = True) -> Diagnosis:
    """The same from a belief that is there already."""
    listed = [(kind, chance) for kind, chance in belief.causes().items() if chance >= _SHOWN]
    causes = tuple(_cause(belief, kind, chance) for kind, chance in listed)
    word = _word(causes, belief.unknown)
    alike = _alike(belief, [cause.kind for cause in causes if cause.probability >= _MENTIONED])
    sure = word == "found" and causes[0].probability > 0.99
    every = () if sure or word == "contradictory" else worths(belief, live)
    step = chosen(every)
    told = _verdict(belief, causes, word, alike, step, riskier(every, step))
    return Diagnosis(causes, alike, belief.unknown, word, told, step, belief)


def _cause(belief, kind, chance):
    amount = belief.amount(kind)
    estimate = amount and (float(round(amount[0])) if kind == ("short", "groups") else amount[0])
    return Cause(kind, fault_of(kind, estimate), cause_words(kind, amount), chance, amount, why(belief, kind))


def claims(chances: Sequence[float], unknown: float) -> bool:
    """Whether anything is claimed: three causes together hold 95 % of what is known, and something is.

    Parameters
    ----------
    chances
        Of the causes, the most probable first.
    unknown
        Probability of none of them.
    """
    return unknown <= UNKNOWN and sum(chances[:3]) >= TOLD * (1 - unknown)


def _word(causes, unknown):
    if unknown > UNKNOWN or not causes:
        return "contradictory"
    if not claims([cause.probability for cause in causes], unknown):
        return "cannot tell"
    if causes[0].probability >= FOUND:
        return "found"
    return "likely" if causes[0].probability >= LIKELY else "among three"


def _alike(belief, kinds):
    """Groups of causes that explain the readings about equally well: as a whole, or at their best amounts."""
    causes = belief.causes()
    best = {kind: float(belief.likelihood[belief.best_point(kind)]) for kind in kinds}
    whole = {kind: math.log(causes[kind] / belief.prior[kind]) for kind in kinds}
    groups, left = [], sorted(kinds, key=lambda kind: -whole[kind])
    while left:
        first = left[0]
        group = tuple(
            kind for kind in left if min(abs(whole[first] - whole[kind]), abs(best[first] - best[kind])) < _ALIKE
        )
        left = [kind for kind in left if kind not in group]
        if len(group) > 1:
            groups.append(group)
    return tuple(groups)


def _verdict(belief, causes, word, alike, step, risk):
    if word == "contradictory":
        found = agreement(belief.observed, belief.meters.plug_in)
        why_not = f" {found.words}" if found.agrees is False else ""
        return (
            "No single fault explains these readings: they contradict one another, or more than one part is at"
            f" fault.{why_not} Read again, one at a time, before anything is concluded."
        )
    heads = {
        "found": f"It is {causes[0].words} ({percent(causes[0].probability)} sure).",
        "likely": f"Most likely it is {causes[0].words} ({percent(causes[0].probability)}).",
        "among three": "It is one of three: " + _listed(causes[:3]) + ".",
        "cannot tell": "These readings cannot tell. At the head stand " + _listed(causes[:3]) + ".",
    }
    parts = [heads[word]]
    if word == "likely" and causes[1:]:
        parts.append("After it: " + _listed(causes[1:3]) + ".")
    if belief.observed.taken():
        for group in alike:
            words = [cause_words(kind, belief.amount(kind)) for kind in group]
            parts.append(f"What was read does not tell these apart: {'; '.join(words)}.")
    if step:
        parts.append(f"Next: {step.act.words} (about {step.bits:.2g} bits; {step.act.danger}).")
    if risk:
        parts.append(f"More would be told by this: {risk.act.words} ({risk.bits:.2g} bits; {risk.act.danger}).")
    return " ".join(parts)


def _listed(causes):
    words = [f"{cause.words} ({percent(cause.probability)})" for cause in causes]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
