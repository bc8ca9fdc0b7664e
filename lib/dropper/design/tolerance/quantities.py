"""Quantities that are read off each of many lamps, by key: their names and units."""

import numpy as np

from ...circuit.excerpt import excerpt
from ...results import explain
from ...solver.steady import SteadyState

UNITS = {
    "string_current_mean": "A",
    "string_current_max": "A",
    "real_power": "W",
    "line_current_rms": "A",
    "power_factor": "",
    "percent_flicker": "%",
    "bus_voltage_mean": "V",
}
KEYS = tuple(UNITS)
# Those that no formula says to rise or fall all the way from end to end: power is greatest at a clamped voltage of half
# the mains' peak, the power factor near 0.775 of it, and flicker hangs on conduction, current and smoothing at once.
HUMPED = ("real_power", "power_factor", "percent_flicker")


def name(key: str) -> str:
    """What a reading is called.

    Parameters
    ----------
    key
        One of `KEYS`.
    """
    return explain.QUESTIONS[key]


def known(key: str) -> str:
    """The key itself, or a `KeyError` that names those there are."""
    if key not in UNITS:
        raise KeyError(f"{excerpt(key)} is no reading kept here; choose from {', '.join(KEYS)}")
    return key


def read(solved: SteadyState) -> dict[str, np.ndarray]:
    """The readings of many solved lamps, by key; nan: flicker without light.

    Parameters
    ----------
    solved
        Of a batch.
    """
    readings = {key: np.array(getattr(solved, key)) for key in KEYS}
    readings["percent_flicker"][solved.dark] = np.nan
    return readings
