"""A measured period laid over the predicted one: what agrees, what differs, and which part explains it."""

from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...results.compare import signed_percent
from ...solver.steady import SteadyState, steady_state
from .attribution import Blame, blame
from .checks import exchanged, turned
from .estimate import Estimate
from .measurement import QUANTITIES, Measured
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
AGREE, DIFFER, NONE, TAKEN = "agrees", "differs", "–", "taken as read"


@documented
@dataclass(frozen=True)
class Row:
    """One quantity, measured and predicted."""

    key: str
    name: str
    unit: str
    measured: Estimate
    predicted: float
    apart: str = about("Measured against predicted, in signed per cent.")
    verdict: str = about(
        '"agrees" within the uncertainty and what the solver itself may be off, "differs", "taken as read" '
        'for a mains voltage that the prediction has from the recording, or "–" where one of the two is '
        "missing."
    )


@documented
@dataclass(frozen=True, eq=False)
class Comparison:
    """A measured lamp beside a predicted one."""

    measured: Measured
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
    blame: Blame | None = about(
        "Which part explains the difference; None where no current was recorded, the lamp stays dark, the "
        "volts are not those that were measured, or a probe is on wrongly."
    )
    warnings: tuple = about("What the comparison says, then the recording's, each the weightiest first.")

    def row(self, key: str) -> Row | None:
        """One of the rows by its key; KeyError if it is not there."""
        return next((row for row in self.rows if row.key == key), None) or self._missing(key)

    def _missing(self, key):
        raise KeyError(f"{key!r} is not among {', '.join(row.key for row in self.rows)}")


def compare(measured: Measured, lamp: Lamp) -> Comparison:
    """Lay a measured period over the prediction for a lamp.

    Parameters
    ----------
    lamp
        On its own mains; see `on_measured_mains`.
    """
    points = max(next(iter(measured.cycles.values())).rows.shape[1], 256)
    result = steady_state(lamp, points)
    rows = [_row(key, *QUANTITIES[key][:2], measured, get(lamp, result)) for key, get in _PREDICTED.items()]
    for order in LISTED if measured.current_harmonics else ():
        each, own = measured.current_harmonics[order], float(result.harmonic_currents[order])
        rows.append(_made(f"harmonic {order}", f"line current, harmonic {order}", "A", each, own))
    rows = tuple(row for row in rows if row.measured.value == row.measured.value)
    residual, delay, found = None, np.nan, None
    if "line_current" in measured.cycles:
        own = predicted_wave(measured, result, "line_current")
        wave = measured.cycles["line_current"].mean
        residual = wave - wave.mean() - own
        delay = _delay(wave, own) / measured.frequency.value
    wrong = turned(measured) or exchanged(measured)
    doubts = () if wrong else tuple(_doubts(rows, delay, measured))
    elsewhere = any(row.key == "voltage" and row.verdict == DIFFER for row in rows)
    if residual is not None and not (result.dark or wrong or elsewhere):
        found = blame(measured, lamp)
    return Comparison(measured, lamp, result, rows, residual, delay, found, (*doubts, *measured.warnings))


def _row(key, name, unit, measured, predicted):
    return _made(key, name, unit, getattr(measured, key), float(predicted))


def _made(key, name, unit, estimate, predicted):
    known = estimate.value == estimate.value and predicted == predicted
    both = Estimate(estimate.value, float(np.hypot(estimate.uncertainty, MODEL * predicted)))
    verdict = NONE if not known else AGREE if both.agrees(predicted) else DIFFER
    if key == "voltage" and abs(estimate.value - predicted) < SAME * predicted:
        verdict = TAKEN
    return Row(key, name, unit, estimate, predicted, signed_percent(predicted, estimate.value), verdict)


def _delay(wave, own):
    """By how many periods one wave is behind another, by the greatest of their cross-correlation."""
    product = np.fft.irfft(np.fft.rfft(wave) * np.fft.rfft(own).conj(), wave.size)
    best = int(np.argmax(product))
    before, at, after = (product[(best + k) % wave.size] for k in (-1, 0, 1))
    bend = before - 2 * at + after
    shift = best + (0.5 * (before - after) / bend if bend < 0 else 0.0)
    return ((shift + wave.size / 2) % wave.size - wave.size / 2) / wave.size


def _doubts(rows, delay, measured):
    volts, probe = next((row for row in rows if row.key == "voltage"), None), False
    for row in rows:
        if row.key in ("voltage", "current", "bus_mean") and row.predicted > 0 and row.measured.value > 0:
            ratio = row.measured.value / row.predicted
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
                f"The mains is set to {show(round(volts.predicted, 1), 'V', 4)}; {show(volts.measured.value, 'V', 4)}"
                " were measured. Set it to those first: no part can be blamed for another mains."
            )
    elif abs(delay) * measured.frequency.value > 0.02 and "mains_voltage" in measured.cycles:
        yield (
            f"The measured current is {abs(1e3 * delay):.2g} ms {'behind' if delay > 0 else 'ahead of'} the predicted"
            " one: is the voltage's probe the right way round, and were both taken at once?"
        )
