"""Stresses of every part over the corners of a design, and the least kinds that stand them all."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from .. import theory
from ..circuit.lamp import Lamp, Led, LedString, replace_at
from ..circuit.parts import fitted_parts
from ..circuit.series import preferred
from ..circuit.values import show_reading
from ..components import kinds
from ..components.kinds import CARBON_FILM, COMMON_USE, Chain
from ..components.kinds.rating import Use
from ..solver.transient import Fault, faults_of
from .corners import bright, tall
from .ratings import QUANTITIES, Circumstance, PartRating, RatingsTable, stresses
from .ratings.placement import families
from .ratings.selection import least
from .ratings.stress import StressFound
from .ratings.table import RATED
from .ratings.verdicts import OVER, WITHIN, checks_of, passes
from .ratings.wording import FUSIBLE, SERIES, beyond_sentence

if TYPE_CHECKING:
    from .sizing import Draft

_TALL_FAULTS = (Fault("open", "D1"), Fault("open", "string"))
_STRING_OPEN = Fault("open", "string")
_MOST_CLAMPED = 50.0  # V, of one junction that stands for a clamp
BRIGHT, TALL = "bright corner", "tall corner"  # of `corners`


def found(draft: Draft) -> tuple[StressFound, ...]:
    """Every stress of every part: in normal use at nominal values, all else with values and mains at their ends."""
    brief, lamp, high = draft.brief, draft.lamp, draft.brief.supply.high
    large = bright(brief, lamp)
    slack = replace_at(tall(brief, lamp), "smoothing", (1 - brief.smoothing_tolerance) * lamp.smoothing)
    faults = faults_of(large)
    if draft.clamp is not None:
        faults = tuple(fault for fault in faults if fault != _STRING_OPEN)
    normal = [stress for stress in stresses(lamp, high, ()) if stress.circumstance.when == "normal"]
    rows = normal + _at(stresses(large, high, faults), BRIGHT)
    rows += _at(stresses(slack, high, tuple(fault for fault in _TALL_FAULTS if fault in faults)), TALL)
    if draft.clamp is not None:
        rows += _clamped(draft, large)
    return tuple(rows)


def _at(rows, words):
    """Stresses of a corner, the corner told in their circumstance; its normal use, at its own mains, is left out."""
    told = {stress.circumstance: None for stress in rows}
    told = {now: dataclasses.replace(now, words=f"{now.words}, {words}") for now in told}
    return [
        dataclasses.replace(stress, circumstance=told[stress.circumstance])
        for stress in rows
        if stress.circumstance.when != "normal"
    ]


def clamping(draft: Draft, lamp: Lamp) -> Lamp:
    """A lamp whose string has come off, the clamp in its place at its upper end."""
    count = math.ceil(draft.held / _MOST_CLAMPED)
    each = Led(draft.held / count, 0.01, 1.0, 12.0)
    return replace_at(lamp, "string", LedString(each, count))


def _clamped(draft, lamp):
    words = "with one fault (string open), the clamp holding the bus"
    high = clamping(draft, lamp)
    now = Circumstance("fault", words, high)
    return [
        dataclasses.replace(stress, circumstance=now)
        for stress in stresses(high, draft.brief.supply.high, ())
        if stress.circumstance.when == "upper" and stress.part != "leds"
    ]


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


def kind_of(draft: Draft, part: str, rows: tuple[StressFound, ...], use: Use):
    """The least kind that stands what its part is asked to; None where none that is kept here does.

    Parameters
    ----------
    rows
        Of this part.
    """
    if part == "leds":
        return draft.brief.led_kind
    if part not in draft.pieces:
        return least(draft.lamp, part, rows, use)
    count, each = draft.pieces[part]
    for kind in CARBON_FILM:
        made = Chain(kind, count, each)
        if passes(checks_of(draft.lamp, part, made, rows, use)):
            return made
    return None


def short_of(draft: Draft, part: str, kind, rows: tuple[StressFound, ...], use: Use) -> tuple | None:
    """The next smaller kind of the family, and the check that it fails; None for the smallest, or for LEDs.

    Parameters
    ----------
    kind : Chain or Kind
    rows
        Of this part.
    """
    single = kind.part if isinstance(kind, Chain) else kind
    for family in families(draft.lamp, part):
        members = kinds.FAMILIES[family]
        if single in members and members.index(single) > 0:
            lower = members[members.index(single) - 1]
            placed = Chain(lower, kind.count, kind.each) if isinstance(kind, Chain) else lower
            checks = failed(draft, part, placed, rows, use)
            if checks:
                return lower, checks[0]
    return None


def failed(draft: Draft, part: str, kind, rows: Sequence[StressFound], use: Use):
    """The checks that a kind does not pass in a place, the worst first.

    Parameters
    ----------
    kind : Chain or Kind
    rows
        Of this part.
    """
    if isinstance(kind, kinds.Resistor):
        kind = Chain(kind, *draft.pieces.get(part, (1, getattr(draft.lamp, part))))
    checks = [
        check
        for check in checks_of(draft.lamp, part, kind, rows, use)
        if check.limit is not None and check.verdict != WITHIN
    ]
    return sorted(checks, key=lambda check: (check.verdict == OVER, check.use), reverse=True)


def greatest(rating: PartRating, rows: Sequence[StressFound]) -> float:
    """The greatest that was found of the quantity that decides, of what parts are chosen for, SI units."""
    asked = rating.part, rating.tightest.quantity
    return max(row.value for row in rows if (row.part, row.quantity) == asked and row.circumstance.counted)


def words_of(check) -> str:
    """A check that failed, as a clause.

    Parameters
    ----------
    check : Check
    """
    needed = show_reading(check.worst.value if check.verdict == OVER else check.needed, check.worst.unit)
    share = "" if check.verdict == OVER else " with the margin that is kept in use that lasts"
    return f"{QUANTITIES[check.quantity][0]} {needed}{share}, allowed is {check.limit_text}"


def rated(draft: Draft, rows: tuple[StressFound, ...], use: Use) -> tuple[PartRating, ...]:
    """Every part with the least kind that stands it all; the kind is None where there is none."""
    made = []
    for part in (part.key for part in fitted_parts(draft.lamp) if part.key in RATED):
        own = tuple(stress for stress in rows if stress.part == part)
        kind = kind_of(draft, part, own, use)
        remark = {"inrush_resistor": FUSIBLE, "dropper": SERIES}.get(part, "")
        checks = checks_of(draft.lamp, part, kind, own, use)
        made.append(PartRating(part, kind, "fitted" if part == "leds" else "proposed", checks, kind, remark))
    return tuple(made)


def table(draft: Draft, rows: tuple[StressFound, ...], parts: tuple[PartRating, ...], use: Use) -> RatingsTable:
    """The ratings as a `RatingsTable` of the nominal lamp."""
    supply = draft.brief.supply
    faults = dict.fromkeys(stress.circumstance.fault for stress in rows if not stress.circumstance.counted)
    beyond = tuple(
        beyond_sentence(fault.words(draft.lamp), [stress for stress in rows if stress.circumstance.fault == fault])
        for fault in faults
    )
    return RatingsTable(draft.lamp, supply.high, f"{supply.place}: {supply.source}", parts, beyond, rows, use)


def next_value(series: int, value: float) -> float:
    """The next larger preferred value."""
    return next(number for number in preferred(series, value, 11 * value) if number > value * (1 + 1e-9))
