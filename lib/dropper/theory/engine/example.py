"""Worked example: the values that a formula's docstring puts in, and where they come from.

A derivation that has a source's figures at hand names them; any other takes typical values from the glossary.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from .symbol import SymbolInfo


@dataclass(frozen=True)
class Example:
    """Values by keyword, as a person types them ("330e-9"), and the source that has them."""

    values: Mapping[str, str]
    source: str = ""

    @classmethod
    def typical(cls, inputs: Sequence[SymbolInfo]) -> Example:
        """The glossary's typical values; those that have a default are left to it."""
        return cls({line.keyword: line.example for line in inputs if line.example})

    @property
    def numbers(self) -> dict[str, float]:
        """The values as numbers."""
        return {keyword: float(text) for keyword, text in self.values.items()}

    def lines(self, name: str, result: float | np.ndarray, unit: str) -> list[str]:
        """The example as an interpreter shows it, with what the formula gives to four digits."""
        arguments = ", ".join(f"{keyword}={text}" for keyword, text in self.values.items())
        head = [f"With the figures of {self.source}:", ""] if self.source else []
        return [
            *head,
            ">>> from dropper import theory",
            f">>> value = theory.{name}({arguments})",
            f'>>> f"{{value:.4g}} {unit}"' if unit else '>>> f"{value:.4g}"',
            repr(f"{result:.4g} {unit}".rstrip()),
        ]
