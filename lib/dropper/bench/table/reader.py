"""Reader: a table block by block: quick where a block is plain, line by line where it is not."""

import io
import warnings
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from ...circuit.excerpt import excerpt, label
from ...circuit.fields import about as note
from ...circuit.fields import documented
from ...circuit.numerals import grouped
from ...circuit.units import factor
from . import cells
from .cells import TableError
from .layout import HEAD_LINES, Layout, detect_layout
from .source import detect_encoding, open_source

BLOCK = 1 << 24  # characters read at once
MOST_NUMBERS = 120_000_000  # a gigabyte of memory: four channels for five minutes at 100 000 samples a second
LARGEST = 2_000_000_000  # bytes of a file
_LONGEST_LINE = 100_000
MOST_COLUMNS = 256
BEYOND = 9e37  # SCPI writes 9.9E37 for infinite and 9.91E37 for no number


@documented
@dataclass(frozen=True, eq=False)
class Table:
    """Columns of numbers. A gap is nan."""

    columns: dict = note("an array of numbers by name")
    units: dict = note('by name, as it was written, "" where none was')
    lines: np.ndarray = note("line of the file that each row stands on, from 1")
    about: dict = note("what the lines above the header say, as text by key")
    source: str = note("what errors call it")
    layout: Layout

    def __repr__(self) -> str:
        columns = ", ".join(f"{name} ({unit})" if unit else name for name, unit in self.units.items())
        return f"<Table {self.source!r}: {len(self)} rows of {columns}>"

    def __len__(self) -> int:
        return len(self.lines)

    def si(self, name: str, unit: str) -> np.ndarray | None:
        """A column in an SI unit, whatever prefix its heading has.

        Parameters
        ----------
        name
            Of the column.
        unit
            "s", "V", "A", "W", "Hz", "Ω" or "F". A column without a unit is taken to be in it.

        Raises
        ------
        TableError
            If there is no such column, or its unit is another one.
        """
        if name not in self.columns:
            there = label(", ".join(self.columns), 300)
            raise TableError(f"{self.source}: there is no column {excerpt(name)}; there are {there}")
        times = _factor(self.units[name], unit)
        if times is None:
            place = list(self.columns).index(name) + 1
            raise TableError(
                f"{self.source}: column {place} ({label(name)}) is in {excerpt(self.units[name])}; wanted is {unit},"
                f" or it with a prefix, like m{unit}",
                None,
                place,
            )
        return self.columns[name] if times == 1 else self.columns[name] * times


def read(
    source: Path | str | bytes,
    *,
    delimiter: str | None = None,
    decimal: str | None = None,
    encoding: str | None = None,
    name: str | None = None,
) -> Table:
    r"""Read a table of numbers.

    Parameters
    ----------
    source
        A file; or the text itself, which has a line end in it; or the bytes of a file.
    delimiter
        "," ";" tab or space; found from the text where it is not said.
    decimal
        "." or ","; found likewise.
    encoding
        Found likewise among UTF-8, UTF-16 and Latin-1.
    name
        What errors call the source; its file name, or "table".

    Raises
    ------
    TableError
        Naming line and column, what was found and what is allowed.

    Examples
    --------
    >>> table = read("time (s); CH1 (V)\n0; 1,5\n1; 2,5")
    >>> table, table.columns["CH1"].tolist()
    (<Table 'table': 2 rows of time (s), CH1 (V)>, [1.5, 2.5])
    """
    if decimal not in (None, ".", ","):
        raise TableError(f"decimal: {excerpt(decimal)} is no decimal mark; allowed are '.' and ','")
    if delimiter is not None and delimiter not in cells.DELIMITERS:
        raise TableError(f"delimiter: {excerpt(delimiter)} is none; allowed are comma, semicolon, tab and space")
    if isinstance(source, str) and ("\n" in source or "\r" in source):
        text = source.removeprefix("\ufeff")
        return _read(io.StringIO(text, newline=None), label(name or "table"), delimiter, decimal)
    if isinstance(source, bytes | bytearray | memoryview):
        raw, called = io.BytesIO(source), label(name or "table")
    else:
        raw, called = open_source(source, name)
    with raw:
        try:
            if raw.seek(0, io.SEEK_END) > LARGEST:
                raise TableError(f"{called}: longer than {LARGEST // 10**6} MB; cut it shorter, or sample more slowly")
            raw.seek(0)
            encoding = encoding or detect_encoding(raw.read(1 << 16), called)
            raw.seek(0)
            text = io.TextIOWrapper(raw, encoding, errors="replace", newline=None)
            return _read(text, called, delimiter, decimal)
        except TableError as error:
            raise (error.unquoted() if isinstance(source, str | Path) else error) from None
        except OSError as error:
            raise TableError(f"{called}: cannot be read ({error.strerror})") from None
        except (LookupError, UnicodeError):
            raise TableError(
                f"encoding: {excerpt(encoding)} does not read {called}; leave it out, and it is found"
            ) from None


