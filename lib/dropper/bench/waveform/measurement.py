"""Measuring a recording: frequency, rms, watts, power factor, harmonics, each with its uncertainty."""

from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.values import show
from . import cycles as cutting
from . import period as periods
from . import quantities
from .checks import warnings_of
from .estimate import Estimate
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
_SEEN_AT = 400
BETWEEN = ("real", "reactive", "nonactive", "power_factor", "displacement_factor", "lead")
_SEED = 20_000  # the same recording gives the same figures

# name, unit, and how often voltage and current scales enter it
QUANTITIES = {
    "voltage": ("mains voltage, rms", "V", {"mains_voltage": 1}),
    "voltage_peak": ("mains voltage, peak", "V", {"mains_voltage": 1}),
    "voltage_thd": ("distortion of the mains voltage", "", {}),
    "current": ("line current, rms", "A", {"line_current": 1}),
    "current_thd": ("distortion of the line current", "", {}),
    "real": ("power", "W", {"mains_voltage": 1, "line_current": 1}),
    "apparent": ("apparent power", "VA", {"mains_voltage": 1, "line_current": 1}),
    "reactive": ("reactive power of the fundamental", "var", {"mains_voltage": 1, "line_current": 1}),
    "distortion": ("current distortion power", "var", {"mains_voltage": 1, "line_current": 1}),
    "nonactive": ("nonactive power", "var", {"mains_voltage": 1, "line_current": 1}),
    "power_factor": ("power factor", "", {}),
    "displacement_factor": ("displacement factor", "", {}),
    "lead": ("lead of the current's fundamental", "°", {}),
    "bus_mean": ("bus voltage, mean", "V", {"bus_voltage": 1}),
    "bus_ripple": ("bus ripple, p–p", "V", {"bus_voltage": 1}),
}


@documented
@dataclass(frozen=True, eq=False)
class Measured:
    """What a recording comes to."""

    recording: Recording
    period: periods.Period = about("Of the mains voltage, or of the line current where no voltage was recorded.")
    frequency: Estimate = about("Hz.")
    estimates: dict = about("By the keys of `QUANTITIES`; what could not be had of the channels is missing.")
    voltage_harmonics: list = about(
        "V and A rms; the index is the order, 0 to 40. Empty where the channel is missing.", repr=False
    )
    current_harmonics: list = about(
        "V and A rms; the index is the order, 0 to 40. Empty where the channel is missing.", repr=False
    )
    offsets: dict = about(
        "The direct part of voltage and current, V and A, that was taken out: a capacitor in series passes none."
    )
    cycles: dict = about("Whole periods, by channel.", repr=False)
    left_out: int = about("Periods left out for a gap.")
    warnings: tuple = about("What should make one doubt the figures, in sentences.")

    def __getattr__(self, name):
        estimates = self.__dict__.get("estimates", {})
        if name in QUANTITIES:
            return estimates.get(name, Estimate(np.nan, np.nan))
        raise AttributeError(f"Measured has no {name!r}")

    @property
    def count(self) -> int:
        """How many whole periods were measured."""
        return len(next(iter(self.cycles.values())).rows)


def measure(recording: Recording) -> Measured:
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
    """
    lead = recording.mains_voltage if recording.mains_voltage is not None else recording.line_current
    found = periods.find(recording.time, lead)
    _is_a_wave(found, lead, recording)
    fine = recording.time.size / ((recording.time[-1] - recording.time[0]) * found.frequency)
    if fine < 16:
        raise ValueError(
            f"{recording.source}: {fine:.3g} samples in a period; at least 16 are needed, some hundreds are good"
        )
    count = cutting.intervals_for(fine)
    channels, gaps = {}, set()
    for name in recording.present():
        channels[name], wide = cutting.cut(
            recording.time, getattr(recording, name), found.frequency, found.phase, count
        )
        gaps |= set(wide)
    rows = len(next(iter(channels.values())).rows)
    kept = [k for k in range(rows) if k not in gaps]
    if not kept:
        raise ValueError(f"{recording.source}: every period has a gap too wide to bridge; a whole one is needed")
    channels = {name: cutting.Cycles(each.rows[kept], each.held, each.digit) for name, each in channels.items()}
    values, spread = _values(channels, fine)
    _out_of_step(values, spread, channels, fine, recording.skew * found.frequency)
    estimates = {
        key: Estimate(float(values[key]), float(np.hypot(spread[key], abs(values[key]) * _scale(recording, scales))))
        for key, (_, _, scales) in QUANTITIES.items()
        if key in values
    }
    lists = {}
    for key, name in (("voltage_harmonics", "mains_voltage"), ("current_harmonics", "line_current")):
        scale = _scale(recording, {name: 1})
        lists[key] = [
            Estimate(float(value), float(np.hypot(apart, value * scale)))
            for value, apart in zip(values.get(key, ()), spread.get(key, ()), strict=True)
        ]
    offsets = {name: float(each.mean.mean()) for name, each in channels.items() if name != "bus_voltage"}
    measured = Measured(
        recording,
        found,
        Estimate(found.frequency, found.uncertainty),
        estimates,
        offsets=offsets,
        cycles=channels,
        left_out=len(gaps),
        warnings=(),
        **lists,
    )
    object.__setattr__(measured, "warnings", warnings_of(measured, fine))
    return measured


def _is_a_wave(found, values, recording):
    """The fundamental of the mains, and of a lamp's current, is no small part of the whole."""
    share = found.amplitude**2 / 2 / float(np.nanvar(values))
    if share < LEAST_SHARE:
        raise ValueError(
            f"{recording.source}: no wave of the mains is found between {periods.LOW:g} and {periods.HIGH:g} Hz (the"
            f" best, {found.frequency:.3g} Hz, is {100 * share:.2g} % of the whole); with"
            f" {show(recording.apart, 's')} from sample to sample the recording lasts"
            f" {show(recording.apart * len(recording), 's')}: is that so?"
        )


