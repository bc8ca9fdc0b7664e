"""Table of ratings of a whole lamp."""

from collections.abc import Iterable
from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.html import items, joined, table, tag
from ...circuit.lamp import Lamp
from ...circuit.parts import BY_KEY
from ...circuit.parts import fitted_parts as parts_of
from ...circuit.series import preferred
from ...circuit.values import show
from ...components import kinds
from ...components.kinds import COMMON_USE, Use
from ...solver.transient import faults_of
from ...solver.transient.faults import Fault
from ...standards.mains import Supply
from .circumstances import upper_limit
from .placement import fit, name_of
from .selection import largest, least, start_of
from .stress import QUANTITIES, PartStress
from .stresses import stresses
from .verdicts import OVER, PartRating, checks_of
from .wording import (
    FUSIBLE,
    LED_RUSH,
    NO_CLASS,
    OPENS,
    RIPPLE,
    SERIES,
    WHICH_LED,
    beyond_sentence,
    led_rush_sentence,
    part_name,
    surge_remark,
)

RATED = ("inrush_resistor", "dropper", "bleeder", "diodes", "smoothing", "smoothing_bleeder", "series_resistor", "leds")
_CARE = (
    "A real part stands what its own data sheet says; parts that meet the mains are chosen as local codes and licensed"
    " practice ask."
)


@documented
@dataclass(frozen=True)
class RatingsTable:
    """Every part of a lamp against its ratings."""

    lamp: Lamp
    upper: float = about("rms volts of the mains' upper limit, at which all but normal use is looked at", "V")
    upper_source: str
    parts: tuple = about("in the order of the current")
    beyond: tuple = about("a sentence for each fault that no part is chosen for")
    stresses: tuple = about("all of them, those with such faults included")
    use: Use = COMMON_USE

    def __repr__(self) -> str:
        over = ", ".join(part_name(rating.part) for rating in self.over)
        return f"<RatingsTable of {self.lamp.name!r}: {len(self.parts)} parts, {over or 'none'} over its ratings>"

    def of(self, part: str) -> PartRating:
        """The rating of one part by its key; KeyError where the lamp has none."""
        for rating in self.parts:
            if rating.part == part:
                return rating
        raise KeyError(
            f"{excerpt(part)} is not in this lamp; there are {', '.join(rating.part for rating in self.parts)}"
        )

    def stresses_of(self, part: str) -> tuple[PartStress, ...]:
        """The stresses of one part."""
        return tuple(stress for stress in self.stresses if stress.part == part)

    @property
    def over(self) -> tuple[PartRating, ...]:
        """The parts that are over a limit."""
        return tuple(rating for rating in self.parts if rating.verdict == OVER)

    @property
    def header(self) -> tuple[str, ...]:
        """What the columns of `rows` are called."""
        return (
            "part",
            "kind",
            "quantity",
            "normal use",
            "worst",
            "circumstance",
            "limit",
            "limit over worst",
            "verdict",
        )

    def rows(self) -> list[tuple[str, ...]]:
        """The table as text: a tuple a row, a row for each quantity of each part, under `header`."""
        return [
            (
                f"{BY_KEY[rating.part].symbol}, {BY_KEY[rating.part].name}",
                "–" if rating.kind is None else name_of(rating.kind),
                QUANTITIES[check.quantity][0],
                "–" if check.normal is None else check.normal.text,
                check.worst.text,
                check.worst.circumstance.words,
                check.limit_text,
                "–" if check.limit is None or check.worst.value == 0 else f"{check.margin:.3g}",
                f"{check.sign} {check.verdict}",
            )
            for rating in self.parts
            for check in rating.checks
        ]

    def _repr_html_(self) -> str:
        """A row for each part, by the quantity that decides; each part in a sentence, folded; faults beyond ratings."""
        heads = ("part", "worst case", "found", "stands", "kind")
        rows = [
            (
                f"{rating.sign} {BY_KEY[rating.part].symbol}, {BY_KEY[rating.part].name}",
                f"{QUANTITIES[rating.tightest.quantity][0]}, {rating.tightest.worst.circumstance.words}",
                rating.tightest.worst.text,
                rating.verdict if rating.limit is None else rating.tightest.limit_text,
                "not given" if rating.kind is None else name_of(rating.kind),
            )
            for rating in self.parts
        ]
        left = dict.fromkeys((0, 1, 4), 'style="text-align:left"')
        sentences = tag("ul", items([rating.sentence for rating in self.parts]))
        return joined(
            table(f"What each part of the {self.lamp.name} must stand", heads, rows, columns=left),
            tag("p", self.sentence),
            tag("details", tag("summary", "Each part in a sentence"), sentences),
            tag("p", f"No part is chosen for these, looked at with the mains at {show(self.upper, 'V', 4)}. {OPENS}"),
            tag("ul", items([text.removesuffix(OPENS).strip() for text in self.beyond])),
        )

    @property
    def sentence(self) -> str:
        """The whole table in a few sentences."""
        names = [BY_KEY[rating.part].name for rating in self.over]
        over = f"Over a limit: {', '.join(names)}." if names else "No part is over a limit that is kept here."
        hidden = "A bleeder that is open is seen by nobody, so every fault is looked at without it too."
        return f"{over} {self.shares} {hidden} {_CARE}"

    @property
    def shares(self) -> str:
        """How much of a rating is used when, and the mains that faults and plug-in are looked at on."""
        share = f"{100 * self.use.voltage:.3g} % of the volts and {100 * self.use.power:.3g} % of the watts"
        return (
            f"In what lasts {share} are used; at plug-in and with one fault, all. Both are looked at with the mains at"
            f" {show(self.upper, 'V', 4)}, plug-in on the reference impedance and on a stiff mains."
        )


