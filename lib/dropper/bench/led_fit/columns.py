"""Columns: volts and amperes of an LED from the learner's table."""

import dataclasses
from pathlib import Path

from ...circuit.excerpt import excerpt, label
from .. import table
from .fit import fit_points
from .points import MeasuredPoints, check_points
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
_MOST = 72  # characters of the headings that a message repeats
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
    return fit_points(read_csv(path_or_text), at_current, junctions)


def read_csv(path_or_text: str | Path) -> MeasuredPoints:
    r"""The points of a table, checked but not fitted.

    Parameters
    ----------
    path_or_text
        As for `from_csv`.

    Raises
    ------
    ValueError
        As for `from_csv`.

    Examples
    --------
    >>> read_csv("V (V), I (mA)\n2.6, 1\n2.7, 3\n2.8, 8\n3.0, 14").amps
    (0.001, 0.003, 0.008, 0.014)
    """
    data = table.read(path_or_text)
    units = {name: unit or _WORDS.get(name.strip().lower(), "") for name, unit in data.units.items()}
    data = dataclasses.replace(data, units=units)
    return check_points(_column(data, "V"), _column(data, "A"), data.lines, "line")


def _column(data, unit):
    """The one column in a unit, with whatever prefix its heading has."""
    columns = {}
    for name, written in data.units.items():
        try:
            columns |= {name: data.si(name, unit)} if written else {}
        except table.TableError:  # it is in another unit
            continue
    if len(columns) == 1:
        return next(iter(columns.values()))
    if not columns and not any(data.units.values()):
        _refuse_another_delimiter(data)
    headings = ", ".join(f"'{name} ({written})'" if written else repr(name) for name, written in data.units.items())
    headings = label(headings, _MOST)
    if not columns:
        raise ValueError(
            f"{data.source}: no column is in {unit}; one of them has to be {_WANTED[unit]}. The headings are {headings}"
        )
    raise ValueError(
        f"{data.source}: {' and '.join(map(excerpt, columns))} are both in {unit}; keep one of them, or take the unit"
        " of the other out of its heading"
    )


def _refuse_another_delimiter(data):
    """Say so where the headings have another delimiter than the rows, so that none of them was taken."""
    for line in data.about:
        for mark, called in _BETWEEN.items():
            parts = line.split(mark)
            if len(parts) == len(data.units) > 1 and all(part.strip() for part in parts):
                rows = _BETWEEN.get(data.layout.delimiter, "spaces")
                raise ValueError(
                    f"{data.source}: the headings, {excerpt(line)}, have {called} between them, the rows have {rows};"
                    " put the same between both"
                )
