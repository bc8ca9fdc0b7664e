"""Corners: every part at one end or the other, the least and the greatest of each reading, and where they are."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ...solver.steady import spread as batch
from ...solver.steady import steady_states
from . import quantities
from .spread import Spread, check_both

_BETWEEN = np.linspace(0, 1, 9)[1:-1]  # shares of the way from end to end
_COUNTS = 5e-3  # a part whose other end changes a reading by less is not named
_NOTHING = 1e-9  # A, W or V: of that no part of it is worth a word
_CLEARLY = 2e-3  # less than that is the solver's own error at 128 points
_WALKED = ("mains", "led")  # the axes along which a hump can stand


@documented
@dataclass(frozen=True)
class Extreme:
    """The least and the greatest of one reading."""

    key: str
    name: str
    unit: str
    nominal: float = about("with every part as designed; nan where no lamp gives one", "SI units")
    least: float = about("of all lamps", "SI units")
    greatest: float = about("of all lamps", "SI units")
    least_at: str = about("the lamp with the least, in words")
    greatest_at: str = about("the lamp with the greatest, in words")
    inside: bool = about("whether one of the two stands between the ends, not in a corner")

    def __repr__(self) -> str:
        low, high = (show_reading(value, self.unit) for value in (self.least, self.greatest))
        return f"<Extreme {self.name}: {low} to {high}>"

    @property
    def words(self) -> str:
        """The reading's range in a sentence."""
        nominal, low, high = (show_reading(value, self.unit) for value in (self.nominal, self.least, self.greatest))
        inside = " The worst stands between the ends, not in a corner." if self.inside else ""
        return (
            f"{self.name[0].upper()}{self.name[1:]}: {nominal} as designed; {low} at the least, with {self.least_at};"
            f" {high} at the most, with {self.greatest_at}.{inside}"
        )


@documented
@dataclass(frozen=True, eq=False)
class Corners:
    """All combinations of the ends."""

    lamp: Lamp
    spread: Spread
    axes: tuple
    extremes: dict = about("an `Extreme` by the key of the reading")
    factors: np.ndarray = about("what each axis stands at, over its nominal value", shape="corners × axes")
    readings: dict = about("arrays with a value a corner, by the key of the reading")
    dark: np.ndarray = about("corners in which the string stays dark", shape="corners")

    def __repr__(self) -> str:
        ranges = [repr(extreme)[len("<Extreme ") : -1] for extreme in self.extremes.values()]
        return f"<Corners, {len(self.dark)}: {'; '.join(ranges[:2])}{' …' if len(ranges) > 2 else ''}>"

    def of(self, key: str) -> Extreme:
        """The `Extreme` of one reading.

        Parameters
        ----------
        key
            One of `KEYS`.
        """
        return self.extremes[quantities.known(key)]

    @property
    def words(self) -> str:
        """Every reading's range, a sentence or two each."""
        dark = int(self.dark.sum())
        sentences = [extreme.words for extreme in self.extremes.values()]
        sentences += [f"In {dark} of {len(self.dark)} corners the string stays dark."] if dark else []
        return " ".join(sentences)


def corners(lamp: Lamp, spread: Spread, keys: Sequence[str] = quantities.KEYS, points: int = 128) -> Corners:
    """Solve a lamp with every part at either end, all together, and find each reading's least and greatest.

    Mean and peak of the string current, rms line current and bus voltage go one way all along each part, so that a
    corner is their worst. Power, power factor and flicker need not: for those, places between the ends of mains and
    LEDs are solved too, along the edges that meet in the worst corner.

    Parameters
    ----------
    keys
        The readings wanted.
    points
        As for `steady_states`.

    Raises
    ------
    KeyError
        For a reading that is not kept here.
    ValueError
        If an end is more than a lamp may have.
    """
    check_both(lamp, spread)
    keys = tuple(quantities.known(key) for key in keys)
    axes = spread.axes(lamp)
    grid = np.stack(np.meshgrid(*((axis.low, axis.high) for axis in axes), indexing="ij"), -1).reshape(-1, len(axes))
    factors = np.vstack([np.ones(len(axes)), grid])
    solved, dark = _solve(lamp, spread, axes, factors, points)
    edges = _edges(axes, grid, solved, [key for key in keys if key in quantities.HUMPED])
    inside, _ = _solve(lamp, spread, axes, edges, points)
    everywhere = np.vstack([factors, edges])
    extremes_by_key = {}
    for key in keys:
        values = np.concatenate([solved[key], inside[key]])
        extremes_by_key[key] = _extreme(key, axes, everywhere, values, len(factors))
    readings = {key: solved[key][1:] for key in keys}
    return Corners(lamp, spread, axes, extremes_by_key, grid, readings, dark[1:])


