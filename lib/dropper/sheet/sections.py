"""Sections of a lamp's sheet as HTML; what was typed is escaped here."""

import re
from collections.abc import Sequence

from ..circuit import schematic
from ..circuit.html import Markup, items, joined, tag
from ..circuit.lamp import Lamp
from ..circuit.parts import PARTS
from ..circuit.values import show
from ..components.kinds.leds import LedKind
from ..design.ratings.table import RatingsTable
from ..design.tolerance import Spread
from ..solver.steady import SteadyState
from ..standards.cautions import NEAR_UV, caution_texts, low_voltage, near_uv
from .data_sheet_parts import ASK, REMARK_QUESTIONS, questions
from .page import table
from .parts_list import MEANINGS, PartLine

STYLE = """
.head { display: flex; justify-content: space-between; align-items: flex-end; gap: 1.5rem;
  border-bottom: 2px solid #1a1a1a; padding-bottom: .2rem; }
.head .long { font-size: 1.35rem; }
.head p { flex: none; max-width: 58%; text-align: right; overflow-wrap: anywhere; }
.circuit { position: relative; flex: 60 1 0; min-height: 12.2rem; max-height: 26.5rem; }
.circuit svg { display: block; width: auto; max-width: 100%; height: 100%; }
.circuit svg text { font-family: inherit; font-size: 23px; transform: translateY(-4px); }
.circuit svg text[dominant-baseline="ideographic"] { transform: translateY(-10px); }
.circuit svg text[dominant-baseline="hanging"] { transform: none; }
.circuit svg text[text-anchor="start"] { transform: translate(5px, -4px); }
.brief { position: absolute; top: 0; right: 0; width: 53%; font-size: 1.05rem; }
.brief p + p { padding-top: .2rem; }
.parts tbody th { font-weight: bold; }
.parts td:nth-child(2) { white-space: nowrap; }
.parts td:last-child { white-space: nowrap; }
.metered th, .metered td { white-space: nowrap; }
.under { padding-top: .2rem; }
.two { display: grid; grid-template-columns: 1.2fr 1fr; gap: 0 1.6rem; }
.two p { grid-column: 1 / 3; }
.metered td:last-child, .metered thead th:last-child { border-left: 1px solid #d0d0d0; padding-left: .4rem;
  width: 5rem; }
.cautions { border: 2px solid #1a1a1a; padding: .2rem .4rem; }
.cautions, .notes { display: grid; grid-template-columns: auto 1fr; gap: 0 1rem; }
.cautions h2 { max-width: 6.6rem; }
.cautions ul { columns: 2; column-gap: 1.5rem; }
.cautions li { padding-left: 1rem; text-indent: -1rem; break-inside: avoid; }
.cautions li::before { content: "⚠"; display: inline-block; width: 1rem; text-indent: 0; }
main { gap: .35rem; }
.notes { flex: 1 0 auto; min-height: 2.6rem; border: 1px solid #d0d0d0; padding: .2rem .4rem; }
.notes p { white-space: pre-line; overflow-wrap: anywhere; }
@media print { main { height: calc(100vh - 2px); } }
@media screen and (max-width: 60rem) { main { min-width: 44rem; } .two { display: block; }
  .circuit { flex: none; max-height: none; } .circuit svg { height: auto; } .brief { position: static; width: auto; } }
"""
NOMINAL = "Tolerances are not counted; they may ask for more."
DESIGNED = (
    "Tolerances are counted, but for resistors. Bright: dropper at its upper end, LEDs of least volts; tall: LEDs of"
    " greatest volts, least smoothing."
)
# What a narrow column says in fewer words.
_IN_SHORT = (
    (" and the bleeders open unseen", ", bleeders open"),
    (" and the bleeder open unseen", ", bleeder open"),
    (" on a stiff mains", ", stiff mains"),
    ("plugged in again", "re-plugged"),
    (", with series use in its data sheet", ", series use"),
    (", small body", " small"),
)
# Beyond so many characters a name is set smaller.
_LONG_NAME = 34


