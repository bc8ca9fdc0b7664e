"""Pages for whoever teaches, beside the plans: the twin on an isolated 24 V, and the fault hunt."""

from __future__ import annotations

from pathlib import Path

from ..circuit import html
from ..sheet import document, origin

_FOLDER = Path(__file__).resolve().parent / "pages"
PAGES = ("classroom_twin", "fault_hunt")
_STYLE = """
main { display: block; font-size: 1.08rem; }
h2 { margin-top: .8rem; }
p, table, ul, ol { margin: .3rem 0; }
ul { list-style: disc; padding-left: 1.2rem; }
pre { white-space: pre-wrap; }
"""


def source(name: str) -> str:
    """A page as Markdown."""
    return (_FOLDER / f"{name}.md").read_text(encoding="utf-8")


def page(name: str, paper: str = "A4") -> tuple[str, str]:
    """A page's title, and the page as an HTML document."""
    text = source(name)
    title = text.split("\n", 1)[0].lstrip("# ")
    body = html.joined(html.from_markdown(text), html.tag("footer", html.tag("p", origin())))
    return title, document(title, body, paper=paper, style=_STYLE)
