"""Lamp box: a lamp is chosen from the folder of lamp files, or opened from the learner's disk."""

from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.lampfile import decode

_OWN = ""  # in the place of a file's name: the lamp that has none beside the notebook


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
    own
        A lamp that comes from no file beside the notebook: it stands first in the list.

    Attributes
    ----------
    choice : widgets.Dropdown
    upload : widgets.FileUpload
    """

    def __init__(
        self,
        folder: Path,
        file: str | None,
        then: Callable[[Lamp], None],
        complain: Callable[[str], None],
        own: Lamp | None = None,
    ):
        self._folder, self._then, self._complain = Path(folder), then, complain
        names = sorted(path.name for path in self._folder.glob("*.toml"))
        self._own, self._files = own, [(name.removesuffix(".toml").replace("_", " "), name) for name in names]
        self.choice = widgets.Dropdown(
            options=self._options(),
            value=file if file in names else _OWN if own else None,
            description="Lamp on the bench",
            style={"description_width": "150px"},
        )
        self.upload = widgets.FileUpload(
            accept=".toml", multiple=False, description="Open a lamp file", layout=widgets.Layout(width="auto")
        )
        self._file = self.choice.value  # of the lamp on the bench; None where none is named
        self.choice.observe(self._choose, "value")
        self.upload.observe(self._open, "value")
        super().__init__([self.choice, self.upload])

    def _options(self):
        return [(self._own.name or "a lamp without a name", _OWN), *self._files] if self._own else self._files

    def _choose(self, change):
        if change.new not in (None, self._file):
            own, path = self._own, self._folder / change.new
            self._take(lambda: Lamp.from_toml(path) if change.new else own, change.new)

    def _open(self, change):
        if change.new:
            file = change.new[0]
            self._take(lambda: Lamp.from_toml_text(decode(file["content"], file["name"]), file["name"]), _OWN)
            self.upload.value = ()

    def _take(self, read, file):
        try:
            lamp = read()
            self._then(lamp)
            self._file = file
            if file == _OWN and lamp is not self._own:
                self._own = lamp
                self.choice.options = self._options()
        except (ValueError, ArithmeticError) as error:  # what cannot be read, and what a panel cannot show
            self._complain(str(error))
        self.choice.value = self._file  # where it was, if the lamp on the bench stayed
