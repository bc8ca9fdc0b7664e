"""Symbol: one line of the glossary, what it says, and what follows from it."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import sympy

from ...circuit.units import UNITS
from .quantities import quantity_text

if TYPE_CHECKING:
    from sympy.physics.units import Dimension


# e.g. "whole [1 .. 1000]"; a square bracket allows the end itself
_RANGE = re.compile(r"(?P<whole>whole )?(?P<open>[\[(])(?P<low>\S+) \.\. (?P<high>\S+)(?P<close>[\])])")
_SHORT_RANGES = {"": "(0 .. inf)", "any": "(-inf .. inf)"}
_ANGLES = {"pi": math.pi, "pi/2": math.pi / 2, "-pi/2": -math.pi / 2}


@dataclass(frozen=True)
class SymbolInfo:
    """One line of the glossary."""

    name: str
    keyword: str
    unit: str
    meaning: str
    low: float = 0.0
    high: float = math.inf
    low_allowed: bool = False
    high_allowed: bool = True
    whole: bool = False
    default: float | None = None
    example: str = ""
    latex: str = ""

    @classmethod
    def from_row(cls, row: Mapping[str, str]) -> SymbolInfo:
        """A line from the texts of its columns; see `symbols` for their form."""
        limits = _RANGE.fullmatch(_SHORT_RANGES.get(row["range"], row["range"]))
        if limits is None:
            raise ValueError(f"{row['symbol']}: the range {row['range']!r} is not of the form '(0 .. 1000]'")
        low, high = (_ANGLES.get(limits[end]) or float(limits[end]) for end in ("low", "high"))
        return cls(
            name=row["symbol"],
            keyword=row["keyword"],
            unit=row["unit"],
            meaning=row["meaning"],
            low=low,
            high=high,
            low_allowed=limits["open"] == "[",
            high_allowed=limits["close"] == "]",
            whole=limits["whole"] is not None,
            default=float(row["default"]) if row["default"] else None,
            example=row["example"],
            latex=row["latex"],
        )

    @cached_property
    def symbol(self) -> sympy.Symbol:
        """The sympy symbol: positive where the range says so, real otherwise."""
        return sympy.Symbol(self.name, positive=True) if self.low >= 0 else sympy.Symbol(self.name, real=True)

    def of(self, argument: sympy.Expr) -> sympy.Expr:
        """The same quantity as a function, e.g. the mains voltage v(t)."""
        return sympy.Function(self.name, real=True)(argument)

    @property
    def dimension(self) -> Dimension:
        """The dimension, as sympy.physics.units has it."""
        from sympy.physics import units  # slow to import, and wanted by dimension checks only

        names = UNITS[self.unit].dimension.split("/")
        parts = [getattr(units, name) if name else units.Dimension(1) for name in names]
        return parts[0] if len(parts) == 1 else parts[0] / parts[1]

    @property
    def allowed(self) -> str:
        """The allowed range in words, e.g. 'above 0 V, up to 1 kV'."""
        parts = ["a whole number"] if self.whole else []
        if math.isfinite(self.low):
            parts.append(f"{'from' if self.low_allowed else 'above'} {quantity_text(self.low, self.unit)}")
        if math.isfinite(self.high):
            parts.append(f"{'up to' if self.high_allowed else 'below'} {quantity_text(self.high, self.unit)}")
        return ", ".join(parts) or "any finite number"
