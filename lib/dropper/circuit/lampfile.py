"""Lamp files: TOML with values as people write them, errors with the line.

Generic over the frozen dataclasses of `lamp`: a field's own `Spec` says its unit, so a
field added there can be read and written here without another word.
"""

import dataclasses
import re
import tomllib
import typing
from pathlib import Path
from typing import Any

import tomli_w

from .excerpt import excerpt, label
from .fields import check_value, spec_of
from .mains_shapes import KINDS, Shape
from .parsing import ValueTextError, parse
from .values import show_exactly

LARGEST = 100_000  # bytes or characters; a lamp is under one thousand
_HEAD = 200  # characters of a line in which its key stands
DEEPEST = 6  # tables and lists within one another; a lamp has three
# What is no structure: text in quotes of every kind, and remarks.
_QUIET = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*+(?:"""|$)|"(?:[^"\\\n]|\\.)*+"?'
    r"|'''(?:[^']|'(?!''))*+(?:'''|$)|'[^'\n]*+'?|#[^\n]*+",
    re.S,
)
_STRUCTURE = re.compile(r"([\[\]{}])|[=,]")
_OPENING, _CLOSING = ("[", "{"), ("]", "}")


class LampFileError(ValueError):
    """A lamp file that cannot be read; the message names the file, the line and the cure."""


def read_text(path: Path | str) -> str | None:
    """The text of a lamp file; a file that is no text, or far too long, is an error."""
    path = Path(path)
    try:
        with path.open("rb") as file:
            return decode(file.read(LARGEST + 1), path.name)
    except (OSError, ValueError) as error:
        if isinstance(error, LampFileError):
            raise
        why = getattr(error, "strerror", None) or "that is no path"
        raise LampFileError(f"{label(path.name)}: cannot be opened ({why})") from None


def decode(data: bytes, source: str) -> str | None:
    """The text in the bytes of a lamp file."""
    if len(data) > LARGEST:
        raise _too_long(source)
    try:
        return bytes(data).decode("utf-8-sig")
    except UnicodeDecodeError:
        raise LampFileError(f"{label(source)}: is not UTF-8 text; this is no lamp file") from None


def build(cls: type, text: str, source: str) -> Any:
    """Make a `cls` from TOML text.

    Raises
    ------
    LampFileError
        Naming the source, the line where it can be found, and what is wrong.
    """
    tables = _parsed(text, label(source))
    return _Builder(text, label(source)).make(cls, tables, ())


def _parsed(text, source):
    """The tables of TOML text; what is too long or too deep to be a lamp's is refused before it is read."""
    if len(text) > LARGEST:
        raise _too_long(source)
    _check_depth(text, source)
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise LampFileError(f"{source}: not TOML: {label(str(error), 120)}") from None
    except ValueError:  # Python's own limit
        raise LampFileError(f"{source}: a number has thousands of digits; write it like 3.3e-7 or '330 nF'") from None


def _check_depth(text, source):
    """A key of thousands of dots, or brackets within brackets, would keep the reader busy for minutes."""
    depth = 0
    for number, line in enumerate(_QUIET.sub(_blank, text).split("\n"), 1):
        for piece in _STRUCTURE.split(line):
            depth += (piece in _OPENING) - (piece in _CLOSING)
            if depth > DEEPEST or (piece or "").count(".") > DEEPEST:
                why = f"tables more than {DEEPEST} deep; a lamp file has tables like [string.led]"
                raise LampFileError(f"{source}: line {number}: {why}")


def _blank(match):
    return "\n" * match[0].count("\n")


def _too_long(source):
    return LampFileError(f"{label(source)}: longer than {LARGEST:,} bytes; this is no lamp file")


def write(instance: Any) -> str:
    """TOML text that `build` turns back into an equal instance."""
    return tomli_w.dumps(_tables(instance))


class _Builder:
    def __init__(self, text, source):
        self.text, self.source = text, source

    def fail(self, path, message):
        line = _line_of(self.text, path)
        where = f"line {line}: " if line else ""
        raise LampFileError(f"{self.source}: {where}{message}") from None

    def make(self, cls, table, path):
        name = ".".join(path)
        if not isinstance(table, dict):
            self.fail(path, f"{name} must be a table, [{name}]")
        kinds = typing.get_type_hints(cls)
        fields = {field.name: field for field in dataclasses.fields(cls)}
        for key in table:
            if key not in fields:
                where = f" in [{name}]" if name else ""
                self.fail((*path, key), f"unknown key {excerpt(key)}{where}; known are {', '.join(fields)}")
        given = {key: self.value(fields[key], kinds[key], table[key], (*path, key)) for key in table}
        missing = [field for field in fields.values() if _required(field) and field.name not in given]
        if missing:
            words = [_missing(field, kinds[field.name], path) for field in missing]
            where = f" in [{name}]" if name and any(map(spec_of, missing)) else ""
            what = f"{words[0]} is missing" if len(words) == 1 else f"missing are {'; '.join(words)}"
            self.fail(path, f"{what}{where}")
        try:
            return cls(**given)
        except (ValueError, TypeError) as error:
            blamed = re.match(r"\w+\.(\w+)", str(error))
            self.fail((*path, blamed[1]) if blamed else path, str(error))

    def value(self, field, kind, value, path):
        spec = spec_of(field)
        if dataclasses.is_dataclass(kind):
            return self.make(kind, value, path)
        if field.name == "shape":
            return self.shape(value, path)
        if field.name == "harmonics":
            return self.harmonics(value, path)
        if spec is None:
            return value
        if spec.none and value == "none":
            return None
        try:
            number = parse(value, spec.unit, ".".join(path))
            return check_value(".".join(path), value, spec) if isinstance(value, str) else number
        except ValueError as error:
            self.fail(path, str(error))

    def shape(self, table, path):
        kind = table.get("kind") if isinstance(table, dict) else None
        if kind not in KINDS:
            self.fail(path, f"{'.'.join(path)} must be a table with kind = one of {', '.join(map(repr, KINDS))}")
        return self.make(KINDS[kind], {key: value for key, value in table.items() if key != "kind"}, path)

    def harmonics(self, table, path):
        if not isinstance(table, dict):
            self.fail(path, "harmonics must be a table of order = [fraction, phase in degrees]")
        orders = {}
        for key, pair in table.items():
            if not key.isdecimal() or not isinstance(pair, list) or len(pair) != 2:
                self.fail((*path, key), f"harmonic {excerpt(key)} must be order = [fraction, phase in degrees]")
            try:
                orders[int(key)] = (parse(pair[0], "", "fraction"), parse(pair[1], "°", "phase"))
            except ValueTextError as error:
                self.fail((*path, key), str(error))
        return orders


def _required(field):
    return field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING


def _missing(field, kind, path):
    """What has to be written: a key, or a table with the keys that it has to have."""
    if spec_of(field) is not None or not dataclasses.is_dataclass(kind):
        return field.name
    keys = [inner.name for inner in dataclasses.fields(kind) if _required(inner)]
    return f"[{'.'.join((*path, field.name))}]" + (f" with {' and '.join(keys)}" if keys else "")


def _tables(instance):
    values, tables = {}, {}
    for field in dataclasses.fields(instance):
        value, spec = getattr(instance, field.name), spec_of(field)
        if dataclasses.is_dataclass(value):
            table = _tables(value)
            if isinstance(value, Shape):
                table = {"kind": value.kind} | table
            if table:
                tables[field.name] = table
        elif field.name == "harmonics":
            if value:
                tables[field.name] = {str(order): list(pair) for order, pair in value.items()}
        elif spec is None:
            if value or value != field.default:
                values[field.name] = list(value) if isinstance(value, tuple) else value
        elif value is not None or not spec.none:
            values[field.name] = show_exactly(value, spec.unit) if spec.unit else value
    if "name" in values:
        values = {"name": values.pop("name"), **values}
    return values | tables


def _line_of(text, path):
    """The line a key stands on, as far as plain reading finds it; else its table's; else None."""
    tables, key = path[:-1], path[-1] if path else ""
    current, table_line = (), None
    for number, line in enumerate(text.splitlines(), 1):
        line = line[:_HEAD]
        header = re.match(r"\s*\[\s*([^\[\]]+?)\s*\]", line)
        if header:
            current = tuple(part.strip().strip("\"'") for part in header[1].split("."))
            if current == path:
                return number
            if current == tables:
                table_line = number
        elif current == tables and re.match(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=", line):
            return number
    return table_line
