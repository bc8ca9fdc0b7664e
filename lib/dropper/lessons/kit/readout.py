"""Read-out: tables of readings, now, kept and change; on the bench also what was read there."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.fields import about, documented
from ...circuit.html import Markup, joined, table, tag
from ...circuit.numerals import signed
from ...circuit.values import show_estimate, unbroken
from ...results.compare import change_beside

if TYPE_CHECKING:
    from ...design.uncertainty import ErrorBar
    from ...results.reading import Reading

_WHY = tag("span", "how it comes about", css="dropper-spoken")  # the head of the column of buttons
_NOW = {1: 'class="now"'}  # the column that follows the sliders
_AS_WIDE_AS_THE_TABLE = "max-width:402px"


@documented
@dataclass(frozen=True)
class MeterLine:
    """One line of the bench's table."""

    name: str
    value: float = about("As it is computed; nan where there is none.")
    text: str = about("As a meter shows it; three digits of a number that none shows.")
    digit: float = about("The last digit of a meter, in the value's unit; 0 for three digits.", default=0.0)
    bench: str = about('What the lamp file says was read; "" for nothing.', default="")
    key: str = about("The reading that it shows, as `results.explain` calls it.", default="")
    excess: str = about('What it passes, in a few words; "" for nothing.', default="")


def plain(
    readings: Sequence[Reading],
    reference: Sequence[Reading] | None = None,
    bars: Mapping[str, ErrorBar] | None = None,
    opened: Mapping[str, Markup] | None = None,
) -> str:
    """Readings as an HTML table: now, and where there are kept ones those and the change; how each comes about.

    Parameters
    ----------
    bars
        The ± by the key of the reading; empty while it is worked out, None where none is shown.
    opened
        How a reading comes about, below its row, by its key.
    """
    by_key = {reading.key: reading for reading in reference or ()}
    rows = []
    for reading in readings:
        bar = (bars or {}).get(reading.key)
        row = [
            marked_name(reading.name, reading.excess),
            show_estimate(reading.value, bar.half_width, reading.unit) if bar else reading.text,
        ]
        if reference is not None:
            old = by_key.get(reading.key)
            row[1] = _in_words(row[1])
            row += [_in_words(old.text), _change(old, reading)] if old else ["–", "–"]
        rows.append([*row, why_button(reading.key, reading.name, reading.key in (opened or {}))])
    heads = ["reading", _now(bars)] + ["kept", "change"] * (reference is not None) + [_WHY]
    below = _below(readings, opened)
    of_lines = table("What is seen, and what follows", heads, rows, css="dropper-table", cells=_NOW, below=below)
    return joined(of_lines, _largest(bars, [reading.key for reading in readings]))


def metered(
    lines: Sequence[MeterLine],
    reference: Sequence[MeterLine] | None = None,
    note: str = "",
    bars: Mapping[str, ErrorBar] | None = None,
    opened: Mapping[str, Markup] | None = None,
    explained: Container[str] = (),
) -> str:
    """The bench's readings as an HTML table, as a plug-in meter shows them.

    Parameters
    ----------
    reference
        The lines that are compared with; what was read on the bench gives way to them.
    note
        Stands below the table; "" for none.
    bars
        The ± by the key of the reading; empty while it is worked out, None where none is shown.
    opened
        How a reading comes about, below its row, by its key.
    explained
        The keys of the readings of which that can be asked.
    """
    benched = reference is None and any(line.bench for line in lines)  # there is no room for both beside a picture
    heads = ["reading", _now(bars)] + ["kept", "change"] * (reference is not None) + ["bench"] * benched + [_WHY]
    rows = []
    for place, line in enumerate(lines):
        bar = (bars or {}).get(line.key)
        row = [
            marked_name(line.name, line.excess),
            show_estimate(line.value, bar.half_width, bar.unit, line.digit) if bar else line.text,
        ]
        if reference is not None:
            old = reference[place]
            row += [old.text, change_beside(old.value, line.value, (old.text, line.text), line.digit)]
        why = why_button(line.key, line.name, line.key in (opened or {})) if line.key in explained else ""
        rows.append([*row, *[line.bench] * benched, why])
    caption = "What a plug-in meter shows, and four it does not"
    if benched:
        caption = joined(caption, " (", tag("i", "bench"), ": as read)")
    under = tag("p", note, css="dropper-words", style=_AS_WIDE_AS_THE_TABLE) if note else ""
    of_lines = table(caption, heads, rows, css="dropper-table", cells=_NOW, below=_below(lines, opened))
    return joined(of_lines, _largest(bars, [line.key for line in lines]), under)


def _in_words(text: str) -> str | Markup:
    """What a cell says, in two lines where there is little room, if it begins with a word: "over 100 000 h"."""
    return tag("span", unbroken(text), style="white-space:normal") if text[:1].isalpha() else text


def why_button(key: str, name: str, is_open: bool) -> Markup:
    """A button that opens how a reading comes about, or closes it; the page's script hands its key on.

    Parameters
    ----------
    key, name
        The reading's.
    """
    label = f"how {name} comes about"
    return tag(
        "button",
        "?",
        css="dropper-why",
        type="button",
        data_explain=key,
        aria_expanded="true" if is_open else "false",
        aria_label=label,
    )


def marked_name(name: str, excess: str) -> Markup:
    """The name of a reading, with a mark and what it passes where it passes a rating.

    Parameters
    ----------
    excess
        In a few words; "" for nothing.

    Examples
    --------
    >>> marked_name("current", "above 20 mA")
    Markup('current<span class="excess">▲ above 20 mA</span>')
    """
    return joined(name, tag("span", f"▲ {excess}", css="excess") if excess else "")


def _below(rows, opened):
    """What is open, by the place of its row."""
    return {place: opened[row.key] for place, row in enumerate(rows) if row.key in opened} if opened else None


def _now(bars):
    return "now" if bars is None else "now ±"


def _largest(bars: Mapping[str, ErrorBar] | None, keys: Iterable[str]):
    """What makes most of each ±, in a sentence: the sources, and the readings of each."""
    of_source = {}
    for key in keys:
        if bars and key in bars:
            of_source.setdefault(bars[key].largest.name, []).append(bars[key].name.replace(", ", " "))
    if not of_source:
        return ""
    parts = "; ".join(f"{source} ({', '.join(names)})" for source, names in of_source.items())
    return tag("p", f"Largest part of the ±: {parts}.", css="dropper-words", style=_AS_WIDE_AS_THE_TABLE)


def _change(old, new):
    """In per cent; angles and Celsius temperatures, whose zero is where one puts it, in degrees and kelvins."""
    unit = {"°": "°", "°C": " K"}.get(new.unit)
    if unit is None or old.value != old.value or new.value != new.value:
        return change_beside(old.value, new.value, (old.text, new.text))
    return signed(new.value - old.value) + unit
