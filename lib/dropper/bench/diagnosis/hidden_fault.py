"""Hidden fault: a lamp with an unknown fault, parts off within tolerance and meters that err, all from one seed."""

import math
from dataclasses import dataclass, field

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, replace_at, value_at
from ...solver.transient.pull import volts_left
from .cause_table import NUISANCES, CauseTable
from .evidence import WORDS, Evidence
from .measurements import MEASUREMENTS
from .meters import Meters, scale_of
from .prediction import prediction_of
from .prior import LIMITS, RESISTOR_LIMIT, amounts_for
from .simulation import DARK, PULL_ANGLES, QUANTITIES, bus_residual_of, check_lit, lamp_with, part_values, quantities_of
from .word_readings import word_probabilities

_FIELDS = {
    "mains.voltage": "mains",
    "dropper": "dropper",
    "smoothing": "smoothing",
    "string.led.forward_voltage": "forward",
}
_RESISTORS = ("inrush_resistor", "bleeder", "smoothing_bleeder")
# Which part of its range a hidden amount is drawn from: a fault that somebody would call one.
_CLEAR = {
    ("lost", "dropper"): (0.25, 0.95),
    ("dried out", "smoothing"): (0.5, 1.0),
    ("leaky", "smoothing"): (0.1, 0.5),
    ("drifted", "inrush_resistor"): (0.5, 1.0),
    ("short", "groups"): (0.0, 0.8),
}


@dataclass(frozen=True, eq=False)
class _TwoPointTable(CauseTable):
    """A table of two points: the healthy lamp as it should be, and the hidden one."""

    real: Lamp = None
    kind: tuple | None = None
    true_amount: float | None = None
    pulled_at: float = 0.0  # degrees of the mains

    def bus_residual(self, seconds, meter_resistance):
        lamps = (self.lamp, None, None), (self.real, self.kind, self.true_amount)
        return np.array([bus_residual_of(*lamp, seconds, meter_resistance) for lamp in lamps])

    def pins_residual(self, seconds, meter_resistance):
        """Of the one pull that was made, whatever moment is asked for; the parts are what they are: no slopes."""
        lamps = self.lamp, lamp_with(self.real, self.kind, self.true_amount)
        volts = [abs(volts_left(lamp, [self.pulled_at], seconds, meter_resistance)[0][0]) for lamp in lamps]
        shape = (2, len(PULL_ANGLES))
        return np.broadcast_to(np.array(volts)[:, None], shape), np.zeros((*shape, len(NUISANCES)))


@documented
@dataclass(frozen=True, eq=False)
class HiddenFault:
    """A lamp with a hidden cause, and its readings.

    Raises
    ------
    ValueError
        If the lamp stays dark with every part good.
    """

    lamp: Lamp = about("As it should be.")
    seed: int = about("Draws amount, parts, and the meters' errors.")
    kind: tuple | None = about("The cause, as in `WEIGHTS`.")
    meters: Meters
    amount: float | None = field(init=False)
    real: Lamp = field(init=False)
    _table: CauseTable = field(init=False, repr=False)

    def __post_init__(self):
        check_lit(self.lamp)
        rng = np.random.default_rng([self.seed, 1])
        amounts, amount = amounts_for(self.lamp, self.kind), None
        if amounts is not None:
            row = amounts[1]
            amount = float(np.interp(rng.uniform(*_CLEAR[self.kind]) * (len(row) - 1), np.arange(len(row)), row))
            amount = float(round(amount)) if self.kind == ("short", "groups") else amount
        object.__setattr__(self, "amount", amount)
        object.__setattr__(self, "real", _lamp_within_tolerance(rng, self.lamp))
        pulled_at = float(np.random.default_rng([self.seed, 4]).uniform(0, 360))
        object.__setattr__(self, "_table", _table(self.lamp, self.real, self.kind, amount, pulled_at))

    @property
    def is_dark(self) -> bool:
        """Whether the lamp gives no light."""
        return bool(self._table.observables["light"][1] < DARK)

    def read(self, key: str) -> dict:
        """What one measurement reads, the same each time it is done.

        Parameters
        ----------
        key
            Of `MEASUREMENTS`.

        Returns
        -------
        dict of str to (float or str)
            Fields of `Evidence`.
        """
        place = list(MEASUREMENTS).index(key)
        rng = np.random.default_rng([self.seed, 2, place])
        shared = np.random.default_rng([self.seed, 3]).uniform(-1, 1, 4) * math.sqrt(3)
        return {name: self._reading(name, rng, shared) for name in MEASUREMENTS[key].readings}

    def _reading(self, name, rng, shared):
        if name in WORDS:
            chance = word_probabilities(self._table, name)[1]
            # a test of parts is written down rightly; the eye is not a meter
            place = rng.choice(len(chance), p=chance) if name == "light" and not self.is_dark else int(chance.argmax())
            return list(WORDS[name])[place]
        if name == "leds_dark":
            return float(self._table.observables[name][1])
        prediction = prediction_of(self._table, name, self.meters, Evidence())
        value = prediction.mean[1] + prediction.loadings[1, len(NUISANCES) :] @ shared
        value += prediction.independent[1] * rng.uniform(-1, 1) * math.sqrt(3)
        if name.endswith("_resistance"):
            return self.meters.multimeter.resistance(10**value)
        shown = scale_of(name, self.meters).reading(max(value, 0.0))
        return min(shown, 1.0) if name == "power_factor" else shown


def _lamp_within_tolerance(rng, lamp):
    """The lamp with every part somewhere within its tolerance."""
    for path, name in _FIELDS.items():
        lamp = replace_at(lamp, path, value_at(lamp, path) * (1 + rng.uniform(-1, 1) * LIMITS[name]))
    for path in _RESISTORS:
        if value_at(lamp, path):
            lamp = replace_at(lamp, path, value_at(lamp, path) * (1 + rng.uniform(-1, 1) * RESISTOR_LIMIT))
    return lamp


def _table(lamp, real, kind, amount, pulled_at):
    rows = [quantities_of(lamp), quantities_of(lamp_with(real, kind, amount))]
    parts = [part_values(lamp, None, None), part_values(real, kind, amount)]
    light = np.array([1.0, rows[1]["string"] / max(rows[0]["string"], 1e-12)])
    observables = {key: np.array([values[key] for values in parts]) for key in parts[0]}
    observables |= {"light": light, "flicker": np.array([row["flicker"] for row in rows])}
    if light[1] < DARK:
        observables["leds_dark"][1] = lamp.string.in_series * lamp.string.in_parallel
    return _TwoPointTable(
        lamp=lamp,
        causes=(None, kind) if kind else (None,),
        cause=np.array([0, 1 if kind else 0]),
        amount=np.array([np.nan, np.nan if amount is None else amount]),
        share=np.ones(2),
        mean={key: np.array([row[key] for row in rows]) for key in QUANTITIES},
        slope={key: np.zeros((2, len(NUISANCES))) for key in QUANTITIES},
        observables=observables,
        real=real,
        kind=kind,
        true_amount=amount,
        pulled_at=pulled_at,
    )
