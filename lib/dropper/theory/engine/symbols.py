"""Glossary of symbols, the only one: what each stands for, its keyword, unit and allowed range.

Every derivation takes its symbols from here, so a letter means the same thing on every page, and a keyword
means the same thing in every call.  SI units throughout, except for what the trade states otherwise:
life in hours, the temperature of a part in degrees Celsius, energy on a bill in kilowatt-hours, flicker in per cent.

The table is `symbols.csv`, one symbol a line, in the order in which symbols are written in a product:

subject, symbol, keyword, unit, meaning
    In words; the symbol's name is what Python code imports.
range
    `(0 .. 1000]`: above 0, up to 1000; a square bracket allows the end itself, a round one does not. `whole` before
    it: whole numbers only. Nothing: above 0. `any`: any finite number.
default, example
    What a call takes if it is not given, and a typical value for the example in a formula's docstring.
latex
    Where it is not what sympy makes of the name.
"""

from __future__ import annotations

import csv
from pathlib import Path

import sympy

from .symbol import SymbolInfo

_TABLE = Path(__file__).with_name("symbols.csv")


def _glossary() -> dict[str, SymbolInfo]:
    with _TABLE.open(encoding="utf-8", newline="") as table:
        return {row["symbol"]: SymbolInfo.from_row(row) for row in csv.DictReader(table)}


GLOSSARY = _glossary()
RANK = {name: place for place, name in enumerate(GLOSSARY)}


def info(symbol: sympy.Basic) -> SymbolInfo:
    """The glossary's line for a sympy symbol, a function or one of its applications."""
    return GLOSSARY[getattr(symbol, "name", None) or symbol.func.__name__]


def __getattr__(name: str) -> sympy.Symbol:
    """`from dropper.theory.engine.symbols import C, f`: each symbol under its own name."""
    if name in GLOSSARY:
        return GLOSSARY[name].symbol
    raise AttributeError(f"the glossary of symbols has no {name!r}")