def ratings(
    lamp: Lamp,
    fitted: dict | None = None,
    upper: float | Supply | None = None,
    faults: Iterable[Fault] | None = None,
    use: Use = COMMON_USE,
) -> RatingsTable:
    """What each part of a lamp must stand, and whether it does.

    Parameters
    ----------
    fitted
        Kinds that are fitted, by the part's key: {"bleeder": "2 × carbon film 1/4 W", "smoothing": "electrolytic,
        100 V", "leds": "warm white, 5 mm"}; names of `kinds`, or kinds of one's own. For the rest the least kind that
        would pass is proposed.
    upper
        V rms, the mains' upper limit, or the supply that has it; None: the lamp's own mains and 10 %.
    faults
        None: all of `transient.faults_of`.
    use
        Shares of the ratings that are used in what lasts.

    Raises
    ------
    TypeError
        If the lamp is no Lamp, a fault no Fault, the use no Use, or `fitted` no dict.
    ValueError
        For a part that is not there, a kind that is not kept or cannot be that part, an upper limit out of range, or
        a fault that cannot happen.
    """
    if not isinstance(lamp, Lamp):
        raise TypeError(f"lamp: {excerpt(lamp)} is not a Lamp")
    if not isinstance(use, Use):
        raise TypeError(f"use: {excerpt(use)} is not a Use")
    if not isinstance(fitted, dict | None):
        raise TypeError(f"fitted: {excerpt(fitted)} is not {{part: kind}}")
    kinds_fitted = {part: fit(lamp, part, kind) for part, kind in (fitted or {}).items()}
    volts, source = upper_limit(lamp, upper)
    results = stresses(lamp, volts, faults_of(lamp) if faults is None else tuple(faults))
    there = [part.key for part in parts_of(lamp) if part.key in RATED]
    rated = tuple(_rating(lamp, part, kinds_fitted.get(part), results, use) for part in there)
    return RatingsTable(lamp, volts, source, rated, _beyond(lamp, results), results, use)


def _rating(lamp, part, kind, results, use):
    rows = [stress for stress in results if stress.part == part]
    start = start_of(kind)
    chosen = "not given" if kind is None else "fitted"
    next_up = least(lamp, part, rows, use, start)
    if kind is None and part != "leds":
        kind, chosen = (next_up, "proposed") if next_up else (largest(lamp, part), "none passes")
    checks = checks_of(lamp, part, kind, rows, use)
    return PartRating(part, kind, chosen, checks, next_up, _remark(part, kind, checks, rows))


def _remark(part, kind, checks, rows):
    if part == "inrush_resistor":
        return FUSIBLE
    over = {check.quantity for check in checks if check.verdict == OVER}
    if "surge" in over:
        return LED_RUSH if part == "leds" else _surge_help(rows)
    if "ripple_current" in over:
        return RIPPLE
    if part == "dropper":
        return NO_CLASS if isinstance(kind, kinds.DcFilm) else SERIES
    return WHICH_LED if part == "leds" and kind is None else ""


def _surge_help(rows):
    """The inrush resistor that would save the diodes, where the rush is what they do not stand."""
    from ... import theory

    peak = rows[-1].circumstance.healthy.mains.peak
    step = theory.replug_step(peak_voltage=peak)
    limit = kinds.RECTIFIERS[-1].surge
    try:
        resistor = theory.surge_resistor(peak_voltage=step, greatest_current=limit)
    except ValueError:
        return ""
    return surge_remark(preferred(12, resistor, 10 * resistor)[0], limit)


def _beyond(lamp, results):
    faults = dict.fromkeys(s.circumstance.fault for s in results if not s.circumstance.counted)
    beyond = [
        beyond_sentence(fault.words(lamp), [s for s in results if s.circumstance.fault == fault]) for fault in faults
    ]
    return tuple(filter(None, [*beyond, led_rush_sentence(results)]))
