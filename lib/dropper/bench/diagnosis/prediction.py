"""What each cause predicts for each reading: a mean, and how it may be off together with the others."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.fields import about, documented
from ..meter import Multimeter, PlugInMeter
from ..meter.scale import Scale
from .cause_table import NUISANCES, Table
from .prior import RESISTOR_LIMIT, SPREADS

if TYPE_CHECKING:
    from .evidence import Observed

_ROOT = np.sqrt(3)
NUMBERS = (
    "voltage",
    "current",
    "power",
    "power_factor",
    "leds_dark",
    "bus_voltage",
    "bus_ripple",
    "pins_residual",
    "bus_residual",
    "dropper_capacitance",
    "bleeder_resistance",
    "inrush_resistance",
    "smoothing_capacitance",
    "smoothing_resistance",
    "smoothing_bleeder_resistance",
)
_ERRORS = ("volts", "amperes", "watts", "phase")  # what several of a plug-in meter's readings share
_OHMS = {
    "bleeder_resistance": "bleeder",
    "inrush_resistance": "inrush_resistor",
    "smoothing_resistance": "leak",
    "smoothing_bleeder_resistance": "smoothing_bleeder",
}
_LEAST_OHMS = 0.3  # of the test leads: a short reads about so much
_PLUG_IN, _MULTIMETER = PlugInMeter(), Multimeter()
_TAU = np.array([SPREADS[name] for name in NUISANCES])


@documented
@dataclass(frozen=True)
class Meters:
    """The two meters on the bench."""

    plug_in: PlugInMeter = _PLUG_IN
    multimeter: Multimeter = _MULTIMETER


@documented
@dataclass(frozen=True, eq=False)
class Predicted:
    """A reading as every point of a table predicts it; ohms by their common logarithm."""

    mean: np.ndarray = about("By point.")
    loads: np.ndarray = about(
        "By point and by shared source: mains and tolerances, then the meter's errors; each one's standard "
        "uncertainty is in it."
    )
    own: np.ndarray = about("By point: standard uncertainty of what it shares with no other reading.")


def predicted(table: Table, name: str, meters: Meters, observed: Observed) -> Predicted:
    """What every point of a table predicts for one reading.

    Parameters
    ----------
    name
        One of `NUMBERS`.
    observed
        For the times at which residual volts are read.
    """
    return _predicted(table, name, meters, observed.pins_after, observed.bus_after)


@functools.lru_cache(maxsize=256)
def _predicted(table, name, meters, pins_after, bus_seconds):
    nothing = np.zeros(len(NUISANCES))
    mean, slope, own, errors = _quantity(table, name, meters, pins_after, bus_seconds)
    slope = np.broadcast_to(nothing if slope is None else slope, (len(mean), len(NUISANCES)))
    shared = np.zeros((len(mean), len(_ERRORS)))
    for error, size in errors.items():
        shared[:, _ERRORS.index(error)] = size
    own = np.broadcast_to(np.maximum(own, 1e-12), mean.shape)
    return Predicted(mean, np.hstack([slope * _TAU, shared]), own)


def box(name: str, value: float, meters: Meters) -> tuple[float, float]:
    """Between which two numbers a reading's truth on the display lies: half a digit either way; all below for a zero.

    Parameters
    ----------
    value
        As read.

    Returns
    -------
    (float, float)
        For ohms their common logarithms.
    """
    if name == "leds_dark":
        return (-np.inf if value == 0 else value - 0.5), value + 0.5
    if name in _OHMS:
        meter = meters.multimeter
        if value > meter.most_ohms:
            return np.log10(meter.most_ohms), np.inf
        half = meter.ohms.step(value) / 2
        low = value - half
        return (np.log10(low) if low > _LEAST_OHMS else -np.inf), np.log10(max(value + half, 2 * _LEAST_OHMS))
    scale = scale_of(name, meters)
    half = scale.step(value) / 2
    return (-np.inf, max(scale.floor, half)) if value < half else (value - half, value + half)


@functools.lru_cache(maxsize=256)
def scale_of(name: str, meters: Meters) -> Scale | None:
    """The `Scale` that a reading is taken on; None for a count."""
    plug_in = meters.plug_in.scales()
    if name in plug_in:
        return plug_in[name]
    if name in _OHMS:
        return meters.multimeter.ohms
    return {
        "bus_voltage": meters.multimeter.dc_volts,
        "pins_residual": meters.multimeter.dc_volts,
        "bus_residual": meters.multimeter.dc_volts,
        "bus_ripple": meters.multimeter.ac_volts,
        "dropper_capacitance": meters.multimeter.farads,
        "smoothing_capacitance": meters.multimeter.farads,
    }.get(name)


def _quantity(table, name, meters, pins_after, bus_seconds):
    """Mean, slopes, own spread, and shared errors of one reading."""
    mean, slope, seen = table.mean, table.slope, table.seen
    meter, hand = meters.plug_in, meters.multimeter

    def digits(scale):
        return scale.digits * scale.digit / _ROOT

    scale = scale_of(name, meters)
    if name == "voltage":
        return mean[name], slope[name], digits(scale), {"volts": meter.volt_error / _ROOT * mean[name]}
    if name == "current":
        return mean[name], slope[name], digits(scale), {"amperes": meter.ampere_error / _ROOT * mean[name]}
    turned = meter.phase_error / _ROOT
    if name == "power":
        watts = mean[name]
        return (
            watts,
            slope[name],
            digits(scale),
            {
                "volts": meter.volt_error / _ROOT * watts,
                "amperes": meter.ampere_error / _ROOT * watts,
                "watts": meter.watt_error / _ROOT * watts,
                "phase": turned * mean["reactive"],
            },
        )
    if name == "power_factor":
        apparent = np.maximum(mean["voltage"] * mean["current"], 1e-9)
        # with hardly any current the display may write anything
        idle = mean["current"] < 2 * meter.ampere_digit
        return (
            np.where(idle, 0.5, mean[name]),
            slope[name] * ~idle[:, None],
            np.where(idle, 0.5, digits(scale)),
            {
                "watts": meter.watt_error / _ROOT * mean[name] * ~idle,
                "phase": turned * np.minimum(mean["reactive"] / apparent, 1.0) * ~idle,
            },
        )
    if name == "leds_dark":
        return seen[name], None, 0.2 + 0.03 * seen[name], {}
    if name in ("bus_voltage", "bus_ripple"):
        key = "bus" if name == "bus_voltage" else ("ripple" if hand.true_rms else "averaged_ripple")
        return mean[key], slope[key], _own(scale, mean[key]), {}
    if name in ("dropper_capacitance", "smoothing_capacitance"):
        part = name.split("_")[0]
        value, whole = seen[part], getattr(table.lamp, part)
        lean = np.zeros((len(value), len(NUISANCES)))
        lean[:, NUISANCES.index(part)] = value
        return value, lean, _own(scale, value) + 0.002 * whole, {}
    if name in _OHMS:
        value = np.clip(seen[_OHMS[name]], _LEAST_OHMS, 30 * hand.most_ohms)
        edge = (value <= _LEAST_OHMS) | (value > hand.most_ohms)
        tolerance = 0.05 if name == "smoothing_resistance" else RESISTOR_LIMIT / _ROOT
        own = np.hypot(tolerance, _own(scale, value) / value) / np.log(10)
        return np.log10(value), None, np.where(edge, 0.2, own), {}
    if name == "pins_residual":
        return _on_the_pins(table, scale, hand, pins_after)
    left = table.bus_left(bus_seconds, hand.input_resistance)
    lean = np.zeros((len(left), len(NUISANCES)))
    lean[:, NUISANCES.index("smoothing")] = table.bus_left_lean(bus_seconds, hand.input_resistance)
    # A bleeder of more ohms leaves as much as a capacitor of more farads does.
    bleeds = RESISTOR_LIMIT / _ROOT * np.abs(lean).sum(axis=1)
    return left, lean, _own(scale, left) + bleeds + 0.05 * left + 0.05, {}


def _on_the_pins(table, scale, hand, seconds):
    """The dropper's charge after a time, the bleeder and the meter emptying it, as `theory.residual_voltage` has it."""
    beside = 1 / (1 / table.seen["bleeder"].clip(1.0) + 1 / hand.input_resistance)
    times = seconds / np.maximum(beside * table.seen["dropper"], 1e-12)
    left = np.exp(-times)
    volts = table.mean["unplugged_high"] * left
    slope = table.slope["unplugged_high"] * left[:, None]
    slope[:, NUISANCES.index("dropper")] += volts * np.minimum(times, 50)
    bleeds = np.minimum(times, 50) * RESISTOR_LIMIT / _ROOT * volts
    return volts, slope, _own(scale, volts) + bleeds + 0.03 * volts, {}


def _own(scale, value):
    """Standard uncertainty of a multimeter's readings, the digits by the value's range."""
    value = np.abs(np.asarray(value, float))
    step = np.array([scale.step(one) for one in value.ravel()]).reshape(value.shape)
    return (scale.of_reading * value + scale.digits * step) / _ROOT
