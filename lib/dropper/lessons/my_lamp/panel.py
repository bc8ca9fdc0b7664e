"""My lamp panel: one line with a button, which opens the form for a lamp that is typed off its board."""

import importlib
from pathlib import Path

import ipywidgets as widgets

from ...bench.own_lamp import FOLDER
from ..kit import sliders
from ..kit.css import STYLE
from ..kit.lamp_box import put_on
from ..kit.markup import Html


class MyLamp(widgets.VBox):
    """A lamp of one's own: typed part by part, saved, and on every panel from then on.

    Parameters
    ----------
    folder
        Where the learner's lamps are kept: beside the notebook.

    Attributes
    ----------
    form : LampForm or None
        Once it was asked for.
    button : widgets.Button
        Opens and closes it.
    """

    def __init__(self, folder: str | Path = FOLDER):
        self._folder, self.form = Path(folder), None
        self.button = sliders.button("My own lamp …", "Type a lamp off its board, part by part", self.toggle)
        self._line = widgets.HBox([self.button, sliders.words("A lamp in your hand? Type it off its board.")])
        super().__init__([Html(STYLE), self._line])
        self.add_class("dropper-fit")

    def toggle(self) -> None:
        """Open the form, or close it; what was typed stays."""
        if self.form is None:
            form = importlib.import_module("..kit.lamp_form", __package__)  # loaded when it is first wanted
            self.form = form.LampForm(self._folder, lambda path: put_on(path, self._folder))
        opened = self.form in self.children
        self.children = [*self.children[:2], *([] if opened else [self.form])]
        self.button.description = "My own lamp …" if opened else "Close the form"
