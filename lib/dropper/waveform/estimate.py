"""A measured value with its standard uncertainty, and how both are written."""

import math
from dataclasses import dataclass

from ..reading import written
from ..values import show


@dataclass(frozen=True)
class Estimate:
    """A value and what is not known of it.

    Parameters
    ----------
    value : float
        SI units; nan where there is none.
    uncertainty : float
        Standard uncertainty, one sigma, in the same unit; twice it covers about 95 % (JCGM 100:2008, 6.3.3).
    """

    value: float
    uncertainty: float

    @property
    def half_width(self):
        """Half the width of the interval that covers about 95 %."""
        return 2 * self.uncertainty

    def text(self, unit):
        """As people write it: "21.8 mA ± 0.4 mA"; the uncertainty with two digits, the value to the same place."""
        if not math.isfinite(self.value):
            return "–"
        if self.half_width <= 0:
            return written(self.value, unit)
        digits = 2
        if self.value != 0:
            above = math.floor(math.log10(abs(self.value))) - math.floor(math.log10(self.half_width))
            digits = min(max(above + 2, 2), 6)
        if unit in ("", "%", "°"):
            places = max(1 - math.floor(math.log10(self.half_width)), 0)
            space = "" if unit == "°" else " "
            value = f"{self.value:.{places}f}".replace("-", "−")
            return f"{value} ± {self.half_width:.{places}f}{space}{unit}".strip()
        return f"{show(self.value, unit, digits)} ± {show(self.half_width, unit, 2)}".replace("-", "−")

    def agrees(self, other):
        """Whether another value lies within what is not known of this one."""
        return abs(self.value - other) <= self.half_width
