"""Mains by country: nominal volts, the band they are kept in, and the frequency.

The band is the supplier's: at the socket it may be lower. A learner can always type the local value instead.
"""

from dataclasses import dataclass

from ..circuit.excerpt import excerpt
from ..circuit.fields import about, documented
from ..circuit.values import show
from .verdict import number


@documented
@dataclass(frozen=True)
class Supply:
    """A public low-voltage supply, line to neutral (or what a wall socket gives)."""

    place: str
    nominal: float = about("nominal rms voltage", "V")
    low: float | None = about("least of the band, rms; None where no band is kept here", "V")
    high: float | None = about("greatest of the band, rms; None where no band is kept here", "V")
    frequency: float = about("frequency", "Hz")
    source: str = about('The standard or rule, with its edition, and "value from memory" where it is one.')

    @property
    def words(self) -> str:
        """The supply in a sentence."""
        band = "no band kept here" if self.low is None else f"{show(self.low, 'V', 4)} to {show(self.high, 'V', 4)}"
        nominal, frequency = show(self.nominal, "V"), show(self.frequency, "Hz")
        return f"{self.place}: {nominal} nominal, {band}, {frequency} ({self.source})."

    def holds(self, voltage: float) -> bool | None:
        """Whether volts lie within the band; None where no band is kept here."""
        voltage = number("voltage", voltage, "V", 0)
        return None if self.low is None else self.low <= voltage <= self.high


_JAPAN = "Electricity Business Act Enforcement Regulation, Article 38"
_BRAZIL = "PRODIST module 8, adequate voltage"
_MEMORY = "value from memory"
SUPPLIES = (
    Supply("Europe", 230.0, 207.0, 253.0, 50.0, "EN 50160: 95 % of 10-minute means; IEC 60038:2009"),
    Supply("Europe, all means", 230.0, 195.5, 253.0, 50.0, "EN 50160: all 10-minute means"),
    Supply("United Kingdom", 230.0, 216.2, 253.0, 50.0, "supply regulations, +10/−6 %"),
    Supply("Australia", 230.0, 216.2, 253.0, 50.0, "AS 60038, +10/−6 %"),
    Supply("United States", 120.0, 114.0, 126.0, 60.0, f"ANSI C84.1-2020, service, range A; {_MEMORY}"),
    Supply(
        "United States, at the socket", 120.0, 104.0, 127.0, 60.0, f"ANSI C84.1-2020, utilisation, range B; {_MEMORY}"
    ),
    Supply("Japan, east", 100.0, 95.0, 107.0, 50.0, _JAPAN),
    Supply("Japan, west", 100.0, 95.0, 107.0, 60.0, _JAPAN),
    Supply("Brazil, 127 V", 127.0, 117.0, 133.0, 60.0, f"{_BRAZIL}; {_MEMORY}"),
    Supply("Brazil, 220 V", 220.0, 202.0, 231.0, 60.0, f"{_BRAZIL}; {_MEMORY}"),
    Supply("China", 220.0, 198.0, 235.4, 50.0, f"GB/T 12325, +7/−10 %; {_MEMORY}"),
    Supply("Korea", 220.0, None, None, 60.0, _MEMORY),
    Supply("Philippines", 220.0, None, None, 60.0, _MEMORY),
    Supply("Mexico", 127.0, None, None, 60.0, _MEMORY),
)


def supply(place: str) -> Supply:
    """The supply of a place by its name in `SUPPLIES`.

    Raises
    ------
    ValueError
        If none is kept here under that name; the error lists those that are.

    Examples
    --------
    >>> supply("Japan, west").words
    'Japan, west: 100 V nominal, 95 V to 107 V, 60 Hz (Electricity Business Act Enforcement Regulation, Article 38).'
    """
    for known in SUPPLIES:
        if known.place == place:
            return known
    names = "; ".join(known.place for known in SUPPLIES)
    raise ValueError(f"place: {excerpt(place)} is not kept here; there are {names}. Any other voltage can be typed")
