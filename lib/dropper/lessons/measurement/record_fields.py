"""Record fields: labelled fields of one line, and what is typed into them, read and checked."""

from typing import Any

import ipywidgets as widgets

from ...bench import table, waveform
from ...circuit.excerpt import excerpt
from ...circuit.fields import check_value, spec_of
from ...circuit.parsing import parse


def box(kind: type[widgets.Widget], words: str, width: str, label: str | None = None, **more: Any) -> widgets.Widget:
    """A labelled field of one line; its label is as wide as its words, unless it is said."""
    label = {"description_width": label or f"{7 * len(words) + 12}px"}
    return kind(description=words, style=label, layout=widgets.Layout(width=width), **more)


def name_of(source_table: table.Table) -> tuple[str, ...]:
    """What tells one table from another."""
    return source_table.source, *source_table.columns


def checked(field: str, value: float, words: str) -> float:
    """A value within what a `Channel` allows in a field, complained of in the words beside the learner's field.

    Raises
    ------
    ValueError
        For one outside.
    """
    return check_value(words, value, spec_of(waveform.Channel.__dataclass_fields__[field]))


def seconds(text: str, words: str) -> float:
    """A time in s, from "25 µs" or "0.000025".

    Raises
    ------
    ValueError
        For a text that is no number.

    Examples
    --------
    >>> seconds("25 µs", "in step within")
    2.5e-05
    """
    return parse(text.removesuffix("s"), "", words)


def share(text: str, words: str) -> float:
    """A limit of error as people write it, "3 %".

    Raises
    ------
    ValueError
        For what is none between 0 % and 50 %.

    Examples
    --------
    >>> share("3 %", "limit of error")
    0.03
    """
    try:
        return checked("accuracy", parse(text, "", words), words)
    except ValueError:
        raise ValueError(f"{words}: {excerpt(text)} cannot be; allowed is 0 % to 50 %, written like 3 %") from None
