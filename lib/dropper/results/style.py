"""Style of the pictures: one colour and one line style for each quantity, all through the course.

A colour is written as it is on white paper; on the page it is a property of the style sheet (`on_page`), which has
another shade on a dark ground. Colours lean on Okabe and Ito's, which readers with any common colour vision can tell
apart (M. Okabe and K. Ito, Color Universal Design, 2008), darkened on white and lightened on black until they serve
as type; the dashes tell them apart without colour.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

INK = "#1a1a1a"
PAPER = "#ffffff"
GRID = "#d0d0d0"
GHOST = "#757575"
FONT = "DejaVu Sans, Verdana, sans-serif"
SUN, SKY = "#e69f00", "#56b4e9"  # tints behind curves

# Each colour's name on the page, and its shade on a dark one.
SHADES = {
    INK: ("ink", "#f2f2f2"),
    PAPER: ("paper", "#111111"),
    GRID: ("grid", "#444444"),
    GHOST: ("ghost", "#9a9a9a"),
    "#0072b2": ("blue", "#56b4e9"),
    "#c24e00": ("orange", "#ff8f40"),
    "#007a5a": ("green", "#35c796"),
    "#9a3d88": ("purple", "#d99acb"),
    "#8a5a00": ("brown", "#d9a441"),
    "#b00020": ("red", "#ff7b8a"),
    "#00695c": ("teal", "#4cc3b3"),
    "#b0305c": ("rose", "#f07ba4"),
    "#555555": ("grey", "#aaaaaa"),
}
# Where the page has a colour of its own for it, that is taken.
_OF_THE_PAGE = {"ink": "--jp-content-font-color1", "paper": "--jp-layout-color0"}
_ON_PAGE = {colour: f"var(--dropper-{name})" for colour, (name, _) in SHADES.items()}
_ON_PAPER = {name: colour for colour, (name, _) in SHADES.items()}


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
    "mains_voltage": Look("mains\nvoltage", "V", INK, "90 50", 18),
    "bus_voltage": Look("bus\nvoltage", "V", "#c24e00"),
    "dropper_voltage": Look("dropper\nvoltage", "V", "#9a3d88", "140 40"),
    "load_voltage": Look("load\nvoltage", "V", "#c24e00"),
    "line_current": Look("line\ncurrent", "A", "#0072b2"),
    "string_current": Look("string\ncurrent", "A", "#007a5a", "160 40 30 40"),
    "power": Look("power", "W", "#8a5a00"),
    "reactive": Look("reactive", "var", "#9a3d88", "140 40"),
    "distortion": Look("distortion", "var", "#0072b2", "60 40"),
    "apparent": Look("apparent", "VA", INK),
    "limit": Look("limit", "", "#b00020", "110 45", 20),
    "advice": Look("advice", "", "#00695c", "30 40", 20),
    "moment": Look("now", "", INK, "30 30", 12),
    "ideal": Look("ideal", "", "#555555", "60 50", 18),
    "warm": Look("warm", "V", "#b0305c", "70 35 20 35"),
    "other": Look("other way", "", "#0072b2", "120 50 30 50", 22),
}

# Hatching tells the parts apart where their colours would not.
HEAT_COLOUR = "#cc79a7"


def on_page(colour: str) -> str:
    """A colour as the page has it, to stand in an SVG or a style; one without a shade stays as it is.

    Examples
    --------
    >>> on_page("#0072b2"), on_page(SUN)
    ('var(--dropper-blue)', '#e69f00')
    """
    return _ON_PAGE.get(colour, colour)


def on_paper(text: str) -> str:
    """A text with the page's colours in it, with those for white paper in their places.

    Examples
    --------
    >>> on_paper('<line stroke="var(--dropper-blue)"/>')
    '<line stroke="#0072b2"/>'
    """
    return re.sub(r"var\(--dropper-(\w+)\)", lambda match: _ON_PAPER[match[1]], text)


def style_sheet() -> str:
    """CSS that gives the page each colour in the shade for its ground."""
    day = _properties({name: colour for colour, (name, _) in SHADES.items()}, _OF_THE_PAGE)
    night = _properties(dict(SHADES.values()), _OF_THE_PAGE)
    return (
        f"body {{ {day} }}\n"
        f'body[data-jp-theme-light="false"] {{ {night} }}\n'
        f"@media (forced-colors: active) and (prefers-color-scheme: dark) {{ body {{ {night} }} }}"
    )


def _properties(colours, of_the_page):
    own = {
        name: f"var({of_the_page[name]}, {colour})" if name in of_the_page else colour
        for name, colour in colours.items()
    }
    return " ".join(f"--dropper-{name}: {value};" for name, value in own.items())
