"""Cause table: every cause of a lamp simulated once, and how its readings lean on mains and tolerances."""

import functools
from dataclasses import dataclass

import numpy as np

from ...circuit import progress
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, replace_at, value_at
from ...solver.cycles import on_all_cores
from ...solver.transient import Fault, settle
from .prior import SPREADS, amounts_for, causes_of, fault_of
from .simulation import (
    DARK,
    PULL_ANGLES,
    QUANTITIES,
    bus_residual_of,
    check_lit,
    lamp_with,
    part_values,
    pins_residuals_of,
    quantities_of,
)

NUISANCES = tuple(SPREADS)
_CYCLES, _PULLS, _BUS = (0.0, 0.6), (0.6, 0.9), (0.9, 1.0)  # stages of a diagnosis by the time they take
_FIELDS = {
    "mains": "mains.voltage",
    "dropper": "dropper",
    "forward": "string.led.forward_voltage",
    "smoothing": "smoothing",
}


@documented
@dataclass(frozen=True, eq=False)
class CauseTable:
    """All causes of a lamp, each at a row of amounts: a point for each."""

    lamp: Lamp
    causes: tuple = about("Names as in `prior.WEIGHTS`.")
    cause: np.ndarray = about("For each point the place of its cause.")
    amount: np.ndarray = about("For each point the fault's amount; nan for none.")
    share: np.ndarray = about("For each point how likely its amount is within its cause.")
    mean: dict = about("Of each of `QUANTITIES`, SI units, by point, parts and mains at their nominal values.")
    slope: dict = about("By point and by each of `NUISANCES`: change for a change of the part by its own value.")
    observables: dict = about(
        '"light" (string current over the healthy lamp\'s), "flicker" (per cent), "leds_dark" (a count), and '
        'of parts as measured out of circuit: "dropper", "smoothing" (F), "bleeder", "inrush_resistor", '
        '"smoothing_bleeder", "leak" (Ω).'
    )

    def points_of(self, kind: tuple[str, ...] | None) -> np.ndarray:
        """Which points a cause has, as an array of places."""
        return np.flatnonzero(self.cause == self.causes.index(kind))

    def bus_residual(self, seconds: float, meter_resistance: float) -> np.ndarray:
        """Volts across the smoothing capacitor by point, so long after unplugging, a meter of so many ohms on it."""
        return bus_residuals(self.lamp, seconds, meter_resistance)

    def bus_residual_slope(self, seconds: float, meter_resistance: float) -> np.ndarray:
        """By how much those volts change with the smoothing capacitor: V for a relative change of one."""
        rated = self.lamp.smoothing
        low, high = max(0.9 * rated, 1e-9), min(1.1 * rated, 1e-2)  # what a lamp may have
        ends = [
            bus_residuals(replace_at(self.lamp, "smoothing", value), seconds, meter_resistance) for value in (low, high)
        ]
        return (ends[1] - ends[0]) * rated / (high - low)

    def pins_residual(self, seconds: float, meter_resistance: float) -> tuple[np.ndarray, np.ndarray]:
        """Volts between the pins by point and by `PULL_ANGLES`; and their slopes, by each of `NUISANCES` too."""
        return pins_residuals(self.lamp, seconds, meter_resistance)

    def fault_at(self, point: int) -> Fault | None:
        """The fault of a point, None for the healthy lamp."""
        amount = self.amount[point]
        return fault_of(self.causes[self.cause[point]], None if np.isnan(amount) else float(amount))


@functools.lru_cache(maxsize=8)
def table_of(lamp: Lamp) -> CauseTable:
    """The table of a lamp: computed once, then cached.

    Raises
    ------
    ValueError
        If the lamp stays dark with every part good.
    """
    check_lit(lamp)
    changed, causes = changed_lamps(lamp), causes_of(lamp)
    rows = _for_every_point(lamp, lambda kind, amount: _row(lamp, changed, kind, amount), _CYCLES)
    parts = [_points(lamp, place, kind, rows[kind]) for place, kind in enumerate(causes)]
    joined = {
        name: {key: np.concatenate([part[name][key] for part in parts]) for key in parts[0][name]}
        for name in ("mean", "slope", "observables")
    }
    # where no current flows all are dark
    observables, led_count = joined["observables"], lamp.string.in_series * lamp.string.in_parallel
    dark = observables["light"] < DARK
    observables["leds_dark"] = np.where(dark, led_count, observables["leds_dark"])
    flat = {name: np.concatenate([part[name] for part in parts]) for name in ("cause", "amount", "share")}
    return CauseTable(lamp, causes, **flat, **joined)


def changed_lamps(lamp: Lamp) -> dict[str, Lamp]:
    """A lamp with each of `NUISANCES` larger by its spread, by name."""
    return {
        name: replace_at(lamp, path, (1 + SPREADS[name]) * value_at(lamp, path))
        for name, path in _FIELDS.items()
        if value_at(lamp, path)
    }


