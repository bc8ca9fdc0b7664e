"""Read-out: tables of readings, now, kept and change; on the bench also what was read there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.fields import about, documented
from ...circuit.html import joined, table, tag
from ...circuit.numerals import signed
from ...results.compare import change_beside

if TYPE_CHECKING:
    from ...results.reading import Reading

_NOW = {1: 'class="now"'}  # the column that follows the sliders


@documented
@dataclass(frozen=True)
class MeterLine:
    """One line of the bench's table."""

    name: str
    value: float = about("As it is computed; nan where there is none.")
    text: str = about("As a meter shows it; three digits of a number that none shows.")
    digit: float = about("The last digit of a meter, in the value's unit; 0 for three digits.", default=0.0)
    bench: str = about('What the lamp file says was read; "" for nothing.', default="")


def plain(readings: Sequence[Reading], reference: Sequence[Reading] | None = None) -> str:
    """Readings as an HTML table: now, and where there are kept ones those and the change."""
    by_key = {reading.key: reading for reading in reference or ()}
    rows = []
    for reading in readings:
        row = [reading.name, reading.text]
        if reference is not None:
            old = by_key.get(reading.key)
            row += [old.text, _change(old, reading)] if old else ["–", "–"]
        rows.append(row)
    heads = ["reading", "now"] + ["kept", "change"] * (reference is not None)
    return table("What is seen, and what follows", heads, rows, css="dropper-table", cells=_NOW)


def metered(lines: Sequence[MeterLine], reference: Sequence[MeterLine] | None = None, note: str = "") -> str:
    """The bench's readings as an HTML table, as a plug-in meter shows them.

    Parameters
    ----------
    note
        Stands below the table; "" for none.
    """
    benched = any(line.bench for line in lines)
    heads = ["reading", "now"] + ["kept", "change"] * (reference is not None) + ["bench"] * benched
    rows = []
    for place, line in enumerate(lines):
        row = [line.name, line.text]
        if reference is not None:
            old = reference[place]
            row += [old.text, change_beside(old.value, line.value, (old.text, line.text), line.digit)]
        rows.append([*row, line.bench] if benched else row)
    caption = "What a plug-in meter shows, and four it does not"
    if benched:
        caption = joined(caption, " (", tag("i", "bench"), ": as read)")
    below = tag("p", note, css="dropper-words") if note else ""
    return joined(table(caption, heads, rows, css="dropper-table", cells=_NOW), below)


def _change(old, new):
    """In per cent; angles and Celsius temperatures, whose zero is where one puts it, in degrees and kelvins."""
    unit = {"°": "°", "°C": " K"}.get(new.unit)
    if unit is None or old.value != old.value or new.value != new.value:
        return change_beside(old.value, new.value, (old.text, new.text))
    return signed(new.value - old.value) + unit
