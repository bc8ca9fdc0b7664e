"""Floors: where the search for a value begins anew when no kind stands what its part is asked to."""

from __future__ import annotations

from ..components import kinds
from . import stock
from .infeasible import Infeasible, round_down
from .rating_pass import check_words, failed_checks
from .ratings import PartRating, RatingsTable
from .ratings.placement import name_of
from .sizing import Sizing

_MOST_PIECES = 12
_MOST_INRUSH = 30.0  # A
_LARGEST = {
    "inrush_resistor": kinds.FUSIBLE[-1],
    "smoothing": kinds.ELECTROLYTICS[-1],
    "dropper": kinds.X1[-1],
    "diodes": kinds.RECTIFIERS[-1],
}


def overloaded(ratings: RatingsTable) -> list[PartRating]:
    """The parts, LEDs left out, for which no kind is kept, or whose kind is over a limit or near it."""
    return [
        rating
        for rating in ratings.parts
        if rating.part != "leds" and (rating.kind is None or rating.verdict in ("over", "little margin"))
    ]


def raise_floor(sizing: Sizing, ratings: RatingsTable, rating: PartRating) -> tuple[str, float]:
    """A part and the value from where on it is to be searched for, so that a part without a kind gets one.

    Returns
    -------
    (str, float)
        Pieces of a bleeder, or F of the smoothing capacitor.

    Raises
    ------
    Infeasible
        If no such value would help.
    """
    brief, part = sizing.brief, rating.part
    if part in sizing.pieces and part not in brief.fixed and sizing.pieces[part][0] < _MOST_PIECES:
        return part, sizing.pieces[part][0] + 1
    largest = _LARGEST.get(part, kinds.FILM[-1])
    checks = [check for check in rating.checks if check.verdict in ("over", "little margin")]
    checks = checks or failed_checks(sizing, ratings, part, largest)
    ripple_only = part == "smoothing" and all(check.quantity == "ripple_current" for check in checks)
    if ripple_only and part not in brief.fixed:
        larger = stock.next_above(brief, "smoothing", sizing.lamp.smoothing)
        if larger is not None and larger <= brief.largest_smoothing * (1 + 1e-9):
            return part, larger
    failures = "; ".join(check_words(check) for check in checks)
    why = f"No {part.replace('_', ' ')} kept here would do, not even {name_of(largest)}: {failures}."
    if part in brief.fixed:
        raise Infeasible("fixed", why, brief.without_fixed(part))
    if part == "inrush_resistor" and brief.inrush < _MOST_INRUSH:
        inrush = min(_MOST_INRUSH, float(f"{1.4 * brief.inrush:.2g}"))
        raise Infeasible("inrush", why, brief.but(inrush=inrush))
    if ripple_only or part == "inrush_resistor":
        raise Infeasible("current", why, brief.but(current=round_down(0.8 * brief.current)))
    raise Infeasible("voltage", why)
