"""Kinds of parts and what each withstands by itself: resistors, diodes, capacitors, LEDs.

    from dropper.components import kinds

    kinds.next_up("rectifier diode", kinds.Stress(voltage=325))           # 1N4004, 400 V
    kinds.next_up("carbon film resistor", kinds.Stress(voltage=240, power=0.06)).name
    kinds.chain(kinds.part("carbon film 1/4 W"), 1e6, kinds.Stress(voltage=325, power=0.053))   # two of 470 kΩ

Each figure has its source and its provenance: read in makers' data sheets, restated by others, from memory,
or typical practice without a source; or on the learner's own data sheet or bench. A real part stands what its own data
sheet says and nothing else. Parts that meet the mains are chosen as local codes and licensed practice ask.
"""

from .capacitors import (
    DC_FILM,
    ELECTROLYTICS,
    LIVES,
    RIPPLES,
    X1,
    X2,
    AcrossTheMains,
    DcFilm,
    Electrolytic,
    Life,
    Ripple,
)
from .diodes import CAPACITIVE_LOAD, RECTIFIERS, RectifierDiode
from .leds import LEDS, LedKind, led_kind
from .mixing import mixed
from .rating import AS_RATED, COMMON_USE, PROVENANCES, Kind, Stress, Use
from .resistors import CARBON_FILM, CHIP, FILM, FUSIBLE, Resistor
from .selection import FAMILIES, Chain, chain, next_up, part

__all__ = [
    "AS_RATED",
    "CAPACITIVE_LOAD",
    "CARBON_FILM",
    "CHIP",
    "COMMON_USE",
    "DC_FILM",
    "ELECTROLYTICS",
    "FAMILIES",
    "FILM",
    "FUSIBLE",
    "LEDS",
    "LIVES",
    "PROVENANCES",
    "RECTIFIERS",
    "RIPPLES",
    "X1",
    "X2",
    "AcrossTheMains",
    "Chain",
    "DcFilm",
    "Electrolytic",
    "Kind",
    "LedKind",
    "Life",
    "RectifierDiode",
    "Resistor",
    "Ripple",
    "Stress",
    "Use",
    "chain",
    "led_kind",
    "mixed",
    "next_up",
    "part",
]
