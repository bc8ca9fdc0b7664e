"""Whether volts, amperes, watts, volt-amperes and power factor read at once can be one truth."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.fields import about, documented
from ...circuit.values import show

if TYPE_CHECKING:
    from ..diagnosis.evidence import Evidence

_DIGITS = {"voltage": 0.1, "current": 1e-3, "power": 0.1, "apparent_power": 0.1, "power_factor": 0.01}
_UNITS = {"voltage": "V", "current": "A", "power": "W", "apparent_power": "VA", "power_factor": ""}
_ARTICLES = {
    "voltage": "a voltage",
    "current": "a current",
    "power": "a power",
    "apparent_power": "an apparent power",
    "power_factor": "a power factor",
}
# each is the product of the other two
_PRODUCTS = (("apparent_power", "voltage", "current"), ("power", "apparent_power", "power_factor"))
# readings that check each other
_TIED = (
    {"voltage", "current", "apparent_power"},
    {"apparent_power", "power", "power_factor"},
    {"voltage", "current", "power", "power_factor"},
)
_HULLS = {"voltage": 1e5, "current": 1e4, "power": 1e9, "apparent_power": 1e9, "power_factor": 1.0}
# which of the readings is said to disagree with what the others make
_SPEAKS_LAST = ("power_factor", "apparent_power", "power", "current", "voltage")


@documented
@dataclass(frozen=True)
class Agreement:
    """Whether readings can go together."""

    agrees: bool | None = about("None where too little was read to tell.")
    pair: tuple = about("Where they do not: the reading that stands alone, and the fewest others it cannot go with.")
    within: dict = about("Where they do: what each of the five may be, the unread ones too. SI units.")
    words: str = about("All of it in a sentence.")


def agreement(readings: Evidence | dict[str, float], meter=None) -> Agreement:
    """Whether readings taken at once can be one truth: VA = V·A and W = VA·PF, each within its digits.

    Every reading is an interval; each product narrows what its three may be, until nothing changes.
    Where nothing is left, the fewest readings that cannot go together are found and named.

    Parameters
    ----------
    readings
        Of "voltage", "current", "power", "apparent_power", "power_factor" those that were read, SI units.
    meter : PlugInMeter, optional
        Its stated errors widen the intervals, for readings of different meters. Without it half a
        digit of 0.1 V, 1 mA, 0.1 W, 0.1 VA, 0.01 counts, for one meter's display.

    Raises
    ------
    ValueError
        For a reading that is negative or not finite.

    Examples
    --------
    >>> agreement({"voltage": 230.0, "current": 0.022, "power": 1.4, "power_factor": 0.33}).pair
    ('power_factor', 'voltage', 'current', 'power')
    """
    scales = None if meter is None else meter.scales()

    def interval(name, value):
        if not math.isfinite(value) or value < 0:
            raise ValueError(f"{name}: {value!r} {_UNITS[name]} cannot be read; it must be a number of 0 or more")
        if scales is None:
            return max(value - _DIGITS[name] / 2, 0.0), value + _DIGITS[name] / 2
        return scales[name].truth(value)

    return of_intervals({name: interval(name, value) for name, value in _read(readings).items()}, _read(readings))


def of_intervals(intervals: dict[str, tuple[float, ...]], read: dict[str, float]) -> Agreement:
    """The same from intervals.

    Parameters
    ----------
    read
        The readings as the sentence writes them.
    """
    left, told = narrowed(intervals)
    if left is not None:
        if not told:
            return Agreement(None, (), left, "Too little was read to see whether the meter agrees with itself.")
        last = next(name for name in _SPEAKS_LAST if name in intervals)
        said = _made_of(last, {name: pair for name, pair in intervals.items() if name != last}, read)
        return Agreement(True, (), left, f"The meter agrees with itself: {said}, and it read {_text(last, read)}.")
    for count in range(2, len(intervals) + 1):
        for names in itertools.combinations(intervals, count):
            if narrowed({name: intervals[name] for name in names})[0] is None:
                last = next(name for name in _SPEAKS_LAST if name in names)
                others = {name: intervals[name] for name in names if name != last}
                words = f"The meter disagrees with itself: {_made_of(last, others, read)}, but it read "
                return Agreement(False, (last, *others), {}, words + f"{_text(last, read)}.")
    raise AssertionError("narrowing failed for all readings, yet for no subset of them")


def narrowed(intervals: dict[str, tuple[float, ...]]) -> tuple[dict | None, bool]:
    """What is left of intervals when both products are put in again and again.

    Returns
    -------
    (dict or None, bool)
        None where nothing is left; and whether the products tied any of the readings together.
    """
    left = {name: intervals.get(name, (0.0, top)) for name, top in _HULLS.items()}
    left["power_factor"] = left["power_factor"][0], min(left["power_factor"][1], 1.0)
    for _ in range(60):
        before = dict(left)
        for product, one, other in _PRODUCTS:
            for name, made in (
                (product, _times(left[one], left[other])),
                (one, _over(left[product], left[other])),
                (other, _over(left[product], left[one])),
            ):
                low, high = max(left[name][0], made[0]), min(left[name][1], made[1])
                if low > high * (1 + 1e-9) + 1e-12:
                    return None, True
                left[name] = low, max(low, high)
        if all(
            math.isclose(now, old, rel_tol=1e-9)
            for name in left
            for now, old in zip(left[name], before[name], strict=True)
        ):
            break
    return left, any(tied <= set(intervals) for tied in _TIED)


def _read(readings):
    get = readings.get if hasattr(readings, "get") else lambda name: getattr(readings, name, None)
    return {name: float(get(name)) for name in _DIGITS if get(name) is not None}


def _made_of(last, others, read):
    """What the other readings make of one, in words."""
    low, high = narrowed(others)[0][last]
    unit = _UNITS[last]
    band = f"{low:.2f} to {high:.2f}" if unit == "" else f"{show(low, unit)} to {show(high, unit)}"
    listed = [_text(name, read, "a power factor of ") for name in others]
    return f"{', '.join(listed[:-1])} and {listed[-1]} make {_ARTICLES[last]} of {band}"


def _text(name, read, factor=""):
    unit = _UNITS[name]
    return f"{factor}{read[name]:.2f}" if unit == "" else show(read[name], unit, 4)


def _times(a, b):
    return a[0] * b[0], a[1] * b[1]


def _over(a, b):
    low = a[0] / b[1] if b[1] > 0 else (0.0 if a[0] == 0 else math.inf)
    return low, (a[1] / b[0] if b[0] > 0 else math.inf)
