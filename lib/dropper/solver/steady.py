"""Steady-state solver: the cycle that a lamp repeats, for one lamp or thousands at once.

A healthy lamp goes to the quick solver, whose kernel knows the bridge as two diodes in series and the mains as ideal. A
faulty one goes to the network solver (`transient.settle`), four separate diodes behind a mains that resists a little.
"""

from __future__ import annotations

import functools
from collections.abc import Sequence
from operator import attrgetter
from typing import TYPE_CHECKING

import numpy as np

from ..circuit.lamp import Lamp, replace_at
from . import flicker, power
from .batch import LampBatch, SteadyStateBatch
from .kernel import columns
from .kernel.periodic import find_cycles
from .state import UNLIT, SteadyState

if TYPE_CHECKING:
    from .transient.faults import Faulty

__all__ = ["LampBatch", "SteadyState", "SteadyStateBatch", "spread", "steady_state", "steady_states"]

FIELDS = (
    "mains.voltage",
    "mains.frequency",
    "dropper",
    "bleeder",
    "inrush_resistor",
    "diode.forward_voltage",
    "diode.at_current",
    "diode.series_resistance",
    "diode.ideality",
    "diode.slope_voltage",
    "diode.saturation_current",
    "smoothing",
    "smoothing_bleeder",
    "series_resistor",
    "string.in_series",
    "string.in_parallel",
    "string.led.forward_voltage",
    "string.led.at_current",
    "string.led.series_resistance",
    "string.led.ideality",
    "string.led.slope_voltage",
    "string.led.saturation_current",
)
_HEAT = {
    "inrush_resistor": columns.HEAT_R,
    "bleeder": columns.HEAT_BLEEDER,
    "diodes": columns.HEAT_DIODES,
    "smoothing_bleeder": columns.HEAT_SMOOTHING_BLEEDER,
    "series_resistor": columns.HEAT_SERIES,
    "leds": columns.HEAT_LEDS,
}
_CHUNK = 512
_read = attrgetter(*FIELDS)


def steady_state(lamp: Lamp | Faulty, points: int = 1024) -> SteadyState:
    """The periodic steady state of one lamp, healthy or faulty.

    Parameters
    ----------
    lamp
        A faulty one as `transient.with_fault` makes it; its mains resists `transient.LINE_RESISTANCE`.
    points
        Samples over one mains period: a multiple of 4, 128 to 65536. The error of the
        readings falls with its square, near 0.1 % at 128. The network solver, which a faulty
        lamp goes to, chooses its own.

    Raises
    ------
    ValueError
        If `points` is not such a number.
    TypeError
        If it is no lamp.
    ArithmeticError
        If the equations of a faulty lamp could not be solved.

    Examples
    --------
    >>> from dropper.solver.transient import Fault, with_fault
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> round(1000 * steady_state(lamp).string_current_mean, 1)
    16.9
    >>> steady_state(with_fault(lamp, Fault("open", "string"))).word
    'dark'
    """
    _check_points(points)
    if isinstance(lamp, Lamp):
        return steady_states([lamp], points, waveforms=True)[0]
    from .transient.repeating_cycle import settle

    return settle(lamp)


