"""Flicker, or how much the light wavers: percent flicker, flicker index, harmonics and stroboscopic visibility.

Light is taken to follow the string current, which small LEDs do closely.
"""

import numpy as np

from . import power

HIGHEST = 2000.0  # Hz: stroboscopic visibility counts what lies up to here
_NORM = 3.7  # exponent by which the harmonics add up


def percent_flicker(highest: float | np.ndarray, lowest: float | np.ndarray) -> np.ndarray:
    """Percent flicker, 100·(max - min)/(max + min).

    Parameters
    ----------
    highest, lowest
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


def flicker_index(samples: np.ndarray) -> np.ndarray:
    """Flicker index: the area above the mean over the whole area of one cycle.

    Parameters
    ----------
    samples
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


def light_harmonics(samples: np.ndarray, frequency: float, highest: float = HIGHEST) -> tuple[np.ndarray, ...]:
    """Amplitude of each harmonic of the light over the light's mean, C_m.

    Parameters
    ----------
    samples
        Mean of the light (or string current) in each of `points` equal intervals of one
        period of the mains, any unit; as `steady_state` keeps the string current.
    frequency
        Hz, of the mains, above 0: one over the time that the samples last.
    highest
        Hz; harmonics up to here are given.

    Returns
    -------
    (array, shape (orders,), array, shape (..., orders))
        Frequencies in Hz, m·frequency from the first order up, and the amplitudes: 1 is a
        sine as deep as the mean; nan where there is no light.

    Raises
    ------
    ValueError
        For a frequency that is not above 0, or too few points for the highest harmonic.
    """
    if not (np.ndim(frequency) == 0 and 0 < frequency < np.inf):
        raise ValueError(f"frequency: {frequency} Hz; needs one finite number above 0 Hz")
    samples = np.asarray(samples, float)
    orders = int(highest / frequency * (1 + 1e-12))
    points, needed = samples.shape[-1], 2 * (orders + 1)
    if points < needed:
        raise ValueError(
            f"samples: {points} points in a period of {frequency:g} Hz do not reach {highest:g} Hz; {needed} or more do"
        )
    rms = np.abs(power.harmonics(samples, orders))
    with np.errstate(invalid="ignore", divide="ignore"):
        return frequency * np.arange(1, orders + 1), np.sqrt(2) * rms[..., 1:] / rms[..., :1]


def visibility_threshold(frequency: float | np.ndarray) -> float | np.ndarray:
    """Modulation of a sine light that an average observer just sees by the stroboscopic effect.

    T(f) = 1/(1 + e^(-0.00518·(f - 306.6))) + 20·e^(-f/10), f in Hz. Its last term leaves to
    flicker what is slower than some 80 Hz.

    Parameters
    ----------
    frequency
        Hz, above 0; meant for 80 Hz to 2 kHz.

    Returns
    -------
    float or array
        Amplitude over mean; 1 is full depth, more cannot be reached.

    Raises
    ------
    ValueError
        For a frequency that is not above 0.

    Source: IEC TR 63158:2018, after CIE TN 006:2016; the formula is from memory.
    """
    frequency = np.asarray(frequency, float)
    if not (frequency > 0).all():
        raise ValueError(f"frequency: {frequency} Hz; needs to be above 0 Hz")
    threshold = 1 / (1 + np.exp(-0.00518 * (frequency - 306.6))) + 20 * np.exp(-frequency / 10)
    return threshold if threshold.ndim else float(threshold)


def stroboscopic_visibility(samples: np.ndarray, frequency: float) -> float:
    """Stroboscopic visibility measure, SVM = [Σ (C_m/T_m)^3.7]^(1/3.7) over harmonics to 2 kHz.

    C_m is the harmonic's amplitude over the mean, T_m the threshold at its frequency. At 1 an
    average observer just sees that moving things appear in steps. Slow flicker is not its matter.

    Parameters
    ----------
    samples
        As in `light_harmonics`.
    frequency
        Hz, of the mains, above 0.

    Returns
    -------
    float or array, shape (...)
        0 for steady light; nan where there is no light.

    Raises
    ------
    ValueError
        As `light_harmonics`.

    Source: IEC TR 63158:2018; the exponent and the range as restated, the threshold from memory.
    """
    frequencies, amplitudes = light_harmonics(samples, frequency)
    ratios = amplitudes / visibility_threshold(frequencies)
    measure = (ratios**_NORM).sum(axis=-1) ** (1 / _NORM)
    lit = np.mean(samples, axis=-1) > 0
    measure = np.where(lit, measure, np.nan)
    return measure if measure.ndim else float(measure)
