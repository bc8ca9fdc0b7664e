"""Meaning of a mark: a value with its tolerance, and in words how it was read."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from ...circuit.fields import about, documented
from ...circuit.values import show, show_plain
from .preferred_series import of_tolerance, series_of

BOARD_RANGE = (0.01, 100e6)  # Ω: resistors beyond are made, but not for a board like this (common practice, no source)


def is_made(ohms: float) -> bool:
    """Whether a resistor is within what boards of this kind carry."""
    return BOARD_RANGE[0] <= ohms <= BOARD_RANGE[1]


class MarkError(ValueError):
    """A mark that cannot be read; the message says where it fails and what would do."""


@documented
@dataclass(frozen=True)
class Meaning:
    """One meaning of a mark."""

    value: float = about("Ω, F or V; see `unit`.")
    unit: str = about('"Ω", "F" or "V".')
    part: str = about('What carries it: "resistor", "film or ceramic capacitor", "chip resistor" …')
    how: str = about("The reading step by step, as a sentence.")
    minus: float | None = about("tolerance downward; None where the mark says none", "%", default=None)
    plus: float | None = about("tolerance upward; None where the mark says none", "%", default=None)
    absolute: float | None = about("tolerance to either side, as capacitors below 10 pF have it", "F", default=None)
    coefficient: float | None = about("temperature coefficient, to either side", "ppm/K", default=None)
    voltage: float | None = about("rated voltage", "V", default=None)
    supply: str = about('"dc", "ac" or "" for what the voltage is of.', default="")
    end: str = about('"left" or "right" where it matters from which end a mark is read.', default="")
    notes: tuple = about("What else is to be said, a sentence each.", default=())

    @property
    def low(self) -> float:
        """The least that the part may have, in `unit`; nan where no tolerance is marked."""
        if self.absolute is not None:
            return self.value - self.absolute
        return math.nan if self.minus is None else self.value * (1 - self.minus / 100)

    @property
    def high(self) -> float:
        """The most that the part may have, in `unit`; nan where no tolerance is marked."""
        if self.absolute is not None:
            return self.value + self.absolute
        return math.nan if self.plus is None else self.value * (1 + self.plus / 100)

    @property
    def series(self) -> int | None:
        """The coarsest E series that holds the value, or None."""
        return series_of(self.value)

    @property
    def usual(self) -> int:
        """How usual such a part is: 0 in its tolerance's series, 1 in a finer one or beyond `BOARD_RANGE`, 2 else."""
        if self.unit == "V" or self.value == 0:
            return 0
        if self.series is None:
            return 2
        widest = 5.0 if self.minus is None else max(self.minus, self.plus)
        if self.unit == "Ω" and not is_made(self.value):
            return 1
        # E24 is kept in every tolerance; the finer series belong to the finer tolerances.
        return 0 if self.series <= max(of_tolerance(widest), 24) else 1

    @property
    def tolerance(self) -> str:
        """The tolerance as people write it: "±10 %", "−20/+80 %", "±0.5 pF"; "" where none is marked."""
        if self.absolute is not None:
            return f"±{self.absolute * 1e12:g} pF"
        if self.minus is None:
            return ""
        if self.minus == self.plus:
            return f"±{self.minus:g} %"
        return f"−{self.minus:g}/+{self.plus:g} %"

    @property
    def text(self) -> str:
        """The meaning in a line: "470 nF ±10 %, 400 V dc"."""
        value = show_plain(self.value, "V", 6) if self.unit == "V" else show(self.value, self.unit)
        parts = [f"{value} {self.tolerance}".strip()]
        if self.coefficient is not None:
            parts.append(f"{self.coefficient:g} ppm/K")
        if self.voltage is not None:
            parts.append(f"{self.voltage:g} V {self.supply}".strip())
        return ", ".join(parts)

    def __repr__(self) -> str:
        return f"<{self.part}, {self.text}>"

    def with_notes(self, *sentences: str) -> Meaning:
        """The same with more notes."""
        return replace(self, notes=(*self.notes, *sentences))


def by_likelihood(meanings: Iterable[Meaning]) -> tuple[Meaning, ...]:
    """Meanings of one mark, the likeliest first; those alike stay in their order."""
    return tuple(sorted(meanings, key=lambda meaning: meaning.usual))
