"""The lamp's periodic steady state: waveforms and readings, for one lamp or thousands."""

import functools
from dataclasses import dataclass, field
from operator import attrgetter
from types import SimpleNamespace

import numpy as np

from ..circuit.lamp import Lamp, replace_at
from . import flicker, power
from .kernel import columns
from .kernel.periodic import settle_all

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
HEATED = {
    "inrush_resistor": columns.HEAT_R,
    "bleeder": columns.HEAT_BLEEDER,
    "diodes": columns.HEAT_DIODES,
    "smoothing_bleeder": columns.HEAT_SMOOTHING_BLEEDER,
    "series_resistor": columns.HEAT_SERIES,
    "leds": columns.HEAT_LEDS,
}
_CHUNK = 512
_read = attrgetter(*FIELDS)


@dataclass(frozen=True, eq=False)
class SteadyState:
    """What a lamp does once it has settled. Readings are floats, or arrays for a batch.

    Waveforms have `points` samples over one mains period, which starts where the mains'
    fundamental passes zero upwards; each sample is the mean over its short interval and
    stands at the interval's middle. In a batch they are kept only when asked for. SI units.
    """

    line_current_rms: float
    line_current_peak: float
    real_power: float
    apparent_power: float
    power_factor: float  # nan when no current flows
    displacement_factor: float  # nan when no current flows
    current_thd: float
    harmonic_currents: np.ndarray = field(repr=False)  # A rms; index is the order, 0 to 40
    string_current_mean: float
    string_current_max: float
    string_current_min: float
    percent_flicker: float
    flicker_index: float
    bus_voltage_mean: float
    bus_ripple: float  # V peak to peak
    dropper_voltage_rms: float
    dropper_voltage_peak: float
    conduction_fraction: float  # share of the period in which the bridge conducts
    heat: dict  # W by part; the ideal capacitors' are zero; adds up to real_power
    settled: bool  # False: no repeating cycle was found, the readings are the last cycle's
    dark: bool  # True: the mains does not reach the string's voltage
    time: np.ndarray | None = field(repr=False, default=None)
    mains_voltage: np.ndarray | None = field(repr=False, default=None)
    line_current: np.ndarray | None = field(repr=False, default=None)
    dropper_voltage: np.ndarray | None = field(repr=False, default=None)
    bus_voltage: np.ndarray | None = field(repr=False, default=None)
    string_current: np.ndarray | None = field(repr=False, default=None)


def steady_state(lamp: Lamp, points: int = 1024) -> SteadyState:
    """The periodic steady state of one lamp.

    Parameters
    ----------
    points
        Samples over one mains period: a multiple of 4, 128 to 65536. The error of the
        readings falls with its square, near 0.1 % at 128.

    Raises
    ------
    ValueError
        If `points` is not such a number.
    """
    result = steady_states([lamp], points, waveforms=True)
    return SteadyState(**{name: _first(value) for name, value in vars(result).items()})


