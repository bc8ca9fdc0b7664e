"""Colours of IEC 60062: what each stands for as digit, multiplier, tolerance and temperature coefficient.

Letters are those of IEC 60757. What a colour looks like follows the RAL number that is given for it (open encyclopedia,
articles on IEC 60757 and on the colour code); the screen's red, green and blue for a RAL number are approximate, values
from memory. Gold and silver have no RAL number; theirs are ours.
"""

from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from .meaning import MarkError


@documented
@dataclass(frozen=True)
class Colour:
    """One colour of the code."""

    name: str
    letters: str = about("IEC 60757.")
    digit: int | None
    power: int = about("The multiplier as a power of ten.")
    tolerance: float | None = about("Per cent to either side, IEC 60062:2016.")
    coefficient: float | None = about("ppm/K to either side; value from memory.")
    paint: str = about("What is drawn for it.")
    ral: int | None
    older: float | None = about("The tolerance in older tables, where it differs.", default=None)

    @property
    def called(self) -> str:
        """As it stands in a list: "4 yellow"; without a digit its letters do: "GD gold"."""
        return f"{self.letters if self.digit is None else self.digit} {self.name}"

    def __str__(self):
        return self.name


_ALL = (
    Colour("black", "BK", 0, 0, None, 250, "#0a0a0a", 9005),
    Colour("brown", "BN", 1, 1, 1.0, 100, "#7e4b26", 8003),
    Colour("red", "RD", 2, 2, 2.0, 50, "#ab2524", 3000),
    Colour("orange", "OG", 3, 3, 0.05, 15, "#f67828", 2003),
    Colour("yellow", "YE", 4, 4, 0.02, 25, "#f0ca00", 1021),
    Colour("green", "GN", 5, 5, 0.5, 20, "#61993b", 6018),
    Colour("blue", "BU", 6, 6, 0.25, 10, "#007cb0", 5015),
    Colour("violet", "VT", 7, 7, 0.1, 5, "#83639d", 4005),
    Colour("grey", "GY", 8, 8, 0.01, 1, "#7e8b92", 7000, older=0.05),
    Colour("white", "WH", 9, 9, None, None, "#e3d9c6", 1013),
    Colour("pink", "PK", None, -3, None, None, "#d8a0a6", 3015),
    Colour("silver", "SR", None, -2, 10.0, None, "#c0c0c0", None),
    Colour("gold", "GD", None, -1, 5.0, None, "#c9a227", None),
)
COLOURS = {colour.name: colour for colour in _ALL}
DIGITS = tuple(colour.name for colour in _ALL if colour.digit is not None)
UNMARKED = 20.0  # per cent: the tolerance where there is no band for it
_OTHER = {"gray": "grey", "purple": "violet"}


def colour(text: str | Colour, place: str = "") -> Colour:
    """A colour by its name, its letters of IEC 60757, or as it stands in a list.

    Parameters
    ----------
    text
        "yellow", "YE", "ye", "4 yellow", "gray", "purple".
    place
        Which band it is; named in the error.

    Raises
    ------
    MarkError
        For a colour that the code does not have.

    Examples
    --------
    >>> colour("VT").name, colour("4 yellow").digit, colour("gray").name
    ('violet', 4, 'grey')
    """
    if isinstance(text, Colour):
        return text
    plain = text.strip().lower() if isinstance(text, str) else ""
    first, _, rest = plain.partition(" ")
    plain = rest if rest and (first.isdigit() or first in ("gd", "sr", "pk")) else plain
    plain = _OTHER.get(plain, plain)
    for each in _ALL:
        if plain in (each.name, each.letters.lower()):
            return each
    where = f"{place}: " if place else ""
    raise MarkError(f"{where}{excerpt(str(text))} is no colour of the code; choose from {', '.join(COLOURS)}")
