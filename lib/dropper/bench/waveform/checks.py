"""Checks: what should make one doubt a recording, in sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...circuit.values import show
from .channel import NAMES

if TYPE_CHECKING:
    from .measurement import Measurement

CHECKED_SAMPLES = 200_000  # samples are enough to see whether a crest is cut


def warnings_of(measurement: Measurement, fine: float) -> tuple[str, ...]:
    """Sentences on a recording's weak points, the weightiest first.

    Parameters
    ----------
    fine
        Samples a period.
    """
    return tuple(
        filter(
            None,
            (
                _exchanged(measurement),
                _reversed(measurement),
                *_clipped(measurement.recording),
                _undersampled(fine),
                _drifting(measurement),
                *_coarse(measurement),
                *_offsets(measurement),
                _few(measurement),
                _gaps(measurement),
            ),
        )
    )


def _clipped(recording):
    for name in ("mains_voltage", "line_current"):
        values = getattr(recording, name)
        if values is None:
            continue
        values = values[:: max(values.size // CHECKED_SAMPLES, 1)]
        values = values[~np.isnan(values)]
        low, high = values.min(), values.max()
        for edge, away in ((high, -1), (low, 1)):
            reach = 0.002 * (high - low)
            near = np.abs(values - edge)
            at, about = np.count_nonzero(near <= reach), np.count_nonzero(near <= 6 * reach)
            # A smooth crest has 1/√6 of these at its very top; a cut one nearly all.
            if at > 0.005 * values.size and at > 0.85 * about:
                yield (
                    f"The {NAMES[name]} looks clipped: {100 * at / values.size:.0f} % of all samples are at {edge:.4g},"
                    f" the {'highest' if away < 0 else 'lowest'} value of all. Choose a larger range; rms, peak and"
                    " harmonics are wrong as it is."
                )
                break


def _undersampled(fine):
    if fine < 200:
        return (
            f"Only {fine:.0f} samples in a period: harmonics above the {max(int(fine / 5), 1)}th are not to be trusted."
            " Sample faster."
        )


def _few(measurement):
    if measurement.count == 1:
        return "One whole period only: nothing tells how far periods differ. Record ten or more."


def _drifting(measurement):
    drift, unsure = measurement.period.drift, measurement.period.drift_uncertainty
    turns = abs(drift) * (measurement.recording.time[-1] - measurement.recording.time[0]) / 3
    if drift == drift and abs(drift) > 4 * unsure and turns > 0.01:
        return (
            f"The frequency drifts by {drift:+.2g} Hz over the recording: its periods do not lie on one another, which"
            " blunts corners and high harmonics. Take a shorter piece."
        ).replace("-", "−")


def _gaps(measurement):
    lost = max(int(np.isnan(getattr(measurement.recording, name)).sum()) for name in measurement.recording.present())
    if not lost:
        return None
    words = f"{lost} of {len(measurement.recording)} samples are missing"
    if measurement.skipped_periods:
        skipped = measurement.skipped_periods
        return f"{words}; periods left out for a wide gap: {skipped}."
    return f"{words}; straight lines bridge the gaps."


def has_reversed_probe(measurement: Measurement) -> bool:
    """Whether the power is negative: a probe the wrong way round."""
    return measurement.real.value < -2 * measurement.real.uncertainty


def has_exchanged_columns(measurement: Measurement) -> bool:
    """Whether the voltage has a lamp's distortion and the current the mains'."""
    return measurement.voltage_thd.value > 0.15 and measurement.voltage_thd.value > 3 * measurement.current_thd.value


def _reversed(measurement):
    if has_reversed_probe(measurement):
        return (
            f"The power comes out negative, {show(measurement.real.value, 'W')}: a lamp gives none back. One of the two"
            " probes is the wrong way round: mark the current as turned round."
        ).replace("-", "−")


def _exchanged(measurement):
    if has_exchanged_columns(measurement):
        return "The voltage looks like a lamp's current and the current like the mains: the columns seem exchanged."


def _coarse(measurement):
    for name, cycles in measurement.cycles.items():
        if name == "bus_voltage" or not cycles.digit:
            continue
        levels = (cycles.mean.max() - cycles.mean.min()) / cycles.digit
        if levels < 50:
            yield (
                f"The {NAMES[name]} moves through {levels:.0f} steps of the converter only: choose a more sensitive"
                " range."
            )


def _offsets(measurement):
    for name, unit in (("mains_voltage", "V"), ("line_current", "A")):
        if name in measurement.offsets:
            cycles = measurement.cycles[name]
            rms = np.sqrt((cycles.mean**2).mean())
            offset = measurement.offsets[name]
            if abs(offset) > 0.02 * rms and abs(offset) > 3 * np.sqrt(cycles.variance / cycles.mean.size):
                yield (
                    f"A direct part of {show(offset, unit)} was taken out of the {NAMES[name]}: behind a capacitor none"
                    " can flow for long, so it is the instrument's own offset."
                ).replace("-", "−")
