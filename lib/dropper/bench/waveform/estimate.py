"""A measured value with its standard uncertainty, and how both are written."""

import math
from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...results.reading import written

_PREFIXES = {-9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M"}


@documented
@dataclass(frozen=True)
class Estimate:
    """A value and what is not known of it."""

    value: float = about("SI units; nan where there is none.")
    uncertainty: float = about(
        "Standard uncertainty, one sigma, in the same unit; twice it covers about 95 % (JCGM 100:2008, 6.3.3)."
    )

    @property
    def half_width(self) -> float:
        """Half the width of the interval that covers about 95 %."""
        return 2 * self.uncertainty

    def text(self, unit: str) -> str:
        """As people write it: "21.83 ± 0.40 mA"; the uncertainty with two digits, the value to the same place."""
        if not math.isfinite(self.value):
            return "–"
        if self.half_width <= 0:
            return written(self.value, unit)
        prefix, scale = "", 1.0
        if unit not in ("", "%", "°", "Hz"):
            largest = max(abs(self.value), self.half_width)
            power = min(max(3 * math.floor(math.log10(largest) / 3 + 1e-12), -9), 6)
            prefix, scale = _PREFIXES[power], 10.0**power
        width = self.half_width / scale
        places = min(max(1 - math.floor(math.log10(width)), 0), 6)
        space = "" if unit == "°" else " "
        return f"{self.value / scale:.{places}f} ± {width:.{places}f}{space}{prefix}{unit}".replace("-", "−").strip()

    def agrees(self, other: float) -> bool:
        """Whether another value lies within what is not known of this one."""
        return abs(self.value - other) <= self.half_width
