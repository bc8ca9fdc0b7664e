"""A lamp's sheet from a notebook: written beside it, shown, and opened again."""

import base64
import os
from collections.abc import Callable
from html import escape
from pathlib import Path
from urllib.parse import quote

import ipywidgets as widgets

from ... import sheet
from ...circuit.lamp import Lamp
from .css import STYLE
from .sliders import button

FOLDER = "sheets"  # beside the notebook
_LIKE = f"a name like {FOLDER}/stair_marker.html"
_LABEL = {"description_width": "110px"}


class SheetBox(widgets.VBox):
    """Writes a lamp's sheet and parts list, and opens a sheet again.

    Parameters
    ----------
    lamp
        The lamp, or what gives it when called with nothing: `lambda: bench.lamp`.
    then
        Called with the lamp of a sheet that was opened, and its brief (None for one that was not designed); without it
        that lamp is the one that is written from then on.
    folder
        Where sheets are kept; made when the first is written.
    asked
        Further keywords of `sheet.lamp_sheet`: `design`, `fitted`, `upper`, `spread`, `also`, `meter`; or what gives
        them when called with nothing.
    """

    def __init__(
        self,
        lamp: Lamp | Callable,
        then: Callable | None = None,
        folder: str | Path = FOLDER,
        asked: dict | Callable | None = None,
    ):
        self._lamp, self._then, self._folder, self._asked = lamp, then, Path(folder), asked or {}
        self._last = ""  # links to what stands below
        self._builder = widgets.Text(description="Built by", style=_LABEL, layout=widgets.Layout(width="390px"))
        self._notes = widgets.Textarea(
            description="Notes",
            style=_LABEL,
            rows=4,
            layout=widgets.Layout(width="690px"),
            placeholder="At most 500 characters on 5 lines",
        )
        self._paper = widgets.Dropdown(
            options=["A4", "Letter"], description="Paper", style=_LABEL, layout=widgets.Layout(width="220px")
        )
        self._path = widgets.Combobox(
            options=self._kept(),
            description="Sheet",
            ensure_option=False,
            style=_LABEL,
            layout=widgets.Layout(width="390px"),
            placeholder="sheets/stair_marker.html",
        )
        self._said, self._wrong, self._shown = widgets.HTML(), widgets.HTML(), widgets.HTML()
        write = button("Write the sheet", "Writes the page and the parts list beside this notebook", self.write)
        read = button("Open a sheet again", "Takes the lamp out of a sheet that was written", self.reopen)
        super().__init__(
            [
                widgets.HTML(STYLE),
                widgets.HBox([self._builder, self._paper]),
                self._notes,
                widgets.HBox([write]),
                widgets.HBox([self._path, read]),
                self._wrong,
                self._said,
                self._shown,
            ]
        )

    @property
    def lamp(self) -> Lamp | None:
        """The lamp whose sheet is written."""
        return self._lamp() if callable(self._lamp) else self._lamp

    def write(self) -> None:
        """Write the lamp's sheet and parts list, say where they are, and show the page."""
        self._wrong.value, self._said.value = "", _words("The sheet is being written …")
        try:
            lamp, asked = self.lamp, self._asked() if callable(self._asked) else self._asked
            made = sheet.lamp_sheet(
                lamp, notes=self._notes.value, builder=self._builder.value, paper=self._paper.value, **asked
            )
            path = self._place(lamp)
            page, listed = made.write(path), made.write(path.with_suffix(".csv"))
        except (ValueError, TypeError, ArithmeticError) as error:
            before = f"Nothing new was written; what stands below was before: {self._last}." if self._last else ""
            self._said.value = _words(before or "Nothing was written.")
            self._complain(str(error))
            return
        self._path.options, self._path.value = self._kept(), str(page)
        self._last = f"{link(page, made.html)} and the parts list {link(listed, made.csv)}"
        self._said.value = _words(f"Written: {self._last}. Print the page from a tab of its own.")
        self._shown.value = (
            f'<iframe title="Sheet of {escape(lamp.name)}" sandbox srcdoc="{escape(made.html)}"'
            ' style="width:100%;height:900px;border:1px solid #ccc;background:#fff"></iframe>'
        )

    def reopen(self) -> None:
        """Take the lamp out of the sheet that is named; what was there stays if it cannot be read."""
        name = self._path.value.strip()
        try:
            if not name:
                raise sheet.SheetError(f"Which sheet? Choose one, or write {_LIKE}.")
            if not name.lower().endswith((".html", ".htm")):
                raise sheet.SheetError(f"Sheet: {name!r:.60} is no name of a page; write {_LIKE}")
            lamp, brief = sheet.open_sheet(Path(name)), sheet.open_brief(Path(name))
            if self._then is not None:
                self._then(lamp, brief)
        except ValueError as error:  # a SheetError is one, and so is a lamp that a panel cannot show
            self._complain(str(error))
            return
        if self._then is None:
            self._lamp = lamp
        self._wrong.value = ""
        self._said.value = _opened(lamp, name, self._then is not None and brief is not None)

    def _place(self, lamp):
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise sheet.SheetError(f"{self._folder}: cannot be made ({error.strerror})") from None
        return sheet.place_for(self._folder, lamp)

    def _kept(self):
        return sorted(str(path) for path in self._folder.glob("*.html"))

    def _complain(self, text):
        self._wrong.value = f'<div class="dropper-words wrong" role="alert">{escape(text)}</div>'


def _opened(lamp, name, wished):
    where = link(Path(name), "") if served(name) else escape(name)
    wishes = " The wishes that it was designed for are on the sliders again." if wished else ""
    return _words(f"Opened from {where}: <b>{escape(lamp.name)}</b>.{wishes}")


def _words(said):
    """HTML that is told as it changes."""
    return f'<div class="dropper-words" role="status">{said}</div>'


def link(path: Path, text: str) -> str:
    """A file's name as a link: to where Jupyter serves it, for a tab of its own; else to a copy of its text to keep.

    Parameters
    ----------
    path
        From the notebook's folder.
    text
        What is in the file.
    """
    name, address = escape(str(path)), served(path)
    if address:
        return (
            f'<a href="{escape(address)}" target="_blank" rel="noopener" style="text-decoration:underline">{name}</a>'
        )
    kind = "text/html" if path.suffix == ".html" else "text/csv"
    data = base64.b64encode(text.encode("utf-8-sig")).decode()
    href = f'href="data:{kind};base64,{data}" style="text-decoration:underline"'
    return f'<b>{name}</b> (<a download="{escape(path.name)}" {href}>save a copy</a>)'


def served(path: str | Path) -> str:
    """Where Jupyter serves a file, if it was started by `python -m dropper`; "" else.

    Parameters
    ----------
    path
        From the notebook's folder.
    """
    notebook, first = os.environ.get("JPY_SESSION_NAME", ""), os.environ.get("DROPPER_NOTEBOOK", "")
    file = Path(notebook).parent / path
    for folder in file.parents if notebook and first else ():
        if (folder / first).is_file():  # the folder that Jupyter shows
            return f"/files/{quote(file.relative_to(folder).as_posix())}"
    return ""
