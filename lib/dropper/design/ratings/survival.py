"""Survival: which mains a lamp survives whose parts were chosen for a sine, and what each asks too much of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...circuit.html import Markup, table
from ...circuit.lamp import Lamp
from ...circuit.mains import Mains
from ...circuit.mains_shapes import FlatTop, Generator, PhaseCut, Shape, SteppedWave
from ...circuit.parts import BY_KEY
from ...circuit.values import show
from ...solver.steady import SteadyState, steady_state
from .table import RatingsTable, ratings

# What such lamps meet. Angles, edges and drifts are typical practice, no source.
COMMON = (
    ("sine", None),
    ("flat top", FlatTop(0.95)),
    ("small generator", Generator(0.1, 0.05)),
    ("inverter, stepped wave", SteppedWave(edge=50e-6)),
    ("dimmer, leading edge, 45°", PhaseCut(45, "leading")),
    ("dimmer, leading edge, 90°", PhaseCut(90, "leading")),
    ("dimmer, trailing edge, 90°", PhaseCut(90, "trailing")),
)
_LEFT = 'style="text-align:left;white-space:normal"'
_CARE = "Computed, not tested: makers' sheets, local codes and people licensed for the mains decide."


@documented
@dataclass(frozen=True, eq=False)
class OnOneMains:
    """What a lamp does on one mains."""

    name: str = about("what the mains is")
    result: SteadyState = about("at its middle")
    light: float = about("mean string current over that on the sine")
    over: tuple[str, ...] = about("keys of the parts that it asks too much of")

    @property
    def verdict(self) -> str:
        """In words."""
        if self.result.dark:
            return "dark"
        if not self.over:
            return "within all limits that are kept"
        return f"too much for the {' and the '.join(BY_KEY[part].name for part in self.over)}"


class Survival:
    """The list for one lamp, as `survival` makes it.

    Attributes
    ----------
    rows : tuple of OnOneMains
    chosen : RatingsTable
        The parts, chosen for a sine.
    """

    def __init__(self, rows: tuple[OnOneMains, ...], chosen: RatingsTable):
        self.rows, self.chosen = rows, chosen

    @property
    def sentence(self) -> str:
        """The list in words."""
        bad = [row.name for row in self.rows if row.over]
        said = (
            f"Chosen for a sine, its parts are asked too much by: {'; '.join(bad)}." if bad else "None asks too much."
        )
        return f"{said} {_CARE}"

    def __repr__(self) -> str:
        bad = sum(bool(row.over) for row in self.rows)
        return f"<Survival of {self.chosen.lamp.name!r} on {len(self.rows)} mains, {bad} too much for it>"

    def _repr_html_(self) -> Markup:
        rows = [
            (
                row.name,
                f"{100 * row.light:.0f} %",
                show(row.result.line_current_rms, "A"),
                show(row.result.heat["inrush_resistor"], "W"),
                row.verdict,
            )
            for row in self.rows
        ]
        heads = ("mains", "light", "line current", "heat of R1", "its parts, chosen for a sine")
        name = self.chosen.lamp.name
        caption, left = f"Which mains the {name} survives. {self.sentence}", {4: _LEFT}
        return table(caption, heads, rows, css="dropper-table", style="max-width:none", columns=left)


def survival(lamp: Lamp, mains: Iterable[tuple[str, Shape | None]] = COMMON) -> Survival:
    """Which mains a lamp survives.

    Its parts are the least kinds that pass on a sine of its voltage (`ratings`, faults left out); the same kinds are
    then judged on each mains, a generator's at the worst of its corners.

    Parameters
    ----------
    mains
        Each a name and a shape, None for a sine.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> survival(lamp).rows[3].verdict
    'too much for the inrush resistor and the smoothing capacitor'
    """
    sine = lamp.replace(mains=lamp.mains.sine)
    chosen = ratings(sine, faults=())
    kinds = {rating.part: rating.kind for rating in chosen.parts if rating.kind is not None}
    known = {rating.part for rating in chosen.over}
    before = steady_state(sine)
    rows = []
    for name, shape in mains:
        supply = Mains(lamp.mains.voltage, lamp.mains.frequency, shape=shape)
        over = []
        for corner in supply.extremes():
            judged = ratings(lamp.replace(mains=corner), kinds, upper=corner.voltage, faults=())
            over += [rating.part for rating in judged.over if rating.part not in known | set(over)]
        result = steady_state(lamp.replace(mains=supply))
        light = result.string_current_mean / before.string_current_mean
        rows.append(OnOneMains(name, result, light, tuple(over)))
    return Survival(tuple(rows), chosen)
