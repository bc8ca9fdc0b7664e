"""Every cause of a lamp simulated once: what meters would see, and how that leans on mains and tolerances."""

import functools
from dataclasses import dataclass

import numpy as np

from ..lamp import Lamp, replace_at, value_at
from ..meter.expected import reactive_power, rms_volts
from ..meter.multimeter import ac_value
from ..transient import settle, unplug, with_fault
from .prior import SPREADS, amounts_for, causes_of, fault_of

NUISANCES = tuple(SPREADS)
_FIELDS = {
    "mains": "mains.voltage", "dropper": "dropper", "forward": "string.led.forward_voltage", "smoothing": "smoothing",
}  # fmt: skip
QUANTITIES = (
    "voltage", "current", "power", "reactive", "power_factor", "bus", "ripple", "averaged_ripple", "unplugged_high",
)  # fmt: skip
PULLS = 10  # the plug is pulled so many times, and the highest reading counts
_OPEN = 1e12  # Ω
DARK = 0.01  # of the healthy lamp's string current: less is no light


@dataclass(frozen=True, eq=False)
class Table:
    """All causes of a lamp, each at a row of amounts: a point for each.

    Parameters
    ----------
    lamp : Lamp
    causes : tuple
        Names as in `prior.WEIGHTS`.
    cause : array of int
        For each point the place of its cause.
    amount, share : array
        For each point the fault's amount (nan: none), and how likely it is within its cause.
    mean : dict of str to array
        Of each of `QUANTITIES`, SI units, by point, parts and mains at their nominal values.
    slope : dict of str to array
        By point and by each of `NUISANCES`: change for a change of the part by its own value.
    seen : dict of str to array
        "light" (string current over the healthy lamp's), "flicker" (per cent), "leds_dark" (a count),
        and of parts as measured out of circuit: "dropper", "smoothing" (F), "bleeder",
        "inrush_resistor", "smoothing_bleeder", "leak" (Ω).
    """

    lamp: Lamp
    causes: tuple
    cause: np.ndarray
    amount: np.ndarray
    share: np.ndarray
    mean: dict
    slope: dict
    seen: dict

    def points_of(self, kind):
        """Which points a cause has, as an array of places."""
        return np.flatnonzero(self.cause == self.causes.index(kind))

    def fault_at(self, point):
        """The fault of a point, None for the healthy lamp."""
        amount = self.amount[point]
        return fault_of(self.causes[self.cause[point]], None if np.isnan(amount) else float(amount))


@functools.lru_cache(maxsize=8)
def table_of(lamp):
    """The table of a lamp: computed once, then kept.

    Parameters
    ----------
    lamp : Lamp

    Returns
    -------
    Table
    """
    moved = {
        name: replace_at(lamp, path, (1 + SPREADS[name]) * value_at(lamp, path))
        for name, path in _FIELDS.items() if value_at(lamp, path)
    }  # fmt: skip
    causes = causes_of(lamp)
    parts = [_points(lamp, moved, place, kind) for place, kind in enumerate(causes)]
    joined = {
        name: {key: np.concatenate([part[name][key] for part in parts]) for key in parts[0][name]}
        for name in ("mean", "slope", "seen")
    }
    # where no current flows all are dark
    every = lamp.string.in_series * lamp.string.in_parallel
    joined["seen"]["leds_dark"] = np.where(joined["seen"]["light"] < DARK, every, joined["seen"]["leds_dark"])
    flat = {name: np.concatenate([part[name] for part in parts]) for name in ("cause", "amount", "share")}
    return Table(lamp, causes, **flat, **joined)


@functools.lru_cache(maxsize=16)
def bus_after(lamp, seconds, meter_resistance):
    """Bus voltage of every point a time after unplugging, the meter across the bus from then on.

    Parameters
    ----------
    lamp : Lamp
    seconds, meter_resistance : float
        s and Ω.

    Returns
    -------
    array
    """
    beside = 1 / (1 / (lamp.smoothing_bleeder or _OPEN) + 1 / meter_resistance)
    rows = []
    for kind in causes_of(lamp):
        metered, fault_kind = replace_at(lamp, "smoothing_bleeder", beside), kind
        if kind == ("open", "smoothing_bleeder"):
            metered, fault_kind = replace_at(lamp, "smoothing_bleeder", meter_resistance), None
        coarse = amounts_for(lamp, kind)
        values = [
            float(unplug(_one(metered, fault_kind, amount), 90, seconds=seconds).bus_voltage[-1])
            for amount in ([None] if coarse is None else coarse[0])
        ]
        rows.append(np.array(values) if coarse is None else _between(kind, coarse, values))
    return np.concatenate(rows)


