"""Several designs side by side."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from ..circuit.values import show, show_reading
from ..results.compare import signed_percent
from .sizing import Draft

if TYPE_CHECKING:
    from .result import Design

_ROWS = (
    ("dropper", "F", lambda made: made.lamp.dropper),
    ("inrush resistor", "Ω", lambda made: made.lamp.inrush_resistor),
    ("bleeder", "Ω", lambda made: made.lamp.bleeder),
    ("smoothing", "F", lambda made: made.lamp.smoothing),
    ("smoothing bleeder", "Ω", lambda made: made.lamp.smoothing_bleeder),
    ("clamp", "V", lambda made: made.clamp),
    ("LEDs in series", "", lambda made: made.lamp.string.in_series),
    ("LEDs side by side", "", lambda made: made.lamp.string.in_parallel),
    ("string current, mean", "A", lambda made: made.current),
    ("string current, least", "A", lambda made: made.least),
    ("string current, greatest", "A", lambda made: made.greatest),
    ("flicker, worst corner", "%", lambda made: made.flicker),
    ("power", "W", lambda made: made.result.real_power),
    ("power factor", "", lambda made: made.result.power_factor),
    ("line current, rms", "A", lambda made: made.result.line_current_rms),
    ("heat of the inrush resistor", "W", lambda made: made.result.heat["inrush_resistor"]),
    ("bus, string open, at most", "V", lambda made: made.held),
)


def compare(designs: Iterable[Design | Draft]) -> tuple[tuple, list[tuple]]:
    """Designs side by side, each with its changes against the first.

    Returns
    -------
    (tuple, list of tuple)
        The header, and a row of text for each quantity.

    Raises
    ------
    ValueError
        If there is none.
    """
    drafts = [made if isinstance(made, Draft) else made.draft for made in designs]
    if not drafts:
        raise ValueError("designs: there is none to compare")
    header = ("", *(made.brief.name for made in drafts))
    return header, [(name, *_cells(drafts, unit, get)) for name, unit, get in _ROWS]


def _cells(drafts, unit, get):
    first = get(drafts[0])
    for place, made in enumerate(drafts):
        value = get(made)
        text = "none" if not value else show_reading(value, unit) if unit else show(value)
        if place and value and first and value != first:
            text += f" ({signed_percent(first, value)})"
        yield text
