"""Measuring a recording: frequency, rms, watts, power factor, harmonics, each with its uncertainty."""

import numpy as np

from ...circuit.values import show
from . import quantities
from .checks import warnings_of
from .cycles import Cycles, cut_into_periods, intervals_for, noise_share
from .estimate import Estimate
from .measurement import QUANTITIES, Measurement
from .period import HIGH, LOW, fit_period
from .recording import Recording

TRIALS = 200
LEAST_SHARE = 0.2  # of the mean square: a current of 200 % distortion still has as much in its fundamental
# What straight lines between samples and forty harmonics may miss of a lamp's corners, as a share of the value:
# seen on recordings of 400 samples a period, whose truth was known; with fewer it grows by their cube.
METHOD = {
    "current": 5e-5,
    "apparent": 5e-5,
    "real": 2e-4,
    "power_factor": 2e-4,
    "current_thd": 6e-4,
    "bus_ripple": 4e-3,
    "voltage_peak": 2e-3,
}
_METHOD_AT = 400
BETWEEN = ("real", "reactive", "nonactive", "power_factor", "displacement_factor", "lead")
_SEED = 20_000  # the same recording gives the same figures


def measure(recording: Recording) -> Measurement:
    """Measure a recording over whole periods.

    The noise is what the periods do not share; together with the rounding of the samples it is let loose on the mean
    period in `TRIALS` trials, and what the figures then scatter is their uncertainty. Where whole periods scatter more
    than their noise explains, their own scatter counts. The scales' limits of error are added as evenly spread
    (JCGM 100:2008, 4.3.7); a ratio like the power factor does not know them; but that one hangs on how well
    voltage and current were taken in step.

    Raises
    ------
    ValueError
        If it holds less than one period, or its channels are flat.

    Examples
    --------
    >>> import numpy as np
    >>> from dropper.bench import waveform
    >>> time = np.arange(2000) * 1e-4
    >>> probe = waveform.Channel("CH1", factor=100, accuracy=0.02)
    >>> volts = 325.3 * np.sin(2 * np.pi * 50 * time)
    >>> recording = waveform.Recording(time, volts, channels={"mains_voltage": probe})
    >>> waveform.measure(recording)
    <Measurement of 'recording', 9 periods: voltage 230.0 ± 5.3 V>
    """
    lead = recording.mains_voltage if recording.mains_voltage is not None else recording.line_current
    period = fit_period(recording.time, lead)
    _check_wave(period, lead, recording)
    fine = recording.time.size / ((recording.time[-1] - recording.time[0]) * period.frequency)
    if fine < 16:
        raise ValueError(
            f"{recording.source}: {fine:.3g} samples in a period; at least 16 are needed, some hundreds are good"
        )
    count = intervals_for(fine)
    channels, gaps = {}, set()
    for name in recording.present():
        channels[name], wide = cut_into_periods(
            recording.time, getattr(recording, name), period.frequency, period.phase, count
        )
        gaps |= set(wide)
    rows = len(next(iter(channels.values())).rows)
    complete = [k for k in range(rows) if k not in gaps]
    if not complete:
        raise ValueError(f"{recording.source}: every period has a gap too wide to bridge; a whole one is needed")
    channels = {
        name: Cycles(cycles.rows[complete], cycles.samples_per_interval, cycles.digit)
        for name, cycles in channels.items()
    }
    values, spread = _values(channels, fine)
    _add_skew(values, spread, channels, fine, recording.skew * period.frequency)
    estimates = {
        key: Estimate(float(values[key]), float(np.hypot(spread[key], abs(values[key]) * _scale(recording, scales))))
        for key, (_, _, scales) in QUANTITIES.items()
        if key in values
    }
    lists = {}
    for key, name in (("voltage_harmonics", "mains_voltage"), ("current_harmonics", "line_current")):
        scale = _scale(recording, {name: 1})
        lists[key] = [
            Estimate(float(value), float(np.hypot(scatter, value * scale)))
            for value, scatter in zip(values.get(key, ()), spread.get(key, ()), strict=True)
        ]
    offsets = {name: float(cycles.mean.mean()) for name, cycles in channels.items() if name != "bus_voltage"}
    measurement = Measurement(
        recording,
        period,
        Estimate(period.frequency, period.uncertainty),
        estimates,
        offsets=offsets,
        cycles=channels,
        skipped_periods=len(gaps),
        warnings=(),
        **lists,
    )
    object.__setattr__(measurement, "warnings", warnings_of(measurement, fine))
    return measurement