def _points(lamp, moved, place, kind):
    coarse = amounts_for(lamp, kind)
    amounts = [None] if coarse is None else list(coarse[0])
    rows = [_row(lamp, moved, kind, amount) for amount in amounts]
    fine = np.array([np.nan]) if coarse is None else coarse[1]

    def spread(values):
        values = np.array(values, float)
        return values if coarse is None else np.stack(
            [_between(kind, coarse, column) for column in values.reshape(len(values), -1).T], axis=-1
        ).reshape((len(fine), *values.shape[1:]))  # fmt: skip

    return {
        "cause": np.full(len(fine), place),
        "amount": fine,
        "share": np.ones(1) if coarse is None else coarse[2],
        "mean": {key: spread([row[0][key] for row in rows]) for key in QUANTITIES},
        "slope": {key: spread([row[1][key] for row in rows]) for key in QUANTITIES},
        "seen": {
            key: np.array([_seen(lamp, kind, amount)[key] for amount in fine], float)
            for key in ("dropper", "smoothing", "bleeder", "inrush_resistor", "smoothing_bleeder", "leak", "leds_dark")
        } | {key: spread([row[0][key] for row in rows]) for key in ("light", "flicker")},
    }  # fmt: skip


def _row(lamp, moved, kind, amount):
    """Quantities of one point, and their slopes."""
    here = _quantities(_one(lamp, kind, amount))
    slopes = {key: np.zeros(len(NUISANCES)) for key in QUANTITIES}
    for column, name in enumerate(NUISANCES):
        if name in moved:
            there = _quantities(_one(moved[name], kind, amount))
            for key in QUANTITIES:
                slopes[key][column] = (there[key] - here[key]) / SPREADS[name]
    here["light"] = here["string"] / max(_quantities(lamp)["string"], 1e-12)
    return here, slopes


def _one(lamp, kind, amount):
    """A lamp with one cause."""
    fault = fault_of(kind, amount)
    return lamp if fault is None else with_fault(lamp, fault)


def _quantities(lamp):
    found = settle(lamp)
    volts, flows = rms_volts(found), found.line_current_rms > 1e-7
    lit = found.word != "dark"
    half = found.time <= found.time[-1] / 2
    first, second = (
        np.trapezoid(found.string_current[part], found.time[part]) for part in (half, ~half)
    )
    lopsided = lit and abs(first - second) > 0.1 * (first + second)
    return {
        "voltage": volts,
        "current": found.line_current_rms,
        "power": found.real_power,
        "reactive": reactive_power(found),
        "power_factor": found.power_factor if flows else 0.0,
        "bus": found.bus_voltage_mean,
        "ripple": ac_value(found.bus_voltage, found.time),
        "averaged_ripple": ac_value(found.bus_voltage, found.time, true_rms=False),
        "unplugged_high": _highest(found),
        "string": found.string_current_mean,
        # light that comes in one half of the period only is seen by everybody
        "flicker": found.percent_flicker + 30 * lopsided if lit else 0.0,
    }


def _highest(found):
    """Mean of the highest dropper voltage met in `PULLS` pulls of the plug at any moment, V."""
    wave = np.abs(found.dropper_voltage)
    weight = np.gradient(found.time)
    order = np.argsort(wave)
    reached = np.cumsum(weight[order]) / weight.sum()
    chance = np.diff(np.append(0.0, reached**PULLS))
    return float(chance @ wave[order])


def _seen(lamp, kind, amount):
    """What the eye counts, and what parts measure out of circuit."""
    string = lamp.string
    dark = {("short", "group"): string.in_parallel, ("open", "LED"): 1}.get(kind, 0)
    if kind == ("short", "groups"):
        dark = round(amount) * string.in_parallel
    parts = {
        "dropper": lamp.dropper, "smoothing": lamp.smoothing, "bleeder": lamp.bleeder or _OPEN,
        "inrush_resistor": lamp.inrush_resistor, "smoothing_bleeder": lamp.smoothing_bleeder or _OPEN, "leak": _OPEN,
    }  # fmt: skip
    fault, part = kind or (None, None)
    if fault == "open" and part in parts:
        parts[part] = 0.0 if part in ("dropper", "smoothing") else _OPEN
    elif fault == "short" and part in parts:
        parts[part] = 0.0
        if part == "smoothing":
            parts["leak"] = 0.0
    elif fault in ("lost", "dried out"):
        parts[part] *= 1 - amount
    elif fault == "drifted":
        parts[part] *= amount
    elif fault == "leaky":
        parts["leak"] = amount
    return parts | {"leds_dark": dark}


def _between(kind, coarse, values):
    """Values at the finer row of amounts, on straight lines between those computed."""
    knots, fine, _ = coarse
    if kind in (("drifted", "inrush_resistor"), ("leaky", "smoothing")):
        knots, fine = np.log(knots), np.log(fine)
    return np.interp(fine, knots, values)