def steady_states(lamps: Sequence[Lamp] | LampBatch, points: int = 128, waveforms: bool = False) -> SteadyStateBatch:
    """The same for many healthy lamps at once; readings are arrays with an entry a lamp.

    Parameters
    ----------
    points
        As in `steady_state`.
    waveforms
        Keep the waveforms too, arrays of shape (lamps, points).

    Returns
    -------
    SteadyStateBatch
        Empty for no lamps.

    Raises
    ------
    ValueError
        If `points` is not a multiple of 4 from 128 to 65536.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> steady_states([lamp, replace_at(lamp, "dropper", "470 nF")]).real_power.round(2)
    array([1.18, 1.72])
    """
    points = _check_points(points)
    batch = lamps if isinstance(lamps, LampBatch) else _gather(list(lamps))
    rows, symmetric = _rows(batch), batch.symmetric
    guesses, count = _guesses(rows), len(rows)
    sums = np.empty((count, columns.SUMS))
    lines = np.empty((count, power.HARMONICS + 1), complex)
    index = np.empty(count)
    waves = np.empty((4, count, points)) if waveforms else None
    tables = np.array([_mains_cycle(shape, points) for shape in batch.shapes]).reshape(-1, points + 1)
    for start in range(0, count, _CHUNK):
        part = slice(start, start + _CHUNK)
        chunk = np.empty((len(rows[part]), 4, points))
        find_cycles(rows[part], tables, batch.shape_of[part], symmetric[part], guesses[part], chunk, sums[part])
        chunk = np.roll(chunk, points // 4, axis=-1)  # the cycle starts at the mains' crest
        lines[part] = power.harmonics(chunk[:, columns.LINE])
        index[part] = flicker.flicker_index(chunk[:, columns.STRING_WAVE])
        if waveforms:
            waves[:, part] = np.moveaxis(chunk, 1, 0)
    return SteadyStateBatch(_readings(batch, sums, lines, index) | _waves(batch, waves, points), batch)


def spread(lamp: Lamp, changes: dict) -> LampBatch:
    """Many lamps that differ from one in a few fields, without building each of them.

    Parameters
    ----------
    changes
        Field paths ("dropper", "mains.voltage", "string.led.forward_voltage" …) and their
        values in SI units; the arrays broadcast to one dimension.

    Raises
    ------
    ValueError, AttributeError
        If a value is not allowed in its field, or there is no such field.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> spread(lamp, {"mains.voltage": [207, 230, 253]})
    <LampBatch of 3 lamps, mains.voltage 207 V to 253 V>
    """
    arrays = {path: np.atleast_1d(np.asarray(values, float)) for path, values in changes.items()}
    for path, values in arrays.items():
        if path not in FIELDS or path.endswith(("slope_voltage", "saturation_current")):
            raise AttributeError(f"changes: a lamp has no field {path!r} that can be spread")
        if not np.isfinite(values).all():
            raise ValueError(f"changes: {path} has a value that is not finite")
        for extreme in (values.min(), values.max()):
            replace_at(lamp, path, float(extreme))
    (count,) = np.broadcast_shapes((1,), *(values.shape for values in arrays.values()))
    one = _gather([lamp])
    table = {path: np.broadcast_to(arrays.get(path, one.columns[path]), (count,)) for path in FIELDS}
    for part, kind in (("diode", type(lamp.diode)), ("string.led", type(lamp.string.led))):
        if any(path.startswith(part + ".") for path in arrays):
            names = ("forward_voltage", "at_current", "series_resistance", "ideality")
            slope, saturation = kind.law(**{name: table[f"{part}.{name}"] for name in names})
            table[f"{part}.slope_voltage"] = slope
            table[f"{part}.saturation_current"] = saturation
    return LampBatch(table, one.shapes, np.zeros(count, np.int64), [lamp], tuple(arrays))


def _check_points(points):
    if isinstance(points, bool) or points != int(points) or points % 4 or not 128 <= points <= 65536:
        raise ValueError(f"points: {points} is not a multiple of 4 from 128 to 65536")
    return int(points)


def _gather(lamps):
    """A list of lamps as a batch."""
    for lamp in lamps:
        if not isinstance(lamp, Lamp):
            raise TypeError(f"lamps: {lamp!r:.60} is not a Lamp")
    table = np.array([_read(lamp) for lamp in lamps], float).reshape(-1, len(FIELDS))
    shapes = {}
    shape_of = [shapes.setdefault(tuple(lamp.mains.harmonics.items()), len(shapes)) for lamp in lamps]
    return LampBatch(dict(zip(FIELDS, table.T, strict=True)), list(shapes), np.array(shape_of, np.int64), lamps)


@functools.lru_cache(maxsize=64)
def _mains_cycle(harmonics, points):
    """Mains voltage over one cycle in units of the fundamental's peak, both ends included."""
    angle = np.linspace(0, 2 * np.pi, points + 1)
    cycle = np.sin(angle)
    for order, (fraction, phase) in harmonics:
        cycle += fraction * np.sin(order * angle + np.radians(phase))
    return cycle


def _rows(batch):
    get = batch.columns
    groups, parallel = get["string.in_series"], get["string.in_parallel"]
    rows = np.empty((len(groups), 14))
    rows[:, columns.PEAK] = np.sqrt(2) * get["mains.voltage"]
    rows[:, columns.FREQUENCY] = get["mains.frequency"]
    rows[:, columns.C] = get["dropper"]
    rows[:, columns.G_C] = np.nan_to_num(1 / get["bleeder"])
    rows[:, columns.R] = get["inrush_resistor"]
    rows[:, columns.CS] = get["smoothing"]
    rows[:, columns.G_S] = np.nan_to_num(1 / get["smoothing_bleeder"])
    rows[:, columns.A_D] = 2 * get["diode.slope_voltage"]
    rows[:, columns.B_D] = get["diode.saturation_current"]
    rows[:, columns.R_D] = 2 * get["diode.series_resistance"]
    rows[:, columns.A_S] = groups * get["string.led.slope_voltage"]
    rows[:, columns.B_S] = parallel * get["string.led.saturation_current"]
    rows[:, columns.R_S] = groups * get["string.led.series_resistance"] / parallel + get["series_resistor"]
    rows[:, columns.R_SERIES] = get["series_resistor"]
    return rows


def _voltage(rows, current):
    """Voltage of the string and its resistor, and of two diodes, at a current."""
    string = rows[:, columns.A_S] * np.log1p(current / rows[:, columns.B_S]) + rows[:, columns.R_S] * current
    diodes = rows[:, columns.A_D] * np.log1p(current / rows[:, columns.B_D]) + rows[:, columns.R_D] * current
    return string, diodes


def _guesses(rows):
    """Dropper and bus voltage at the crest, and string current, from the closed form."""
    peak = rows[:, columns.PEAK]
    charge = 4 * rows[:, columns.FREQUENCY] * rows[:, columns.C]
    current = 0.5 * charge * peak
    for _ in range(12):
        string, diodes = _voltage(rows, current)
        current = 0.5 * current + 0.5 * np.maximum(charge * (peak - string - diodes), 0.02 * current)
    string, diodes = _voltage(rows, current)
    clamp = np.minimum(string + diodes, peak)
    return np.stack([peak - clamp, np.minimum(string, clamp), current], axis=1)


def _readings(batch, sums, lines, index):
    """Columns of the readings, by name."""
    get, column, count = batch.columns, sums.T, len(sums)
    squares = [1 + sum(fraction**2 for _, (fraction, _) in shape) for shape in batch.shapes]
    voltage = get["mains.voltage"] * np.sqrt(np.array(squares))[batch.shape_of]
    current = np.sqrt(column[columns.SQUARE])
    apparent = voltage * current
    heat = {f"heat.{part}": column[place] for part, place in _HEAT.items()}
    return {
        "line_current_rms": current,
        "line_current_peak": column[columns.LINE_PEAK],
        "real_power": column[columns.POWER],
        "apparent_power": apparent,
        "power_factor": power.power_factor(column[columns.POWER], apparent),
        "displacement_factor": power.displacement_factor(lines[:, 1]),
        "current_thd": power.total_harmonic_distortion(current, np.abs(lines[:, 1])),
        "harmonic_currents": np.abs(lines),
        "string_current_mean": column[columns.STRING],
        "string_current_max": column[columns.STRING_MAX],
        "string_current_min": column[columns.STRING_MIN],
        "led_current_mean": column[columns.STRING] / get["string.in_parallel"],
        "relative_current": np.ones(count),
        "percent_flicker": flicker.percent_flicker(column[columns.STRING_MAX], column[columns.STRING_MIN]),
        "flicker_index": index,
        "bus_voltage_mean": column[columns.BUS],
        "bus_voltage_peak": column[columns.BUS_MAX],
        "bus_ripple": column[columns.BUS_MAX] - column[columns.BUS_MIN],
        "dropper_voltage_rms": np.sqrt(column[columns.DROPPER_SQUARE]),
        "dropper_voltage_peak": column[columns.DROPPER_PEAK],
        "conduction_fraction": column[columns.CONDUCTING],
        "heat.dropper": np.zeros(count),
        "heat.smoothing": np.zeros(count),
        **heat,
        "settled": (column[columns.SETTLED] == 1) | (sum(heat.values()) < 1e-9),  # W: nothing to settle
        "dark": column[columns.STRING] < UNLIT * (get["string.led.at_current"] * get["string.in_parallel"]),
    }


def _waves(batch, waves, points):
    """Columns of the waves, by name; none where they were not kept."""
    if waves is None:
        return {}
    get, middle = batch.columns, (np.arange(points) + 0.5) / points
    ends = np.array([_mains_cycle(shape, points) for shape in batch.shapes]).reshape(-1, points + 1)
    cycles = (ends[:, 1:] + ends[:, :-1]) / 2
    return {
        "time": middle / get["mains.frequency"][:, None],
        "mains_voltage": np.sqrt(2) * get["mains.voltage"][:, None] * cycles[batch.shape_of],
        "line_current": waves[columns.LINE],
        "dropper_voltage": waves[columns.DROPPER],
        "bus_voltage": waves[columns.BUS_WAVE],
        "string_current": waves[columns.STRING_WAVE],
    }
