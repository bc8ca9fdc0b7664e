"""Estimate: a measured value with its standard uncertainty, and how both are written."""

from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...circuit.values import show_estimate


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
        return show_estimate(self.value, self.half_width, unit)

    def agrees(self, other: float) -> bool:
        """Whether another value lies within what is not known of this one."""
        return abs(self.value - other) <= self.half_width
