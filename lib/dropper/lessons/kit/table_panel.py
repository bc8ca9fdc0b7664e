"""Table panel: a panel whose numbers stand in tables of standards; the table and the arithmetic explain them."""

from typing import Any

import ipywidgets as widgets

from ...circuit.html import tag
from ...results.reading import Reading
from .panel import Panel

_LABEL = {"description_width": "110px"}


class TablePanel(Panel):
    """A panel on marks; see `Panel`. What is read is in tables of standards, and no derivation gives it."""

    field_names = ()  # pairs: what a complaint calls a field, and what stands before that field on the panel

    def start_from(self, setting: Any) -> None:
        self._complaints, self._path = {}, None
        super().start_from(setting)

    def reset(self) -> None:
        self._complaints.clear()
        super().reset()

    def complain(self, text: str) -> None:
        """Say what was wrong, and go on saying it until that field is mended."""
        self._complaints.pop(self._path, None)
        if text:
            head, colon, rest = text.partition(":")
            self._complaints[self._path] = f"{dict(self.field_names).get(head, head)}{colon}{rest}"
        super().complain(" ".join(self._complaints.values()))

    def move(self, path: str, value: Any) -> None:
        self._path = path
        super().move(path, value)
        self._path = None

    def explain(self, reading: Reading) -> str:
        name = tag("b", f"{reading.name}: {reading.text}.")
        return tag("div", name, f" {reading.note}", css="dropper-words")


def field(name: str, value: str, example: str) -> widgets.Text:
    """A line to type into; what is typed counts on Enter or on leaving it."""
    return widgets.Text(
        description=name, value=value, placeholder=f"such as {example}", continuous_update=False, style=_LABEL
    )


def choice(name: str, options: list | tuple, value: object) -> widgets.Dropdown:
    """A list to choose from."""
    return widgets.Dropdown(description=name, options=options, value=value, style=_LABEL)
