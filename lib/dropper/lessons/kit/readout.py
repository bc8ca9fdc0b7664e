"""Tables of readings: now, kept and change; on the bench also what a meter shows and what was read."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import TYPE_CHECKING

from ...circuit.lamp import Lamp
from ...circuit.values import show, show_to_digit, signed
from ...results.compare import signed_percent
from ...solver.steady import SteadyState

if TYPE_CHECKING:
    from ...bench.meter.plug_in import PlugInMeter
    from ...results.reading import Reading

_INSIDE = (
    ("string_current_mean", "string current, mean", "A"),
    ("percent_flicker", "percent flicker", "%"),
    ("bus_voltage_mean", "bus voltage, mean", "V"),
    ("bus_ripple", "bus ripple, p–p", "V"),
)
_METER = (
    ("current", "line current"),
    ("power", "power"),
    ("apparent_power", "apparent power"),
    ("power_factor", "power factor"),
)


def plain(readings: Sequence[Reading], kept: Sequence[Reading] | None = None) -> str:
    """Readings as an HTML table: now, and where there are kept ones those and the change."""
    before = {reading.key: reading for reading in kept or ()}
    rows = []
    for reading in readings:
        cells = [reading.text]
        if kept is not None:
            old = before.get(reading.key)
            cells += [old.text, _change(old, reading)] if old else ["–", "–"]
        rows.append(_row(reading.name, cells, None))
    heads = ["reading", "now"] + ["kept", "change"] * (kept is not None)
    return _table("What is seen, and what follows", heads, rows)


def metered(lamp: Lamp, result: SteadyState | None, kept: SteadyState | None, meter: PlugInMeter) -> str:
    """The bench's readings as an HTML table, as a plug-in meter shows them.

    Parameters
    ----------
    lamp
        Its own bench readings, where it has them, stand in a column of their own.
    """
    read = lamp.readings
    compared, benched = kept is not None, any(getattr(read, name) is not None for name, _ in _METER)
    benched = benched or read.bus_voltage is not None
    heads = ["reading", "now"] + ["kept", "change"] * compared + ["bench"] * benched
    rows = []
    shown, before = meter.shown(result), meter.shown(kept) if compared else None
    for name, words in _METER:
        source = meter.digits()[name][2]
        cells = [meter.text(name, shown[name])]
        if compared:
            change = signed_percent(getattr(kept, source), getattr(result, source))
            cells += [meter.text(name, before[name]), change]
        value = getattr(read, name)
        rows.append((words, cells, "" if value is None else meter.text(name, value)))
    for name, words, unit in _INSIDE:
        value = _of_light(result, name)
        cells = [_inside(value, unit)]
        if compared:
            old = _of_light(kept, name)
            cells += [_inside(old, unit), signed_percent(old, value)]
        on_bench = read.bus_voltage if name == "bus_voltage_mean" else None
        rows.append((words, cells, "" if on_bench is None else show(on_bench, "V")))
    body = [_row(words, cells, bench if benched else None) for words, cells, bench in rows]
    note = ""
    if benched and None not in (read.voltage, read.current, read.power, read.power_factor):
        note = f'<p class="dropper-words">{escape(meter.agrees(read)[1])}</p>'
    caption = "What a plug-in meter shows, and four it does not"
    if benched:
        caption += " (<i>bench</i>: as read)"
    return _table(caption, heads, body) + note


def _table(caption, heads, rows):
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
    return (
        f'<table class="dropper-table"><caption>{caption}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"
    )


def _of_light(result, name):
    """A reading inside the lamp; a string that stays dark has no flicker."""
    return float("nan") if result.dark and name == "percent_flicker" else getattr(result, name)


def _change(old, new):
    """In per cent; angles and Celsius temperatures, whose zero is where one puts it, in degrees and kelvins."""
    unit = {"°": "°", "°C": " K"}.get(new.unit)
    if unit is None or old.value != old.value or new.value != new.value:
        return signed_percent(old.value, new.value)
    return signed(new.value - old.value) + unit


def _inside(value, unit):
    if value is None or value != value:
        return "–"
    return show_to_digit(value, "%", 1) if unit == "%" else show(value, unit)


def _row(words, cells, bench):
    inner = "".join(f'<td class="{"now" if n == 0 else ""}">{escape(cell)}</td>' for n, cell in enumerate(cells))
    if bench is not None:
        inner += f"<td>{escape(bench)}</td>"
    return f'<tr><th scope="row">{escape(words)}</th>{inner}</tr>'
