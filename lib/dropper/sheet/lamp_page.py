"""The sheet of one lamp: its circuit, its parts, what meters should show, what is left after pulling out."""

from dataclasses import dataclass, field

from ..lamp import Lamp, replace_at
from ..meter import PlugInMeter
from ..ratings import ratings
from ..steady import steady_state
from ..tolerance import Corners, Spread, corners
from . import expected, sections
from .embedded import SheetError, embed
from .files import write_text
from .page import day, document, made
from .parts_list import as_csv, part_lines
from .typed import typed

LONGEST_NOTES, LINES, LONGEST_NAME = 500, 5, 60


@dataclass(frozen=True)
class LampSheet:
    """A lamp's sheet: the page, the parts list, and the lamp they were made from.

    Parameters
    ----------
    lamp : Lamp
    html : str
        A whole page that prints on one side of A4 or Letter and can be opened again (`open_sheet`).
    csv : str
        The parts list as comma-separated values, RFC 4180.
    """

    lamp: Lamp
    html: str = field(repr=False)
    csv: str = field(repr=False)

    def write(self, path):
        """Write the page or the parts list, as the ending says: .html or .csv. Whole or not at all.

        The CSV begins with the byte order mark of UTF-8: spreadsheets take µ and Ω for something else without it.

        Parameters
        ----------
        path : str or Path

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
    lamp, *, fitted=None, upper=None, spread=None, also=(), notes="", builder="", date=None, paper="A4", meter=None
):
    """A lamp on one printed page, and its parts list.

    Parameters
    ----------
    lamp : Lamp
    fitted : dict or None
        Kinds that are fitted, by the part's key, as `ratings` takes them.
    upper : float or Supply or None
        V rms, the mains' upper limit, as `ratings` takes it.
    spread : Spread or Corners or None
        Between which ends the parts and the mains lie (`tolerance`), or what was found in their corners; None: what is
        usual for the lamp.
    also : sequence of str
        Sentences on what belongs to the lamp and is not in the list of parts.
    notes, builder : str
        As typed; at most 500 characters on 5 lines, and 60 on one.
    date : datetime.date or str or None
        "2026-03-09"; None: today.
    paper : str
        "A4" or "Letter".
    meter : PlugInMeter or None
        Whose digits to show; None: a usual one's.

    Returns
    -------
    LampSheet

    Raises
    ------
    TypeError
        If the lamp is no Lamp, or the spread neither Spread nor Corners.
    ValueError
        For notes or a name that are too long, a date or paper that will not do, and as `ratings` and `corners` do.
    """
    notes, builder = typed("notes", notes, LONGEST_NOTES, LINES), typed("builder", builder, LONGEST_NAME)
    when, meter = day(date), meter or PlugInMeter()
    rated, result = ratings(lamp, fitted, upper), steady_state(lamp)
    found = _corners(lamp, spread)
    lines = part_lines(rated)
    high = replace_at(lamp, "mains.voltage", rated.upper)
    judged = expected.judged_left(high, found.spread)
    body = "\n".join(
        [
            sections.head(lamp, builder, made(when)),
            sections.circuit(lamp, result, rated),
            sections.parts(rated, lines, also),
            sections.figures(
                expected.meter_rows(lamp, result, meter, found),
                found.spread,
                [*expected.rush_rows(high), *expected.left_rows(high, judged)],
                expected.rules(judged),
            ),
            sections.cautions(lamp),
            sections.notes(notes),
        ]
    )
    page = document(f"{sections.title(lamp)} – lamp sheet", body, paper=paper, style=sections.STYLE, data=embed(lamp))
    return LampSheet(lamp, page, as_csv(lamp, lines))


def _corners(lamp, spread):
    if isinstance(spread, Corners):
        return spread
    if spread is not None:
        return corners(lamp, spread, expected.KEYS)
    return corners(lamp, Spread.of(lamp), expected.KEYS)
