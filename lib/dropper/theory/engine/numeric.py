"""Numeric form of a result: checked keyword arguments in, floats or arrays out."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import sympy

from .plain_text import plain_text
from .quantities import quantity_text
from .signature import check_names
from .symbols import SymbolInfo, info


@dataclass(frozen=True)
class Inequality:
    """A relation that the values must keep: left < right (or at most right), in a unit, and why."""

    left: sympy.Expr
    right: sympy.Expr
    unit: str
    reason: str
    or_equal: bool = False

    @property
    def verb(self) -> str:
        """'below' or 'at most'."""
        return "at most" if self.or_equal else "below"

    def words(self) -> str:
        """The relation in keywords, e.g. 'clamped_voltage is below peak_voltage'."""
        left, right = (self._keywords(side) for side in (self.left, self.right))
        return f"{left} is {self.verb} {right}"

    def holds(self, left: np.ndarray, right: np.ndarray) -> np.ndarray:
        """Where the relation is kept."""
        return left <= right if self.or_equal else left < right

    def _keywords(self, side: sympy.Expr) -> str:
        return plain_text(side, {symbol: info(symbol).keyword for symbol in side.free_symbols})


@dataclass(frozen=True)
class Numeric:
    """Evaluates one expression.  The function is made by sympy on first use and kept."""

    name: str
    expression: sympy.Expr
    inputs: tuple[SymbolInfo, ...]
    conditions: tuple[Inequality, ...]

    @cached_property
    def _function(self):
        return sympy.lambdify([line.symbol for line in self.inputs], self.expression, modules="numpy", cse=True)

    @cached_property
    def _relations(self):
        symbols = [line.symbol for line in self.inputs]
        return [
            (relation, sympy.lambdify(symbols, [relation.left, relation.right], modules="numpy"))
            for relation in self.conditions
        ]

    def __call__(self, values: Mapping[str, object], positional: Collection[object] = ()) -> float | np.ndarray:
        """Check every value, evaluate, and keep the shape of the arrays."""
        checked = list(self.check(values, positional).values())
        shape = self._shape(checked)
        try:
            with np.errstate(divide="raise", over="raise", invalid="raise"):
                result = np.asarray(self._function(*checked), dtype=float)
        except FloatingPointError as error:
            raise ValueError(f"{self.name}: {self._in_words(checked)} cannot be computed with ({error})") from None
        return np.array(np.broadcast_to(result, shape)) if shape else float(result)

    def check(self, values: Mapping[str, object], positional: Collection[object] = ()) -> dict[str, np.ndarray]:
        """The values in order, as arrays, with defaults filled in; or an error that says what is wrong."""
        check_names(self.name, self.inputs, positional, values)
        checked = {line.keyword: _check_value(line, values.get(line.keyword, line.default)) for line in self.inputs}
        for relation, sides in self._relations:
            left, right = sides(*checked.values())
            if isinstance(left, float) and isinstance(right, float) and relation.holds(left, right):
                continue
            left, right = np.broadcast_arrays(left, right)
            wrong = np.flatnonzero(~relation.holds(left, right))
            if wrong.size:
                at = wrong[0]
                raise ValueError(
                    f"{self.name} needs that {relation.words()}, but "
                    f"{quantity_text(left.flat[at], relation.unit)} is not {relation.verb} "
                    f"{quantity_text(right.flat[at], relation.unit)}: {relation.reason}"
                )
        return checked

    def _shape(self, checked: list[np.ndarray]) -> tuple[int, ...]:
        if not any(array.ndim for array in checked):
            return ()
        try:
            return np.broadcast_shapes(*(array.shape for array in checked))
        except ValueError:
            pairs = zip(self.inputs, checked, strict=True)
            shapes = ", ".join(f"{line.keyword} {array.shape}" for line, array in pairs)
            raise ValueError(f"{self.name}: these shapes do not go together: {shapes}") from None

    def _in_words(self, checked: list[np.ndarray]) -> str:
        return ", ".join(
            f"{line.keyword} = {quantity_text(array, line.unit)}" if array.ndim == 0 else f"{line.keyword} (an array)"
            for line, array in zip(self.inputs, checked, strict=True)
        )


def _is_allowed(line: SymbolInfo, number: float) -> bool:
    """Whether one number is within a symbol's range."""
    above = number >= line.low if line.low_allowed else number > line.low
    below = number <= line.high if line.high_allowed else number < line.high
    return above and below and math.isfinite(number) and not (line.whole and number != round(number))


def _check_value(line: SymbolInfo, value: object) -> np.ndarray | np.float64:
    if (isinstance(value, float) or type(value) is int) and _is_allowed(line, value):
        return np.float64(value)  # a slider's path: one number at a time
    array = np.asarray(value)
    if array.dtype.kind not in "iuf":
        unit = f" in {line.unit}" if line.unit else ""
        raise TypeError(f"{line.keyword} must be a number or an array of numbers{unit}, not {value!r}")
    array = array.astype(float)
    above = array >= line.low if line.low_allowed else array > line.low
    below = array <= line.high if line.high_allowed else array < line.high
    good = above & below & np.isfinite(array)
    if line.whole:
        good &= array == np.round(array)
    wrong = np.flatnonzero(~good)
    if wrong.size:
        bad = quantity_text(array.flat[wrong[0]], line.unit)
        raise ValueError(f"{line.keyword} = {bad} is not allowed: {line.meaning}, {line.allowed}")
    return array
