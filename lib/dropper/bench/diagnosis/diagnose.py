"""Diagnosis: causes by probability, what cannot be told apart, what to measure next."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...circuit.html import joined, table, tag
from ...circuit.lamp import Lamp
from ...solver.transient import Fault
from ..meter import agreement
from .confirmation import confirmation_of
from .evidence import Evidence
from .information import InformationGain, information_gains, recommendation, riskier_alternative
from .meters import Meters
from .posterior import Posterior, posterior_of
from .prior import fault_of, kind_of
from .separation import ALIKE, best_likelihood, rivals_of
from .wording import cause_words, percent, why

# From these probabilities on a cause is called found, or likely; the three most probable must hold CLAIM_FROM together,
# or nothing is claimed. Of readings that nothing explains the rest is said.
FOUND_FROM, LIKELY_FROM, CLAIM_FROM, UNKNOWN_MOST = 0.95, 0.5, 0.95, 0.5
_LEAST, _MENTIONED, _IN_TABLE = 1e-3, 0.03, 0.02
_NAMED = 4  # of causes that readings do not tell apart


@documented
@dataclass(frozen=True)
class Cause:
    """One cause, and how probable it is."""

    kind: tuple | None = about("Its name in `WEIGHTS`; None is the healthy lamp.")
    fault: Fault | None = about("With the estimate of its amount.")
    words: str
    probability: float
    amount: tuple | None = about("Median of the amount, and the ends of its middle nine tenths.")
    why: str = about("Which readings speak for it and which against, in a sentence.")

    def __repr__(self) -> str:
        return f"<Cause: {percent(self.probability)} {self.words}>"


@documented
@dataclass(frozen=True, eq=False)
class Diagnosis:
    """What a set of readings says of a lamp."""

    causes: tuple = about("The most probable first; what is below a thousandth is left out.")
    alike: tuple = about("Groups of causes, by name, that these readings do not tell apart.")
    unknown: float = about("Probability that it is none of them, or that the readings contradict one another.")
    word: str = about('"found", "likely", "among three", "cannot tell", or "contradictory".')
    verdict: str = about("All of it in a few sentences.")
    next: InformationGain | None = about("What to measure next; None where nothing left would tell more.")
    posterior: Posterior

    def __repr__(self) -> str:
        causes = "; ".join(f"{percent(cause.probability)} {cause.words}" for cause in self.causes[:3])
        return f"<Diagnosis of {self.posterior.table.lamp.name!r}, {self.word}: {causes}>"

    def _repr_html_(self) -> str:
        """A table of causes with what speaks for each, and the verdict with what to measure next."""
        causes = [cause for cause in self.causes if cause.probability >= _IN_TABLE]
        rows = [(cause.words, percent(cause.probability), cause.why) for cause in causes]
        rows.append(
            ("none of them", percent(self.unknown), "More than one fault, or readings that contradict one another.")
        )
        caption = f"{self.posterior.table.lamp.name}, {self.word}"
        return joined(table(caption, ("cause", "probability", "readings"), rows), tag("p", self.verdict))

    @property
    def cannot_tell(self) -> bool:
        """Whether nothing is claimed: three causes together do not hold 95 %, or the readings fit none."""
        return self.word in ("cannot tell", "contradictory")

    def probability(self, fault: Fault | None) -> float:
        """Probability of a fault's cause whatever its amount; None asks for the healthy lamp."""
        return self.posterior.causes().get(kind_of(fault), 0.0)


def diagnose(
    lamp: Lamp,
    evidence: Evidence | None = None,
    meters: Meters | None = None,
    priors: dict | None = None,
    live: bool = True,
) -> Diagnosis:
    """From readings to causes, their probabilities, and what to measure next.

    Parameters
    ----------
    lamp
        As it is when healthy.
    evidence
        What was read; nothing gives the causes as they are usually met.
    meters
        Whose digits and errors count; typical ones unless given.
    priors
        Other weights for some causes; keyed as `WEIGHTS`, each 0 to 1e6.
    live
        False: no measurement on live parts is proposed.

    Raises
    ------
    ValueError
        If a prior is not allowed.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> from dropper.bench.diagnosis import Evidence
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> diagnosis = diagnose(lamp, Evidence(voltage=230, current=0.011, power=0.6, power_factor=0.25))
    >>> diagnosis.causes[0].kind, diagnosis.word
    (('lost', 'dropper'), 'found')
    """
    return diagnosis_of(posterior_of(lamp, evidence, meters, priors), live)


