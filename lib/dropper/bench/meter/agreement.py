"""Agreement: whether volts, amperes, watts, volt-amperes and power factor read at once can be one truth."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ...circuit.excerpt import excerpt
from .intervals import UNITS, Agreement, agreement_of_intervals
from .plug_in import PlugInMeter

if TYPE_CHECKING:
    from ..diagnosis.evidence import Evidence

_DIGITS = {"voltage": 0.1, "current": 1e-3, "power": 0.1, "apparent_power": 0.1, "power_factor": 0.01}


def agreement(readings: Evidence | dict[str, float], meter: PlugInMeter | None = None) -> Agreement:
    """Whether readings taken at once can be one truth: VA = V·A and W = VA·PF, each within its digits.

    Every reading is an interval; each product narrows what its three may be, until nothing changes.
    Where nothing is left, the fewest readings that cannot go together are found and named.

    Parameters
    ----------
    readings
        Of "voltage", "current", "power", "apparent_power", "power_factor" those that were read, SI units.
    meter
        Its stated errors widen the intervals, for readings of different meters. Without it half a
        digit of 0.1 V, 1 mA, 0.1 W, 0.1 VA, 0.01 counts, for one meter's display.

    Raises
    ------
    ValueError
        For a reading that is negative or not finite.

    Examples
    --------
    >>> agreement({"voltage": 230.0, "current": 0.022, "power": 1.4, "power_factor": 0.33}).conflict
    ('power_factor', 'voltage', 'current', 'power')
    """
    scales = None if meter is None else meter.scales()

    def interval(name, value):
        if not math.isfinite(value) or value < 0:
            raise ValueError(f"{name}: {excerpt(value)} {UNITS[name]} cannot be read; it must be a number of 0 or more")
        if scales is None:
            return max(value - _DIGITS[name] / 2, 0.0), value + _DIGITS[name] / 2
        return scales[name].true_range(value)

    return agreement_of_intervals(
        {name: interval(name, value) for name, value in _read(readings).items()}, _read(readings)
    )


def _read(readings):
    get = readings.get if hasattr(readings, "get") else lambda name: getattr(readings, name, None)
    return {name: float(get(name)) for name in _DIGITS if get(name) is not None}
