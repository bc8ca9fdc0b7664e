"""Resistors: rated power at 70 °C, limiting element voltage, and the line to nothing at 155 °C.

The limiting element voltage is that of dc or of ac rms. Asked with the mains' peak, as here, it is kept with something
to spare. What ohms and watts make of it is `theory.resistor_working_voltage`; what warmth leaves of the watts is
`theory.derated_share`. No pulse ratings are kept here: a resistor that takes an inrush is chosen by its data sheet, and
is to be of a fusible, flame-proof kind.
"""

from dataclasses import dataclass

from ...circuit.fields import documented, quantity
from .rating import MAKERS_SHEET, MEMORY, PRACTICE, Kind

_DERATING = "full power to 70 °C, none at 155 °C"


@documented
@dataclass(frozen=True)
class Resistor(Kind):
    """A kind and size of resistor.

    Parameters
    ----------
    name, source, provenance : str
        See `Kind`.
    """

    rated_power: float = quantity("W", 1e-3, 1e3, meaning="rated power")
    limiting_voltage: float = quantity("V", 1, 1e5, meaning="limiting element voltage")
    full_power_to: float = quantity("°C", -60, 300, 70.0, meaning="start of the derating line")
    no_power_from: float = quantity("°C", -60, 500, 155.0, meaning="end of the derating line")

    @property
    def ratings(self) -> dict[str, float]:
        """Rated power, W, and limiting element voltage, V."""
        return {"power": self.rated_power, "voltage": self.limiting_voltage}


def _family(title, source, provenance, rows):
    family = [Resistor(f"{title} {size}", source, provenance, power, volts) for size, power, volts in rows]
    return tuple(sorted(family, key=lambda part: (part.rated_power, part.limiting_voltage)))


CARBON_FILM = _family(
    "carbon film",
    f"makers' data sheets of carbon film resistors; {_DERATING}",
    MAKERS_SHEET,
    (
        ("1/6 W", 1 / 6, 150.0),
        ("1/4 W, small body", 0.25, 200.0),
        ("1/4 W", 0.25, 250.0),
        ("1/2 W, small body", 0.5, 300.0),
        ("1/2 W", 0.5, 350.0),
    ),
)
FILM = _family(
    "film",
    f"makers' data sheets of metal film resistors; {_DERATING}",
    MAKERS_SHEET,
    (
        ("1/4 W, small body", 0.25, 150.0),
        ("1/4 W", 0.25, 250.0),
        ("0.4 W, small body", 0.4, 200.0),
        ("1/2 W", 0.5, 300.0),
        ("0.6 W", 0.6, 350.0),
        ("1 W", 1.0, 350.0),
        ("2 W", 2.0, 500.0),
        ("3 W", 3.0, 750.0),
    ),
)
FUSIBLE = tuple(
    Resistor(
        f"fusible, flame-proof, {size}, with a pulse curve",
        f"watts and volts of such kinds; {_DERATING}",
        PRACTICE,
        watts,
        volts,
    )
    for size, watts, volts in (("1/2 W", 0.5, 300.0), ("1 W", 1.0, 350.0), ("2 W", 2.0, 500.0), ("3 W", 3.0, 750.0))
)
CHIP = _family(
    "chip",
    f"makers' data sheets of chip resistors for the volts; watts are values from memory; {_DERATING}",
    MEMORY,
    (
        ("0402", 0.0625, 50.0),
        ("0603", 0.1, 50.0),
        ("0805", 0.125, 150.0),
        ("1206", 0.25, 200.0),
        ("1210", 0.5, 200.0),
        ("2010", 0.75, 200.0),
        ("2512", 1.0, 200.0),
    ),
)
