"""Plug-in meter: what a cheap one shows, digit by digit, how far off it may be, and whether its readings agree."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.fields import check, documented, quantity
from ...circuit.values import show_to_digit
from .intervals import agreement_of_intervals
from .scale import Scale

if TYPE_CHECKING:
    from ...circuit.lamp import Readings
    from ...solver.steady import SteadyState


def _digit(unit, size):
    return quantity(unit, 1e-9, 1e3, size, meaning="last digit")


def _error(size, meaning):
    return quantity("", 0, 0.5, size, meaning=meaning)


@documented
@dataclass(frozen=True)
class PlugInMeter:
    """A plug-in power meter: its digits, its errors, and what is too little for it to show.

    It samples voltage and current, so its amperes are true rms. Each of the two has an error of its own;
    watts have both, and one more; volt-amperes and power factor are made from the three. A phase error
    moves the watts by itself times the reactive power (`theory.power_error_of_phase`).
    Sizes typical of cheap ones: common practice, no source.
    """

    volt_digit: float = _digit("V", 0.1)
    ampere_digit: float = _digit("A", 1e-3)
    watt_digit: float = _digit("W", 0.1)
    volt_ampere_digit: float = _digit("VA", 0.1)
    factor_digit: float = _digit("", 0.01)
    volt_error: float = _error(0.01, "limit of error of the volts, a part of the reading")
    ampere_error: float = _error(0.02, "limit of error of the amperes, a part of the reading")
    watt_error: float = _error(0.01, "limit of error of the watts beyond those of volts and amperes")
    error_digits: float = quantity("", 0, 100, 1.0, meaning="limit of error in last digits, on top")
    phase_error: float = quantity("rad", 0, 0.2, math.radians(0.5), meaning="limit of the phase error")
    ampere_floor: float = quantity("A", 0, 1, 0.0, meaning="less shows as 0 A, 0 W and 0 VA")
    watt_floor: float = quantity("W", 0, 100, 0.0, meaning="less shows as 0 W")

    def __post_init__(self):
        check(self)

    def digits(self) -> dict[str, tuple[str, float, str]]:
        """Each reading's name, unit, last digit and the result's field that it shows."""
        return {
            "current": ("A", self.ampere_digit, "line_current_rms"),
            "power": ("W", self.watt_digit, "real_power"),
            "apparent_power": ("VA", self.volt_ampere_digit, "apparent_power"),
            "power_factor": ("", self.factor_digit, "power_factor"),
        }

    def scales(self) -> dict[str, Scale]:
        """Each reading's `Scale`, volts included; the phase error is not in the watts' and the power factor's."""
        both = self.volt_error + self.ampere_error
        more = self.error_digits
        return {
            "voltage": Scale("V", self.volt_digit, self.volt_error, more),
            "current": Scale("A", self.ampere_digit, self.ampere_error, more, self.ampere_floor),
            "power": Scale("W", self.watt_digit, both + self.watt_error, more, self.watt_floor),
            "apparent_power": Scale("VA", self.volt_ampere_digit, both, more),
            "power_factor": Scale("", self.factor_digit, self.watt_error, more),
        }

    def readings(self, result: SteadyState) -> dict[str, float]:
        """What it would show of a steady state, had it no error but its digits and floors: numbers by reading."""
        nothing = result.line_current_rms <= 0 or result.line_current_rms < self.ampere_floor
        scales = self.scales()
        true = {name: getattr(result, source) for name, (_, _, source) in self.digits().items()}
        return {
            name: 0.0 if nothing or math.isnan(value) else scales[name].reading(value) for name, value in true.items()
        }

    def reading_text(self, name: str, value: float) -> str:
        """One reading as its display writes it."""
        unit, digit, _ = self.digits().get(name, ("V", self.volt_digit, ""))
        return show_to_digit(value, unit, digit)

    def power_factor_band(self, readings: Readings) -> tuple[float, float] | None:
        """Least and greatest power factor that its volts, amperes and watts allow.

        Each may be off by half a digit. None where one of the three is missing or zero.
        """
        if not (readings.voltage and readings.current and readings.power is not None):
            return None
        half_v, half_a, half_w = (d / 2 for d in (self.volt_digit, self.ampere_digit, self.watt_digit))
        most = (readings.voltage + half_v) * (readings.current + half_a)
        least = (readings.voltage - half_v) * max(readings.current - half_a, 0)
        low = max(readings.power - half_w, 0) / most
        return low, ((readings.power + half_w) / least if least > 0 else float("inf"))

    def check_agreement(self, readings: Readings) -> tuple[bool | None, str]:
        """Whether its readings can go together, each off by no more than half a digit.

        Returns
        -------
        (bool or None, str)
            None where too little was read to tell; and a sentence that says so.
        """
        read = {name: getattr(readings, name) for name in self.scales() if getattr(readings, name) is not None}
        halves = {name: scale.digit / 2 for name, scale in self.scales().items()}
        agreement = agreement_of_intervals(
            {name: (max(value - halves[name], 0.0), value + halves[name]) for name, value in read.items()}, read
        )
        return agreement.agrees, agreement.words
