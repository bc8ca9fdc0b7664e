"""Paste box: a table of the learner's own, pasted as text or opened from the learner's disk."""

from collections.abc import Callable

import ipywidgets as widgets

from ...bench.table.source import detect_encoding
from ...circuit.excerpt import label
from . import sliders

LONGEST = 200_000  # characters: a table that a person measured is shorter


class PasteBox(widgets.VBox):
    """A field of text that holds a table, and a button that has it read.

    Parameters
    ----------
    words
        HTML beside the field.
    then
        Called with the text.
    complain
        Called with what was wrong, where `then` raises a ValueError; the text stays as it was typed.

    Attributes
    ----------
    text : widgets.Textarea
    upload : widgets.FileUpload
    """

    def __init__(self, text: str, words: str, label: str, then: Callable[[str], None], complain: Callable[[str], None]):
        self._then, self._complain = then, complain
        self.text = widgets.Textarea(
            value=text,
            description=label,
            rows=7,
            style={"description_width": "150px"},
            layout=widgets.Layout(height="150px"),
        )
        self.upload = widgets.FileUpload(
            accept=".csv,.txt,.tsv", multiple=False, description="Open a table", layout=widgets.Layout(width="auto")
        )
        self.upload.observe(self._open, "value")
        button = sliders.button("Use these points", "Reads the table and fits the curve anew", self.use)
        side = widgets.VBox([sliders.words(words), widgets.HBox([button, self.upload])])
        side.add_class("dropper-beside")
        super().__init__([widgets.HBox([self.text, side])])

    def use(self) -> None:
        """Have the text read."""
        try:
            if len(self.text.value) > LONGEST:
                raise ValueError(f"The table is longer than {LONGEST:,} characters; keep the rows that matter.")
            self._then(self.text.value)
        except ValueError as error:
            self._complain(str(error))

    def _open(self, change):
        if not change.new:
            return
        content, name = bytes(change.new[0]["content"]), change.new[0]["name"]
        self.upload.value = ()
        if len(content) > LONGEST:
            self._complain(f"{label(name)}: longer than {LONGEST:,} bytes; keep the rows that matter.")
            return
        try:
            self.text.value = content.decode(detect_encoding(content, label(name)))
        except ValueError as error:
            self._complain(f"{label(name)}: is no text that can be read ({error})")
            return
        self.use()
