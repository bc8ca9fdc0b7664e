"""Expectation: in which band each reading of a lamp should fall, a meter's errors counted."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.fields import about, documented
from .plug_in import PlugInMeter

if TYPE_CHECKING:
    from ...solver.steady import SteadyState

_NAMES = {
    "voltage": "volts",
    "current": "current",
    "power": "power",
    "apparent_power": "apparent power",
    "power_factor": "power factor",
}


@documented
@dataclass(frozen=True)
class Band:
    """Between which two numbers a display should stand."""

    key: str = about("of the reading")
    name: str = about("of the reading, in words")
    low: float = about("As shown, SI units.")
    high: float = about("As shown, SI units.")
    words: str = about('"1.2 W to 1.4 W"; one number where both are the same.')

    def contains(self, value: float) -> bool:
        """Whether a number read lies in it."""
        return self.low - 1e-9 <= value <= self.high + 1e-9


def expected_bands(
    result: SteadyState, meter: PlugInMeter | None = None, voltage: float | None = None
) -> dict[str, Band]:
    """The band in which each reading of a plug-in meter should fall.

    Parameters
    ----------
    result
        With its waveforms.
    meter
        A typical cheap one unless given.
    voltage
        V rms of the mains; from the result's own wave unless given.

    Raises
    ------
    ValueError
        If the result keeps no waveforms.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains, steady_state
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> expected_bands(steady_state(lamp))["power"].words
    '1.1 W to 1.5 W'

    Source: limits of error added, each at its worst; a phase error moves the watts by itself times the reactive power
    of the fundamental, as in `theory.power_error_of_phase` for a small angle.
    """
    meter = meter or PlugInMeter()
    volts = rms_volts(result) if voltage is None else float(voltage)
    scales = meter.scales()
    apparent = volts * result.line_current_rms
    phase_watts = math.sin(meter.phase_error) * reactive_power(result)
    values = {
        "voltage": (volts, 0.0),
        "current": (result.line_current_rms, 0.0),
        "power": (result.real_power, phase_watts / result.real_power if result.real_power > 0 else 0.0),
        "apparent_power": (apparent, 0.0),
        "power_factor": (result.power_factor, phase_watts / result.real_power if result.real_power > 0 else 0.0),
    }
    dark = result.line_current_rms <= 0 or result.line_current_rms < meter.ampere_floor
    bands = {}
    for key, (value, extra) in values.items():
        low, high = (0.0, 0.0) if dark and key != "voltage" else scales[key].reading_range(value, extra)
        if key == "power_factor":
            high = min(high, 1.0)
        texts = [meter.reading_text(key, end) for end in (low, high)]
        words = texts[0] if texts[0] == texts[1] else f"{texts[0]} to {texts[1]}"
        bands[key] = Band(key, _NAMES[key], low, high, words)
    return bands


def reactive_power(result: SteadyState) -> float:
    """Reactive power of the fundamental, its magnitude, var, from a result's waves."""
    angle, mains, line = _waves(result)
    peak = 2 * np.trapezoid(mains * np.sin(angle), angle) / (angle[-1] - angle[0])
    leading = 2 * np.trapezoid(line * np.cos(angle), angle) / (angle[-1] - angle[0])
    return float(abs(peak * leading / 2))


def rms_volts(result: SteadyState) -> float:
    """Rms voltage of the mains, V, from a result's wave."""
    angle, mains, _ = _waves(result)
    return float(np.sqrt(np.trapezoid(mains**2, angle) / (angle[-1] - angle[0])))


def _waves(result):
    """Phase angle, mains and line current over one whole period, closed by its first sample."""
    if result.time is None:
        raise ValueError("result: it keeps no waveforms; ask steady_states for them with waveforms=True")
    time = np.asarray(result.time, float)
    if result.evenly_sampled:  # middles of intervals
        period, close = time.size * (time[1] - time[0]), True
    else:  # ends of steps, both borders of the period among them
        period, close = time[-1] - time[0], False
    mains, line = np.asarray(result.mains_voltage), np.asarray(result.line_current)
    if close:
        time, mains, line = np.append(time, time[0] + period), np.append(mains, mains[0]), np.append(line, line[0])
    return 2 * np.pi * time / period, mains, line