def diagnosis_of(posterior: Posterior, live: bool = True) -> Diagnosis:
    """The diagnosis that a posterior gives."""
    listed = [(kind, chance) for kind, chance in posterior.causes().items() if chance >= _LEAST]
    causes = tuple(_cause(posterior, kind, chance) for kind, chance in listed)
    rivals = rivals_of(posterior, causes[0].kind) if causes else ()
    word = _word(causes, posterior.unknown, rivals)
    alike = _alike(
        posterior, [kind for kind, chance in posterior.causes().items() if chance >= _MENTIONED or kind in rivals]
    )
    sure = word == "found" and causes[0].probability > 0.99
    gains = () if sure or word == "contradictory" else information_gains(posterior, live)
    step = recommendation(gains)
    verdict = _verdict(posterior, causes, word, alike, step, riskier_alternative(gains, step))
    return Diagnosis(causes, alike, posterior.unknown, word, verdict, step, posterior)


def _cause(posterior, kind, chance):
    amount = posterior.amount(kind)
    estimate = amount and (float(round(amount[0])) if kind == ("short", "groups") else amount[0])
    return Cause(kind, fault_of(kind, estimate), cause_words(kind, amount), chance, amount, why(posterior, kind))


def is_conclusive(probabilities: Sequence[float], unknown: float) -> bool:
    """Whether anything is claimed: three causes together hold 95 % of what is known, and something is.

    Parameters
    ----------
    probabilities
        Of the causes, the most probable first.
    unknown
        Probability of none of them.
    """
    return unknown <= UNKNOWN_MOST and sum(probabilities[:3]) >= CLAIM_FROM * (1 - unknown)


def _word(causes, unknown, rivals):
    """What the probabilities are called; nothing is found that has its lead from its prior alone."""
    if unknown > UNKNOWN_MOST or not causes:
        return "contradictory"
    if not is_conclusive([cause.probability for cause in causes], unknown):
        return "cannot tell"
    if causes[0].probability >= FOUND_FROM and not rivals:
        return "found"
    return "likely" if causes[0].probability >= LIKELY_FROM else "among three"


def _alike(posterior, kinds):
    """Groups of causes, the more probable first, that the readings fit alike: as a whole, or at their best amounts."""
    causes = posterior.causes()
    best = {kind: best_likelihood(posterior, kind) for kind in kinds}
    whole = {kind: math.log(causes[kind] / posterior.prior[kind]) for kind in kinds}
    groups, left = [], list(kinds)
    while left:
        first = left[0]
        group = tuple(
            kind
            for kind in left
            if abs(whole[first] - whole[kind]) < ALIKE or best[kind] > best[first] - ALIKE or kind == first
        )
        left = [kind for kind in left if kind not in group]
        if len(group) > 1:
            groups.append(group)
    return tuple(groups)


def _verdict(posterior, causes, word, alike, step, risk):
    if word == "contradictory":
        meter = agreement(posterior.evidence, posterior.meters.plug_in)
        why_not = f" {meter.words}" if meter.agrees is False else ""
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
    if posterior.evidence.reading_names():
        for group in alike:
            words = [cause_words(kind, posterior.amount(kind)) for kind in group[:_NAMED]]
            words += [f"{len(group) - _NAMED} more"] if len(group) > _NAMED else []
            fit = "fit both" if len(group) == 2 else f"fit all {len(group)}"
            parts.append(
                f"What was read does not tell these apart: {'; '.join(words)}. The readings {fit}; the odds between"
                " them come from how common each is."
            )
    confirming = confirmation_of(causes[0].kind, posterior.evidence) if word == "found" else None
    if confirming and confirming != (step and step.measurement):
        parts.append(f"Before a part is changed, with the plug out and the capacitors empty: {confirming.words}.")
    if step:
        parts.append(f"Next: {step.measurement.words} (cost {step.measurement.cost:g}; {step.measurement.danger}).")
    if risk:
        parts.append(
            f"More would be told by this: {risk.measurement.words} (cost {risk.measurement.cost:g};"
            f" {risk.measurement.danger})."
        )
    return " ".join(parts)


def _listed(causes):
    words = [f"{cause.words} ({percent(cause.probability)})" for cause in causes]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
