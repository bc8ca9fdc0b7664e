"""Reading models: mean, slopes and errors of each reading at every point of a table, a function for each kind."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.fields import about, documented
from .cause_table import NUISANCES
from .meters import PART_BY_OHMS, Meters
from .prior import RESISTOR_LIMIT
from .simulation import PULL_ANGLES

if TYPE_CHECKING:
    from ..meter.scale import Scale
    from .cause_table import CauseTable

ROOT = np.sqrt(3)  # a limit over this is the standard uncertainty of an error equally likely all over
_LATE = 0.1  # of the volts: a meter that comes to the pins late has taken less of them. Practice, no source.
_HUM = 0.1  # V: standard uncertainty of what open probes pick up. Typical practice, no source.
LEAST_OHMS = 0.3  # of the test leads: a short reads about so much


@documented
@dataclass(frozen=True, eq=False)
class ReadingCase:
    """A reading that is to be predicted, and how it is taken."""

    table: CauseTable
    name: str = about("Field of `Evidence`.")
    meters: Meters
    scale: Scale | None
    pins_after: float = about("from pulling the plug to the reading on its pins", "s")
    pull: int = about("Place in `PULL_ANGLES` of the moment at which the plug is pulled.")
    bus_after: float = about("from pulling the plug to the reading on the smoothing capacitor", "s")

    @property
    def mean(self) -> np.ndarray:
        """The quantity of the same name, by point."""
        return self.table.mean[self.name]

    @property
    def slope(self) -> np.ndarray:
        """Its slopes, by point and by each of `NUISANCES`."""
        return self.table.slope[self.name]


@documented
@dataclass(frozen=True, eq=False)
class ReadingModel:
    """What every point of a table gives for one reading."""

    mean: np.ndarray = about("By point.")
    slope: np.ndarray | None = about("By point and by each of `NUISANCES`; None where it leans on none.")
    independent: np.ndarray | float = about("Standard uncertainty of what it shares with no other reading.")
    errors: dict = field(default_factory=dict)  # standard uncertainty by point of a plug-in meter's shared errors


def _voltage(case):
    errors = {"volts": case.meters.plug_in.volt_error / ROOT * case.mean}
    return ReadingModel(case.mean, case.slope, _last_digits(case.scale), errors)


def _current(case):
    errors = {"amperes": case.meters.plug_in.ampere_error / ROOT * case.mean}
    return ReadingModel(case.mean, case.slope, _last_digits(case.scale), errors)


def _power(case):
    meter, watts = case.meters.plug_in, case.mean
    errors = {
        "volts": meter.volt_error / ROOT * watts,
        "amperes": meter.ampere_error / ROOT * watts,
        "watts": meter.watt_error / ROOT * watts,
        "phase": meter.phase_error / ROOT * case.table.mean["reactive"],
    }
    return ReadingModel(watts, case.slope, _last_digits(case.scale), errors)


def _power_factor(case):
    meter, mean = case.meters.plug_in, case.table.mean
    apparent = np.maximum(mean["voltage"] * mean["current"], 1e-9)
    # with hardly any current the display may write anything
    idle = mean["current"] < 2 * meter.ampere_digit
    errors = {
        "watts": meter.watt_error / ROOT * case.mean * ~idle,
        "phase": meter.phase_error / ROOT * np.minimum(mean["reactive"] / apparent, 1.0) * ~idle,
    }
    independent = np.where(idle, 0.5, _last_digits(case.scale))
    return ReadingModel(np.where(idle, 0.5, case.mean), case.slope * ~idle[:, None], independent, errors)


def _dark_leds(case):
    count = case.table.observables["leds_dark"]
    return ReadingModel(count, None, 0.2 + 0.03 * count)


def _bus_voltage(case):
    mean, slope = case.table.mean["bus"], case.table.slope["bus"]
    return ReadingModel(mean, slope, multimeter_uncertainty(case.scale, mean))


def _bus_ripple(case):
    key = "ripple" if case.meters.multimeter.true_rms else "averaged_ripple"
    mean, slope = case.table.mean[key], case.table.slope[key]
    return ReadingModel(mean, slope, multimeter_uncertainty(case.scale, mean))


def _capacitance(case):
    part = case.name.removesuffix("_capacitance")
    value, rated = case.table.observables[part], getattr(case.table.lamp, part)
    slope = np.zeros((len(value), len(NUISANCES)))
    slope[:, NUISANCES.index(part)] = value
    return ReadingModel(value, slope, multimeter_uncertainty(case.scale, value) + 0.002 * rated)


def _resistance(case):
    """Ohms by their common logarithm."""
    most = case.meters.multimeter.most_ohms
    value = np.clip(case.table.observables[PART_BY_OHMS[case.name]], LEAST_OHMS, 30 * most)
    edge = (value <= LEAST_OHMS) | (value > most)
    tolerance = 0.05 if case.name == "smoothing_resistance" else RESISTOR_LIMIT / ROOT
    independent = np.hypot(tolerance, multimeter_uncertainty(case.scale, value) / value) / np.log(10)
    return ReadingModel(np.log10(value), None, np.where(edge, 0.2, independent))


def _pins_residual(case):
    """Volts between the pins after one pull, from the circuit with the meter on them."""
    every, slopes = case.table.pins_residual(case.pins_after, case.meters.multimeter.input_resistance)
    volts, slope = every[:, case.pull], slopes[:, case.pull]
    # A bleeder of more ohms leaves as much as a dropper of more farads does; between two moments lie others.
    bleeder = RESISTOR_LIMIT / ROOT * np.abs(slope[:, NUISANCES.index("dropper")])
    between = np.ptp(every, axis=1) / (4 * len(PULL_ANGLES))
    independent = multimeter_uncertainty(case.scale, volts) + bleeder + between + _LATE * volts + _HUM
    return ReadingModel(volts, slope, independent)


def _bus_residual(case):
    ohms = case.meters.multimeter.input_resistance
    volts = case.table.bus_residual(case.bus_after, ohms)
    slope = np.zeros((len(volts), len(NUISANCES)))
    slope[:, NUISANCES.index("smoothing")] = case.table.bus_residual_slope(case.bus_after, ohms)
    # A bleeder of more ohms leaves as much as a capacitor of more farads does.
    bleeder = RESISTOR_LIMIT / ROOT * np.abs(slope).sum(axis=1)
    return ReadingModel(volts, slope, multimeter_uncertainty(case.scale, volts) + bleeder + 0.05 * volts + 0.05)


MODELS = {
    "voltage": _voltage,
    "current": _current,
    "power": _power,
    "power_factor": _power_factor,
    "leds_dark": _dark_leds,
    "bus_voltage": _bus_voltage,
    "bus_ripple": _bus_ripple,
    "pins_residual": _pins_residual,
    "bus_residual": _bus_residual,
    "dropper_capacitance": _capacitance,
    "bleeder_resistance": _resistance,
    "inrush_resistance": _resistance,
    "smoothing_capacitance": _capacitance,
    "smoothing_resistance": _resistance,
    "smoothing_bleeder_resistance": _resistance,
}


def _last_digits(scale):
    """Standard uncertainty of a plug-in meter's last digits."""
    return scale.digits * scale.digit / ROOT


def multimeter_uncertainty(scale: Scale, value: np.ndarray) -> np.ndarray:
    """Standard uncertainty of a multimeter's readings, the digits by the value's range."""
    value = np.abs(np.asarray(value, float))
    step = np.array([scale.step(item) for item in value.ravel()]).reshape(value.shape)
    return (scale.of_reading * value + scale.digits * step) / ROOT
