"""Brief box: a brief is chosen from the folder or opened from a file, saved again, and its lamp is named."""

from base64 import b64encode
from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...circuit import lampfile
from ...circuit.excerpt import label
from ...circuit.html import tag
from ...design import Brief, Design, order_list
from ...sheet import file_name
from ..kit import sliders
from ..kit.markup import Html

_STYLE = {"description_width": "150px"}


class BriefBox(widgets.VBox):
    """The brief files, one from the learner's disk, a field for the lamp's name, and links that save.

    Parameters
    ----------
    path
        The brief file that is chosen at first.
    then
        Called with a brief that could be read.
    rename
        Called with another name.
    complain
        Called with what was wrong with one that could not be read, or cannot be shown.
    files
        Gives the files that can be saved: their names and their text.

    Attributes
    ----------
    choice : widgets.Dropdown
    lamp_name : widgets.Text
    upload : widgets.FileUpload
    saved : Html
        The links.
    """

    def __init__(self, path: str | Path, then: Callable, rename: Callable, complain: Callable, files: Callable):
        self._files = files
        self._folder, self._then, self._rename, self._complain = Path(path).parent, then, rename, complain
        names = sorted(path.name for path in self._folder.glob("*.toml"))
        self.choice = widgets.Dropdown(
            options=[(name.removesuffix(".toml").replace("_", " "), name) for name in names],
            value=Path(path).name if Path(path).name in names else None,
            description="Brief",
            style=_STYLE,
        )
        self.lamp_name = widgets.Text(description="Name of the lamp", continuous_update=False, style=_STYLE)
        self.choice.observe(self._choose, "value")
        self.lamp_name.observe(self._enter_name, "value")
        self.upload = widgets.FileUpload(
            accept=".toml,.txt", multiple=False, description="Open a brief", layout=widgets.Layout(width="auto")
        )
        self.upload.observe(self._open, "value")
        self.saved = Html()
        save = sliders.button("Save brief and order list", "Makes files of the wishes and of the parts", self.save)
        super().__init__([widgets.HBox([self.choice, self.lamp_name]), widgets.HBox([self.upload, save, self.saved])])

    def save(self) -> None:
        """Make the files and offer them."""
        links = []
        for name, text in self._files().items():
            data = b64encode(text.encode("utf-8-sig" if name.endswith(".csv") else "utf-8")).decode()
            kind = "text/csv" if name.endswith(".csv") else "application/toml"
            links += [" ", tag("a", f"{name}: save it", href=f"data:{kind};base64,{data}", download=name)]
        self.saved.value = tag("div", *links, css="dropper-words", role="status")

    def _open(self, change):
        if not change.new:
            return
        content, name = bytes(change.new[0]["content"]), change.new[0]["name"]
        self.upload.value = ()
        try:
            self._then(Brief.from_toml_text(lampfile.decode(content, name), label(name)))
        except ValueError as error:
            self._complain(str(error))
            return
        self.leave()

    def show(self, name: str) -> None:
        """Put the name of the lamp that is shown into the field."""
        self._name = self.lamp_name.value = name
        self.saved.value = ""

    def leave(self) -> None:
        """What is shown comes from none of the files: each can be chosen again."""
        self.choice.value = None

    def _choose(self, change):
        if change.new is None:
            return
        try:
            self._then(Brief.from_toml(self._folder / change.new))
        except ValueError as error:
            self._complain(str(error))

    def _enter_name(self, change):
        if change.new != self._name:
            self._name = change.new
            self._rename(change.new)


def files_of(brief: Brief, design: Design | None) -> dict[str, str]:
    """The files that can be saved: the brief, and the order list where there is a design."""
    name = file_name(brief.name)
    return {f"{name}.toml": brief.to_toml_text()} | ({f"{name}_order.csv": order_list(design)} if design else {})