def _check_wave(period, values, recording):
    """The fundamental of the mains, and of a lamp's current, is no small part of the whole."""
    share = period.amplitude**2 / 2 / float(np.nanvar(values))
    if share < LEAST_SHARE:
        raise ValueError(
            f"{recording.source}: no wave of the mains is found between {LOW:g} and {HIGH:g} Hz (the"
            f" best, {period.frequency:.3g} Hz, is {100 * share:.2g} % of the whole); with"
            f" {show(recording.sample_spacing, 's')} from sample to sample the recording lasts"
            f" {show(recording.sample_spacing * len(recording), 's')}: is that so?"
        )


def _values(channels, fine):
    """The quantities of the mean period, and their standard uncertainties."""
    noise = {name: cycles.noise for name, cycles in channels.items()}
    means = {name: cycles.mean for name, cycles in channels.items()}
    values = quantities.compute(means, noise, fine)
    chance = np.random.default_rng(_SEED)
    added = {
        name: cycles.variance / noise_share(round(max(cycles.samples_per_interval, 1), 2))
        for name, cycles in channels.items()
    }
    noisy = {name: mean + chance.normal(0, np.sqrt(added[name]), (TRIALS, mean.size)) for name, mean in means.items()}
    trials = quantities.compute(noisy, {name: noise[name] + added[name] for name in channels}, fine)
    spread = {key: trial.std(axis=0, ddof=1) for key, trial in trials.items()}
    for key, name in (("bus_ripple", "bus_voltage"), ("voltage_peak", "mains_voltage")):
        if key in values:  # noise lifts a peak: the trials show by how much; a step of the converter hides some of it
            values[key] = 2 * values[key] - trials[key].mean(axis=0)
            spread[key] = np.hypot(spread[key], 0.4 * channels[name].digit)
    groups = _groups(channels)
    if groups is not None:
        group_means, factor = groups
        estimates = quantities.compute(group_means, noise, fine)
        for key, samples in estimates.items():
            count = len(samples)
            jackknife = np.sqrt((count - 1) / count * ((samples - samples.mean(axis=0)) ** 2).sum(axis=0)) * factor
            spread[key] = np.where(jackknife > 1.5 * spread[key], jackknife, spread[key])
    for key in METHOD.keys() & values.keys():
        missed = METHOD[key] * max(_METHOD_AT / fine, 1.0) ** 3
        spread[key] = np.hypot(spread[key], missed * values[key])
    return values, spread


def _add_skew(values, spread, channels, fine, turns):
    """Add what a current some turns too late or too early would change, as evenly spread between both."""
    if "real" not in values:
        return
    line = np.fft.rfft(channels["line_current"].mean)
    turned = np.exp(2j * np.pi * turns * np.array([[-1.0], [1.0]]) * np.arange(line.size))
    waves = {name: cycles.mean for name, cycles in channels.items()}
    waves["line_current"] = np.fft.irfft(line * turned, waves["line_current"].size)
    noise = {name: cycles.noise for name, cycles in channels.items()}
    waves = {name: np.broadcast_to(wave, waves["line_current"].shape) for name, wave in waves.items()}
    shifted = quantities.compute(waves, noise, fine)
    for key in BETWEEN:
        spread[key] = np.hypot(spread[key], abs(shifted[key][1] - shifted[key][0]) / 2 / np.sqrt(3))


def _groups(channels):
    """Mean periods with one group of periods left out each time, and what Student's t makes of so few groups."""
    rows = len(next(iter(channels.values())).rows)
    if rows < 4:
        return None
    from scipy.special import stdtrit

    count = min(rows, 20)
    parts = np.array_split(np.arange(rows), count)
    means = {
        name: np.array([np.delete(cycles.rows, part, axis=0).mean(axis=0) for part in parts])
        if rows <= 400
        else _without(cycles.rows, parts)
        for name, cycles in channels.items()
    }
    return means, float(stdtrit(count - 1, 0.97725) / 2)


def _without(rows, parts):
    """The same from sums, for many periods."""
    total = rows.sum(axis=0)
    return np.array([(total - rows[part].sum(axis=0)) / (len(rows) - len(part)) for part in parts])


def _scale(recording, scales):
    """Relative standard uncertainty that the channels' scales bring in."""
    return np.sqrt(sum((times * recording.accuracy(name)) ** 2 for name, times in scales.items()) / 3)
