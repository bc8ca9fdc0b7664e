"""Measurement: the quantities of a measured recording, each with its uncertainty."""

from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from .estimate import Estimate
from .period import Period
from .recording import Recording

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
_SHORT = ("voltage", "current", "real", "power_factor")


@documented
@dataclass(frozen=True, eq=False)
class Measurement:
    """A measured recording: its quantities with their uncertainties."""

    recording: Recording
    period: Period = about("Of the mains voltage, or of the line current where no voltage was recorded.")
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
    skipped_periods: int = about("Periods with a gap, which do not count.")
    warnings: tuple = about("What should make one doubt the figures, in sentences.")

    def __repr__(self) -> str:
        texts = [
            f"{name} {self.estimates[name].text(QUANTITIES[name][1])}" for name in _SHORT if name in self.estimates
        ]
        return f"<Measurement of {self.recording.source!r}, {self.count} periods: {', '.join(texts)}>"

    def __getattr__(self, name):
        estimates = self.__dict__.get("estimates", {})
        if name in QUANTITIES:
            return estimates.get(name, Estimate(np.nan, np.nan))
        raise AttributeError(f"Measurement has no {excerpt(name)}")

    @property
    def count(self) -> int:
        """How many whole periods were measured."""
        return len(next(iter(self.cycles.values())).rows)
