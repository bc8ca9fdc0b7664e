"""Lamps of these tests, and what each fault does to the reference's dict of parts."""

import math

from dropper import Diode, Lamp, Led, LedString, Mains
from transient_reference import parts_of

LINE = 0.4  # ohms of the mains in every comparison
# One string, two bleeders, a resistor behind the smoothing capacitor.
STAIR = Lamp(
    name="stair",
    mains=Mains(230.0, 50.0),
    string=LedString(Led(3.1, 0.020, 9.0), 22),
    dropper=330e-9,
    bleeder=1e6,
    inrush_resistor=220.0,
    smoothing=10e-6,
    smoothing_bleeder=330e3,
    series_resistor=10.0,
)
# Groups of three, little smoothing, a distorted mains.
SHELF = Lamp(
    name="shelf",
    mains=Mains(120.0, 60.0, {3: (0.03, 20.0), 5: (0.04, -70.0)}),
    string=LedString(Led(2.9, 0.020, 12.0, 2.1), 24, 3),
    dropper=1e-6,
    bleeder=470e3,
    inrush_resistor=47.0,
    smoothing=2.2e-6,
    smoothing_bleeder=150e3,
    diode=Diode(0.75, 0.010, 0.08, 1.7),
)
# No resistor, no smoothing; the load across the bus says what its voltage is while the bridge blocks.
BARE = Lamp(
    mains=Mains(230.0, 50.0),
    string=LedString(Led(3.0, 0.020, 12.0), 30),
    dropper=470e-9,
    smoothing=0.0,
    smoothing_bleeder=220e3,
    name="bare",
)


def broken(lamp, fault):
    """The reference's parts of a lamp with a fault, as the fault's meaning is written in its words."""
    parts = parts_of(lamp)
    groups, wide = parts["string"][0]
    kind, part = fault.kind, fault.part
    if part == "dropper":
        parts["dropper"] = {"open": 0, "short": None, "lost": 0.5 * lamp.dropper}[kind]
    elif part == "bleeder" and kind == "short":  # a short across the dropper
        parts["dropper"] = None
    elif part == "bleeder":
        parts["bleeder"] = None
    elif part == "smoothing_bleeder":
        parts["bus_load"] = []
    elif part == "inrush_resistor":
        parts["resistance"] = {"open": None, "short": 0.0, "drifted": 10 * lamp.inrush_resistor}[kind]
    elif part.startswith("D"):
        for name in part.split(" and "):
            parts["bridge"][int(name[1]) - 1] = kind
    elif part == "smoothing" and kind == "open":
        parts["smoothing"] = 0
    elif part == "smoothing" and kind == "dried out":
        # a tenth left unless told, and so lossy that it resists as much as it reacts at 100 Hz
        parts["smoothing"] = (1 - (fault.amount or 0.9)) * lamp.smoothing
        parts["esr"] = 1 / (2 * math.pi * 100 * parts["smoothing"])
    elif part == "smoothing" and kind == "leaky":
        # twice as many ohms as the string at its stated current
        parts["bus_load"].append(
            fault.amount or 2 * groups * lamp.string.led.forward_voltage / (wide * lamp.string.led.at_current)
        )
    elif part == "smoothing":
        parts["smoothing"], parts["bus_load"] = 0, [0.01]
    elif part == "string":
        parts["string"] = None
    elif (kind, part) == ("open", "LED"):
        parts["string"] = [(groups - 1, wide), (1, wide - 1)]
    elif part in ("group", "LED"):
        parts["string"] = [(groups - 1, wide)]
    elif part == "groups":
        parts["string"] = [(groups - groups // 2, wide)]
    return parts
