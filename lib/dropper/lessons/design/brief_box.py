"""Brief box: a brief is chosen from the folder of brief files, and its lamp is named."""

from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...design import Brief

_STYLE = {"description_width": "150px"}


class BriefBox(widgets.HBox):
    """The brief files beside one of them, and a field for the lamp's name.

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

    Attributes
    ----------
    choice : widgets.Dropdown
    lamp_name : widgets.Text
    """

    def __init__(self, path: str | Path, then: Callable, rename: Callable, complain: Callable):
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
        super().__init__([self.choice, self.lamp_name])

    def show(self, name: str) -> None:
        """Put the name of the lamp that is shown into the field."""
        self._name = self.lamp_name.value = name

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
