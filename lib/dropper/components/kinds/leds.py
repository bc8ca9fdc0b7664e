"""LEDs: the kinds that are sold, each with its voltages, its current limit and where these figures come from.

Figures that were read are named in `source`, and `provenance_of` gives that of each; the rest of that line is
typical practice.
A real LED has a data sheet, and can be measured: see `bench.led_fit`.
"""

from ...circuit.excerpt import excerpt
from .led import FIGURES, LedKind
from .rating import MAKERS_SHEET, PRACTICE

__all__ = ["FIGURES", "LEDS", "LedKind", "led_kind"]

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
        MAKERS_SHEET,
        source_figures=(*_POINT, "coefficient"),
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
        MAKERS_SHEET,
        source_figures=("typical",),
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
        MAKERS_SHEET,
        source_figures=("typical", *_SPREAD),
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
        MAKERS_SHEET,
        source_figures=_POINT,
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
        MAKERS_SHEET,
        source_figures=_POINT,
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
        MAKERS_SHEET,
        source_figures=(*_POINT, *_SPREAD),
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
        MAKERS_SHEET,
        source_figures=("typical", "junctions"),
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
        MAKERS_SHEET,
        source_figures=("typical", "junctions"),
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
    for kind in LEDS:
        if kind.name == name:
            return kind
    raise ValueError(f"name: {excerpt(name)} is no LED kept here; there are {'; '.join(kind.name for kind in LEDS)}")
