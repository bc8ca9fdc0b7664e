"""Volts and amperes of an LED from the learner's table."""

import dataclasses
from pathlib import Path

from .. import table
from .fit import fit_measured
from .points import Measured, measured
from .result import LedFit

# What a heading may say of its unit where it has none in brackets.
_WORDS = {
    "volts": "V",
    "volt": "V",
    "v": "V",
    "millivolts": "mV",
    "mv": "mV",
    "amperes": "A",
    "amps": "A",
    "amp": "A",
    "a": "A",
    "milliamperes": "mA",
    "milliamps": "mA",
    "ma": "mA",
    "microamperes": "µA",
    "microamps": "µA",
    "ua": "µA",
}
_BETWEEN = {",": "commas", ";": "semicolons", "\t": "tabs"}
_WANTED = {"V": "volts, such as 'voltage (V)'", "A": "the current, such as 'current (mA)'"}


def from_csv(path_or_text: str | Path, at_current: float | None = None, junctions: int = 1) -> LedFit:
    r"""Fit an LED to the volts and amperes in a table.

    Parameters
    ----------
    path_or_text
        A file, or the text of one: columns with headings that name their units, such as ``voltage (V)`` and
        ``current (mA)``; other columns are passed over. `dropper.bench.table` says how it may be written.
    at_current
        A, where the forward voltage is to be stated; the greatest measured current if not given.
    junctions
        In series inside the LED.

    Returns
    -------
    LedFit
        Its rows are counted as lines of the file.

    Raises
    ------
    ValueError
        Names the line, the column and the value that will not do.

    Examples
    --------
    >>> text = "voltage (V); current (mA)\n2,629; 1\n2,703; 3\n2,830; 8\n2,971; 14\n3,100; 20"
    >>> round(from_csv(text, at_current=0.010).led.forward_voltage, 2)
    2.88
    """
    return fit_measured(read_csv(path_or_text), at_current, junctions)


def read_csv(path_or_text: str | Path) -> Measured:
    """The points of a table, looked over but not fitted.

    Parameters
    ----------
    path_or_text
        As for `from_csv`.

    Raises
    ------
    ValueError
        As for `from_csv`.
    """
    read = table.read(path_or_text)
    units = {name: unit or _WORDS.get(name.strip().lower(), "") for name, unit in read.units.items()}
    read = dataclasses.replace(read, units=units)
    return measured(_column(read, "V"), _column(read, "A"), read.lines, "line")


def _column(read, unit):
    """The one column in a unit, with whatever prefix its heading has."""
    found = {}
    for name, own in read.units.items():
        try:
            found |= {name: read.si(name, unit)} if own else {}
        except table.TableError:  # it is in another unit
            continue
    if len(found) == 1:
        return next(iter(found.values()))
    if not found and not any(read.units.values()):
        _refuse_another_delimiter(read)
    headings = ", ".join(f"'{name} ({own})'" if own else repr(name) for name, own in read.units.items())
    if not found:
        raise ValueError(
            f"{read.source}: no column is in {unit}; one of them has to be {_WANTED[unit]}. The headings are {headings}"
        )
    raise ValueError(
        f"{read.source}: {' and '.join(map(repr, found))} are both in {unit}; keep one of them, or take the unit of the"
        f" other out of its heading. The headings are {headings}"
    )


def _refuse_another_delimiter(read):
    """Say so where the headings have another delimiter than the rows, so that none of them was taken."""
    for line in read.about:
        for mark, called in _BETWEEN.items():
            parts = line.split(mark)
            if len(parts) == len(read.units) > 1 and all(part.strip() for part in parts):
                rows = _BETWEEN.get(read.layout.delimiter, "spaces")
                raise ValueError(
                    f"{read.source}: the headings, {line!r}, have {called} between them, the rows have {rows}; put the"
                    " same between both"
                )
