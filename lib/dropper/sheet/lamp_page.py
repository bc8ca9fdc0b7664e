"""Lamp page: the sheet of one lamp, its circuit, its parts, what meters should show, what is left after pulling out."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from ..bench.meter import PlugInMeter
from ..circuit import progress
from ..circuit.excerpt import excerpt
from ..circuit.fields import about, documented
from ..circuit.lamp import Lamp, replace_at
from ..design import Design
from ..design.ratings import ratings
from ..design.tolerance import Corners, Spread, corners
from ..solver.steady import steady_state
from ..solver.transient import Fault, with_fault, worst_plug_in
from ..standards.mains import Supply
from . import data_sheet_parts, predictions, sections
from .attachment import SheetError, embed
from .entries import clean_entry
from .files import write_text
from .page import day, document, origin
from .parts_list import as_csv, part_lines

LONGEST_NOTES, LINES, LONGEST_NAME = 500, 5, 60


@documented
@dataclass(frozen=True)
class LampSheet:
    """A lamp's sheet: the page, the parts list, and the lamp they were made from."""

    lamp: Lamp
    html: str = about(
        "A whole page that prints on one side of A4 or Letter and can be opened again (`open_sheet`).", repr=False
    )
    csv: str = about("The parts list as comma-separated values, RFC 4180.", repr=False)

    def write(self, path: str | Path) -> Path:
        """Write the page or the parts list, as the ending says: .html or .csv. Whole or not at all.

        The CSV begins with the byte order mark of UTF-8: spreadsheets take µ and Ω for something else without it.

        Returns
        -------
        Path
            Where it is.

        Raises
        ------
        SheetError
            For another ending, or if it cannot be written.
        """
        ending = str(path).lower().rpartition(".")[2]
        if ending in ("html", "htm"):
            return write_text(path, self.html)
        if ending == "csv":
            return write_text(path, self.csv, "utf-8-sig")
        raise SheetError(
            f"{path}: the ending says what is written; end it in .html for the page or .csv for the parts list"
        )


def lamp_sheet(
    lamp: Lamp,
    *,
    design: Design | None = None,
    fitted: dict | None = None,
    upper: float | Supply | None = None,
    spread: Spread | Corners | None = None,
    also: Sequence[str] = (),
    notes: str = "",
    builder: str = "",
    date: int | str | None = None,
    paper: str = "A4",
    meter: PlugInMeter | None = None,
) -> LampSheet:
    """A lamp on one printed page, and its parts list.

    Parameters
    ----------
    design
        The design that the lamp is of: its parts, its ratings in the corners of mains and tolerances, and its clamp
        stand on the sheet; `fitted`, `upper` and `spread` are then its own and are not asked.
    fitted
        Kinds that are fitted, by the part's key, as `ratings` takes them.
    upper
        V rms, the mains' upper limit, as `ratings` takes it.
    spread
        Between which ends the parts and the mains lie (`tolerance`), or what was found in their corners; None:
        what is usual for the lamp.
    also
        Sentences on what belongs to the lamp and is not in the list of parts.
    notes, builder
        As typed; at most 500 characters on 5 lines, and 60 on one.
    date
        "2026-03-09"; None: today.
    paper
        "A4" or "Letter".
    meter
        Whose digits to show; None: a usual one's.

    Raises
    ------
    TypeError
        If the lamp is no Lamp, the design no Design, or the spread neither Spread nor Corners.
    ValueError
        For a design of another lamp;
        For notes or a name that are too long, a date or paper that will not do, and as `ratings` and `corners` do.
    """
    notes, builder = clean_entry("notes", notes, LONGEST_NOTES, LINES), clean_entry("builder", builder, LONGEST_NAME)
    when, meter = day(date), meter or PlugInMeter()
    if design is not None:
        rated, spread = _ratings_of(lamp, design), design.spread
    else:
        with progress.stage(0.0, 0.8):
            rated = ratings(lamp, fitted, upper)
    result, corner_readings = steady_state(lamp), _corners(lamp, spread)
    upper = replace_at(lamp, "mains.voltage", rated.upper)
    high, emptied = _at_the_ends(upper, design, corner_readings.spread)
    first, again = worst_plug_in(high, periods=1), worst_plug_in(high, replug=True, periods=1)
    lines = [data_sheet_parts.fuse(high, rated, again), *part_lines(rated, design is not None)]
    if design is not None:
        lines[1:1] = [data_sheet_parts.varistor(high, rated)]
        lines += [data_sheet_parts.clamp(part) for part in design.parts if part.part == "clamp"]
    residual = predictions.judged_left(upper, corner_readings.spread)
    body = "\n".join(
        [
            sections.head(lamp, builder, origin(when)),
            sections.circuit(lamp, result, rated, lines),
            sections.parts(rated, lines, also, design is not None),
            sections.figures(
                predictions.meter_rows(lamp, result, meter, corner_readings),
                corner_readings.spread,
                [*predictions.rush_rows(first, again), *predictions.left_rows(high, residual, emptied)],
                predictions.rules(residual),
            ),
            sections.cautions(lamp, next(rating.kind for rating in rated.parts if rating.part == "leds")),
            sections.notes(notes),
        ]
    )
    data_text = embed(lamp, None if design is None else design.brief)
    page = document(f"{sections.title(lamp)} – lamp sheet", body, paper=paper, style=sections.STYLE, data=data_text)
    return LampSheet(lamp, page, as_csv(lamp, lines))


def _ratings_of(lamp, design):
    """A design's own ratings."""
    if not isinstance(design, Design):
        raise TypeError(f"design: {excerpt(design)} is not a Design")
    if design.lamp != lamp:
        raise ValueError(f"design: it is that of {excerpt(design.lamp.name)} with other values; give the lamp it is of")
    return design.ratings


def _at_the_ends(upper, design, spread):
    """The lamp in which most flows, and those whose smoothing capacitor is emptied, by what happened to them."""
    high, tall = (upper, upper) if design is None else (design.bright, design.tall)
    if not upper.smoothing:
        return high, {}

    def slow(lamp):
        """The lamp whose smoothing capacitor takes longest to empty."""
        lamp = replace_at(lamp, "smoothing", min((1 + spread.smoothing) * lamp.smoothing, 1e-2))
        bled = lamp.smoothing_bleeder
        return lamp if bled is None else replace_at(lamp, "smoothing_bleeder", (1 + spread.resistors) * bled)

    if design is not None and design.clamped is not None:
        return high, {"C2": slow(tall), "C2, held by D5": slow(design.clamped)}
    return high, {"C2": slow(tall), "C2, string open": with_fault(slow(tall), Fault("open", "string"))}


def _corners(lamp, spread):
    if isinstance(spread, Corners):
        return spread
    if spread is not None:
        return corners(lamp, spread, predictions.KEYS)
    return corners(lamp, Spread.of(lamp), predictions.KEYS)
