"""Scale: one quantity on a meter's display, its last digit, its stated error, and below what it shows nothing."""

import math
from dataclasses import dataclass

from ...circuit.fields import about, check, documented, quantity
from ...circuit.values import show, show_to_digit


@documented
@dataclass(frozen=True)
class Scale:
    """One quantity as a meter shows it. SI units.

    Raises
    ------
    ValueError
        For a value out of range.
    """

    unit: str = about("of the quantity")
    digit: float = quantity("", 1e-15, 1e3, meaning="size of the last digit")
    of_reading: float = quantity("", 0, 0.5, 0.0, meaning="stated error as a part of the reading")
    digits: float = quantity("", 0, 100, 0.0, meaning="stated error in last digits")
    floor: float = quantity("", 0, 1e6, 0.0, meaning="what is less shows as 0")
    counts: int = quantity("", 0, 10_000_000, 0, meaning="greatest number on the display, 0: one range", whole=True)

    def __post_init__(self):
        check(self)

    def step(self, value: float) -> float:
        """The last digit where a value is shown."""
        value = abs(value)
        if not self.counts or value <= self.counts * self.digit:
            return self.digit
        return self.digit * 10 ** math.ceil(math.log10(value / (self.counts * self.digit)) - 1e-9)

    def reading(self, value: float) -> float:
        """A true value as the display writes it, the meter having no error but its digits."""
        if not math.isfinite(value) or abs(value) < self.floor:
            return 0.0 if math.isfinite(value) else value
        step = self.step(value)
        return round(value / step) * step

    def error_limit(self, value: float) -> float:
        """Stated limits of error at a value, either way, digits of the display included but not its rounding."""
        return self.of_reading * abs(value) + self.digits * self.step(value)

    def uncertainty(self, value: float) -> float:
        """Standard uncertainty at a value, without rounding.

        Limits stated without more are taken as equally likely all over: their half width over √3
        (JCGM 100:2008, 4.3.7; from memory).
        """
        return self.error_limit(value) / math.sqrt(3)

    def reading_range(self, value: float, extra: float = 0.0) -> tuple[float, ...]:
        """Least and greatest that the display may show of a true value.

        `extra` is a further error, a part of the value.
        """
        off = self.error_limit(value) + extra * abs(value)
        return self.reading(max(value - off, 0.0)), self.reading(value + off)

    def true_range(self, reading: float) -> tuple[float, ...]:
        """Least and greatest true value that a number shown can stand for, error and rounding counted."""
        half = self.step(reading) / 2
        if reading == 0:
            return 0.0, max(self.floor, half + self.digits * self.digit)
        low = (abs(reading) - half - self.digits * self.step(reading)) / (1 + self.of_reading)
        return max(low, 0.0), (abs(reading) + half + self.digits * self.step(reading)) / (1 - self.of_reading)

    def reading_text(self, value: float) -> str:
        """A shown number with its unit, no more digits than the display has."""
        if not math.isfinite(value):
            return "over its range"
        if self.counts:
            step = self.step(value)
            digits = max(1, math.floor(math.log10(max(abs(value), step) / step) + 1e-9) + 1)
            return show(value, self.unit, digits)
        return show_to_digit(value, self.unit, self.digit)
