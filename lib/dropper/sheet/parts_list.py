"""Parts list of a lamp: what each part is, what it must stand and whether its kind does; and as CSV."""

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from ..circuit.fields import about, documented
from ..circuit.lamp import Lamp
from ..circuit.parts import BY_KEY, value_of
from ..circuit.values import show, show_reading
from ..components.kinds import AcrossTheMains, Chain
from ..design.ratings import QUANTITIES
from ..design.ratings.placement import name_of
from ..design.ratings.table import RatingsTable

# What each verdict means, by its word in `ratings.SIGNS`.
MEANINGS = {
    "within": "stands the worst, and what lasts keeps to its share",
    "little margin": "stands the worst, but what lasts takes more than its share",
    "over": "is asked for more than it stands; another kind belongs there",
    "ask the data sheet": "only its data sheet says whether it stands that",
    "no rating kept": "nothing kept here judges it, its data sheet does",
}
_CHOSEN = {
    "fitted": "fitted",
    "proposed": "proposed: the least kept here that passes",
    "none passes": "none kept here passes; this is the largest",
    "not given": "kind not given",
}
COLUMNS = (
    "lamp",
    "symbol",
    "part",
    "pieces",
    "value of each",
    "unit",
    "kind",
    "kind is",
    "what decides",
    "when",
    "worst found",
    "unit of worst",
    "needed rating",
    "unit of needed",
    "kind stands",
    "unit of stands",
    "stands over worst",
    "verdict",
    "in words",
)
# A spreadsheet takes a cell that begins so for a formula; the apostrophe before it says that it is text.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")


@documented
@dataclass(frozen=True)
class PartLine:
    """One part on the list; all of it text as people read it."""

    symbol: str = about("as on the drawing")
    name: str = about("as on the drawing")
    value: str = about("as on the drawing")
    short_value: str = about("value where there is little room")
    pieces: int
    piece_value: str = about("value of one piece")
    kind: str = about("kind that is fitted or proposed")
    status: str = about("which of the two it is")
    better_kind: str = about('kind to take instead of one that is fitted and does not pass; "" where there is none')
    quantity: str = about("quantity that decides")
    circumstance: str = about("circumstance in which it is greatest")
    stress: str = about("stress found in it")
    least_rating: str = about("least rating that would do")
    limit: str = about("what the kind stands")
    margin: str = about("how many times the stress that is")
    sign: str = about("sign of the verdict")
    verdict: str = about("its word, one of `MEANINGS`")
    unjudged: tuple[tuple[str, str], ...] = about(
        "quantities that no rating is kept for, and the stress that was found"
    )
    remark: str
    words: str = about("all of it in sentences")


def part_lines(table: RatingsTable, designed: bool = False) -> tuple[PartLine, ...]:
    """The parts list of a table of ratings, in the order of the current.

    Parameters
    ----------
    designed
        A design has chosen the kinds; nothing is fitted yet.
    """
    return tuple(_line(table.lamp, rating, designed) for rating in table.parts)


def _line(lamp, rating, designed):
    part, check = BY_KEY[rating.part], rating.tightest
    unit = check.worst.unit
    pieces, each = _pieces(lamp, rating)
    chained = isinstance(rating.kind, Chain) and pieces > 1
    kind = "–" if rating.kind is None else _kind_name(rating.kind)
    replace = rating.origin == "fitted" and rating.verdict in ("little margin", "over")
    better = rating.next_up if replace else None
    reported = None if check.verdict == "ask the data sheet" else check
    unjudged = [other for other in rating.unjudged if other.worst.value > 0 and other is not reported]
    return PartLine(
        symbol=part.symbol,
        name=part.name,
        value=value_of(lamp, rating.part),
        short_value=f"{pieces} × {each}" if chained else _short(lamp, rating.part),
        pieces=pieces,
        piece_value=each,
        kind=kind,
        status="chosen" if designed else _CHOSEN[rating.origin],
        better_kind="" if better is None else name_of(better),
        quantity=QUANTITIES[check.quantity][0],
        circumstance=check.worst.circumstance.words,
        stress=check.worst.text,
        least_rating=show_reading(check.needed, unit),
        limit=check.limit_text,
        margin="–" if check.limit is None or check.worst.value == 0 else f"{check.margin:.3g}",
        sign=rating.sign,
        verdict=rating.verdict,
        unjudged=tuple((QUANTITIES[other.quantity][0], other.worst.text) for other in unjudged),
        remark=rating.remark,
        words=rating.sentence.replace("that is fitted", "that is chosen") if designed else rating.sentence,
    )


def _short(lamp, part):
    if part == "diodes":
        return "4"
    if part == "leds":
        return f"{lamp.string.in_series} × {lamp.string.in_parallel}"
    return value_of(lamp, part)


def _kind_name(kind):
    if isinstance(kind, AcrossTheMains):
        return f"{kind.name}, with series use in its data sheet"
    return kind.part.name if isinstance(kind, Chain) else kind.name


def _pieces(lamp, rating):
    """How many pieces the part is made of, and the value of one."""
    if rating.part == "diodes":
        return 4, show(lamp.diode.forward_voltage, "V")
    if rating.part == "leds":
        return lamp.string.in_series * lamp.string.in_parallel, show(lamp.string.led.forward_voltage, "V")
    if isinstance(rating.kind, Chain):
        return rating.kind.count, show(rating.kind.resistance_each, "Ω")
    return 1, value_of(lamp, rating.part)


def as_csv(lamp: Lamp, lines: Sequence[PartLine]) -> str:
    """The parts list as comma-separated values after RFC 4180.

    Numbers have a decimal point and their unit in a column of its own. A text that a spreadsheet would take for a
    formula begins with an apostrophe.

    Returns
    -------
    str
        With the line ends of the RFC, CR and LF.
    """
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    for line in lines:
        row = (
            lamp.name,
            line.symbol,
            line.name,
            str(line.pieces),
            *_split(line.piece_value),
            line.kind,
            line.status,
            line.quantity,
            line.circumstance,
            *_split(line.stress),
            *_split(line.least_rating),
            *_split(line.limit),
            _number(line.margin),
            f"{line.sign} {line.verdict}",
            line.words,
        )
        writer.writerow([_text(cell) for cell in row])
    return text.getvalue()


def _split(text):
    """A value and its unit: "330 nF" as "330" and "nF"; nothing for none."""
    number, _, unit = text.partition(" ")
    return ("", "") if number == "–" else (number, unit)


def _number(text):
    return "" if text == "–" else text


def _text(cell):
    return f"'{cell}" if cell.lstrip().startswith(_FORMULA) or cell.startswith(_FORMULA) else cell
