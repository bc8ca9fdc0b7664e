"""Intervals: readings known within limits, narrowed by their products until they agree or contradict."""

import itertools
import math
from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...circuit.values import show

UNITS = {"voltage": "V", "current": "A", "power": "W", "apparent_power": "VA", "power_factor": ""}
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
_RELATED = (
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
    conflict: tuple = about("Where they do not: one reading, and the fewest others it cannot go with.")
    ranges: dict = about("Where they do: what each of the five may be, the unread ones too. SI units.")
    words: str = about("All of it in a sentence.")

    def __repr__(self) -> str:
        return f"<Agreement: {self.words}>"


def agreement_of_intervals(intervals: dict[str, tuple[float, ...]], read: dict[str, float]) -> Agreement:
    """Whether readings can be one truth, from the interval of each.

    Parameters
    ----------
    read
        The readings as the sentence writes them.
    """
    ranges, related = narrow(intervals)
    if ranges is not None:
        if not related:
            return Agreement(None, (), ranges, "Too little was read to see whether the meter agrees with itself.")
        last = next(name for name in _SPEAKS_LAST if name in intervals)
        others = {name: interval for name, interval in intervals.items() if name != last}
        words = f"The meter agrees with itself: {_product_words(last, others, read)}, and it read "
        return Agreement(True, (), ranges, words + f"{_text(last, read)}.")
    for count in range(2, len(intervals) + 1):
        for names in itertools.combinations(intervals, count):
            if narrow({name: intervals[name] for name in names})[0] is None:
                last = next(name for name in _SPEAKS_LAST if name in names)
                others = {name: intervals[name] for name in names if name != last}
                words = f"The meter disagrees with itself: {_product_words(last, others, read)}, but it read "
                return Agreement(False, (last, *others), {}, words + f"{_text(last, read)}.")
    raise AssertionError("narrowing failed for all readings, yet for no subset of them")


def narrow(intervals: dict[str, tuple[float, ...]]) -> tuple[dict | None, bool]:
    """What is left of intervals when both products are put in again and again.

    Returns
    -------
    (dict or None, bool)
        None where nothing is left; and whether the products tied any of the readings together.
    """
    ranges = {name: intervals.get(name, (0.0, top)) for name, top in _HULLS.items()}
    ranges["power_factor"] = ranges["power_factor"][0], min(ranges["power_factor"][1], 1.0)
    for _ in range(60):
        previous = dict(ranges)
        for product, one, other in _PRODUCTS:
            for name, bounds in (
                (product, _times(ranges[one], ranges[other])),
                (one, _over(ranges[product], ranges[other])),
                (other, _over(ranges[product], ranges[one])),
            ):
                low, high = max(ranges[name][0], bounds[0]), min(ranges[name][1], bounds[1])
                if low > high * (1 + 1e-9) + 1e-12:
                    return None, True
                ranges[name] = low, max(low, high)
        if all(
            math.isclose(now, old, rel_tol=1e-9)
            for name in ranges
            for now, old in zip(ranges[name], previous[name], strict=True)
        ):
            break
    return ranges, any(names <= set(intervals) for names in _RELATED)


def _product_words(last, others, read):
    """What the other readings make of one, in words."""
    low, high = narrow(others)[0][last]
    unit = UNITS[last]
    band = f"{low:.2f} to {high:.2f}" if unit == "" else f"{show(low, unit)} to {show(high, unit)}"
    listed = [_text(name, read, "a power factor of ") for name in others]
    return f"{', '.join(listed[:-1])} and {listed[-1]} make {_ARTICLES[last]} of {band}"


def _text(name, read, factor=""):
    unit = UNITS[name]
    return f"{factor}{read[name]:.2f}" if unit == "" else show(read[name], unit, 4)


def _times(a, b):
    return a[0] * b[0], a[1] * b[1]


def _over(a, b):
    low = a[0] / b[1] if b[1] > 0 else (0.0 if a[0] == 0 else math.inf)
    return low, (a[1] / b[0] if b[0] > 0 else math.inf)
