"""Decimation: long recordings made small for a picture by the least and the greatest value in every column of it."""

import numpy as np

WIDTH = 600


def decimate(time: np.ndarray, values: np.ndarray, width: int = WIDTH) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Least and greatest value in each of so many even stretches of time.

    Parameters
    ----------
    time
        s, rising.
    values
        Gaps are nan.
    width
        How many stretches: the picture's pixels across.

    Returns
    -------
    (array, array, array)
        Middle of each stretch that holds a sample, least and greatest value there. No peak is lost.

    Raises
    ------
    ValueError
        If there are fewer than two samples.

    Examples
    --------
    >>> import numpy as np
    >>> middles, low, high = decimate(np.arange(6), np.array([1, 5, 2, 0, 3, 4]), width=2)
    >>> low.tolist(), high.tolist()
    ([1.0, 0.0], [5.0, 4.0])
    """
    time, values = np.asarray(time, float), np.asarray(values, float)
    if time.size < 2:
        raise ValueError(f"{time.size} samples: at least two are needed for a picture")
    return _extremes((time - time[0]) / (time[-1] - time[0]), values, width, time[0], time[-1] - time[0])


def fold(
    time: np.ndarray, values: np.ndarray, frequency: float, phase: float, width: int = WIDTH
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """The same over one period, all periods laid on one another.

    Parameters
    ----------
    time, values
        As for `decimate`.
    frequency
        Hz.
    phase
        rad, at the first sample.

    Returns
    -------
    (array, array, array)
        Share of the period from 0 to 1, least and greatest value.

    Examples
    --------
    >>> import numpy as np
    >>> time = np.arange(2000) * 1e-4
    >>> place, low, high = fold(time, np.sin(2 * np.pi * 50 * time), 50.0, 0.0, width=4)
    >>> place.tolist(), float(high[0].round(3))
    ([0.125, 0.375, 0.625, 0.875], 1.0)
    """
    time, values = np.asarray(time, float), np.asarray(values, float)
    place = np.mod(frequency * (time - time[0]) + phase / (2 * np.pi), 1.0)
    return _extremes(place, values, width, 0.0, 1.0)


def _extremes(share, values, width, start, span):
    column = np.minimum((share * width).astype(np.int64), width - 1)
    good = ~np.isnan(values)
    if not good.all():
        column, values = column[good], values[good]
    # Neighbours mostly share a column: runs of the same column are taken at once, then columns.
    starts = np.flatnonzero(np.diff(column, prepend=-1))
    low, high = np.full(width, np.inf), np.full(width, -np.inf)
    if starts.size:
        np.minimum.at(low, column[starts], np.minimum.reduceat(values, starts))
        np.maximum.at(high, column[starts], np.maximum.reduceat(values, starts))
    filled = np.isfinite(low)
    return start + span * (np.flatnonzero(filled) + 0.5) / width, low[filled], high[filled]
