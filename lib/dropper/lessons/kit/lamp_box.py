"""Lamp box: a lamp is chosen from the folder of lamp files, or opened from the learner's disk."""

from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.lampfile import decode


class LampBox(widgets.HBox):
    """The lamp files beside the notebook, and one from the learner's disk.

    Parameters
    ----------
    file
        The name of the file whose lamp is on the bench; None for a lamp without one.
    then
        Called with a lamp that could be read.
    complain
        Called with what was wrong with one that could not, or that cannot be shown; the lamp on the bench stays.

    Attributes
    ----------
    choice : widgets.Dropdown
    upload : widgets.FileUpload
    """

    def __init__(self, folder: Path, file: str | None, then: Callable[[Lamp], None], complain: Callable[[str], None]):
        self._folder, self._then, self._complain = Path(folder), then, complain
        names = sorted(path.name for path in self._folder.glob("*.toml"))
        self.choice = widgets.Dropdown(
            options=[(name.removesuffix(".toml").replace("_", " "), name) for name in names],
            value=file if file in names else None,
            description="Lamp on the bench",
            style={"description_width": "150px"},
            layout=widgets.Layout(width="390px"),
        )
        self.upload = widgets.FileUpload(
            accept=".toml", multiple=False, description="Open a lamp file", layout=widgets.Layout(width="auto")
        )
        self._file = self.choice.value  # of the lamp on the bench; None for one of the learner's own
        self.choice.observe(self._choose, "value")
        self.upload.observe(self._open, "value")
        super().__init__([self.choice, self.upload])

    def _choose(self, change):
        if change.new not in (None, self._file):
            self._take(lambda: Lamp.from_toml(self._folder / change.new), change.new)

    def _open(self, change):
        if change.new:
            file = change.new[0]
            self._take(lambda: Lamp.from_toml_text(decode(file["content"], file["name"]), file["name"]), None)
            self.upload.value = ()

    def _take(self, read, file):
        try:
            self._then(read())
            self._file = file
        except (ValueError, ArithmeticError) as error:  # what cannot be read, and what a panel cannot show
            self._complain(str(error))
        self.choice.value = self._file  # where it was, if the lamp on the bench stayed