def _read(text, source, delimiter, decimal):
    head = []
    while line := text.readline(_LONGEST_LINE + 1):
        head.append(line)
        if len(line) > _LONGEST_LINE:
            raise TableError(
                f"{source}: line {len(head)}, column 1: longer than {_LONGEST_LINE:,} characters;"
                " allowed is a table with one row a line",
                len(head),
                1,
            )
        if max(*map(line.count, ",;\t"), len(line.split())) > MOST_COLUMNS and not cells.is_blank_or_comment(line):
            raise TableError(
                f"{source}: line {len(head)}, column {MOST_COLUMNS + 1}: too wide; allowed are {MOST_COLUMNS} columns,"
                " a row to a line",
                len(head),
                MOST_COLUMNS + 1,
            )
        if len(head) == HEAD_LINES:
            break
    if not any(line.strip() for line in head):
        raise TableError(f"{source}: line 1, column 1: it is empty; allowed is a table of numbers", 1, 1)
    layout = detect_layout(head, source, delimiter, decimal)
    parts, lines, at = [], [], layout.head_lines + 1
    block = "".join(head[layout.head_lines :])
    while block:
        rows, numbers, passed = _block(block, layout, at, source)
        beyond = ~(np.abs(rows) < BEYOND)
        if beyond.any():
            rows = np.where(beyond, np.nan, rows)
        parts.append([row.copy() for row in rows])
        lines.append(numbers)
        at += passed
        if at * layout.width > MOST_NUMBERS:
            most = grouped(MOST_NUMBERS / layout.width)
            why = f"more than {most} lines of {layout.width} numbers; cut it shorter, or sample more slowly"
            raise TableError(f"{source}: {why}", at, 1)
        block = text.read(BLOCK)
        if block and not block.endswith("\n"):
            block += text.readline(_LONGEST_LINE)
    columns = {}
    for k, name in enumerate(layout.names):
        columns[name] = np.concatenate([rows[k] for rows in parts])
        for rows in parts:
            rows[k] = None  # a long record is not kept twice
    units = dict(zip(layout.names, layout.units, strict=True))
    return Table(columns, units, np.concatenate(lines), layout.about, source, layout)


def _block(block, layout, at, source):
    """Columns of a block of lines, the line of each row, and how many lines there were."""
    passed = block.count("\n") + (not block.endswith("\n"))
    rows = _quick(block, layout, passed)
    if rows is None:
        return *_by_line(block, layout, at, source), passed
    empty = np.isnan(rows).all(axis=0)
    numbers = np.arange(at, at + passed, dtype=np.int32)
    return (rows[:, ~empty], numbers[~empty], passed) if empty.any() else (rows, numbers, passed)


def _quick(block, layout, passed):
    """All lines at once; None where something in them wants a closer look."""
    import pandas

    mark, width = layout.delimiter, layout.width + layout.trailing_delimiter
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            frame = pandas.read_csv(
                io.StringIO(block),
                sep=r"\s+" if mark == " " else mark,
                decimal=layout.decimal,
                header=None,
                names=range(width),
                index_col=False,
                dtype=float,
                skip_blank_lines=False,
                low_memory=False,
                keep_default_na=False,
                na_values=list(cells.GAPS),
                engine="c",
            )
    except (ValueError, pandas.errors.ParserWarning):
        return None
    rows = frame.to_numpy().T[: layout.width]
    if rows.shape[1] != passed:
        return None
    if np.isnan(rows).any():
        filled = np.count_nonzero(~np.isnan(rows).all(axis=0))
        if mark == " " or '"' in block or block.count(mark) != (width - 1) * filled:
            return None
    return rows


def _by_line(block, layout, at, source):
    """The same, line by line: comments are skipped, and what is wrong is named."""
    width, numbers, values = layout.width + layout.trailing_delimiter, [], []
    for number, line in enumerate(block.split("\n"), at):
        if cells.is_blank_or_comment(line):
            continue
        row = cells.split_cells(line, layout.delimiter)
        if len(row) != width and not (layout.trailing_delimiter and len(row) == layout.width):
            raise TableError(*cells.wrong_width_message(source, number, len(row), width, layout.delimiter))
        for k, cell in enumerate(row[: layout.width]):
            if cells.is_number(cell, layout.decimal):
                values.append(float(cell.replace(",", ".")))
            elif cell in cells.GAPS:
                values.append(np.nan)
            else:
                raise TableError(
                    *cells.bad_number_message(source, number, k + 1, layout.names[k], cell, layout.decimal)
                )
        numbers.append(number)
    return np.array(values, float).reshape(-1, layout.width).T, np.array(numbers, np.int32)


def _factor(written, unit):
    """What a column's numbers are multiplied with to be in an SI unit; None where its unit is another."""
    written = written.strip()
    if not written:
        return 1.0
    return factor(written, unit)
