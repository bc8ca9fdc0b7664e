"""LEDs: forward voltage with its spread, current limit, and what warmth does to the voltage.

Figures that were read are named in `source`; the rest of that line is typical practice. A real LED has a data sheet.
"""

from dataclasses import dataclass

from ..fields import quantity
from ..lamp import Led
from ..values import show
from .rating import HAD, PRACTICE, READ

REVERSE_LIMIT = 5.0  # V, makers' data sheets: a bridge keeps an LED from more, a bare string on ac does not


@dataclass(frozen=True)
class LedKind:
    """A kind of LED.

    Parameters
    ----------
    name : str
    typical, least, greatest : float
        V, forward voltage at `at_current` and 25 °C.
    at_current : float
        A.
    current_limit : float
        A, steady.
    junctions : int
        In series inside one package.
    coefficient : float
        V/K for each junction, below zero.
    series_resistance : float
        Ω, of the package; typical practice everywhere.
    source, had : str
        Where the figures come from, and how they were had, one of `HAD`.

    Raises
    ------
    ValueError
        For a value out of range, or least, typical and greatest out of order.
    """

    name: str
    typical: float
    least: float
    greatest: float
    at_current: float
    current_limit: float
    junctions: int
    coefficient: float
    series_resistance: float
    source: str
    had: str
    reverse_limit: float = quantity("V", 0.1, 100, REVERSE_LIMIT, meaning="greatest reverse voltage")

    def __post_init__(self):
        if not 0 < self.least <= self.typical <= self.greatest:
            found = ", ".join(show(volts, "V") for volts in (self.least, self.typical, self.greatest))
            raise ValueError(f"LedKind: {found} are not least, typical and greatest forward voltage in this order")
        if not 0 < self.at_current <= self.current_limit:
            found = f"{show(self.at_current, 'A')} and {show(self.current_limit, 'A')}"
            raise ValueError(f"LedKind: {found} are not a stated current and a limit no less than that")
        if self.coefficient > 0:
            raise ValueError(f"LedKind.coefficient: {show(self.coefficient, 'V/K')} will not do; it is below zero")
        if self.had not in HAD:
            raise ValueError(f"LedKind.had: {self.had!r} is none of {'; '.join(HAD)}")

    def led(self, which="typical"):
        """One of these LEDs as a lamp takes it.

        Parameters
        ----------
        which : str
            "typical", "least" or "greatest" forward voltage.

        Returns
        -------
        Led

        Raises
        ------
        ValueError
            For any other word.
        """
        if which not in ("typical", "least", "greatest"):
            raise ValueError(f"which: {which!r} will not do; choose typical, least or greatest")
        return Led(getattr(self, which), self.at_current, self.series_resistance, 2.0 * self.junctions)


_SHEETS = "makers' data sheets"
LEDS = (
    #        name, typical, least, greatest V, at A, limit A, junctions, V/K, Ω
    LedKind("red, 5 mm", 2.0, 1.8, 2.4, 0.020, 0.030, 1, -2e-3, 6.0, "no data sheet", PRACTICE),
    LedKind("yellow, 5 mm", 1.85, 1.7, 2.2, 0.002, 0.020, 1, -2e-3, 10.0,
            f"{_SHEETS}: 1.85 V at 2 mA, −2 mV/K; the rest typical practice", READ),
    LedKind("green, 5 mm", 3.2, 2.8, 3.6, 0.020, 0.030, 1, -3e-3, 10.0, "no data sheet", PRACTICE),
    LedKind("blue, 5 mm", 3.2, 2.8, 3.6, 0.020, 0.030, 1, -3e-3, 9.0,
            f"{_SHEETS}: 3.2 V; the rest typical practice", READ),
    LedKind("warm white, 5 mm", 3.0, 2.6, 3.4, 0.020, 0.030, 1, -3e-3, 9.0,
            f"{_SHEETS}: 3.0 V, 2.6 V to 3.4 V; the rest typical practice", READ),
    LedKind("near-UV 375 nm, 5 mm", 3.5, 3.2, 4.0, 0.020, 0.025, 1, -3e-3, 12.0,
            f"{_SHEETS}: 3.5 V at 20 mA; the rest typical practice", READ),
    LedKind("mid-power 0.2 W, one junction", 2.8, 2.6, 3.1, 0.060, 0.090, 1, -2e-3, 1.5,
            f"{_SHEETS}: 2.8 V at 60 mA; the rest typical practice", READ),
    LedKind("mid-power 0.5 W, one junction", 3.2, 2.6, 3.6, 0.150, 0.180, 1, -2e-3, 1.0,
            f"{_SHEETS}: 3.2 V at 150 mA, 2.6 V to 3.6 V; the rest typical practice", READ),
    LedKind("mid-power, two junctions", 6.0, 5.6, 6.8, 0.060, 0.090, 2, -2e-3, 3.0,
            f"{_SHEETS}: 6 V; the rest typical practice", READ),
    LedKind("mid-power, three junctions", 9.0, 8.4, 10.2, 0.060, 0.080, 3, -2e-3, 4.5,
            f"{_SHEETS}: 9 V; the rest typical practice", READ),
)  # fmt: skip


def led_kind(name):
    """A kind of LED by its name in `LEDS`.

    Parameters
    ----------
    name : str

    Returns
    -------
    LedKind

    Raises
    ------
    ValueError
        If none is kept here under that name; the error lists those that are.

    Examples
    --------
    >>> led_kind("blue, 5 mm").typical
    3.2
    """
    for found in LEDS:
        if found.name == name:
            return found
    raise ValueError(f"name: {name!r} is no LED kept here; there are {'; '.join(each.name for each in LEDS)}")
