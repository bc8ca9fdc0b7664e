"""The bench panel's table of readings: now, kept, change, and what the bench read."""

from html import escape

from ..compare import signed_percent
from ..values import show

_INSIDE = (
    ("string_current_mean", "string current, mean", "A"),
    ("percent_flicker", "percent flicker", ""),
    ("bus_voltage_mean", "bus voltage, mean", "V"),
    ("bus_ripple", "bus ripple, p–p", "V"),
)
_METER = (
    ("current", "line current"),
    ("power", "power"),
    ("apparent_power", "apparent power"),
    ("power_factor", "power factor"),
)


def table(lamp, result, kept, meter):
    """The readings as an HTML table.

    Parameters
    ----------
    lamp : Lamp
        Its own bench readings, where it has them, stand in a column of their own.
    result, kept : SteadyState or None
    meter : PlugInMeter
    """
    read = lamp.readings
    compared, benched = kept is not None, any(getattr(read, name) is not None for name, _ in _METER)
    benched = benched or read.bus_voltage is not None
    heads = ["", "now"] + ["kept", "change"] * compared + ["bench"] * benched
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
        value = getattr(result, name)
        cells = [_inside(value, unit)]
        if compared:
            old = getattr(kept, name)
            cells += [_inside(old, unit), signed_percent(old, value)]
        on_bench = read.bus_voltage if name == "bus_voltage_mean" else None
        rows.append((words, cells, "" if on_bench is None else show(on_bench, "V")))
    body = "".join(_row(words, cells, bench if benched else None) for words, cells, bench in rows)
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
    note = ""
    if benched and None not in (read.voltage, read.current, read.power, read.power_factor):
        note = f'<p class="dropper-words">{escape(meter.agrees(read)[1])}</p>'
    caption = "What a plug-in meter shows, and four it does not"
    if benched:
        caption += " (<i>bench</i>: as read)"
    return (
        f'<table class="dropper-table"><caption>{caption}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>{note}"
    )


def _inside(value, unit):
    if value != value:
        return "–"
    return show(value, unit) if unit else f"{value:.0f} %"


def _row(words, cells, bench):
    inner = "".join(f'<td class="{"now" if n == 0 else ""}">{escape(cell)}</td>' for n, cell in enumerate(cells))
    if bench is not None:
        inner += f"<td>{escape(bench)}</td>"
    return f'<tr><th scope="row">{escape(words)}</th>{inner}</tr>'
