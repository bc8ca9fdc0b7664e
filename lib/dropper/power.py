"""Power quantities of a line current: harmonics, displacement and distortion (IEEE 1459-2010)."""

import numpy as np

HARMONICS = 40


def harmonics(samples, orders=HARMONICS):
    """Complex rms harmonics of a waveform given as means over equal intervals of one cycle.

    Parameters
    ----------
    samples : array, shape (..., points)
        Mean of the waveform in each of `points` equal intervals of one cycle.
    orders : int
        Highest order wanted; less than points/2.

    Returns
    -------
    complex array, shape (..., orders + 1)
        Index is the order. Magnitude is the rms value, the angle is that of
        sin(nωt + angle); order 0 is the mean.

    Raises
    ------
    ValueError
        If there are too few points for the orders.
    """
    samples = np.asarray(samples, float)
    points = samples.shape[-1]
    if points < 2 * (orders + 1):
        raise ValueError(f"orders: {orders} harmonics need {2 * (orders + 1)} points, not {points}")
    order = np.arange(orders + 1)
    found = np.fft.rfft(samples, axis=-1)[..., : orders + 1] / points
    # Each sample is a mean over its interval and stands at the interval's middle.
    found = found * (np.exp(-1j * np.pi * order / points) / np.sinc(order / points))
    scale = np.where(order == 0, 1, np.sqrt(2) * 1j)
    return found * scale


def power_factor(real_power, apparent_power):
    """Power factor P/S (IEEE 1459-2010); nan where no current flows."""
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.asarray(real_power, float) / np.asarray(apparent_power, float)


def displacement_factor(fundamental_current):
    """Cosine of the angle between the fundamentals of voltage (at angle 0) and current."""
    fundamental_current = np.asarray(fundamental_current)
    with np.errstate(invalid="ignore", divide="ignore"):
        return fundamental_current.real / np.abs(fundamental_current)


def total_harmonic_distortion(rms, fundamental_rms):
    """THD = √(I² - I₁²)/I₁ (IEEE 1459-2010), all orders and none left out."""
    with np.errstate(invalid="ignore", divide="ignore"):
        rest = np.maximum(np.square(rms) - np.square(fundamental_rms), 0)
        return np.sqrt(rest) / np.asarray(fundamental_rms, float)
