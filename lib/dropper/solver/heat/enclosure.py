"""Enclosure: what stands between the air inside a lamp and the air outside: a word, K/W, or size and material."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ... import theory
from ...circuit.excerpt import excerpt
from ...circuit.fields import Spec, about, check, check_value, documented, quantity
from ...circuit.values import show
from .surroundings import ENCLOSURES, PRACTICE, Surroundings

# K/W of one square metre: through the wall, and from it to still air by convection and radiation. A bare metal radiates
# little. Each PRACTICE.
MATERIALS = {
    "plastic": (0.01, 0.1),
    "wood": (0.035, 0.1),
    "glass": (0.003, 0.1),
    "painted metal": (0.0, 0.1),
    "bare metal": (0.0, 0.2),
}
_INSIDE = 0.125  # K/W from the air inside to one square metre of wall; PRACTICE
_LEAST, _MOST = 1e-2, 3.0  # m, of an edge
_RESISTANCE = Spec("K/W", 0, 1000)
_NUMBER = r"(\d+(?:[.,]\d+)?)"
_SIZE = re.compile(rf"^\s*{_NUMBER}\s*[×x*]\s*{_NUMBER}\s*[×x*]\s*{_NUMBER}\s*mm\s*(.*?)\s*$")


@documented
@dataclass(frozen=True)
class Enclosure:
    """What is around the parts of a lamp.

    Raises
    ------
    ValueError
        For a value out of range.
    """

    words: str
    resistance: float = quantity("K/W", 0, 1e3, meaning="from the air inside to the air outside")
    size: tuple[float, float, float] | None = about("length, width and height inside, the longest first", "m")

    def __post_init__(self):
        check(self)

    def around(self, room: float) -> Surroundings:
        """The `Surroundings` of the parts.

        Parameters
        ----------
        room
            °C of the air outside.
        """
        return Surroundings.typical("open", room_temperature=room, enclosure_resistance=self.resistance)

    @classmethod
    def of(cls, given: str) -> Enclosure:
        """Read from text: "enclosed", "12 K/W" or "120 × 60 × 40 mm plastic".

        Raises
        ------
        ValueError
            For any other text.

        Examples
        --------
        >>> Enclosure.of("12 K/W").resistance
        12.0
        >>> round(Enclosure.of("120 x 60 x 40 mm plastic").resistance, 1)
        8.2
        """
        if not isinstance(given, str):
            raise ValueError(f"Enclosure.words: {excerpt(given)} will not do; {_allowed()}")
        text = given.strip()
        if text in ENCLOSURES:
            return cls(f"{text}, {PRACTICE}", ENCLOSURES[text], None)
        size = _SIZE.match(text)
        if size:
            return cls._of_size(size)
        try:
            return cls(text, check_value("Enclosure.resistance", text, _RESISTANCE), None)
        except ValueError:
            raise ValueError(f"Enclosure.words: {excerpt(given)} will not do; {_allowed()}") from None

    @classmethod
    def _of_size(cls, match):
        edges = sorted((float(edge.replace(",", ".")) / 1e3 for edge in match.groups()[:3]), reverse=True)
        if not all(_LEAST <= edge <= _MOST for edge in edges):
            raise ValueError(f"Enclosure.size: each edge is {show(_LEAST, 'm')} to {show(_MOST, 'm')}")
        material = match[4] or "plastic"
        if material not in MATERIALS:
            raise ValueError(
                f"Enclosure.size: {excerpt(material)} is not kept here; choose from {', '.join(MATERIALS)}"
            )
        length, width, height = edges
        wall, outside = MATERIALS[material]
        ohms = theory.enclosure_resistance(
            square_metres=2 * (length * width + length * height + width * height),
            inner_film=_INSIDE,
            wall_film=wall,
            outer_film=outside,
        )
        return cls(f"{match[0].strip()}, all six sides in free air; {PRACTICE}", float(ohms), tuple(edges))


def _allowed():
    return f'allowed is {", ".join(ENCLOSURES)}, K/W like "12 K/W", or a size like "120 × 60 × 40 mm plastic"'
