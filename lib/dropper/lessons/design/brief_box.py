"""Choosing a brief from the folder of brief files, and what its lamp is called."""

from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...design import Brief

_STYLE = {"description_width": "150px"}


class BriefBox(widgets.HBox):
    """Offers the brief files beside one of them, and a field for the lamp's name.

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
    """

    def __init__(self, path: str | Path, then: Callable, rename: Callable, complain: Callable):
        self._folder, self._then, self._rename, self._complain = Path(path).parent, then, rename, complain
        names = sorted(each.name for each in self._folder.glob("*.toml"))
        self._choice = widgets.Dropdown(
            options=[(name.removesuffix(".toml").replace("_", " "), name) for name in names],
            value=Path(path).name if Path(path).name in names else None,
            description="Brief",
            style=_STYLE,
            layout=widgets.Layout(width="390px"),
        )
        self._name = widgets.Text(
            description="Name of the lamp", continuous_update=False, style=_STYLE, layout=widgets.Layout(width="420px")
        )
        self._choice.observe(self._chosen, "value")
        self._name.observe(self._renamed, "value")
        super().__init__([self._choice, self._name])

    def show(self, name: str) -> None:
        """Put the name of the lamp that is shown into the field."""
        self._shown = self._name.value = name

    def leave(self) -> None:
        """What is shown comes from none of the files: each can be chosen again."""
        self._choice.value = None

    def _chosen(self, change):
        if change.new is None:
            return
        try:
            self._then(Brief.from_toml(self._folder / change.new))
        except ValueError as error:
            self._complain(str(error))

    def _renamed(self, change):
        if change.new != self._shown:
            self._shown = change.new
            self._rename(change.new)