def title(lamp: Lamp) -> str:
    """The lamp's name, or words in its place."""
    return lamp.name.strip() or "lamp without a name"


def head(lamp: Lamp, builder: str, origin: str) -> str:
    """The lamp's name, who built it, and where the sheet comes from."""
    by = joined("Built by ", tag("bdi", builder), ".", Markup("<br>")) if builder else ""
    name = tag("h1", title(lamp), css="long" if len(lamp.name) > _LONG_NAME else "")
    return tag("header", name, tag("p", by, origin), css="head")


def circuit(lamp: Lamp, result: SteadyState, rated: RatingsTable, lines: Sequence[PartLine]) -> str:
    """What is to be expected in two sentences, and the drawn circuit."""
    string, in_all = lamp.string, lamp.string.in_series * lamp.string.in_parallel
    leds = f"{in_all} LED{'s' if in_all > 1 else ''}"
    if string.in_parallel > 1:
        leds += f" in {string.in_series} groups of {string.in_parallel}"
    mains = f"{show(lamp.mains.voltage, 'V')}, {show(lamp.mains.frequency, 'Hz')}"
    summary = f"{leds} on {mains}: the string stays dark."
    if not result.dark:
        summary = (
            f"{leds} on {mains}: a mean of {show(result.string_current_mean, 'A')} through the string,"
            f" {show(result.real_power, 'W')} from the mains, power factor {result.power_factor:.2f}."
        )
    verdict, sign = rated.sentence.split(". ")[0].rstrip("."), "✗" if rated.over else "✓"
    count = sum(line.verdict == ASK for line in lines) + sum(len(texts) for _, texts in questions(lines))
    if count:
        verdict += f"; data sheets still have to answer {count} question{'s' if count > 1 else ''}"
        sign = "✗" if rated.over else "?"
    brief = tag("div", tag("p", summary), tag("p", tag("b", f"{sign} {verdict}.")), css="brief")
    return tag("section", brief, Markup(_tight(lamp, lines)), css="circuit")


def _tight(lamp, lines):
    """The drawing without the blank at its sides, its lines of text as far apart as their size asks."""
    keys = {part.symbol: part.key for part in PARTS} | {symbol: key for key, symbol in schematic.MORE.items()}
    captions = {keys[line.symbol]: line.short_value for line in lines if line.symbol[0] == "R" and line.pieces > 1}
    captions |= {
        keys[line.symbol]: line.piece_value.strip("–") for line in lines if line.symbol in schematic.MORE.values()
    }
    svg, string = schematic.draw(lamp, captions=captions), lamp.string
    left, top, width, height = map(float, re.search(r'viewBox="([^"]+)"', svg)[1].split())
    longer = max(0, len(f"{string.in_series} × {string.in_parallel}") - 6)  # the caption at the right edge
    view = f"{left + 28:g} {top:g} {width - 46 + 14 * longer:g} {height:g}"
    svg = re.sub(r'viewBox="[^"]+"', f'viewBox="{view}"', svg, count=1)
    svg = re.sub(r'(<tspan [^>]*)dy="1[0-9]"', r'\1dy="1em"', svg)
    return re.sub(r' style="[^"]*"', "", svg, count=1)