def _solve(lamp, spread, axes, factors, points):
    changes = {}
    for column, axis in enumerate(axes):
        changes |= axis.changes(factors[:, column])
    if not len(factors):
        return dict.fromkeys(quantities.KEYS, np.empty(0)), np.empty(0, bool)
    solved = steady_states(batch(spread.centre(lamp), changes), points)
    return quantities.read(solved), solved.dark


def _edges(axes, grid, solved, humped):
    """Places between the ends, along the edges that meet in the corners where a humped reading is worst."""
    rows = []
    starts = set()
    for key in humped:
        values = solved[key][1:]
        if not np.isnan(values).all():
            starts |= {int(np.nanargmin(values)), int(np.nanargmax(values))}
    for start in sorted(starts):
        for column, axis in enumerate(axes):
            if axis.key in _WALKED and axis.low < axis.high:
                edge = np.repeat(grid[start][None], len(_BETWEEN), axis=0)
                edge[:, column] = axis.low + _BETWEEN * (axis.high - axis.low)
                rows.append(edge)
    return np.vstack(rows) if rows else np.empty((0, len(axes)))


def _extreme(key, axes, factors, values, solid):
    """One reading's least and greatest over all rows; row 0 is the nominal lamp, the first `solid` no edges."""
    unit, name = quantities.UNITS[key], quantities.name(key)
    worst = values[1:]
    if np.isnan(worst).all():
        nan = float("nan")
        return Extreme(key, name, unit, float(values[0]), nan, nan, "no lamp of these", "no lamp of these", False)
    corner = values[1:solid]
    rows = []
    for pick in (np.nanargmin, np.nanargmax):
        row, in_corner = int(pick(worst)) + 1, int(pick(corner)) + 1
        rows.append(row if abs(values[row] - values[in_corner]) > _CLEARLY * np.nanmax(np.abs(worst)) else in_corner)
    return Extreme(
        key,
        name,
        unit,
        *(float(values[row]) for row in (0, *rows)),
        *(_place(axes, factors, values, row, solid) for row in rows),
        max(rows) >= solid,
    )


def _place(axes, factors, values, row, solid):
    """A row in words: the axes that count there, the weightiest first."""
    here = factors[row]
    ends = np.array([(axis.low, axis.high) for axis in axes])
    at_high = here == ends[:, 1]
    base = _row(at_high)  # of an edge: the corner at its low end
    weights = []
    for column in range(len(axes)):
        if ends[column, 0] == ends[column, 1]:
            continue
        other = _row(at_high ^ (np.arange(len(axes)) == column))
        change = abs(values[other] - values[base]) / max(abs(values[base]), abs(values[other]), _NOTHING)
        between = here[column] not in ends[column]
        weights.append((np.inf if between else np.nan_to_num(change, nan=np.inf), column))
    counted = [column for weight, column in sorted(weights, key=lambda pair: -pair[0]) if weight > _COUNTS]
    return ", ".join(axes[column].at(here[column]) for column in counted) or "any of them"


def _row(at_high):
    """The row of a corner, by which axes stand at their high ends; row 0 is the nominal lamp."""
    return 1 + int("".join("1" if high else "0" for high in at_high), 2)
