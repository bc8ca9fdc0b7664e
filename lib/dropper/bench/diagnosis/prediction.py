"""Prediction: what each cause predicts for each reading, a mean and how it may be off together with the others."""

from __future__ import annotations

import functools
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.fields import about, documented
from .cause_table import NUISANCES, CauseTable
from .meters import PART_BY_OHMS, Meters, scale_of
from .prior import SPREADS
from .reading_models import LEAST_OHMS, MODELS, ReadingCase
from .simulation import PULL_ANGLES

if TYPE_CHECKING:
    from .evidence import Evidence

NUMBERS = tuple(MODELS)
PULLED_READING = "pins_residual"  # leans on the moment at which the plug was pulled
_ERRORS = ("volts", "amperes", "watts", "phase")  # what several of a plug-in meter's readings share
_TAU = np.array([SPREADS[name] for name in NUISANCES])


@documented
@dataclass(frozen=True, eq=False)
class Prediction:
    """A reading as every point of a table predicts it; ohms by their common logarithm."""

    mean: np.ndarray = about("By point.")
    loadings: np.ndarray = about(
        "By point and by shared source: mains and tolerances, then the meter's errors; each one's standard "
        "uncertainty is in it."
    )
    independent: np.ndarray = about("By point: standard uncertainty of what it shares with no other reading.")


def prediction_of(table: CauseTable, name: str, meters: Meters, evidence: Evidence, pull: int = 0) -> Prediction:
    """What every point of a table predicts for one reading.

    Parameters
    ----------
    name
        One of `NUMBERS`.
    evidence
        For the times at which residual volts are read.
    pull
        Place in `PULL_ANGLES` of the moment of pulling the plug; of weight to `pins_residual` only.
    """
    return _prediction(
        table, name, meters, evidence.pins_after, evidence.bus_after, pull if name == PULLED_READING else 0
    )


def pulls_of(names: Iterable[str]) -> range:
    """Places in `PULL_ANGLES` that readings make a difference between: all of them, or one."""
    return range(len(PULL_ANGLES) if PULLED_READING in names else 1)


@functools.lru_cache(maxsize=256)
def _prediction(table, name, meters, pins_after, bus_after, pull):
    model = MODELS[name](ReadingCase(table, name, meters, scale_of(name, meters), pins_after, pull, bus_after))
    shape = (len(model.mean), len(NUISANCES))
    slope = np.broadcast_to(np.zeros(len(NUISANCES)) if model.slope is None else model.slope, shape)
    shared = np.zeros((len(model.mean), len(_ERRORS)))
    for error, size in model.errors.items():
        shared[:, _ERRORS.index(error)] = size
    independent = np.broadcast_to(np.maximum(model.independent, 1e-12), model.mean.shape)
    return Prediction(model.mean, np.hstack([slope * _TAU, shared]), independent)


def interval_of(name: str, value: float, meters: Meters) -> tuple[float, float]:
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
    if name in PART_BY_OHMS:
        meter = meters.multimeter
        if value > meter.most_ohms:
            return np.log10(meter.most_ohms), np.inf
        half = meter.ohms.step(value) / 2
        low = value - half
        return (np.log10(low) if low > LEAST_OHMS else -np.inf), np.log10(max(value + half, 2 * LEAST_OHMS))
    scale = scale_of(name, meters)
    half = scale.step(value) / 2
    return (-np.inf, max(scale.floor, half)) if value < half else (value - half, value + half)
