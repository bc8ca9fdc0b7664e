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
    from .measurement import Measured


def on_measured_mains(lamp: Lamp, measured: Measured) -> Lamp:
    """The lamp on the mains that was measured: its voltage, frequency and the harmonics that stand out of the noise.

    Parameters
    ----------
    measured
        Without a voltage only the frequency is taken.

    Raises
    ------
    ValueError
        If the voltage is none of a mains, or a twin's.
    """
    frequency = measured.frequency.value
    if not measured.voltage_harmonics:
        return replace(lamp, mains=replace(lamp.mains, frequency=frequency))
    fundamental = measured.voltage_harmonics[1].value
    if not 1 <= fundamental <= 1000:
        raise ValueError(
            f"{measured.recording.source}: the mains voltage comes to {show(fundamental, 'V')}; allowed is 1 V to 1 kV:"
            " is the probe's factor right?"
        )
    lines = harmonics(measured.cycles["mains_voltage"].mean)
    found = {}
    for order in range(2, len(lines)):
        each = measured.voltage_harmonics[order]
        if each.value > 0.002 * fundamental and each.value > 3 * each.uncertainty:
            found[order] = (each.value / fundamental, float(np.degrees(np.angle(lines[order]))))
    return replace(lamp, mains=Mains(fundamental, frequency, found))


def predicted_wave(measured: Measured, result: SteadyState, name: str) -> np.ndarray:
    """A waveform of the prediction over the same intervals as the measured mean period, and in step with it.

    Parameters
    ----------
    name
        "mains_voltage", "line_current" or "bus_voltage".
    """
    count = measured.cycles[name].rows.shape[1]
    wave = getattr(result, name).reshape(count, -1).mean(axis=1)
    if "mains_voltage" in measured.cycles:
        return wave
    # Without a voltage the current itself has to say where the period begins.
    own = np.angle(np.fft.rfft(result.line_current.reshape(count, -1).mean(axis=1))[1])
    read = np.angle(np.fft.rfft(measured.cycles["line_current"].mean)[1])
    return np.roll(wave, -int(np.round((read - own) / (2 * np.pi) * count)))
