"""What a cheap plug-in meter shows, digit by digit, and whether its readings agree."""

from dataclasses import dataclass

from .values import show


@dataclass(frozen=True)
class PlugInMeter:
    """A plug-in power meter by the size of its last digits.

    Typical of cheap ones: common practice, no source. Its errors beyond the digit are not
    modelled here.
    """

    volt_digit: float = 0.1
    ampere_digit: float = 1e-3
    watt_digit: float = 0.1
    volt_ampere_digit: float = 0.1
    factor_digit: float = 0.01

    def digits(self):
        """Each reading's name, unit, last digit and the result's field that it shows."""
        return {
            "current": ("A", self.ampere_digit, "line_current_rms"),
            "power": ("W", self.watt_digit, "real_power"),
            "apparent_power": ("VA", self.volt_ampere_digit, "apparent_power"),
            "power_factor": ("", self.factor_digit, "power_factor"),
        }

    def shown(self, result):
        """What it would show of a steady state: numbers rounded to its digits, by reading."""
        return {
            name: round(getattr(result, source) / digit) * digit if result.line_current_rms > 0 else 0.0
            for name, (_, digit, source) in self.digits().items()
        }

    def text(self, name, value):
        """One reading as its display writes it."""
        unit, digit, _ = self.digits()[name]
        if unit == "A":
            return f"{value * 1e3:.{_places(digit * 1e3)}f} mA"
        return f"{value:.{_places(digit)}f} {unit}".strip()

    def power_factor_band(self, readings):
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

    def agrees(self, readings):
        """Whether the power factor read can go with the volts, amperes and watts read.

        Returns
        -------
        (bool or None, str)
            None where too little was read to tell; and a sentence that says so.
        """
        band = self.power_factor_band(readings)
        if band is None or readings.power_factor is None:
            return None, "Too little was read to see whether the meter agrees with itself."
        low, high = band
        half = self.factor_digit / 2
        said = (
            f"{show(readings.power, 'W')} of {show(readings.voltage, 'V')} times"
            f" {show(readings.current, 'A')} is a power factor of {low:.2f} to {high:.2f}"
        )
        if low - half <= readings.power_factor <= high + half:
            return True, f"The meter agrees with itself: {said}, and it read {readings.power_factor:.2f}."
        return False, f"The meter disagrees with itself: {said}, but it read {readings.power_factor:.2f}."


def _places(digit):
    places = 0
    while digit < 0.999 and places < 6:
        digit *= 10
        places += 1
    return places
