"""Layout of a table of numbers: delimiter, decimal mark, header, units, first line of numbers."""

import re
from dataclasses import dataclass

from ...circuit.fields import about as note
from ...circuit.fields import documented
from ...circuit.units import MICRO, PREFIXES, UNITS
from .cells import (
    COMMENTS,
    DELIMITERS,
    GAPS,
    TableError,
    bad_number_message,
    is_blank_or_comment,
    is_number,
    no_numbers_message,
    split_cells,
    wrong_width_message,
)

HEAD_LINES = 300  # lines in which the numbers have to begin
MOST_COLUMNS = 200
_SPELLINGS = (word for unit in ("s", "V", "A", "W", "VA", "var", "Hz", "F", "Ω") for word in UNITS[unit].spelled)
_UNIT = (
    rf"[{''.join(PREFIXES)}{MICRO}]?(?:{'|'.join(_SPELLINGS)})"
    r"|min|h|°C?|deg|%|V/V|pts?|samples?"
)
_PLAIN_UNIT = re.compile(_UNIT, re.IGNORECASE)
_BRACKETS = re.compile(r"(.*?)\s*[(\[<]\s*([^()\[\]<>]*?)\s*[)\]>]\s*")
_SLASH = re.compile(rf"(.+?)\s*(?:/|\bin\b|\s-|,)\s*({_UNIT})\s*", re.IGNORECASE)


@documented
@dataclass(frozen=True)
class Layout:
    """How the columns and lines of a table are to be read."""

    delimiter: str
    decimal: str
    width: int = note("cells a line")
    head_lines: int = note("before the first line of numbers")
    names: tuple
    units: tuple
    about: dict = note("what the lines before the header say, by key")
    trailing_delimiter: bool = note("whether every line ends with a delimiter, so that the last cell is empty")


def detect_layout(lines: list[str], source: str, delimiter: str | None = None, decimal: str | None = None) -> Layout:
    """The layout of a table from its first lines.

    Parameters
    ----------
    lines
        The first lines of the file, at most `HEAD_LINES` are looked at.
    source
        What errors call the file.
    delimiter, decimal
        Where they are known.

    Raises
    ------
    TableError
        If no line of numbers is among them, or the line before the numbers has a bad cell.
    """
    lines = lines[:HEAD_LINES]
    tries = [
        (mark, point)
        for mark in ([delimiter] if delimiter else DELIMITERS)
        for point in ([decimal] if decimal else ".,")
    ]
    best = max((_score(lines, mark, point), -n) for n, (mark, point) in enumerate(tries))
    (_, good, width), place = best
    mark, point = tries[-place]
    if not good:
        raise TableError(*no_numbers_message(lines, source))
    first = next(n for n, line in enumerate(lines) if _numbers(line, mark, point) == width)
    ends = [line.rstrip(" \r\n").endswith(mark) for line in lines[first:] if not is_blank_or_comment(line)]
    trailing_delimiter = mark != " " and width > 1 and all(ends)
    width -= trailing_delimiter
    names, units, about = _header(lines[:first], mark, point, width, source)
    return Layout(mark, point, width, first, names, units, about, trailing_delimiter)


def _numbers(line, delimiter, decimal):
    """How many cells a line has, if all are numbers or gaps and one at least a number; else 0."""
    if is_blank_or_comment(line):
        return 0
    row = split_cells(line, delimiter)
    good = [is_number(cell, decimal) for cell in row]
    return len(row) if any(good) and all(g or c in GAPS for g, c in zip(good, row, strict=True)) else 0


def _score(lines, delimiter, decimal):
    widths = [width for width in (_numbers(line, delimiter, decimal) for line in lines) if width]
    if not widths:
        return (False, 0, 0)
    usual = max(widths, key=widths.count)  # the first of those that are most usual
    return (usual > 1, widths.count(usual), usual)


def _header(lines, mark, point, width, source):
    """Names, units and what is said above, from the lines before the numbers."""
    rows = [(n, split_cells(line, mark)) for n, line in enumerate(lines, 1) if not is_blank_or_comment(line)]
    commented = not rows and [
        [cell.strip(",;") for cell in split_cells(line.strip().lstrip("#%/ "), mark)]
        for line in lines
        if line.strip().startswith(COMMENTS)
    ]
    if commented and len(commented[-1]) == width > 1:
        rows = [(len(lines), commented[-1])]
    units = [""] * width
    if len(rows) > 1 and _fits(rows[-1][1], width) and all(_is_unit(cell) for cell in rows[-1][1]):
        units = [cell.strip("()[] ") for cell in _first_cells(rows.pop()[1], width)]
        named = _fits(rows[-1][1], width)
    else:
        named = bool(rows) and _fits(rows[-1][1], width) and not any(is_number(c, point) for c in rows[-1][1])
    names = _first_cells(rows.pop()[1], width) if named else [""] * width
    if width > 1 and not any(units) and all(name and _is_unit(name) for name in names):
        units = list(names)
    for number, row in rows:
        _refuse_numbers(number, row, width, mark, point, source)
    for k, name in enumerate(names):
        names[k], unit = split_unit(name)
        units[k] = units[k] or unit
    about = {row[0]: " ".join(filter(None, row[1:])) for _, row in rows if row and row[0]}
    return _distinct(names), tuple(units), about


def split_unit(name: str) -> tuple[str, ...]:
    """A column's name and unit from its heading: "I [mA]", "Voltage (V)", "U/V", "time in s".

    Examples
    --------
    >>> split_unit("I [mA]"), split_unit("U/V"), split_unit("CH1")
    (('I', 'mA'), ('U', 'V'), ('CH1', ''))
    """
    match = _BRACKETS.fullmatch(name) or _SLASH.fullmatch(name)
    return (match[1], match[2]) if match and match[1] else (name, "")


def _fits(row, width):
    return len(row) == width or (len(row) == width + 1 and not row[-1])


def _first_cells(row, width):
    return list(row[:width])


def _is_unit(cell):
    return not cell or _PLAIN_UNIT.fullmatch(cell.strip("()[] ")) is not None


def _distinct(names):
    names_so_far = []
    for k, name in enumerate(names, 1):
        wanted = once = name or f"column {k}"
        again = 1
        while wanted in names_so_far:
            again += 1
            wanted = f"{once} {again}"
        names_so_far.append(wanted)
    return tuple(names_so_far)


def _refuse_numbers(number, row, width, mark, point, source):
    """A line among the headings that begins with a number is a line of numbers with a bad cell."""
    if not row or not is_number(row[0], point) or width == 1:
        return
    bad = next((k for k, cell in enumerate(row) if not is_number(cell, point) and cell not in GAPS), None)
    if bad is not None:
        raise TableError(*bad_number_message(source, number, bad + 1, "", row[bad], point))
    raise TableError(*wrong_width_message(source, number, len(row), width, mark))
