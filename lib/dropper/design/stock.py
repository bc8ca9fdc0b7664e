"""Stock: the values of a part that can be had, of its E series or of what is in the drawer."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

import tomli_w

from ..circuit import lampfile
from ..circuit.excerpt import excerpt
from ..circuit.series import preferred
from ..circuit.values import show
from . import constraints
from .infeasible import Infeasible

if TYPE_CHECKING:
    from .brief import Brief

_CLOSE = 1e-9


def values(brief: Brief, part: str, low: float, high: float) -> list[float]:
    """Values of a part that can be had between two bounds, SI units, the least first.

    Parameters
    ----------
    low, high
        Both included.

    Raises
    ------
    Infeasible
        If the drawer has none between them: the part is left to its series then.
    """
    if part not in brief.stock:
        return preferred(series_of(brief, part), low, high)
    kept = brief.stock[part]
    among = [value for value in kept if low * (1 - _CLOSE) <= value <= high * (1 + _CLOSE)]
    if not among:
        unit = constraints.UNITS.get(part, "Ω")
        there = ", ".join(show(value, unit) for value in kept[:8]) + (" …" if len(kept) > 8 else "")
        raise Infeasible(
            "stock",
            f"The {part.replace('_', ' ')} is to be {show(low, unit)} to {show(high, unit)}; in the drawer are {there}."
            f" The nearest takes it from series E{series_of(brief, part)}.",
            brief.but(stock={name: values for name, values in brief.stock.items() if name != part}),
        )
    return among


def series_of(brief: Brief, part: str) -> int:
    """The E series that a part is taken from where the drawer has none of it."""
    return {"dropper": brief.dropper_series, "smoothing": brief.smoothing_series}.get(part, brief.resistor_series)


def words(brief: Brief, part: str) -> str:
    """Where a part's value is taken from: "the drawer" or "E6"."""
    return "the drawer" if part in brief.stock else f"E{series_of(brief, part)}"


def next_below(brief: Brief, part: str, value: float) -> float | None:
    """The next smaller value of a part that can be had; None where the drawer has none."""
    among = brief.stock.get(part) or preferred(series_of(brief, part), value / 11, value)
    return next((number for number in reversed(among) if number < value * (1 - _CLOSE)), None)


def next_above(brief: Brief, part: str, value: float) -> float | None:
    """The next larger value of a part that can be had; None where the drawer has none."""
    among = brief.stock.get(part) or preferred(series_of(brief, part), value, 11 * value)
    return next((number for number in among if number > value * (1 + _CLOSE)), None)


def read_drawer(text: str, source: str = "drawer") -> dict[str, tuple[float, ...]]:
    """A drawer from the text of its file: TOML, a list of values for each part.

    Raises
    ------
    ValueError
        If it is no such file; the error names what is wrong.

    Examples
    --------
    >>> read_drawer('dropper = ["330 nF", "220 nF"]')
    {'dropper': (2.2e-07, 3.3e-07)}
    """
    if len(text) > lampfile.LARGEST:
        raise ValueError(f"{excerpt(source)}: longer than {lampfile.LARGEST:,} characters; this is no drawer")
    try:
        return constraints.read_stock(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise ValueError(f'{excerpt(source)}: write a line like dropper = ["220 nF", "330 nF"] ({error})') from None
    except ValueError as error:
        raise ValueError(f"{excerpt(source)}: {str(error).replace('Brief.stock', 'drawer')}") from None


def drawer_text(stock: dict[str, tuple[float, ...]]) -> str:
    """A drawer as the text of its file; reading it gives the same.

    Parameters
    ----------
    stock
        Values in SI units by part.
    """
    return tomli_w.dumps({part: [constraints.text_of(part, value) for value in kept] for part, kept in stock.items()})


def open_drawer(path: Path | str) -> dict[str, tuple[float, ...]]:
    """A drawer from its file; an empty one where there is no such file."""
    file = Path(path)
    return read_drawer(lampfile.read_text(file), file.name) if file.exists() else {}
