"""Cells of a table: a line taken apart, what is a number, and what is said of a cell that is none."""

import csv
import re

from ...circuit.excerpt import excerpt, label

DELIMITERS = {"\t": "tab", ";": "semicolon", ",": "comma", " ": "spaces"}
COMMENTS = ("#", "%", "//")
GAPS = ("", "nan", "NaN", "NAN", "-", "--", "---", "n/a", "N/A", "NA", "null")
_NUMBER = {
    ".": re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?|[+-]?inf(inity)?", re.IGNORECASE),
    ",": re.compile(r"[+-]?(\d+,?\d*|,\d+)([eE][+-]?\d+)?|[+-]?inf(inity)?", re.IGNORECASE),
}


class TableError(ValueError):
    """A table that cannot be read; the message names the source, the line, the column and what is allowed.

    Parameters
    ----------
    line
        Line of the file, from 1.
    column
        Column, from 1.
    quoted
        What the message repeats of the table.
    """

    def __init__(self, message: str, line: int | None = None, column: int | None = None, quoted: str = ""):
        super().__init__(message)
        self.line, self.column, self.quoted = line, column, quoted

    def unquoted(self) -> "TableError":
        """The same without anything of the table: it may be a file that was not meant to be read here."""
        message = str(self).replace(self.quoted, "what stands there") if self.quoted else str(self)
        return TableError(message, self.line, self.column)


def split_cells(line: str, delimiter: str) -> list[str]:
    """The cells of a line, without the space around them and without quotes.

    Parameters
    ----------
    delimiter
        A space stands for any run of spaces and tabs.
    """
    if delimiter == " " and '"' not in line:
        return line.split()
    row = next(csv.reader([line.strip(" \r\n")], delimiter=delimiter, skipinitialspace=True), [])
    return [cell.strip() for cell in row if delimiter != " " or cell.strip()]


def is_number(cell: str, decimal: str) -> bool:
    """Whether a cell is a number written with that decimal mark."""
    return _NUMBER[decimal].fullmatch(cell) is not None


def is_blank_or_comment(line: str) -> bool:
    """Whether a line is empty or a comment."""
    bare = line.strip()
    return not bare or bare.startswith(COMMENTS)


def bad_number_message(source: str, line: int, column: int, name: str, cell: str, decimal: str) -> tuple:
    """Message, line and column for a cell that is no number, and what the message repeats of it."""
    other = "," if decimal == "." else "."
    why = ""
    if is_number(cell, other):
        why = f" (the other numbers have a decimal {'point' if decimal == '.' else 'comma'})"
    heading, quoted = f" ({label(name)})" if name else "", excerpt(cell)
    message = (
        f"{source}: line {line}, column {column}{heading}: {quoted} is no number{why};"
        f" allowed is one like -1{decimal}5 or 2{decimal}5e-3, or nothing at all for a gap"
    )
    return message, line, column, quoted


def wrong_width_message(source: str, line: int, count: int, width: int, delimiter: str) -> tuple[str, int, int]:
    """Message, line and column for a line with too many cells or too few."""
    apart = DELIMITERS.get(delimiter, repr(delimiter))
    cure = "is it cut off there?" if count < width else "is there a decimal comma or a thousands mark in it?"
    message = (
        f"{source}: line {line}, column {min(count, width) + 1}: the line has {count}"
        f" cell{'s' if count != 1 else ''}, apart by {apart}; allowed are {width} in every line. {cure.capitalize()}"
    )
    return message, line, min(count, width) + 1


def no_numbers_message(lines: list[str], source: str) -> tuple:
    """Message, line and column for a text without a line of numbers."""
    for number, line in enumerate(lines, 1):
        for mark in DELIMITERS:
            row = split_cells(line, mark)
            bad = [k for k, cell in enumerate(row) if not is_number(cell, ".") and not is_number(cell, ",")]
            if not is_blank_or_comment(line) and 0 < len(bad) < len(row) and is_number(row[0], "."):
                return bad_number_message(source, number, bad[0] + 1, "", row[bad[0]], ".")
    number = next((n for n, text in enumerate(lines, 1) if text.strip()), 1)
    message = (
        f"{source}: line {number}, column 1: none of the first {len(lines)} lines is a line of numbers."
        " Allowed is a table of numbers, its columns apart by comma, semicolon, tab or spaces, with or without a header"
    )
    return message, number, 1
