"""E series: the preferred values of IEC 60063."""

import math

# IEC 60063:2015, values per decade. E48 to E192 are rounded geometric series; E3 to E24 are older than the formula and
# do not follow it, and E192 keeps one exception, 920 where the formula gives 919.
E_SERIES = {
    3: (10, 22, 47),
    6: (10, 15, 22, 33, 47, 68),
    12: (10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82),
    24: (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91),
    **{
        count: tuple(
            920 if (count, place) == (192, 185) else round(100 * 10 ** (place / count)) for place in range(count)
        )
        for count in (48, 96, 192)
    },
}


def preferred(series: int, low: float, high: float) -> list[float]:
    """Every preferred value of an E series between two bounds, both included.

    Parameters
    ----------
    series
        3, 6, 12, 24, 48, 96 or 192 (IEC 60063:2015).
    low, high
        SI units, 0 < low <= high.

    Raises
    ------
    ValueError
        For a series that is not kept here or bounds out of order.

    Examples
    --------
    >>> preferred(6, 1e-7, 4.7e-7)
    [1e-07, 1.5e-07, 2.2e-07, 3.3e-07, 4.7e-07]
    """
    if series not in E_SERIES:
        raise ValueError(f"series: E{series} is not kept here; choose from {sorted(E_SERIES)}")
    if not 0 < low <= high < math.inf:
        raise ValueError(f"low and high: {low} and {high}; need 0 < low <= high")
    first, last = math.floor(math.log10(low)) - 3, math.ceil(math.log10(high))
    decades = range(first, last + 1)
    every = (float(f"{step}e{decade}") for decade in decades for step in E_SERIES[series])
    return [value for value in every if low * (1 - 1e-9) <= value <= high * (1 + 1e-9)]
