"""Sheet box: a lamp's sheet is written beside the notebook, shown, and opened again."""

import base64
import os
from collections.abc import Callable
from pathlib import Path
from urllib.parse import quote

import ipywidgets as widgets

from ... import sheet
from ...circuit.excerpt import excerpt
from ...circuit.html import Markup, joined, tag
from ...circuit.lamp import Lamp
from .css import STYLE
from .markup import Html
from .progress_line import ProgressLine
from .sliders import button

FOLDER = "sheets"  # beside the notebook
_LIKE = f"a name like {FOLDER}/stair_marker.html"
_LABEL = {"description_width": "110px"}


class SheetBox(widgets.VBox):
    """Fields and buttons that write a lamp's sheet and parts list, and open a sheet again.

    Parameters
    ----------
    lamp
        The lamp, or what gives it when called with nothing: `lambda: bench.lamp`.
    then
        Called with the lamp of a sheet that was opened, and its brief (None for one that was not designed); without it
        that lamp is the one that is written from then on.
    folder
        Where sheets are kept; made when the first is written.
    options
        Further keywords of `sheet.lamp_sheet`: `design`, `fitted`, `upper`, `spread`, `also`, `meter`; or what gives
        them when called with nothing.
    """

    def __init__(
        self,
        lamp: Lamp | Callable,
        then: Callable | None = None,
        folder: str | Path = FOLDER,
        options: dict | Callable | None = None,
    ):
        self._lamp, self._then, self._folder, self._options = lamp, then, Path(folder), options or {}
        self._last = ""  # links to what stands below
        self.builder = widgets.Text(description="Built by", style=_LABEL)
        self.notes = widgets.Textarea(
            description="Notes", style=_LABEL, rows=4, placeholder="At most 500 characters on 5 lines"
        )
        self.paper = widgets.Dropdown(options=["A4", "Letter"], description="Paper", style=_LABEL)
        self.path = widgets.Combobox(
            options=self._sheets(),
            description="Sheet",
            ensure_option=False,
            style=_LABEL,
            placeholder="sheets/stair_marker.html",
        )
        self.message, self.complaint, self.preview = Html(), Html(), Html()
        self.progress = ProgressLine()
        write = button("Write the sheet", "Writes the page and the parts list beside this notebook", self.write)
        read = button("Open a sheet again", "Takes the lamp out of a sheet that was written", self.reopen)
        super().__init__(
            [
                Html(STYLE),
                widgets.HBox([self.builder, self.paper]),
                self.notes,
                widgets.HBox([write]),
                widgets.HBox([self.path, read]),
                self.complaint,
                self.message,
                self.progress,
                self.preview,
            ]
        )
        self.add_class("dropper-fit")

    @property
    def lamp(self) -> Lamp | None:
        """The lamp whose sheet is written."""
        return self._lamp() if callable(self._lamp) else self._lamp

    def write(self) -> None:
        """Write the lamp's sheet and parts list, say where they are, and show the page."""
        self.complaint.value, self.message.value = "", _words("The sheet is being written …")
        try:
            lamp, options = self.lamp, self._options() if callable(self._options) else self._options
            with self.progress.watching():
                page_and_list = sheet.lamp_sheet(
                    lamp, notes=self.notes.value, builder=self.builder.value, paper=self.paper.value, **options
                )
            path = self._place(lamp)
            page, parts_list = page_and_list.write(path), page_and_list.write(path.with_suffix(".csv"))
        except (ValueError, TypeError, ArithmeticError) as error:
            before = ("Nothing new was written; what stands below was before: ", self._last, ".")
            self.message.value = _words(*(before if self._last else ("Nothing was written.",)))
            self._complain(str(error))
            return
        self.path.options, self.path.value = self._sheets(), str(page)
        links = link(page, page_and_list.html), link(parts_list, page_and_list.csv)
        self._last = joined(links[0], " and the parts list ", links[1])
        self.message.value = _words("Written: ", self._last, ". Print the page from a tab of its own.")
        self.preview.value = tag(
            "iframe",
            title=f"Sheet of {lamp.name}",
            sandbox=True,
            srcdoc=page_and_list.html,
            style="width:100%;height:900px;border:1px solid #ccc;background:#fff",
        )

    def reopen(self) -> None:
        """Take the lamp out of the sheet that is named; what was there stays if it cannot be read."""
        name = self.path.value.strip()
        try:
            if not name:
                raise sheet.SheetError(f"Which sheet? Choose one, or write {_LIKE}.")
            if not name.lower().endswith((".html", ".htm")):
                raise sheet.SheetError(f"Sheet: {excerpt(name)} is no name of a page; write {_LIKE}")
            lamp, brief = sheet.open_sheet(Path(name)), sheet.open_brief(Path(name))
            if self._then is not None:
                self._then(lamp, brief)
        except ValueError as error:  # a SheetError is one, and so is a lamp that a panel cannot show
            self._complain(str(error))
            return
        if self._then is None:
            self._lamp = lamp
        self.complaint.value = ""
        self.message.value = _opened(lamp, name, self._then is not None and brief is not None)

    def _place(self, lamp):
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise sheet.SheetError(f"{self._folder}: cannot be made ({error.strerror})") from None
        return sheet.place_for(self._folder, lamp)

    def _sheets(self):
        return sorted(str(path) for path in self._folder.glob("*.html"))

    def _complain(self, text):
        self.complaint.value = tag("div", text, css="dropper-words wrong", role="alert")


def _opened(lamp, name, wished):
    where = link(Path(name), "") if served(name) else name
    wishes = " The wishes that it was designed for are on the sliders again." if wished else ""
    return _words("Opened from ", where, ": ", tag("b", lamp.name), f".{wishes}")


def _words(*content):
    """What is told as it changes."""
    return tag("div", *content, css="dropper-words", role="status")


def link(path: Path, text: str) -> Markup:
    """A file's name as a link: to where Jupyter serves it, for a tab of its own; else to a copy of its text to keep.

    Parameters
    ----------
    path
        From the notebook's folder.
    text
        What is in the file.
    """
    name, address, look = str(path), served(path), "text-decoration:underline"
    if address:
        return tag("a", name, href=address, target="_blank", rel="noopener", style=look)
    kind = "text/html" if path.suffix == ".html" else "text/csv"
    data = base64.b64encode(text.encode("utf-8-sig")).decode()
    copy = tag("a", "save a copy", download=path.name, href=f"data:{kind};base64,{data}", style=look)
    return joined(tag("b", name), " (", copy, ")")


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
