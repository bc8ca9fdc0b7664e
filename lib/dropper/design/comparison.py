"""Comparison: several designs side by side, and the wishes in which two briefs differ."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from ..circuit.values import show, show_reading
from ..results.compare import signed_percent
from .sizing import Sizing

if TYPE_CHECKING:
    from .brief import Brief
    from .result import Design

_ROWS = (
    ("dropper", "F", lambda sizing: sizing.lamp.dropper),
    ("inrush resistor", "Ω", lambda sizing: sizing.lamp.inrush_resistor),
    ("bleeder", "Ω", lambda sizing: sizing.lamp.bleeder),
    ("smoothing", "F", lambda sizing: sizing.lamp.smoothing),
    ("smoothing bleeder", "Ω", lambda sizing: sizing.lamp.smoothing_bleeder),
    ("clamp", "V", lambda sizing: sizing.clamp),
    ("LEDs in series", "", lambda sizing: sizing.lamp.string.in_series),
    ("LEDs side by side", "", lambda sizing: sizing.lamp.string.in_parallel),
    ("string current, mean", "A", lambda sizing: sizing.current),
    ("string current, least", "A", lambda sizing: sizing.least_current),
    ("string current, greatest", "A", lambda sizing: sizing.greatest_current),
    ("flicker, worst corner", "%", lambda sizing: sizing.flicker),
    ("power", "W", lambda sizing: sizing.result.real_power),
    ("power factor", "", lambda sizing: sizing.result.power_factor),
    ("line current, rms", "A", lambda sizing: sizing.result.line_current_rms),
    ("heat of the inrush resistor", "W", lambda sizing: sizing.result.heat["inrush_resistor"]),
    ("bus, string open, at most", "V", lambda sizing: sizing.open_bus_voltage),
)


_WISHES = {
    "place": ("mains", ""),
    "led": ("kind of LED", ""),
    "in_series": ("LEDs in series", ""),
    "in_parallel": ("LEDs side by side", ""),
    "current": ("string current", "A"),
    "flicker": ("flicker at most", "%"),
    "swing": ("swing with mains at most", "%"),
    "touchable": ("open to touch", ""),
    "warmest": ("air inside at most", "°C"),
    "inrush": ("rush at plug-in", "A"),
    "leds_in_use_only": ("LEDs' limit in use only", ""),
}


def compare(designs: Iterable[Design | Sizing]) -> tuple[tuple, list[tuple]]:
    """Designs side by side, each with its changes against the first.

    Returns
    -------
    (tuple, list of tuple)
        The header, and a row of text for each quantity.

    Raises
    ------
    ValueError
        If there is none.

    Examples
    --------
    >>> from dropper.design import Brief, size
    >>> brief = Brief("warm white, 5 mm", in_series=20, current=0.01, place="Europe", flicker=100)
    >>> header, rows = compare([size(brief), size(brief.but(in_series=30))])
    >>> rows[6]
    ('LEDs in series', '20', '30 (+50.0 %)')
    """
    sizings = [design if isinstance(design, Sizing) else design.sizing for design in designs]
    if not sizings:
        raise ValueError("designs: there is none to compare")
    header = ("", *(sizing.brief.name for sizing in sizings))
    return header, [(name, *_cells(sizings, unit, get)) for name, unit, get in _ROWS]


def _cells(sizings, unit, get):
    first = get(sizings[0])
    for place, sizing in enumerate(sizings):
        value = get(sizing)
        text = "none" if not value else show_reading(value, unit) if unit else show(value)
        if place and value and first and value != first:
            text += f" ({signed_percent(first, value)})"
        yield text


def _wish_words(wish, unit):
    if isinstance(wish, bool):
        return "yes" if wish else "no"
    return wish or "none" if isinstance(wish, str | None) else show_reading(wish, unit)


def changes(then: Brief, now: Brief) -> list[tuple[str, str, str]]:
    """The wishes that differ: name, first and second value as text."""
    rows = []
    for field, (name, unit) in _WISHES.items():
        pair = [getattr(brief, field) for brief in (then, now)]
        if pair[0] != pair[1]:
            texts = (_wish_words(wish, unit) for wish in pair)
            rows.append((name, *texts))
    if then.stock != now.stock:
        rows.append(("drawer", *(", ".join(sorted(brief.stock)) or "none" for brief in (then, now))))
    if then.fixed != now.fixed:
        rows.append(("fixed values", *(", ".join(sorted(brief.fixed)) or "none" for brief in (then, now))))
    return rows
