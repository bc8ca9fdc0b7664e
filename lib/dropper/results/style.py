"""Style of the pictures: one colour and one line style for each quantity, all through the course.

Colours lean on Okabe and Ito's, which readers with any common colour vision can tell apart
(M. Okabe and K. Ito, Color Universal Design, 2008), darkened where they serve as type on
white; the dashes tell them apart without colour.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

INK = "#1a1a1a"
PAPER = "#ffffff"
GRID = "#d0d0d0"
GHOST = "#7a7a7a"
FONT = "DejaVu Sans, Verdana, sans-serif"
SUN, SKY = "#e69f00", "#56b4e9"  # tints behind curves


@dataclass(frozen=True)
class Look:
    """How a quantity is drawn: its name, unit, colour, dashes (in units of 1/10 px) and width."""

    name: str
    unit: str
    colour: str
    dashes: str = ""
    width: int = 28

    def like(self, other: str) -> Look:
        """These dashes and this width in another quantity's colour."""
        return replace(self, colour=LOOKS[other].colour)

    def called(self, name: str) -> Look:
        """The same under another name."""
        return replace(self, name=name)

    def solid(self, width: int | None = None) -> Look:
        """The same without dashes, and in another width if one is given."""
        return replace(self, dashes="", width=width or self.width)


LOOKS = {
    "mains_voltage": Look("mains\nvoltage", "V", "#000000", "90 50", 18),
    "bus_voltage": Look("bus\nvoltage", "V", "#d55e00"),
    "dropper_voltage": Look("dropper\nvoltage", "V", "#9a3d88", "140 40"),
    "load_voltage": Look("load\nvoltage", "V", "#d55e00"),
    "line_current": Look("line\ncurrent", "A", "#0072b2"),
    "string_current": Look("string\ncurrent", "A", "#007a5a", "160 40 30 40"),
    "power": Look("power", "W", "#8a5a00"),
    "reactive": Look("reactive", "var", "#9a3d88", "140 40"),
    "distortion": Look("distortion", "var", "#0072b2", "60 40"),
    "apparent": Look("apparent", "VA", "#000000"),
    "limit": Look("limit", "", "#b00020", "110 45", 20),
    "advice": Look("advice", "", "#00695c", "30 40", 20),
    "moment": Look("now", "", "#1a1a1a", "30 30", 12),
    "ideal": Look("ideal", "", "#555555", "60 50", 18),
    "warm": Look("warm", "V", "#b0305c", "70 35 20 35"),
    "other": Look("other way", "", "#0072b2", "120 50 30 50", 22),
}

# Hatching tells the parts apart where their colours would not.
HEAT_COLOUR = "#cc79a7"
