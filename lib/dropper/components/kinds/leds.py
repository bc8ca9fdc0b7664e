"""LEDs: forward voltage with its spread, current limit, and what warmth does to the voltage.

Figures that were read are named in `source`, and `had_of` tells it of each; the rest of that line is typical practice.
A real LED has a data sheet, and can be measured: see `ledfit`.
"""

import dataclasses
from dataclasses import dataclass

from ...circuit.fields import about, check, check_text, documented, quantity, spec_of
from ...circuit.lamp import Led
from ...circuit.values import show
from .rating import HAD, PRACTICE, READ

REVERSE_LIMIT = 5.0  # V, makers' data sheets: a bridge keeps an LED from more, a bare string on ac does not


@documented
@dataclass(frozen=True)
class LedKind:
    """A kind of LED.

    Raises
    ------
    ValueError
        For a value out of range, or least, typical and greatest out of order.
    """

    name: str
    typical: float = quantity("V", 0.5, 100, meaning="typical forward voltage")
    least: float = quantity("V", 0.5, 100, meaning="least forward voltage")
    greatest: float = quantity("V", 0.5, 100, meaning="greatest forward voltage")
    at_current: float = quantity("A", 1e-5, 10, meaning="the current it is stated at")
    current_limit: float = quantity("A", 1e-5, 10, meaning="greatest steady current")
    junctions: int = quantity("", 1, 40, meaning="junctions in series in one package", whole=True)
    coefficient: float = quantity("V/K", -0.1, 0, meaning="change of a junction's voltage with temperature")
    series_resistance: float = quantity("Ω", 0, 1000, meaning="resistance in series with the junctions")
    source: str = about("Where the figures in `stated` come from, and how they were had, one of `HAD`.")
    had: str = about("Where the figures in `stated` come from, and how they were had, one of `HAD`.")
    reverse_limit: float = quantity("V", 0.1, 100, REVERSE_LIMIT, meaning="greatest reverse voltage")
    stated: tuple = about(
        "The figures, by the names of these fields, that the source states; the others are typical practice.",
        default=(),
    )
    ideality: float = quantity("", 1, 20, 2.0, meaning="ideality of each junction")

    def __post_init__(self):
        check(self)
        check_text(self, "name", 60)
        if not self.least <= self.typical <= self.greatest:
            found = ", ".join(show(volts, "V") for volts in (self.least, self.typical, self.greatest))
            raise ValueError(f"LedKind: {found} are not least, typical and greatest forward voltage in this order")
        if not self.at_current <= self.current_limit:
            found = f"{show(self.at_current, 'A')} and {show(self.current_limit, 'A')}"
            raise ValueError(f"LedKind: {found} are not a stated current and a limit no less than that")
        if self.had not in HAD:
            raise ValueError(f"LedKind.had: {self.had!r} is none of {'; '.join(HAD)}")
        if not isinstance(self.stated, tuple | list):
            raise ValueError(f"LedKind.stated: {self.stated!r:.60} is no list of figures, such as ('typical', 'least')")
        for figure in self.stated:
            if figure not in FIGURES:
                raise ValueError(f"LedKind.stated: {figure!r} is no figure of an LED; there are {', '.join(FIGURES)}")

    def had_of(self, figure: str) -> str:
        """How one figure was had.

        Parameters
        ----------
        figure
            One of `FIGURES`: "typical", "current_limit", …

        Returns
        -------
        str
            One of `HAD`.

        Raises
        ------
        ValueError
            For a name that is no figure of an LED.

        Examples
        --------
        >>> led_kind("blue, 5 mm").had_of("typical"), led_kind("blue, 5 mm").had_of("least")
        ("read in makers' data sheets", 'typical practice, no source')
        """
        if figure not in FIGURES:
            raise ValueError(f"figure: {figure!r} is no figure of an LED; there are {', '.join(FIGURES)}")
        if figure in self.stated:
            return self.had
        return READ if figure == "reverse_limit" and self.reverse_limit == REVERSE_LIMIT else PRACTICE

    def led(self, which: str = "typical") -> Led:
        """One of these LEDs as a lamp takes it.

        Parameters
        ----------
        which
            "typical", "least" or "greatest" forward voltage.

        Raises
        ------
        ValueError
            For any other word.
        """
        if which not in ("typical", "least", "greatest"):
            raise ValueError(f"which: {which!r} will not do; choose typical, least or greatest")
        return Led(getattr(self, which), self.at_current, self.series_resistance, self.ideality * self.junctions)


