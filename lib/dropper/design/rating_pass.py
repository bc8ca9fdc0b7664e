"""Rating pass: the least kind that each part of a sizing has to be, and what the next smaller one would fail."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from .. import theory
from ..circuit.parts import fitted_parts
from ..circuit.values import show_reading
from ..components import kinds
from ..components.kinds import CARBON_FILM, COMMON_USE, Chain, Kind, LedKind
from ..components.kinds.rating import Use
from .corner_stresses import corner_stresses
from .ratings import QUANTITIES, Check, PartRating, RatingsTable
from .ratings.placement import families
from .ratings.selection import least
from .ratings.stress import PartStress
from .ratings.table import RATED
from .ratings.verdicts import OVER, WITHIN, checks_of, passes
from .ratings.wording import FUSIBLE, SERIES, beyond_sentence, led_rush_sentence
from .sizing import Sizing


def rate(sizing: Sizing, air: float) -> RatingsTable:
    """Every part with the least kind that stands it all; a part's kind is None where there is none.

    Parameters
    ----------
    air
        °C, inside the lamp.
    """
    lamp, supply, rows, use = sizing.lamp, sizing.brief.supply, corner_stresses(sizing), use_at(air)
    keys = [part.key for part in fitted_parts(lamp) if part.key in RATED]
    parts = tuple(_rating(sizing, part, [stress for stress in rows if stress.part == part], use) for part in keys)
    faults = dict.fromkeys(stress.circumstance.fault for stress in rows if not stress.circumstance.counted)
    beyond = [
        beyond_sentence(fault.words(lamp), [stress for stress in rows if stress.circumstance.fault == fault])
        for fault in faults
    ]
    beyond = tuple(filter(None, [*beyond, led_rush_sentence(rows)]))
    return RatingsTable(lamp, supply.high, f"{supply.place}: {supply.source}", parts, beyond, rows, use)


def use_at(air: float) -> Use:
    """Shares of the ratings that are used: those of common practice, resistors derated in warm air.

    Parameters
    ----------
    air
        °C, inside the lamp.
    """
    resistor = CARBON_FILM[0]
    share = theory.derated_share(
        temperature=air, full_power_temperature=resistor.full_power_to, no_power_temperature=resistor.no_power_from
    )
    return dataclasses.replace(COMMON_USE, power=max(share, 1e-2) * COMMON_USE.power)


def _rating(sizing, part, rows, use):
    kind = _least_kind(sizing, part, rows, use)
    remark = {"inrush_resistor": FUSIBLE, "dropper": SERIES}.get(part, "")
    checks = checks_of(sizing.lamp, part, kind, rows, use)
    return PartRating(part, kind, "fitted" if part == "leds" else "proposed", checks, kind, remark)


def _least_kind(sizing, part, rows, use):
    """The least kind that stands what its part is asked to; None where none that is kept here does."""
    if part == "leds":
        return sizing.brief.led_kind
    if part not in sizing.pieces:
        return least(sizing.lamp, part, rows, use)
    chains = (Chain(kind, *sizing.pieces[part]) for kind in CARBON_FILM)
    return next((chain for chain in chains if passes(checks_of(sizing.lamp, part, chain, rows, use))), None)


def kind_below(sizing: Sizing, ratings: RatingsTable, rating: PartRating) -> tuple[Kind, Check] | None:
    """The next smaller kind of a part's family, and the check that it fails; None for the smallest, or for LEDs."""
    part, kind = rating.part, rating.kind
    single = kind.part if isinstance(kind, Chain) else kind
    for family in families(sizing.lamp, part):
        members = kinds.FAMILIES[family]
        if single in members and members.index(single) > 0:
            lower = members[members.index(single) - 1]
            placed = Chain(lower, kind.count, kind.resistance_each) if isinstance(kind, Chain) else lower
            checks = failed_checks(sizing, ratings, part, placed)
            if checks:
                return lower, checks[0]
    return None


def failed_checks(sizing: Sizing, ratings: RatingsTable, part: str, kind: Chain | Kind | LedKind) -> list[Check]:
    """The checks that a kind does not pass in the place of a part, the worst first."""
    if isinstance(kind, kinds.Resistor):
        kind = Chain(kind, *sizing.pieces.get(part, (1, getattr(sizing.lamp, part))))
    checks = [
        check
        for check in checks_of(sizing.lamp, part, kind, ratings.stresses_of(part), ratings.use)
        if check.limit is not None and check.verdict != WITHIN
    ]
    return sorted(checks, key=lambda check: (check.verdict == OVER, check.use), reverse=True)


def greatest_stress(rating: PartRating, rows: Sequence[PartStress]) -> PartStress:
    """The greatest that was found of the quantity that decides, of what parts are chosen for.

    Parameters
    ----------
    rows
        Of this part, or of all.
    """
    key = rating.part, rating.tightest.quantity
    counted = [row for row in rows if (row.part, row.quantity) == key and row.counted]
    return max(counted, key=lambda row: row.value)


def check_words(check: Check) -> str:
    """A check that failed, as a clause."""
    needed = show_reading(check.worst.value if check.verdict == OVER else check.needed, check.worst.unit)
    share = "" if check.verdict == OVER else " with the margin that is kept in use that lasts"
    return f"{QUANTITIES[check.quantity][0]} {needed}{share}, allowed is {check.limit_text}"
