"""Choosing a lamp: from the folder of lamp files, or one of the learner's own."""

from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.lampfile import decode


class LampBox(widgets.HBox):
    """Offers the lamp files beside the notebook and takes one from the learner's disk.

    `then(lamp)` is called with a lamp that could be read, `complain(text)` with what was
    wrong with one that could not, or that cannot be shown; the lamp on the bench stays as it was.
    """

    def __init__(self, folder: Path, chosen: str, then: Callable, complain: Callable):
        self._folder, self._then, self._complain = Path(folder), then, complain
        names = sorted(path.name for path in self._folder.glob("*.toml"))
        self._choice = widgets.Dropdown(
            options=[(name.removesuffix(".toml").replace("_", " "), name) for name in names],
            value=chosen if chosen in names else None,
            description="Lamp on the bench",
            style={"description_width": "150px"},
            layout=widgets.Layout(width="390px"),
        )
        self._own = widgets.FileUpload(
            accept=".toml", multiple=False, description="Open a lamp file", layout=widgets.Layout(width="auto")
        )
        self._shown = self._choice.value  # the file of the lamp on the bench; None for one of the learner's own
        self._choice.observe(self._chosen, "value")
        self._own.observe(self._uploaded, "value")
        super().__init__([self._choice, self._own])

    def _chosen(self, change):
        if change.new not in (None, self._shown):
            self._try(lambda: Lamp.from_toml(self._folder / change.new), change.new)

    def _uploaded(self, change):
        if change.new:
            file = change.new[0]
            self._try(lambda: Lamp.from_toml_text(decode(file["content"], file["name"]), file["name"]), None)
            self._own.value = ()

    def _try(self, read, name):
        try:
            self._then(read())
            self._shown = name
        except (ValueError, ArithmeticError) as error:  # what cannot be read, and what a panel cannot show
            self._complain(str(error))
        self._choice.value = self._shown  # where it was, if the lamp on the bench stayed
