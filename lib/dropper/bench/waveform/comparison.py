"""Comparison: a measured period laid over the predicted one: what agrees, what differs, and which part explains it."""

from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...results.compare import signed_percent
from ...solver.steady import SteadyState, steady_state
from .attribution import Attribution, attribute
from .checks import has_exchanged_columns, has_reversed_probe
from .estimate import Estimate
from .measurement import QUANTITIES, Measurement
from .prediction import predicted_wave

# what of the steady state each measured quantity is compared with
_PREDICTED = {
    "voltage": lambda lamp, result: float(np.sqrt((result.mains_voltage**2).mean())),
    "current": lambda lamp, result: result.line_current_rms,
    "real": lambda lamp, result: result.real_power,
    "apparent": lambda lamp, result: result.apparent_power,
    "power_factor": lambda lamp, result: result.power_factor,
    "displacement_factor": lambda lamp, result: result.displacement_factor,
    "current_thd": lambda lamp, result: result.current_thd,
    "bus_mean": lambda lamp, result: result.bus_voltage_mean,
    "bus_ripple": lambda lamp, result: result.bus_ripple,
}
MODEL = 0.005  # half of the 1 % within which the solver keeps to its witness: the prediction is not known better
SAME = 5e-4  # volts so near were taken from the recording
LISTED = (3, 5, 7, 9, 11, 13)
AGREE, DIFFER, NONE, AS_READ = "agrees", "differs", "–", "taken as read"


@documented
@dataclass(frozen=True)
class Row:
    """One quantity, measured and predicted."""

    key: str
    name: str
    unit: str
    estimate: Estimate = about("as measured")
    prediction: float = about("as computed, SI units")
    difference: str = about("Measured against predicted, in signed per cent.")
    verdict: str = about(
        '"agrees" within the uncertainty and what the solver itself may be off, "differs", "taken as read" '
        'for a mains voltage that the prediction has from the recording, or "–" where one of the two is '
        "missing."
    )


@documented
@dataclass(frozen=True, eq=False)
class Comparison:
    """A measured lamp beside a predicted one."""

    measurement: Measurement
    lamp: Lamp
    result: SteadyState = about("The prediction, with as many samples a period as the measured mean period has.")
    rows: tuple
    residual: np.ndarray | None = about(
        "Line current measured less predicted, A, over one period; None where no current was recorded.", repr=False
    )
    delay: float = about(
        "s by which the measured current is behind the predicted one, by their cross-correlation; nan without "
        "a current."
    )
    attribution: Attribution | None = about(
        "Which part explains the difference; None where no current was recorded, the lamp stays dark, the "
        "volts are not those that were measured, or a probe is on wrongly."
    )
    warnings: tuple = about("What the comparison says, then the recording's, each the weightiest first.")

    def __repr__(self) -> str:
        counts = ", ".join(
            f"{sum(row.verdict == word for row in self.rows)} {word}" for word in (AGREE, DIFFER, AS_READ)
        )
        return f"<Comparison of {self.measurement.recording.source!r} with {self.lamp.name!r}: {counts}>"

    def row(self, key: str) -> Row:
        """One of the rows by its key; KeyError if it is not there."""
        for row in self.rows:
            if row.key == key:
                return row
        raise KeyError(f"{excerpt(key)} is not among {', '.join(row.key for row in self.rows)}")


