"""How much the light wavers: percent flicker and flicker index of a waveform.

Light is taken to follow the string current, which small LEDs do closely.
"""

import numpy as np


def percent_flicker(highest, lowest):
    """Percent flicker, 100·(max - min)/(max + min).

    Parameters
    ----------
    highest, lowest : float or array
        The light's (or string current's) extremes, any unit, not negative.

    Returns
    -------
    float or array
        Per cent; nan where there is no light.

    Source: IEEE 1789-2015 (its "percent flicker", also called modulation).
    """
    highest, lowest = np.asarray(highest, float), np.asarray(lowest, float)
    with np.errstate(invalid="ignore", divide="ignore"):
        return 100 * (highest - lowest) / (highest + lowest)


def flicker_index(samples):
    """Flicker index: the area above the mean over the whole area of one cycle.

    Parameters
    ----------
    samples : array, shape (..., points)
        Light or string current at equal steps over a whole number of cycles.

    Returns
    -------
    array, shape (...)
        From 0 to 1; nan where there is no light.

    Source: IEEE 1789-2015 (after the IES Lighting Handbook's definition).
    """
    samples = np.asarray(samples, float)
    mean = samples.mean(axis=-1, keepdims=True)
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.maximum(samples - mean, 0).mean(axis=-1) / mean[..., 0]
