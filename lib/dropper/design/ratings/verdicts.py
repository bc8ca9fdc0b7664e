"""Verdicts: a part's stresses against what its kind allows: limits, margins, verdicts."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ...components.kinds import Chain, Kind, LedKind
from ...components.kinds.rating import Use
from .placement import allowed, name_of
from .stress import QUANTITIES, PartStress

WITHIN, LITTLE, OVER, ASK, UNKNOWN = "within", "little margin", "over", "ask the data sheet", "no rating kept"
PULSES = ("pulse_energy", "pulse_voltage")  # a data sheet gives a curve for them, no one number
# Told from each other by shape.
SIGNS = {WITHIN: "✓", LITTLE: "△", OVER: "✗", ASK: "?", UNKNOWN: "–"}
_GRACE = 1 + 1e-9
_AS_GOOD_AS = 0.998  # of two that are so near each other the plainer circumstance is named, which comes first


@documented
@dataclass(frozen=True)
class Check:
    """One quantity of one part: the worst that was found, and what is allowed."""

    normal: PartStress | None = about("the same in normal use; None for what happens at plug-in only")
    worst: PartStress = about(
        "the one that asks most of the part: of those above the limit the largest, else the one that needs "
        "the largest limit"
    )
    limit: float | None = about("None where no rating is kept", "SI units")
    needed: float = about("the least limit that would leave the shares in use", "SI units")
    leads: bool = about("whether a family of kinds goes up by this limit", default=True)

    def __repr__(self) -> str:
        return f"<Check {QUANTITIES[self.quantity][0]}: {self.worst.text}, limit {self.limit_text}, {self.verdict}>"

    @property
    def quantity(self) -> str:
        """One of `QUANTITIES`."""
        return self.worst.quantity

    @property
    def verdict(self) -> str:
        """One of `SIGNS`."""
        if self.limit is None:
            return ASK if self.quantity in PULSES and self.worst.value > 0 else UNKNOWN
        if self.worst.value > self.limit * _GRACE:
            return OVER
        return LITTLE if self.needed > self.limit * _GRACE else WITHIN

    @property
    def sign(self) -> str:
        """The verdict as a sign of its own shape."""
        return SIGNS[self.verdict]

    @property
    def margin(self) -> float:
        """The limit over the worst stress; nan where no rating is kept."""
        if self.limit is None:
            return math.nan
        return self.limit / self.worst.value if self.worst.value > 0 else math.inf

    @property
    def use(self) -> float:
        """How much of what is allowed is needed; 0 where no rating is kept."""
        return self.needed / self.limit if self.limit else 0.0

    @property
    def limit_text(self) -> str:
        """The limit as people write it; "–" where none is kept."""
        return show_reading(math.nan if self.limit is None else self.limit, self.worst.unit)


@documented
@dataclass(frozen=True)
class PartRating:
    """A part, its stresses, and the kind that is fitted or proposed."""

    part: str = about("a key of `parts.BY_KEY`")
    kind: Chain | Kind | LedKind | None = about(
        "what is fitted, or the least that would pass; where none passes, the largest of the family; None "
        "where no kind is known"
    )
    origin: str = about('"fitted", "proposed", "none passes", or "not given" for LEDs whose kind is not given')
    checks: tuple = about("one for each quantity")
    next_up: Chain | Kind | None = about("the least kind that would pass; None where none that is kept here does")
    remark: str = about('a further sentence, or ""', default="")

    def __repr__(self) -> str:
        kind = "no kind" if self.kind is None else name_of(self.kind)
        return f"<PartRating {self.part}: {kind}, {self.origin}, {self.verdict}>"

    def check(self, quantity: str) -> Check:
        """The check of one quantity, one of `QUANTITIES`; KeyError where that is not asked of the part."""
        for check in self.checks:
            if check.quantity == quantity:
                return check
        there = ", ".join(check.quantity for check in self.checks)
        raise KeyError(f"{excerpt(quantity)} is not asked of {excerpt(self.part)}; there are {there}")

    @cached_property
    def tightest(self) -> Check:
        """The check that decides; where no rating is kept, the first.

        A pulse that only a data sheet can judge decides where all else is within.
        """
        if self.kind is None:  # all that is judged without one is the rush
            return next((check for check in self.checks if check.verdict == OVER), self.checks[0])
        pulses = {check.quantity: check for check in self.checks if check.verdict == ASK}
        if pulses and passes(self.checks):
            return pulses.get("pulse_energy") or pulses["pulse_voltage"]
        return max(self.checks, key=lambda check: (check.verdict == OVER, check.leads, check.use))

    @property
    def limit(self) -> float | None:
        """The limit that decides; None where none is kept."""
        return self.tightest.limit

    @property
    def margin(self) -> float:
        """The deciding limit over its worst stress; nan where no rating is kept."""
        return self.tightest.margin

    @property
    def verdict(self) -> str:
        """One of `SIGNS`, of all that could be judged."""
        return self.tightest.verdict

    @property
    def sign(self) -> str:
        """The verdict as a sign of its own shape."""
        return SIGNS[self.verdict]

    @property
    def unjudged(self) -> tuple[Check, ...]:
        """The checks for which no rating is kept."""
        return tuple(check for check in self.checks if check.limit is None)

    @property
    def sentence(self) -> str:
        """All of it in words."""
        from .wording import part_sentence

        return part_sentence(self)


def checks_of(
    lamp: Lamp, part: str, kind: Chain | Kind | LedKind | None, stresses: Sequence[PartStress], use: Use
) -> tuple[Check, ...]:
    """Every quantity of a part against one kind.

    Parameters
    ----------
    stresses
        Of this part.
    """
    checks = []
    for quantity in QUANTITIES:
        rows = [stress for stress in stresses if stress.quantity == quantity and stress.counted]
        if not rows:
            continue
        rule = allowed(lamp, part, kind, quantity, use)
        share = 1.0 if rule is None else rule.share
        needs = [stress.value / (share if stress.circumstance.lasting else 1.0) for stress in rows]
        worst = next(row for row, need in zip(rows, needs, strict=True) if need >= _AS_GOOD_AS * max(needs))
        largest = max(rows, key=lambda stress: stress.value)
        if rule is None or largest.value > rule.limit * _GRACE:
            worst = largest
        normal = next((stress for stress in rows if stress.circumstance.when == "normal"), None)
        limit = None if rule is None else float(rule.limit)
        checks.append(Check(normal, worst, limit, max(needs), rule is not None and bool(rule.rating)))
    return tuple(checks)


def passes(checks: Sequence[Check]) -> bool:
    """Whether nothing that can be judged is over or has little margin."""
    return all(check.verdict in (WITHIN, ASK, UNKNOWN) for check in checks)
