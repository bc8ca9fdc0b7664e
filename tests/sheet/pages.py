"""Lamps whose sheets are printed: those of the course, one with everything wrong and long, one with odd names."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from dropper import Lamp, Mains, sheet
from dropper.design import Brief, design

LAMPS = {path.stem: path for path in sorted((Path(__file__).parents[2] / "notebooks" / "lamps").glob("*.toml"))}
BRIEFS = Path(__file__).parents[2] / "notebooks" / "lamps" / "briefs"
DESIGNS = ("reading_nook", "model_case")  # the second with a clamp
NASTY = "</script><img src=x onerror=\"document.title='got in'\">&amp;'\"--><b>"
LONG = "The second lamp on the landing, rebuilt after its dropper had faded to half of it"[:80]
NOTES = ("The dropper was measured with one lead lifted, the string tried on a current-limited supply first. " * 6)[
    :500
]
POOR = {
    "inrush_resistor": "film 1/4 W, small body",
    "dropper": "X2 film, 275 V ac",
    "bleeder": "carbon film 1/4 W, small body",
    "diodes": "1N4001",
    "smoothing": "electrolytic, 16 V",
    "smoothing_bleeder": "2 × carbon film 1/4 W, small body",
    "series_resistor": "film 1/4 W, small body",
    "leds": "warm white, 5 mm",
}


@cache
def lamp(name):
    """A lamp of the course."""
    return Lamp.from_toml(LAMPS[name])


def poor_lamp():
    """Every part fitted, most of them too weak, with a long name."""
    strip = lamp("shelf_strip")
    return replace(strip, name=LONG, mains=Mains(230, 50), string=replace(strip.string, in_series=40, in_parallel=12))


@cache
def designed(name):
    """A design of the course."""
    return design(Brief.from_toml(BRIEFS / f"{name}.toml"))


@cache
def made(name, paper="A4"):
    """A sheet by its name in `CASES`."""
    if name == "poor":
        builder = "Wilhelmina Oberkirchner-Montgomery of the evening class, 2b"
        return sheet.lamp_sheet(poor_lamp(), fitted=POOR, builder=builder, notes=NOTES, paper=paper)
    if name in DESIGNS:
        own = designed(name)
        return sheet.lamp_sheet(own.lamp, design=own, notes=NOTES, builder="A. Learner", paper=paper)
    if name == "nasty":
        odd = replace(lamp("stair_marker"), name=NASTY)
        return sheet.lamp_sheet(odd, notes=f"{NASTY}\n{NASTY}", builder=NASTY[:60], paper=paper)
    return sheet.lamp_sheet(lamp(name), notes=NOTES, builder="A. Learner", paper=paper)


CASES = [(name, paper) for name in (*LAMPS, *DESIGNS, "poor") for paper in ("A4", "Letter")] + [("nasty", "A4")]
LOOKED_OVER = [("stair_marker", "A4"), ("poor", "A4"), ("nasty", "A4")]
