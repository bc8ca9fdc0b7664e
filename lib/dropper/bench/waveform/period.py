"""Period: a least-squares fit of a sine and its harmonics, with the frequency's uncertainty."""

from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented

LARGEST = 10_000  # samples that the fit looks at; longer recordings are averaged down to that
ORDERS = 9
LOW, HIGH = 10.0, 1000.0  # Hz, as for `Mains.frequency`


@documented
@dataclass(frozen=True)
class Period:
    """The fundamental of a waveform."""

    frequency: float = about("Hz.")
    uncertainty: float = about("Hz, one sigma.")
    phase: float = about(
        "rad: the fundamental is sin(2πf·t + phase), t the recording's own time from its first sample."
    )
    amplitude: float = about("Peak of the fundamental.")
    drift: float = about(
        "Hz from the first third of the recording to the last; nan if it holds fewer than six periods."
    )
    drift_uncertainty: float = about("Hz, one sigma.")


def fit_period(time: np.ndarray, values: np.ndarray) -> Period:
    """The period of a waveform by a fit to a sine and its harmonics.

    Parameters
    ----------
    time
        s, rising; need not be even.
    values
        Gaps are nan.

    Raises
    ------
    ValueError
        If there is no wave between 10 and 1000 Hz, or less than one period of it.

    Source: the four-parameter sine fit of IEEE Std 1057 (from memory), harmonics added to the model.
    """
    t, x = _fewer(time, values)
    start, t = t[0], t - t[0]
    x = x - x.mean()
    if not np.abs(x).max() > 0:
        raise ValueError("the waveform is flat: it has no period")
    first = _coarse(t, x)
    frequency, model = _refine(t, x, first)
    span = t[-1]
    whole = span * frequency
    if whole < 0.97:
        raise ValueError(
            f"the recording holds {whole:.2g} of a period at {frequency:.3g} Hz; at least one whole period is needed"
        )
    sine, cosine = model["fit"][1], model["fit"][2]
    phase = np.arctan2(cosine, sine) - 2 * np.pi * frequency * (start - time[0])
    drift = _drift(t, x, frequency) if whole >= 6 else (np.nan, np.nan)
    return Period(
        float(frequency),
        float(model["uncertainty"]),
        float(np.angle(np.exp(1j * phase))),
        float(np.hypot(sine, cosine)),
        *map(float, drift),
    )


def _fewer(time, values):
    good = ~np.isnan(values)
    t, x = (time, values) if good.all() else (time[good], values[good])
    if t.size < 8:
        raise ValueError(f"{t.size} samples are not a waveform; at least 8 are needed")
    together = t.size // LARGEST
    if together > 1:
        whole = t.size // together * together
        t, x = (column[:whole].reshape(-1, together).mean(axis=1) for column in (t, x))
    return t, x


def _coarse(t, x):
    """The frequency, to a fraction of a period over the whole recording, from a spectrum."""
    even = np.linspace(0, t[-1], min(t.size, 1 << 16))
    wave = np.interp(even, t, x)
    padded = 8 * even.size
    power = np.abs(np.fft.rfft((wave - wave.mean()) * np.hanning(even.size), padded)) ** 2
    frequency = np.arange(power.size) * (even.size - 1) / even.size / t[-1] * even.size / padded
    reach = (frequency >= LOW) & (frequency <= HIGH)
    if t[-1] < 2.5 / HIGH or not reach.any():
        raise ValueError(f"the recording is {t[-1]:.3g} s long: too short for a wave between {LOW:g} and {HIGH:g} Hz")
    best = frequency[reach][np.argmax(power[reach])]
    # A short recording smears the spectrum, so that a fit at each of several frequencies has to decide.
    if best * t[-1] < 3:
        tries = np.linspace(max(LOW, 0.35 / t[-1]), max(LOW * 1.01, min(4 / t[-1], HIGH)), 120)
        best = tries[np.argmin([_solve(t, x, f, 1)["squares"] for f in tries])]
    return float(best)


def _model(t, frequency, orders):
    angle = 2 * np.pi * frequency * t[:, None] * np.arange(1, orders + 1)
    parts = np.empty((t.size, 2 * orders + 1))
    parts[:, 0] = 1
    parts[:, 1::2], parts[:, 2::2] = np.sin(angle), np.cos(angle)
    return parts


def _solve(t, x, frequency, orders):
    parts = _model(t, frequency, orders)
    fit = _least_squares(parts, x)
    rest = x - parts @ fit
    return {"fit": fit, "rest": rest, "squares": float(rest @ rest), "parts": parts}


def _least_squares(parts, x):
    """By the normal equations: sines over whole periods are all but at right angles, and this is quick."""
    sizes = np.sqrt((parts**2).sum(axis=0)) + 1e-300
    square = (parts.T @ parts) / np.outer(sizes, sizes)
    return np.linalg.solve(square + 1e-12 * np.eye(len(square)), parts.T @ x / sizes) / sizes


def _refine(t, x, frequency):
    """Gauss and Newton on the frequency; the rest of the model is linear."""
    orders = int(np.clip(t.size / max(t[-1] * frequency, 1) / 4, 1, ORDERS))
    if t[-1] * frequency < 1.2:
        orders = min(orders, 1)
    for _ in range(12):
        model = _solve(t, x, frequency, orders)
        order = np.arange(1, orders + 1)
        sines, cosines = model["parts"][:, 1::2], model["parts"][:, 2::2]
        fit = model["fit"]
        slope = 2 * np.pi * t * (cosines @ (order * fit[1::2]) - sines @ (order * fit[2::2]))
        both = np.column_stack([model["parts"], slope])
        move = _least_squares(both, model["rest"])[-1]
        move = np.clip(move, -0.1 * frequency, 0.1 * frequency)
        frequency = float(np.clip(frequency + move, LOW / 2, 2 * HIGH))
        if abs(move) < 1e-10 * frequency:
            break
    model = _solve(t, x, frequency, orders)
    free = max(t.size - both.shape[1], 1)
    unique = _least_squares(model["parts"], slope)
    alone = slope - model["parts"] @ unique
    model["uncertainty"] = np.sqrt(model["squares"] / free / max(alone @ alone, 1e-300))
    # What the fit leaves behind may be no noise but harmonics above the last one: neighbours are alike then.
    rest = model["rest"]
    alike = float(np.clip(rest[1:] @ rest[:-1] / max(model["squares"], 1e-300), 0, 0.999))
    model["uncertainty"] *= np.sqrt((1 + alike) / (1 - alike))
    return frequency, model


def _drift(t, x, frequency):
    """Frequency of the last third less that of the first, and its uncertainty."""
    fits = []
    for part in (t <= t[-1] / 3, t >= 2 * t[-1] / 3):
        third, model = _refine(t[part] - t[part][0], x[part], frequency)
        fits.append((third, model["uncertainty"]))
    return fits[1][0] - fits[0][0], np.hypot(fits[0][1], fits[1][1])
