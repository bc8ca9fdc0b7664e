"""Rectifier diodes for 1 A, by the steps of their reverse voltage."""

from dataclasses import dataclass

from ...circuit.fields import documented, quantity
from .rating import MAKERS_SHEET, Kind, Use

# Into a capacitive load the rated current is taken 20 % less (makers' data sheets).
CAPACITIVE_LOAD = Use(current=0.8)


@documented
@dataclass(frozen=True)
class RectifierDiode(Kind):
    """A rectifier diode.

    Parameters
    ----------
    name, source, provenance : str
        See `Kind`.
    """

    reverse_voltage: float = quantity("V", 1, 1e4, meaning="repetitive peak reverse voltage")
    current: float = quantity("A", 1e-3, 1e3, 1.0, meaning="mean forward current")
    surge: float = quantity("A", 1e-3, 1e5, 30.0, meaning="surge of half a sine")
    surge_time: float = quantity("s", 1e-4, 1, 8.3e-3, meaning="how long the half sine lasts")
    forward_voltage: float = quantity("V", 0.1, 5, 1.1, meaning="greatest forward voltage at 1 A")

    @property
    def ratings(self) -> dict[str, float]:
        """Reverse voltage, V; mean current and surge, A."""
        return {"voltage": self.reverse_voltage, "current": self.current, "surge": self.surge}


RECTIFIERS = tuple(
    RectifierDiode(f"1N400{number}", "makers' data sheets of 1N4001 to 1N4007", MAKERS_SHEET, volts)
    for number, volts in enumerate((50.0, 100.0, 200.0, 400.0, 600.0, 800.0, 1000.0), start=1)
)