def _values(channels, fine):
    """The quantities of the mean period, and their standard uncertainties."""
    noise = {name: each.noise for name, each in channels.items()}
    means = {name: each.mean for name, each in channels.items()}
    values = quantities.of(means, noise, fine)
    chance = np.random.default_rng(_SEED)
    added = {
        name: each.variance / cutting.kept_of_noise(round(max(each.held, 1), 2)) for name, each in channels.items()
    }
    tried = {name: mean + chance.normal(0, np.sqrt(added[name]), (TRIALS, mean.size)) for name, mean in means.items()}
    trials = quantities.of(tried, {name: noise[name] + added[name] for name in channels}, fine)
    spread = {key: each.std(axis=0, ddof=1) for key, each in trials.items()}
    for key, name in (("bus_ripple", "bus_voltage"), ("voltage_peak", "mains_voltage")):
        if key in values:  # noise lifts a peak: the trials show by how much; a step of the converter hides some of it
            values[key] = 2 * values[key] - trials[key].mean(axis=0)
            spread[key] = np.hypot(spread[key], 0.4 * channels[name].digit)
    groups = _groups(channels)
    if groups is not None:
        left_out, worth = groups
        apart = quantities.of(left_out, noise, fine)
        for key, each in apart.items():
            count = len(each)
            jackknife = np.sqrt((count - 1) / count * ((each - each.mean(axis=0)) ** 2).sum(axis=0)) * worth
            spread[key] = np.where(jackknife > 1.5 * spread[key], jackknife, spread[key])
    for key in METHOD.keys() & values.keys():
        missed = METHOD[key] * max(_SEEN_AT / fine, 1.0) ** 3
        spread[key] = np.hypot(spread[key], missed * values[key])
    return values, spread


def _out_of_step(values, spread, channels, fine, turns):
    """Add what a current some turns too late or too early would change, as evenly spread between both."""
    if "real" not in values:
        return
    line = np.fft.rfft(channels["line_current"].mean)
    turned = np.exp(2j * np.pi * turns * np.array([[-1.0], [1.0]]) * np.arange(line.size))
    waves = {name: each.mean for name, each in channels.items()}
    waves["line_current"] = np.fft.irfft(line * turned, waves["line_current"].size)
    noise = {name: each.noise for name, each in channels.items()}
    waves = {name: np.broadcast_to(wave, waves["line_current"].shape) for name, wave in waves.items()}
    moved = quantities.of(waves, noise, fine)
    for key in BETWEEN:
        spread[key] = np.hypot(spread[key], abs(moved[key][1] - moved[key][0]) / 2 / np.sqrt(3))


def _groups(channels):
    """Mean periods with one group of periods left out each time, and what Student's t makes of so few groups."""
    rows = len(next(iter(channels.values())).rows)
    if rows < 4:
        return None
    from scipy.stats import t as student

    count = min(rows, 20)
    parts = np.array_split(np.arange(rows), count)
    means = {
        name: np.array([np.delete(each.rows, part, axis=0).mean(axis=0) for part in parts])
        if rows <= 400
        else _without(each.rows, parts)
        for name, each in channels.items()
    }
    return means, float(student.ppf(0.97725, count - 1) / 2)


def _without(rows, parts):
    """The same from sums, for many periods."""
    total = rows.sum(axis=0)
    return np.array([(total - rows[part].sum(axis=0)) / (len(rows) - len(part)) for part in parts])


def _scale(recording, scales):
    """Relative standard uncertainty that the channels' scales bring in."""
    return np.sqrt(sum((times * recording.accuracy(name)) ** 2 for name, times in scales.items()) / 3)