FIGURES = tuple(field.name for field in dataclasses.fields(LedKind) if spec_of(field))


_SHEETS = "makers' data sheets"
_POINT, _SPREAD = ("typical", "at_current"), ("least", "greatest")
LEDS = (
    #        name, typical, least, greatest V, at A, limit A, junctions, V/K, Ω; the figures that were read
    LedKind("red, 5 mm", 2.0, 1.8, 2.4, 0.020, 0.030, 1, -2e-3, 6.0, "no data sheet", PRACTICE),
    LedKind(
        "yellow, 5 mm",
        1.85,
        1.7,
        2.2,
        0.002,
        0.020,
        1,
        -2e-3,
        10.0,
        f"{_SHEETS}: 1.85 V at 2 mA, −2 mV/K; the rest typical practice",
        READ,
        stated=(*_POINT, "coefficient"),
    ),
    LedKind("yellow-green, 5 mm", 2.1, 1.9, 2.5, 0.020, 0.025, 1, -2e-3, 8.0, "no data sheet", PRACTICE),
    LedKind("green, 5 mm", 3.2, 2.8, 3.6, 0.020, 0.030, 1, -3e-3, 10.0, "no data sheet", PRACTICE),
    LedKind(
        "blue, 5 mm",
        3.2,
        2.8,
        3.6,
        0.020,
        0.030,
        1,
        -3e-3,
        9.0,
        f"{_SHEETS}: 3.2 V; the rest typical practice",
        READ,
        stated=("typical",),
    ),
    LedKind(
        "warm white, 5 mm",
        3.0,
        2.6,
        3.4,
        0.020,
        0.030,
        1,
        -3e-3,
        9.0,
        f"{_SHEETS}: 3.0 V, 2.6 V to 3.4 V; the rest typical practice",
        READ,
        stated=("typical", *_SPREAD),
    ),
    LedKind("cool white, 5 mm", 3.2, 2.8, 3.6, 0.020, 0.030, 1, -3e-3, 9.0, "no data sheet", PRACTICE),
    LedKind(
        "near-UV 375 nm, 5 mm",
        3.5,
        3.2,
        4.0,
        0.020,
        0.025,
        1,
        -3e-3,
        12.0,
        f"{_SHEETS}: 3.5 V at 20 mA; the rest typical practice",
        READ,
        stated=_POINT,
    ),
    LedKind(
        "mid-power 0.2 W, one junction",
        2.8,
        2.6,
        3.1,
        0.060,
        0.090,
        1,
        -2e-3,
        1.5,
        f"{_SHEETS}: 2.8 V at 60 mA; the rest typical practice",
        READ,
        stated=_POINT,
    ),
    LedKind(
        "mid-power 0.5 W, one junction",
        3.2,
        2.6,
        3.6,
        0.150,
        0.180,
        1,
        -2e-3,
        1.0,
        f"{_SHEETS}: 3.2 V at 150 mA, 2.6 V to 3.6 V; the rest typical practice",
        READ,
        stated=(*_POINT, *_SPREAD),
    ),
    LedKind(
        "mid-power, two junctions",
        6.0,
        5.6,
        6.8,
        0.060,
        0.090,
        2,
        -2e-3,
        3.0,
        f"{_SHEETS}: 6 V; the rest typical practice",
        READ,
        stated=("typical", "junctions"),
    ),
    LedKind(
        "mid-power, three junctions",
        9.0,
        8.4,
        10.2,
        0.060,
        0.080,
        3,
        -2e-3,
        4.5,
        f"{_SHEETS}: 9 V; the rest typical practice",
        READ,
        stated=("typical", "junctions"),
    ),
)


def led_kind(name: str) -> LedKind:
    """A kind of LED by its name in `LEDS`.

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