@functools.lru_cache(maxsize=16)
def bus_residuals(lamp: Lamp, seconds: float, meter_resistance: float) -> np.ndarray:
    """Bus voltage of every point a time after unplugging, the meter across the bus from then on.

    Parameters
    ----------
    seconds, meter_resistance
        s and Ω.
    """
    rows = _for_every_point(
        lamp, lambda kind, amount: bus_residual_of(lamp, kind, amount, seconds, meter_resistance), _BUS
    )
    return np.concatenate([interpolated(kind, amounts_for(lamp, kind), values) for kind, values in rows.items()])


@functools.lru_cache(maxsize=16)
def pins_residuals(lamp: Lamp, seconds: float, meter_resistance: float) -> tuple[np.ndarray, np.ndarray]:
    """Volts between the pins of every point, a meter there since the pull, and how they lean on mains and tolerances.

    Parameters
    ----------
    seconds, meter_resistance
        s and Ω.

    Returns
    -------
    (array, array)
        By point and by `PULL_ANGLES`; by the same and by each of `NUISANCES`.
    """
    changed = changed_lamps(lamp)
    rows = _for_every_point(
        lamp, lambda kind, amount: _pins_row(lamp, changed, kind, amount, seconds, meter_resistance), _PULLS
    )
    volts, slopes = (
        [interpolated(kind, amounts_for(lamp, kind), [row[part] for row in of_kind]) for kind, of_kind in rows.items()]
        for part in (0, 1)
    )
    return np.concatenate(volts), np.concatenate(slopes)


def _pins_row(lamp, changed, kind, amount, seconds, ohms):
    """Volts between the pins by moment of pulling, and their slopes."""
    volts, hidden = pins_residuals_of(lamp_with(lamp, kind, amount), seconds, ohms)
    slopes = np.zeros((len(PULL_ANGLES), len(NUISANCES)))
    if not hidden:
        for name, other in changed.items():
            there, _ = pins_residuals_of(lamp_with(other, kind, amount), seconds, ohms)
            slopes[:, NUISANCES.index(name)] = (there - volts) / SPREADS[name]
    return volts, slopes


def _for_every_point(lamp, act, stage):
    """By cause what `act` makes of it at each amount that is computed, on all cores.

    `stage`: from which share of the whole diagnosis to which this leads.
    """
    points = [(kind, amount) for kind in causes_of(lamp) for amount in _amounts(lamp, kind)]
    rows = [None] * len(points)

    def do(part):
        rows[part] = [act(*point) for point in points[part]]

    with progress.stage(*stage):
        on_all_cores(do, len(points), 1, progress.report)
    by_cause = {}
    for (kind, _), row in zip(points, rows, strict=True):
        by_cause.setdefault(kind, []).append(row)
    return by_cause


def _amounts(lamp, kind):
    """The amounts of a cause that are computed; None alone for a cause without."""
    coarse = amounts_for(lamp, kind)
    return [None] if coarse is None else list(coarse[0])


def _points(lamp, place, kind, rows):
    coarse = amounts_for(lamp, kind)
    fine = np.array([np.nan]) if coarse is None else coarse[1]

    def refined(values):
        return interpolated(kind, coarse, values)

    return {
        "cause": np.full(len(fine), place),
        "amount": fine,
        "share": np.ones(1) if coarse is None else coarse[2],
        "mean": {key: refined([row[0][key] for row in rows]) for key in QUANTITIES},
        "slope": {key: refined([row[1][key] for row in rows]) for key in QUANTITIES},
        "observables": {
            key: np.array([part_values(lamp, kind, amount)[key] for amount in fine], float)
            for key in ("dropper", "smoothing", "bleeder", "inrush_resistor", "smoothing_bleeder", "leak", "leds_dark")
        }
        | {key: refined([row[0][key] for row in rows]) for key in ("light", "flicker")},
    }


def _row(lamp, changed, kind, amount):
    """Quantities of one point, and their slopes."""
    here = quantities_of(lamp_with(lamp, kind, amount))
    slopes = {key: np.zeros(len(NUISANCES)) for key in QUANTITIES}
    for column, name in enumerate(NUISANCES):
        if name in changed:
            there = quantities_of(lamp_with(changed[name], kind, amount))
            for key in QUANTITIES:
                slopes[key][column] = (there[key] - here[key]) / SPREADS[name]
    here["light"] = here["string"] / max(settle(lamp).string_current_mean, 1e-12)
    return here, slopes


def interpolated(kind: tuple | None, coarse: tuple | None, values: list) -> np.ndarray:
    """Values at a cause's finer row of amounts, on straight lines between those computed.

    Parameters
    ----------
    coarse
        As `amounts_for` gives it; None for a cause without an amount, whose values come back as they are.
    values
        A number or an array for each amount computed.
    """
    values = np.array(values, float)
    if coarse is None:
        return values
    knots, fine, _ = coarse
    if kind in (("drifted", "inrush_resistor"), ("leaky", "smoothing")):
        knots, fine = np.log(knots), np.log(fine)
    columns = [np.interp(fine, knots, column) for column in values.reshape(len(values), -1).T]
    return np.stack(columns, axis=-1).reshape((len(fine), *values.shape[1:]))
