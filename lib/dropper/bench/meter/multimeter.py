"""Multimeter: dc and ac volts, ohms, capacitance; true rms or averaging; what it draws from the circuit."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, check, check_part, documented, quantity
from .scale import Scale

_DC = Scale("V", 1e-3, 0.01, 3, counts=2000)
_AC = Scale("V", 1e-3, 0.015, 5, counts=2000)
_OHMS = Scale("Ω", 0.1, 0.01, 3, counts=2000)
_FARADS = Scale("F", 1e-12, 0.03, 5, counts=2000)


@documented
@dataclass(frozen=True)
class Multimeter:
    """A hand multimeter of 2000 counts. Sizes typical of plain ones: common practice, no source.

    Raises
    ------
    ValueError, TypeError
        For a value out of range, or what is no Scale.
    """

    dc_volts: Scale = _DC
    ac_volts: Scale = _AC
    ohms: Scale = _OHMS
    farads: Scale = _FARADS
    input_resistance: float = quantity("Ω", 1e4, 1e12, 10e6, meaning="between the probes on a voltage range")
    true_rms: bool = about(
        "False: on ac it takes the mean of the rectified wave, and its scale is right for a sine only.", default=False
    )
    most_ohms: float = quantity("Ω", 1e5, 1e12, 20e6, meaning="more shows as over its range")

    def __post_init__(self):
        check(self)
        for name in ("dc_volts", "ac_volts", "ohms", "farads"):
            check_part(self, name, Scale)

    def dc(self, volts: float, source_resistance: float = 0.0) -> float:
        """What it shows of a dc voltage through a resistance (`theory.loaded_voltage`), no error but its digits.

        `volts` in V, either way; `source_resistance` in Ω.
        """
        if source_resistance:
            volts = float(np.sign(volts)) * theory.loaded_voltage(
                unloaded_voltage=abs(volts), source_resistance=source_resistance, input_resistance=self.input_resistance
            )
        return self.dc_volts.reading(volts)

    def ac(self, wave: np.ndarray, time: np.ndarray | None = None) -> float:
        """What it shows of a wave on its ac range, the direct part kept out; no error but its digits.

        `wave`: samples over whole cycles. `time`: where they stand, if they are not evenly spaced.
        """
        return self.ac_volts.reading(ac_value(wave, time, self.true_rms))

    def resistance(self, ohms: float) -> float:
        """What it shows of a resistance; infinite where that is over its range."""
        return float("inf") if ohms > self.most_ohms else self.ohms.reading(ohms)

    def parallel(self, ohms: float | None) -> float:
        """A resistance with the meter's own across it, Ω; None stands for nothing fitted.

        Source: `theory.bleeder_with_meter`.
        """
        if ohms is None:
            return self.input_resistance
        return float(theory.bleeder_with_meter(bleeder=ohms, input_resistance=self.input_resistance))


def ac_value(wave: np.ndarray, time: np.ndarray | None = None, true_rms: bool = True) -> float:
    """Rms of a wave without its direct part, or what an averaging meter makes of it.

    Parameters
    ----------
    wave
        Over whole cycles.
    time
        Where the samples stand; the wave is straight between them. Without it each counts alike.
    true_rms
        False: π/(2√2) times the mean of the rectified wave (`theory.averaging_reading`).
    """
    wave = np.asarray(wave, float)
    weight = np.ones_like(wave) / wave.size if time is None else _weights(np.asarray(time, float))
    rest = wave - weight @ wave
    if true_rms:
        return float(np.sqrt(weight @ rest**2))
    return float(theory.averaging_reading(rectified_mean=float(weight @ np.abs(rest))))


def _weights(time):
    steps = np.diff(time)
    return (np.append(steps, 0.0) + np.append(0.0, steps)) / (2 * (time[-1] - time[0]))
