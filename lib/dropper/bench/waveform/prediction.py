"""Prediction: a lamp on the mains that was measured, and its waveforms over the measured intervals."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.lamp import Lamp, Mains
from ...circuit.values import show
from ...solver.power import harmonics

if TYPE_CHECKING:
    from ...solver.steady import SteadyState
    from .measurement import Measurement


def on_measured_mains(lamp: Lamp, measurement: Measurement) -> Lamp:
    """The lamp on the mains that was measured: its voltage, frequency and the harmonics that stand out of the noise.

    Parameters
    ----------
    measurement
        Without a voltage only the frequency is taken.

    Raises
    ------
    ValueError
        If the voltage is none of a mains.

    Examples
    --------
    >>> import numpy as np
    >>> from dropper.bench import waveform
    >>> time = np.arange(2000) * 1e-4
    >>> recording = waveform.Recording(time, 325.3 * np.sin(2 * np.pi * 50 * time))
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> round(waveform.on_measured_mains(lamp, waveform.measure(recording)).mains.voltage, 1)
    230.0
    """
    frequency = measurement.frequency.value
    if not measurement.voltage_harmonics:
        return replace(lamp, mains=replace(lamp.mains, frequency=frequency))
    fundamental = measurement.voltage_harmonics[1].value
    if not 1 <= fundamental <= 1000:
        raise ValueError(
            f"{measurement.recording.source}: the mains voltage comes to {show(fundamental, 'V')}; allowed is 1 V to"
            " 1 kV: is the probe's factor right?"
        )
    lines = harmonics(measurement.cycles["mains_voltage"].mean)
    shape = {}
    for order in range(2, len(lines)):
        line = measurement.voltage_harmonics[order]
        if line.value > 0.002 * fundamental and line.value > 3 * line.uncertainty:
            shape[order] = (line.value / fundamental, float(np.degrees(np.angle(lines[order]))))
    return replace(lamp, mains=Mains(fundamental, frequency, shape))


def predicted_wave(measurement: Measurement, result: SteadyState, name: str) -> np.ndarray:
    """A waveform of the prediction over the same intervals as the measured mean period, and in step with it.

    Parameters
    ----------
    name
        "mains_voltage", "line_current" or "bus_voltage".

    Examples
    --------
    >>> import numpy as np
    >>> from dropper.bench import waveform
    >>> time = np.arange(2000) * 1e-4
    >>> recording = waveform.Recording(time, 325.3 * np.sin(2 * np.pi * 50 * time))
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> from dropper import steady_state
    >>> measurement = waveform.measure(recording)
    >>> wave = waveform.predicted_wave(measurement, steady_state(lamp, 256), "mains_voltage")
    >>> len(wave), round(wave.max())
    (128, 325)
    """
    count = measurement.cycles[name].rows.shape[1]
    wave = getattr(result, name).reshape(count, -1).mean(axis=1)
    if "mains_voltage" in measurement.cycles:
        return wave
    # Without a voltage the current itself has to say where the period begins.
    predicted = np.angle(np.fft.rfft(result.line_current.reshape(count, -1).mean(axis=1))[1])
    measured = np.angle(np.fft.rfft(measurement.cycles["line_current"].mean)[1])
    return np.roll(wave, -int(np.round((measured - predicted) / (2 * np.pi) * count)))