def parts(rated: RatingsTable, lines: Sequence[PartLine], also: Sequence[str] = (), designed: bool = False) -> str:
    """The parts list with what each must stand, what the verdicts mean, and what data sheets have to answer.

    Parameters
    ----------
    also
        Sentences on what belongs to the lamp and is not in the list.
    designed
        The ratings are a design's, its corners in them.
    """
    heads = ("part", "value", "kind", "at its worst", "needed", "stands", "margin", "verdict")
    rows = []
    for line in lines:
        kind = line.status if line.kind == "–" else line.kind
        if line.symbol == "LEDs":
            kind = f"{line.value.rpartition('; ')[2]}, {kind}"
        if line.status.startswith(("fitted", "none")):
            kind += f"; {line.status}"
        if line.better_kind:
            kind += f": take {line.better_kind}"
        when = (
            re.sub(r"\s*with one fault \((.*)\)", r", \1", f" {line.circumstance}")
            .removeprefix(" with the")
            .lstrip(" ,")
        )
        when = re.sub(r"\bdiodes? (?=D\d)", "", when).removesuffix(" corner")
        for words, short in _IN_SHORT:
            when, kind = when.replace(words, short), kind.replace(words, short)
        rows.append(
            (
                f"{line.symbol} {line.name}",
                line.short_value,
                kind,
                f"{line.quantity} {line.stress}, {when}",
                line.least_rating,
                line.limit,
                _times(line.margin),
                f"{line.sign} {line.verdict}",
            )
        )
    listing = table("Parts, and what each must stand", heads, rows, numbers=(4, 5, 6), css="parts")
    meanings = dict.fromkeys((f"{line.sign} {line.verdict}", MEANINGS[line.verdict]) for line in lines)
    legend = Markup("; ").join(joined(tag("b", word), f": {means}") for word, means in meanings)
    shares = rated.shares
    shares += f" {DESIGNED if designed else NOMINAL}"
    asks = [f"{symbol}: {', '.join(texts)}" for symbol, texts in questions(lines)]
    remarks = [f"{line.symbol}: {line.remark}" for line in lines if line.remark and line.remark not in REMARK_QUESTIONS]
    sheets = tag("p", tag("b", "Data sheets also have to answer."), f" {'; '.join(asks)}.") if asks else ""
    more = " ".join([*remarks, *also])
    below = joined(tag("p", legend, f". {shares}"), sheets, tag("p", more) if more else "")
    return tag("section", listing, "\n", tag("div", below, css="under"))


def _times(margin):
    return margin if margin == "–" else f"× {margin}"


def figures(
    metered: list[tuple[str, ...]], spread: Spread, moments: list[tuple[str, ...]], judged: list[tuple[str, str]]
) -> str:
    """What the meters should show; what is met at plugging in, and what is left after pulling out.

    Parameters
    ----------
    metered
        As `expected.meter_rows` makes them.
    spread
        Between whose ends least and greatest were looked for.
    moments
        As `expected.rush_rows` and `expected.left_rows` make them.
    judged
        As `expected.rules` makes them.
    """
    live = any("⚠" in row[0] for row in metered)
    heads = ("reading (⚠ live)" if live else "reading", "shows", "digit allows", "least to greatest", "read")
    left = table("What the meters should show", heads, metered, numbers=(1, 2, 3), css="metered")
    right = table("Plugging in and pulling out", ("at worst", "figure"), moments, numbers=(1,))
    left_over = Markup(" ").join(joined(tag("b", word), f": {rules}.") for word, rules in judged)
    if left_over:
        memory = " * Value from memory." if "*" in left_over else ""
        left_over = tag("p", tag("b", "The dropper's volts."), " ", left_over, memory)
    ends = tag("p", tag("b", "Least to greatest."), f" {spread.words}", css="under")
    return tag("section", tag("div", left), tag("div", right), ends, left_over, css="two")


def cautions(lamp: Lamp, kind: LedKind | None) -> str:
    """The cautions, and what is added for a lamp on low volts or with LEDs whose light harms unseen."""
    listed, title = caution_texts(lamp), "Cautions" if low_voltage(lamp) else "This is mains"
    if near_uv(kind):
        listed = (*listed, NEAR_UV)
    return tag("section", tag("h2", title), tag("ul", items(listed)), css="cautions")


def notes(text: str) -> str:
    """What the learner noted, or room to write."""
    return tag("section", tag("h2", "Notes"), tag("p", text), css="notes")
