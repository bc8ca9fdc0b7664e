"""Parts table: what each part of a lamp must stand and the kind it needs, a row a part; and the faults beyond it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.fields import about, documented
from ...circuit.html import Markup, joined, table, tag
from ...circuit.parts import BY_KEY
from ...circuit.values import show, unbroken
from ...design.ratings import QUANTITIES, RatingsTable, ratings
from ...design.ratings.placement import name_of

if TYPE_CHECKING:
    from ...circuit.lamp import Lamp

_LEFT = 'style="text-align:left;white-space:normal;overflow-wrap:anywhere"'
_WIDE = "width:100%;max-width:none;margin:0 0 12px"
_WITH_REMARK = ("inrush_resistor", "dropper")  # those of which more is asked than volts and watts


@documented
@dataclass(frozen=True)
class PartsTable:
    """A lamp's ratings as a page shows them."""

    ratings: RatingsTable
    fitted: Mapping = about("kinds that somebody has chosen, by the part's key; those over a limit are shown")

    def _repr_html_(self) -> Markup:
        """The parts, or of chosen ones those that are too weak; then the faults that no part is chosen for."""
        return self._too_weak() if self.fitted else joined(self._parts(), self._beyond())

    def _parts(self):
        heads = ("part", "worst case", "volts or watts", "needed kind")
        rows = [
            (_name(rating), _case(rating.tightest), _stress(rating.tightest), _needed(rating, rating.kind))
            for rating in self.ratings.parts
        ]
        caption = f"What each part of the {self.ratings.lamp.name} must stand, with the mains at its upper limit"
        return _table(f"{caption}, {self._limit}", heads, rows)

    def _too_weak(self):
        heads = ("part", "fitted", "stands", "must stand", "worst case", "needed kind")
        rows = []
        for rating in self.ratings.over:
            check = rating.tightest
            fitted, needed = name_of(rating.kind), _needed(rating, rating.next_up)
            rows.append((_name(rating), fitted, check.limit_text, check.worst.text, _case(check), needed))
        return _table(f"Parts that are too weak, with the mains at {self._limit}", heads, rows)

    def _beyond(self):
        rows = []
        for text in self.ratings.beyond:
            fault, _, rest = text.partition(": ")
            rows.append((fault, rest.partition(". ")[2].partition(" Something must open")[0]))
        heads = ("fault", "what it asks")
        caption = f"Faults that no part is chosen for, with the mains at {self._limit}: something must open the line"
        return _table(caption, heads, rows)

    @property
    def _limit(self):
        return show(self.ratings.upper, "V", 4)


def parts_table(lamp: Lamp, fitted: Mapping[str, str] | None = None) -> PartsTable:
    """What each part must stand; of kinds that are fitted, those that are too weak.

    Parameters
    ----------
    fitted
        As `ratings` takes it.
    """
    return PartsTable(ratings(lamp, dict(fitted) if fitted else None), fitted or {})


def _table(caption, heads, rows):
    rows = [[unbroken(text) for text in row] for row in rows]
    columns = dict.fromkeys(range(len(heads)), _LEFT)
    return tag(
        "div", table(caption, heads, rows, css="dropper-table", style=_WIDE, columns=columns), css="dropper-wide"
    )


def _name(rating):
    part = BY_KEY[rating.part]
    return f"{part.symbol}, {part.name}"


def _case(check):
    words = check.worst.circumstance.words
    return words[:1].upper() + words[1:]


def _stress(check):
    return f"{check.worst.text}, {QUANTITIES[check.quantity][0]}"


def _needed(rating, kind):
    words = "as its data sheet says" if kind is None else name_of(kind)
    return f"{words}. {rating.remark}" if rating.part in _WITH_REMARK and rating.remark else words