def steady_states(lamps: list[Lamp], points: int = 128, waveforms: bool = False) -> SteadyState:
    """The same for many lamps at once; readings become arrays with an entry a lamp.

    Parameters
    ----------
    points
        As in `steady_state`.
    waveforms
        Keep the waveforms too, arrays of shape (lamps, points).

    Returns
    -------
    SteadyState
        Empty arrays for no lamps.

    Raises
    ------
    ValueError
        If `points` is not a multiple of 4 from 128 to 65536.
    """
    if isinstance(points, bool) or points != int(points) or points % 4 or not 128 <= points <= 65536:
        raise ValueError(f"points: {points} is not a multiple of 4 from 128 to 65536")
    points = int(points)
    batch = lamps if isinstance(lamps, SimpleNamespace) else _gather(list(lamps))
    rows, guesses = _rows(batch), _guesses(batch)
    count = len(rows)
    sums = np.empty((count, columns.SUMS))
    lines = np.empty((count, power.HARMONICS + 1), complex)
    index = np.empty(count)
    kept = np.empty((4, count, points)) if waveforms else None
    tables = np.array([_cycle(mains, points) for mains in batch.cycles]).reshape(-1, points + 1)
    for start in range(0, count, _CHUNK):
        part = slice(start, start + _CHUNK)
        waves = np.empty((len(rows[part]), 4, points))
        settle_all(rows[part], tables, batch.which[part], batch.symmetric[part], guesses[part], waves, sums[part])
        waves = np.roll(waves, points // 4, axis=-1)  # the walk starts at the mains' crest
        lines[part] = power.harmonics(waves[:, columns.LINE])
        index[part] = flicker.flicker_index(waves[:, columns.STRING_WAVE])
        if waveforms:
            kept[:, part] = np.moveaxis(waves, 1, 0)
    return _result(batch, sums, lines, index, kept, points)


def spread(lamp: Lamp, changes: dict) -> SimpleNamespace:
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
    batch = _gather([lamp] * 1)
    for path in FIELDS:
        batch.columns[path] = np.broadcast_to(arrays.get(path, batch.columns[path]), (count,))
    for part, kind in (("diode", type(lamp.diode)), ("string.led", type(lamp.string.led))):
        touched = [path for path in arrays if path.startswith(part + ".")]
        if touched:
            names = ("forward_voltage", "at_current", "series_resistance", "ideality")
            given = {name: batch.columns[f"{part}.{name}"] for name in names}
            slope, saturation = kind.law(**given)
            batch.columns[f"{part}.slope_voltage"] = slope
            batch.columns[f"{part}.saturation_current"] = saturation
    batch.which = np.zeros(count, np.int64)
    batch.symmetric = np.full(count, lamp.mains.half_wave_symmetric)
    return batch


def _gather(lamps):
    for lamp in lamps:
        if not isinstance(lamp, Lamp):
            raise TypeError(f"lamps: {lamp!r:.60} is not a Lamp")
    table = np.array([_read(lamp) for lamp in lamps], float).reshape(-1, len(FIELDS))
    cycles = {}
    which = [cycles.setdefault(tuple(lamp.mains.harmonics.items()), len(cycles)) for lamp in lamps]
    return SimpleNamespace(
        columns=dict(zip(FIELDS, table.T, strict=True)),
        cycles=list(cycles),
        which=np.array(which, np.int64),
        symmetric=np.array([lamp.mains.half_wave_symmetric for lamp in lamps], bool),
    )


@functools.lru_cache(maxsize=64)
def _cycle(harmonics, points):
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


def _guesses(batch):
    """Dropper and bus voltage at the crest, and string current, from the closed form."""
    rows = _rows(batch)
    peak = rows[:, columns.PEAK]
    charge = 4 * rows[:, columns.FREQUENCY] * rows[:, columns.C]
    current = 0.5 * charge * peak
    for _ in range(12):
        string, diodes = _voltage(rows, current)
        current = 0.5 * current + 0.5 * np.maximum(charge * (peak - string - diodes), 0.02 * current)
    string, diodes = _voltage(rows, current)
    clamp = np.minimum(string + diodes, peak)
    return np.stack([peak - clamp, np.minimum(string, clamp), current], axis=1)


def _result(batch, sums, lines, index, kept, points):
    get, column = batch.columns, sums.T
    squares = [1 + sum(fraction**2 for _, (fraction, _) in mains) for mains in batch.cycles]
    voltage = get["mains.voltage"] * np.sqrt(np.array(squares))[batch.which]
    current = np.sqrt(column[columns.SQUARE])
    apparent = voltage * current
    fundamental = np.abs(lines[:, 1])
    none = np.zeros(len(sums))
    heat = {name: column[where] for name, where in HEATED.items()}
    waves = {}
    if kept is not None:
        middle = (np.arange(points) + 0.5) / points
        cycles = np.array([(_cycle(m, points)[1:] + _cycle(m, points)[:-1]) / 2 for m in batch.cycles])
        waves = {
            "time": middle / get["mains.frequency"][:, None],
            "mains_voltage": np.sqrt(2) * get["mains.voltage"][:, None] * cycles[batch.which],
            "line_current": kept[columns.LINE],
            "dropper_voltage": kept[columns.DROPPER],
            "bus_voltage": kept[columns.BUS_WAVE],
            "string_current": kept[columns.STRING_WAVE],
        }
    stated = get["string.led.at_current"] * get["string.in_parallel"]
    return SteadyState(
        line_current_rms=current,
        line_current_peak=column[columns.LINE_PEAK],
        real_power=column[columns.POWER],
        apparent_power=apparent,
        power_factor=power.power_factor(column[columns.POWER], apparent),
        displacement_factor=power.displacement_factor(lines[:, 1]),
        current_thd=power.total_harmonic_distortion(current, fundamental),
        harmonic_currents=np.abs(lines),
        string_current_mean=column[columns.STRING],
        string_current_max=column[columns.STRING_MAX],
        string_current_min=column[columns.STRING_MIN],
        percent_flicker=flicker.percent_flicker(column[columns.STRING_MAX], column[columns.STRING_MIN]),
        flicker_index=index,
        bus_voltage_mean=column[columns.BUS],
        bus_ripple=column[columns.BUS_MAX] - column[columns.BUS_MIN],
        dropper_voltage_rms=np.sqrt(column[columns.DROPPER_SQUARE]),
        dropper_voltage_peak=column[columns.DROPPER_PEAK],
        conduction_fraction=column[columns.CONDUCTING],
        heat={"dropper": none, "smoothing": none} | heat,
        settled=(column[columns.SETTLED] == 1) | (sum(heat.values()) < 1e-9),  # W: nothing to settle
        dark=column[columns.STRING] < 1e-4 * stated,
        **waves,
    )


def _first(value):
    if isinstance(value, dict):
        return {name: _first(part) for name, part in value.items()}
    if value is None or value[0].ndim:
        return None if value is None else value[0]
    return value[0].item()
