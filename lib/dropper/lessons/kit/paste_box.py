"""A table of the learner's own: pasted as text, or opened from the learner's disk."""

from collections.abc import Callable

import ipywidgets as widgets

from ...bench.table.source import encoding
from . import sliders

LONGEST = 200_000  # characters: a table that a person measured is shorter


class PasteBox(widgets.VBox):
    """A field of text that holds a table, and a button that has it looked at.

    `then(text)` is called with the text; where it raises a ValueError, `complain(text)` is called with what was wrong,
    and the text stays as it was typed.
    """

    def __init__(self, text: str, words: str, label: str, then: Callable, complain: Callable):
        self._then, self._complain = then, complain
        self._text = widgets.Textarea(
            value=text,
            description=label,
            rows=7,
            style={"description_width": "150px"},
            layout=widgets.Layout(width="520px", height="150px"),
        )
        self._file = widgets.FileUpload(
            accept=".csv,.txt,.tsv", multiple=False, description="Open a table", layout=widgets.Layout(width="auto")
        )
        self._file.observe(self._uploaded, "value")
        self._take = sliders.button("Use these points", "Reads the table and fits the curve anew", self.take)
        side = widgets.VBox([sliders.words(words), widgets.HBox([self._take, self._file])])
        side.layout = widgets.Layout(width="560px", margin="0 0 0 16px")
        super().__init__([widgets.HBox([self._text, side])])

    def take(self) -> None:
        """Have the text looked at."""
        try:
            if len(self._text.value) > LONGEST:
                raise ValueError(f"The table is longer than {LONGEST:,} characters; keep the rows that matter.")
            self._then(self._text.value)
        except ValueError as error:
            self._complain(str(error))

    def _uploaded(self, change):
        if not change.new:
            return
        content, name = bytes(change.new[0]["content"]), change.new[0]["name"]
        self._file.value = ()
        if len(content) > LONGEST:
            self._complain(f"{name}: longer than {LONGEST:,} bytes; keep the rows that matter.")
            return
        try:
            self._text.value = content.decode(encoding(content, name))
        except ValueError as error:
            self._complain(f"{name}: is no text that can be read ({error})")
            return
        self.take()
