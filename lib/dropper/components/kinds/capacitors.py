"""Capacitors: film across the mains, film for dc, wet aluminium electrolytics.

What the tests of a class allow is in `standards.capacitors`.
"""

from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented, quantity
from ...circuit.values import show
from .rating import MAKERS_SHEET, MEMORY, PRACTICE, Kind

_ACROSS = (
    "It has been tested to stand between line and neutral with the surges of the mains, and where it fails, to fail "
    "without setting fire to what is around it."
)
_IN_SERIES = (
    "That it keeps its capacitance where it carries the lamp's current year after year. Each surge may burn a speck of "
    "its metal away: across the mains nobody notices, in series the light fades. Makers ask for types whose data sheet "
    "names series use."
)


@documented
@dataclass(frozen=True)
class AcrossTheMains(Kind):
    """A film capacitor of a class for across the mains.

    Parameters
    ----------
    name, source, provenance : str
        See `Kind`.

    Raises
    ------
    ValueError
        For another class or a voltage out of range.
    """

    mains_class: str = about('"X1" or "X2".')
    rated_ac_voltage: float = quantity("V", 1, 1e3, meaning="rated ac voltage")
    promises: str = about("What the class says of it, and what it leaves open in series use.", default=_ACROSS)
    does_not_promise: str = about(
        "What the class says of it, and what it leaves open in series use.", default=_IN_SERIES
    )

    def __post_init__(self):
        super().__post_init__()
        if self.mains_class not in ("X1", "X2"):
            raise ValueError(f"AcrossTheMains.mains_class: {excerpt(self.mains_class)} is neither X1 nor X2")

    @property
    def ratings(self) -> dict[str, float]:
        """Rated ac voltage, V rms."""
        return {"ac_voltage": self.rated_ac_voltage}


@documented
@dataclass(frozen=True)
class DcFilm(Kind):
    """A film capacitor rated for dc: on ac of mains frequency it is allowed much less, and no class vouches for it.

    Parameters
    ----------
    name, source, provenance : str
        See `Kind`.
    """

    rated_voltage: float = quantity("V", 1, 1e5, meaning="rated dc voltage")
    ac_voltage: float = quantity("V", 1, 1e5, meaning="rms voltage of a sine of mains frequency")

    @property
    def ratings(self) -> dict[str, float]:
        """Dc voltage, V, and ac voltage, V rms."""
        return {"voltage": self.rated_voltage, "ac_voltage": self.ac_voltage}


@documented
@dataclass(frozen=True)
class Electrolytic(Kind):
    """A rated voltage of wet aluminium electrolytics.

    Parameters
    ----------
    name, source, provenance : str
        See `Kind`.
    """

    rated_voltage: float = quantity("V", 1, 1e3, meaning="rated dc voltage")

    @property
    def ratings(self) -> dict[str, float]:
        """Dc voltage, V."""
        return {"voltage": self.rated_voltage}


@documented
@dataclass(frozen=True)
class Life:
    """The life that a maker states for a grade of electrolytics; at other temperatures `theory.electrolytic_life`."""

    hours: float = about("life", "h")
    temperature: float = about("temperature of the capacitor at which it has that life", "°C")
    source: str = about("See `Kind`.")
    provenance: str = about("See `Kind`.")

    @property
    def name(self) -> str:
        """As it is printed on the can: "2000 h at 105 °C"."""
        return f"{self.hours:g} h at {self.temperature:g} °C"


@documented
@dataclass(frozen=True)
class Ripple:
    """Ripple current that one size of electrolytic commonly withstands."""

    capacitance: float = about("capacitance", "F")
    rated_voltage: float = about("rated dc voltage", "V")
    current: float = about("rms current at 100 Hz to 120 Hz and 105 °C", "A")
    source: str = about("See `Kind`.")
    provenance: str = about("See `Kind`.")


def _across(mains_class, volts):
    source = "rated voltages common in makers' data sheets of X2 film capacitors"
    provenance = MAKERS_SHEET
    if mains_class == "X1":
        source, provenance = "rated voltages common among X1 film capacitors", MEMORY
    return tuple(
        AcrossTheMains(f"{mains_class} film, {rating:g} V ac", source, provenance, mains_class, rating)
        for rating in volts
    )


X1 = _across("X1", (300.0, 330.0, 440.0))
X2 = _across("X2", (275.0, 305.0, 310.0))
_DC_AC = ((63.0, 40.0), (100.0, 63.0), (250.0, 160.0), (400.0, 200.0), (630.0, 220.0), (1000.0, 250.0))
DC_FILM = tuple(
    DcFilm(f"polyester film, {dc:g} V dc", "ratings common among polyester film capacitors", MEMORY, dc, ac)
    for dc, ac in _DC_AC
)
_VOLTS = (6.3, 10.0, 16.0, 25.0, 35.0, 50.0, 63.0, 80.0, 100.0, 160.0, 200.0, 250.0, 350.0, 400.0, 450.0)
ELECTROLYTICS = tuple(
    Electrolytic(f"electrolytic, {volts:g} V", "rated voltages common among aluminium electrolytics", MEMORY, volts)
    for volts in _VOLTS
)
LIVES = (
    Life(1000.0, 85.0, "a plain grade", PRACTICE),
    Life(2000.0, 85.0, "a plain grade", PRACTICE),
    Life(1000.0, 105.0, "Cosel FAQ a0057, its table of lives", MAKERS_SHEET),
    Life(2000.0, 105.0, "a common grade", PRACTICE),
    Life(5000.0, 105.0, "a long-life grade", PRACTICE),
    Life(10000.0, 105.0, "a grade for lamps", PRACTICE),
)
RIPPLES = tuple(
    Ripple(farads, volts, amperes, f"size of {show(farads, 'F')} and {show(volts, 'V')}", PRACTICE)
    for farads, volts, amperes in (
        (4.7e-6, 400.0, 0.05),
        (10e-6, 400.0, 0.08),
        (22e-6, 400.0, 0.14),
        (47e-6, 400.0, 0.24),
        (10e-6, 100.0, 0.06),
        (47e-6, 100.0, 0.15),
        (100e-6, 100.0, 0.24),
        (220e-6, 100.0, 0.42),
    )
)
