"""HTML: elements and tables in which every text is escaped, because only what is markup by its type is left as it is.

A plain string is text, and `<` in it is shown as `<`; what these functions give is `markupsafe.Markup`, which is taken
as it is wherever it is put in again.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from html import escape

from markupsafe import Markup

_MARK = "\ue000"  # a private sign, in the place of a formula while the words around it are read


def tag(name: str, *content: str, css: str = "", **attributes: str | bool) -> Markup:
    """One element with what is in it.

    Parameters
    ----------
    content
        Texts, which are escaped, and markup.
    css
        Its classes.
    attributes
        An underscore in a name stands for the hyphen of HTML's; "" leaves one out, True writes it without a value.

    Examples
    --------
    >>> tag("p", "1 < 2", css="note", aria_label="a < b")
    Markup('<p class="note" aria-label="a &lt; b">1 &lt; 2</p>')
    """
    return Markup(f"<{name}{_attributes(css, attributes)}>{joined(*content)}</{name}>")


def joined(*content: str) -> Markup:
    """Texts and markup one after the other.

    Examples
    --------
    >>> joined("a & ", tag("b", "c"))
    Markup('a &amp; <b>c</b>')
    """
    return Markup("".join(map(_safe, content)))


def items(texts: Iterable[str]) -> Markup:
    """The items of a list.

    Examples
    --------
    >>> items(["one", "two"])
    Markup('<li>one</li><li>two</li>')
    """
    return Markup("".join([f"<li>{_safe(text)}</li>" for text in texts]))


def table(
    caption: str,
    heads: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    css: str = "",
    style: str = "",
    columns: Mapping[int, str] | None = None,
    cells: Mapping[int, str] | None = None,
    below: Mapping[int, str] | None = None,
) -> Markup:
    """A table with a caption, heads for its columns and for its rows.

    Parameters
    ----------
    heads
        Empty for a table without heads of columns.
    rows
        The first of a row is its head. A line break in a text stays one.
    css, style
        Class and style of the table.
    columns
        Attributes of a column's head and cells, by its place from 0: `{1: 'class="n"'}`.
    cells
        The same for a column's cells alone.
    below
        What stands below a row over its whole width, by the place of the row from 0.

    Examples
    --------
    >>> print(table("Power", ("of", "W"), [("LEDs", "< 1")], cells={1: 'class="now"'}))
    <table><caption>Power</caption>
    <thead><tr><th scope="col">of</th><th scope="col">W</th></tr></thead>
    <tbody>
    <tr><th scope="row">LEDs</th><td class="now">&lt; 1</td></tr>
    </tbody></table>
    """
    columns = {place: f" {text}" for place, text in (columns or {}).items()}
    inside = columns | {place: f" {text}" for place, text in (cells or {}).items()}
    first = columns.get(0, "")
    head = "".join([f'<th scope="col"{columns.get(place, "")}>{_lines(text)}</th>' for place, text in enumerate(heads)])
    body = []
    for line, (name, *texts) in enumerate(rows):
        row = [f"<td{inside.get(place, '')}>{_lines(text)}</td>" for place, text in enumerate(texts, 1)]
        body.append(f'<tr><th scope="row"{first}>{_lines(name)}</th>{"".join(row)}</tr>\n')
        if line in (below or {}):
            body.append(f'<tr class="below"><td colspan="{1 + len(texts)}"><div>{_safe(below[line])}</div></td></tr>\n')
    top = f"<thead><tr>{head}</tr></thead>\n" if heads else ""
    given = _attributes(css, {"style": style})
    return Markup(f"<table{given}><caption>{_safe(caption)}</caption>\n{top}<tbody>\n{''.join(body)}</tbody></table>")


def from_markdown(text: str) -> Markup:
    """Markdown as HTML; formulas in dollar signs are left for the page to set.

    HTML in it is text, and a link that would run something leads nowhere.

    Examples
    --------
    >>> from_markdown("*So* $a < b$.")
    Markup('<p><em>So</em> $a &lt; b$.</p>\\n')
    """
    formulas = []

    def mark(match):
        formulas.append(match[0])
        return f"{_MARK}{len(formulas) - 1}{_MARK}"

    body = _reader()(re.sub(r"\$\$.+?\$\$|\$.+?\$", mark, text.replace(_MARK, ""), flags=re.S))
    return Markup(re.sub(f"{_MARK}(\\d+){_MARK}", lambda match: escape(formulas[int(match[1])], quote=False), body))


@cache
def _reader():
    import mistune

    return mistune.create_markdown(escape=True, plugins=["table"])


def _safe(text):
    return text if isinstance(text, Markup) else escape(text)


def _lines(text):
    """A text with its line breaks; markup has its own."""
    return text if isinstance(text, Markup) else escape(text).replace("\n", "<br>")


def _attributes(css, attributes):
    """The attributes of an element as they stand behind its name; none that is empty."""
    named = {"class": css, **attributes}
    return "".join([f" {_attribute(key.replace('_', '-'), value)}" for key, value in named.items() if value])


def _attribute(key, value):
    return key if value is True else f'{key}="{escape(value)}"'
