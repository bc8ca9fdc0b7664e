"""One colour and one line style for each quantity, all through the course.

Colours are Okabe and Ito's, which readers with any common colour vision can tell apart
(M. Okabe and K. Ito, Color Universal Design, 2008); the dashes tell them apart without colour.
"""

from dataclasses import dataclass

INK = "#1a1a1a"
PAPER = "#ffffff"
GRID = "#d0d0d0"
GHOST = "#7a7a7a"
FONT = "DejaVu Sans, Verdana, sans-serif"


@dataclass(frozen=True)
class Look:
    """How a quantity is drawn: its name, unit, colour, dashes (in units of 1/10 px) and width."""

    name: str
    unit: str
    colour: str
    dashes: str = ""
    width: int = 25


LOOKS = {
    "mains_voltage": Look("mains\nvoltage", "V", "#000000", "90 50", 18),
    "bus_voltage": Look("bus\nvoltage", "V", "#d55e00", "", 28),
    "line_current": Look("line\ncurrent", "A", "#0072b2", "", 28),
    "string_current": Look("string\ncurrent", "A", "#007a5a", "160 40 30 40", 28),
}

# Hatching tells the parts apart where their colours would not.
HEAT_COLOUR = "#cc79a7"