def compare(measurement: Measurement, lamp: Lamp) -> Comparison:
    """Lay a measured period over the prediction for a lamp.

    Parameters
    ----------
    lamp
        On its own mains; see `on_measured_mains`.

    Examples
    --------
    >>> import numpy as np
    >>> from dropper.bench import waveform
    >>> time = np.arange(2000) * 1e-4
    >>> recording = waveform.Recording(time, 325.3 * np.sin(2 * np.pi * 50 * time))
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> compare(waveform.measure(recording), lamp)
    <Comparison of 'recording' with 'lamp': 0 agrees, 0 differs, 1 taken as read>
    """
    points = max(next(iter(measurement.cycles.values())).rows.shape[1], 256)
    result = steady_state(lamp, points)
    rows = [_row(key, *QUANTITIES[key][:2], measurement, get(lamp, result)) for key, get in _PREDICTED.items()]
    for order in LISTED if measurement.current_harmonics else ():
        estimate, prediction = measurement.current_harmonics[order], float(result.harmonic_currents[order])
        rows.append(_compared(f"harmonic {order}", f"line current, harmonic {order}", "A", estimate, prediction))
    rows = tuple(row for row in rows if row.estimate.value == row.estimate.value)
    residual, delay, attribution = None, np.nan, None
    if "line_current" in measurement.cycles:
        predicted = predicted_wave(measurement, result, "line_current")
        wave = measurement.cycles["line_current"].mean
        residual = wave - wave.mean() - predicted
        delay = _delay(wave, predicted) / measurement.frequency.value
    wrong = has_reversed_probe(measurement) or has_exchanged_columns(measurement)
    doubts = () if wrong else tuple(_doubts(rows, delay, measurement))
    elsewhere = any(row.key == "voltage" and row.verdict == DIFFER for row in rows)
    if residual is not None and not (result.dark or wrong or elsewhere):
        attribution = attribute(measurement, lamp)
    return Comparison(measurement, lamp, result, rows, residual, delay, attribution, (*doubts, *measurement.warnings))


def _row(key, name, unit, measurement, prediction):
    return _compared(key, name, unit, getattr(measurement, key), float(prediction))


def _compared(key, name, unit, estimate, prediction):
    known = estimate.value == estimate.value and prediction == prediction
    both = Estimate(estimate.value, float(np.hypot(estimate.uncertainty, MODEL * prediction)))
    verdict = NONE if not known else AGREE if both.agrees(prediction) else DIFFER
    if key == "voltage" and abs(estimate.value - prediction) < SAME * prediction:
        verdict = AS_READ
    return Row(key, name, unit, estimate, prediction, signed_percent(prediction, estimate.value), verdict)


def _delay(wave, predicted):
    """By how many periods one wave is behind another, by the greatest of their cross-correlation."""
    product = np.fft.irfft(np.fft.rfft(wave) * np.fft.rfft(predicted).conj(), wave.size)
    best = int(np.argmax(product))
    before, at, after = (product[(best + k) % wave.size] for k in (-1, 0, 1))
    bend = before - 2 * at + after
    shift = best + (0.5 * (before - after) / bend if bend < 0 else 0.0)
    return ((shift + wave.size / 2) % wave.size - wave.size / 2) / wave.size


def _doubts(rows, delay, measurement):
    volts, probe = next((row for row in rows if row.key == "voltage"), None), False
    for row in rows:
        if row.key in ("voltage", "current", "bus_mean") and row.prediction > 0 and row.estimate.value > 0:
            ratio = row.estimate.value / row.prediction
            for factor in (10.0, 100.0, 1000.0):
                if abs(np.log(ratio * factor)) < 0.35 or abs(np.log(ratio / factor)) < 0.35:
                    way = "too small" if ratio < 1 else "too large"
                    probe = probe or row is volts
                    yield (
                        f"The {row.name} is {ratio:.3g} times the predicted one: the probe factor is probably {way} by"
                        f" {factor:.0f}."
                    )
    if volts is not None and volts.verdict == DIFFER:
        if not probe:
            yield (
                f"The mains is set to {show(round(volts.prediction, 1), 'V', 4)}; {show(volts.estimate.value, 'V', 4)}"
                " were measured. Set it to those first: no part can be blamed for another mains."
            )
    elif abs(delay) * measurement.frequency.value > 0.02 and "mains_voltage" in measurement.cycles:
        yield (
            f"The measured current is {abs(1e3 * delay):.2g} ms {'behind' if delay > 0 else 'ahead of'} the predicted"
            " one: is the voltage's probe the right way round, and were both taken at once?"
        )
