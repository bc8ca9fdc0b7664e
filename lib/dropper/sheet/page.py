"""Page for the printer: a whole HTML document of its own, with nothing fetched and nothing that runs."""

import datetime
from collections.abc import Sequence
from importlib.metadata import version

from ..circuit import html
from ..circuit.excerpt import excerpt
from ..results.style import GRID, INK, PAPER

PAPERS = ("A4", "Letter")
# Arial and its like first: what stands behind them is wider.
_FONT = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif"
# Nothing may be loaded and no script may run, whatever was typed into a name or a note.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"

# Sizes are in rem, so that the screen may show the page larger than paper does; 1 rem is never below 8 pt.
STYLE = f"""
@page {{ size: PAPER portrait; margin: 8mm; }}
* {{ box-sizing: border-box; }}
html {{ font: 8.05pt/1.18 {_FONT}; color: {INK}; background: {PAPER}; }}
body {{ margin: 0; }}
main {{ display: flex; flex-direction: column; gap: .5rem; }}
h1, h2, p, ul, dl, dd, figure, table {{ margin: 0; padding: 0; }}
h1 {{ font-size: 2.3rem; line-height: 1.1; overflow-wrap: anywhere; }}
h2 {{ font-size: 1.15rem; line-height: 1.2; }}
ul {{ list-style: none; }}
table {{ border-collapse: collapse; width: 100%; }}
caption, h2 {{ text-align: left; font-size: 1.15rem; font-weight: bold; padding: 0 0 .1rem; }}
th, td {{ text-align: left; vertical-align: top; padding: .07rem .5rem .07rem 0; border-bottom: 1px solid {GRID}; }}
th {{ font-weight: normal; }}
thead th {{ font-weight: bold; vertical-align: bottom; border-bottom: 1.5px solid {INK}; }}
th:last-child, td:last-child {{ padding-right: 0; }}
.n {{ text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }}
.wrap {{ overflow-wrap: anywhere; }}
footer {{ border-top: 1.5px solid {INK}; padding-top: .3rem; }}
@media screen {{
  html {{ font-size: clamp(9pt, 1.25vw, 11.5pt); background: #e9e9e6; }}
  main {{ width: min(76rem, 100%); min-height: 96rem; margin: 1.5rem auto; padding: 2.2rem; background: {PAPER};
    border: 1px solid {GRID}; }}
}}
@media print {{
  /* as high as the paper, less what rounding might push onto a second page */
  main {{ min-height: calc(100vh - 2px); }}
  main, tr, li, figure {{ break-inside: avoid; }}
}}
"""


def document(title: str, body: str, *, paper: str = "A4", style: str = "", data: str = "") -> str:
    """A whole HTML document that prints on A4 or Letter.

    It has no script, asks nothing of the network and is read by a screen reader in its order. Where the body is
    more than a page, the printer goes on to the next.

    Parameters
    ----------
    title
        As it is; it is escaped here.
    body
        HTML, what was typed in it escaped already; it should begin with its `h1` and may end with a `footer`.
    paper
        "A4" or "Letter".
    style
        CSS that comes after `STYLE`.
    data
        HTML that is not shown, such as what `embedded.embed` makes.

    Raises
    ------
    ValueError
        For a paper that is not known.

    Examples
    --------
    >>> page = document("List <1>", "<h1>List</h1>", paper="Letter")
    >>> "<title>List &lt;1&gt;</title>" in page, "size: Letter portrait" in page
    (True, True)
    """
    if paper not in PAPERS:
        raise ValueError(f"paper: {excerpt(paper)} is not known; choose {' or '.join(PAPERS)}")
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"{html.tag('title', title)}\n<style>{STYLE.replace('PAPER', paper)}{style}</style>\n</head>\n"
        f"<body>\n<main>\n{body}\n</main>\n{data}</body>\n</html>\n"
    )


def table(
    caption: str, heads: Sequence[str], rows: Sequence[Sequence[str]], numbers: tuple[int, ...] = (), css: str = ""
) -> str:
    """An HTML table with a caption, heads for its columns and for its rows; all of it is escaped here.

    Parameters
    ----------
    rows
        The first of a row is its head. A line break in a cell stays one.
    numbers
        Columns that are numbers and stand to the right.
    css
        Class of the table.

    Examples
    --------
    >>> print(table("Parts", ("part", "value"), [("C1", "330 nF")], numbers=(1,)))
    <table><caption>Parts</caption>
    <thead><tr><th scope="col">part</th><th scope="col" class="n">value</th></tr></thead>
    <tbody>
    <tr><th scope="row">C1</th><td class="n">330 nF</td></tr>
    </tbody></table>
    """
    return html.table(caption, heads, rows, css=css, columns=dict.fromkeys(numbers, 'class="n"'))


def day(date: int | str | None = None) -> str | None:
    """A date as a page writes it, "2026-03-09"; today's where none is given.

    Parameters
    ----------
    date
        A string is taken as "2026-03-09".

    Raises
    ------
    ValueError
        For what is no date.
    """
    if date is None:
        return datetime.date.today().isoformat()
    if isinstance(date, str):
        try:
            date = datetime.date.fromisoformat(date)
        except ValueError:
            raise ValueError(f"date: {excerpt(date)} is no date; write it like 2026-03-09") from None
    if isinstance(date, datetime.datetime):
        date = date.date()
    if not isinstance(date, datetime.date):
        raise ValueError(f"date: {excerpt(date)} is no date; write it like 2026-03-09")
    return date.isoformat()


def origin(date: str | None = None) -> str:
    """Which version of the library made a page, and when, in a sentence.

    Parameters
    ----------
    date
        As for `day`.

    Examples
    --------
    >>> origin("2026-03-09")
    "Made with the workbook's library dropper 0.1.0 on 2026-03-09."
    """
    return f"Made with the workbook's library dropper {version('dropper')} on {day(date)}."
