"""Save box: a button that makes a file of the picture on a panel, and the link by which it is saved."""

from base64 import b64encode
from collections.abc import Callable

import ipywidgets as widgets

from ...circuit.html import tag
from . import sliders
from .markup import Html
from .saved_picture import KINDS

_WORDS = {"png": "PNG, for a page or a message", "svg": "SVG, sharp at any size", "pdf": "PDF, for printing"}


class SaveBox(widgets.HBox):
    """What kind of file, a button, and the link.

    Parameters
    ----------
    name
        Gives the name of the file, without its ending.
    make
        Gives the file of a kind.

    Attributes
    ----------
    kind : widgets.Dropdown
    link : Html
    """

    def __init__(self, name: Callable[[], str], make: Callable[[str], bytes]):
        self._name, self._make = name, make
        self.kind = widgets.Dropdown(
            options=[(_WORDS[kind], kind) for kind in KINDS],
            description="Picture as",
            style={"description_width": "80px"},
        )
        self.link = Html()
        save = sliders.button("Save this picture", "Makes a file of the picture with its values", self.save)
        super().__init__([self.kind, save, self.link], layout=widgets.Layout(flex_flow="row wrap"))
        self.add_class("dropper-save")

    def save(self) -> None:
        """Make the file and offer it."""
        from ...sheet import file_name

        kind = self.kind.value
        content = self._make(kind)
        name = f"{file_name(self._name())}.{kind}"
        link = tag(
            "a",
            f"{name}, {max(round(len(content) / 1000), 1)} kB: save it",
            href=f"data:{KINDS[kind]};base64,{b64encode(content).decode()}",
            download=name,
        )
        self.link.value = tag("div", link, css="dropper-words", role="status")

    def clear(self) -> None:
        """Take the link away: the picture is another one now."""
        if self.link.value:
            self.link.value = ""
