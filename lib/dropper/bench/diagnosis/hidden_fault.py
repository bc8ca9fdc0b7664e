"""A lamp whose fault nobody sees: parts off within their tolerances, and meters that err, all from one seed."""

import math
from dataclasses import dataclass, field

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, replace_at, value_at
from .cause_table import NUISANCES, Table
from .evidence import WORDS, Observed
from .measurements import ACTS
from .observations import chances
from .prediction import Meters, predicted, scale_of
from .prior import LIMITS, RESISTOR_LIMIT, amounts_for
from .simulation import DARK, QUANTITIES, bus_left_of, check_lit, one_of, parts_seen, quantities_of

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
class _Two(Table):
    """A table of two points: the healthy lamp as it should be, and the hidden one."""

    real: Lamp = None
    kind: tuple | None = None
    size: float | None = None

    def bus_left(self, seconds, meter_resistance):
        left = [
            bus_left_of(lamp, kind, size, seconds, meter_resistance)
            for lamp, kind, size in ((self.lamp, None, None), (self.real, self.kind, self.size))
        ]
        return np.array(left)


@documented
@dataclass(frozen=True, eq=False)
class Hidden:
    """A lamp with a hidden cause, and its readings.

    Raises
    ------
    ValueError
        If the lamp stays dark with every part good.
    """

    lamp: Lamp = about("As it should be.")
    seed: int = about("Draws amount, parts, and the meters' errors.")
    kind: tuple | None = about("The cause, as in `prior.WEIGHTS`.")
    meters: Meters
    amount: float | None = field(init=False)
    real: Lamp = field(init=False)
    _table: Table = field(init=False, repr=False)

    def __post_init__(self):
        check_lit(self.lamp)
        rng = np.random.default_rng([self.seed, 1])
        amounts, amount = amounts_for(self.lamp, self.kind), None
        if amounts is not None:
            row = amounts[1]
            amount = float(np.interp(rng.uniform(*_CLEAR[self.kind]) * (len(row) - 1), np.arange(len(row)), row))
            amount = float(round(amount)) if self.kind == ("short", "groups") else amount
        object.__setattr__(self, "amount", amount)
        object.__setattr__(self, "real", _built(rng, self.lamp))
        object.__setattr__(self, "_table", _table(self.lamp, self.real, self.kind, amount))

    @property
    def is_dark(self) -> bool:
        """Whether the lamp gives no light."""
        return bool(self._table.seen["light"][1] < DARK)

    def read(self, key: str) -> dict:
        """What one act reads, the same each time it is done.

        Parameters
        ----------
        key
            Of `acts.ACTS`.

        Returns
        -------
        dict of str to (float or str)
            Fields of `Observed`.
        """
        place = list(ACTS).index(key)
        rng = np.random.default_rng([self.seed, 2, place])
        shared = np.random.default_rng([self.seed, 3]).uniform(-1, 1, 4) * math.sqrt(3)
        return {name: self._one(name, rng, shared) for name in ACTS[key].readings}

    def _one(self, name, rng, shared):
        if name in WORDS:
            chance = chances(self._table, name)[1]
            # a test of parts is written down rightly; the eye is not a meter
            place = rng.choice(len(chance), p=chance) if name == "light" and not self.is_dark else int(chance.argmax())
            return list(WORDS[name])[place]
        if name == "leds_dark":
            return float(self._table.seen[name][1])
        one = predicted(self._table, name, self.meters, Observed())
        value = one.mean[1] + one.loads[1, len(NUISANCES) :] @ shared + one.own[1] * rng.uniform(-1, 1) * math.sqrt(3)
        if name.endswith("_resistance"):
            return self.meters.multimeter.resistance(10**value)
        shown = scale_of(name, self.meters).shown(max(value, 0.0))
        return min(shown, 1.0) if name == "power_factor" else shown


def _built(rng, lamp):
    """The lamp with every part somewhere within its tolerance."""
    for path, name in _FIELDS.items():
        lamp = replace_at(lamp, path, value_at(lamp, path) * (1 + rng.uniform(-1, 1) * LIMITS[name]))
    for path in _RESISTORS:
        if value_at(lamp, path):
            lamp = replace_at(lamp, path, value_at(lamp, path) * (1 + rng.uniform(-1, 1) * RESISTOR_LIMIT))
    return lamp


def _table(lamp, real, kind, amount):
    rows = [quantities_of(lamp), quantities_of(one_of(real, kind, amount))]
    seen = [parts_seen(lamp, None, None), parts_seen(real, kind, amount)]
    light = np.array([1.0, rows[1]["string"] / max(rows[0]["string"], 1e-12)])
    joined = {key: np.array([one[key] for one in seen]) for key in seen[0]}
    joined |= {"light": light, "flicker": np.array([row["flicker"] for row in rows])}
    if light[1] < DARK:
        joined["leds_dark"][1] = lamp.string.in_series * lamp.string.in_parallel
    return _Two(
        lamp=lamp,
        causes=(None, kind) if kind else (None,),
        cause=np.array([0, 1 if kind else 0]),
        amount=np.array([np.nan, np.nan if amount is None else amount]),
        share=np.ones(2),
        mean={key: np.array([row[key] for row in rows]) for key in QUANTITIES},
        slope={key: np.zeros((2, len(NUISANCES))) for key in QUANTITIES},
        seen=joined,
        real=real,
        kind=kind,
        size=amount,
    )
