"""Hunt box: which hunt it is: by its number, by a teacher's code; and a code to be made for a class."""

from collections.abc import Callable

import ipywidgets as widgets

from ...bench.diagnosis import Hunt
from ...bench.diagnosis.share_code import SEEDS
from ...circuit.html import tag
from ...circuit.lamp import Lamp
from ..kit import sliders

LABEL = {"description_width": "150px"}
_AT_RANDOM = "drawn at random"


class HuntBox(widgets.VBox):
    """The number of a hunt, a teacher's code to open, and a code to make.

    Parameters
    ----------
    begin
        Called with what makes a hunt when called with nothing.
    attempt
        As `PicturePanel.attempt`.

    Attributes
    ----------
    number : widgets.BoundedIntText
    more : widgets.Checkbox
        Whether what a class needs is shown: codes, and whether anything live may be measured.
    live : widgets.Checkbox
        Whether live measurements are allowed.
    code : widgets.Text
        The code to open.
    fault : widgets.Dropdown
        The fault that the code for a class hides.
    new_code : Html
        The code that was made.
    """

    def __init__(self, lamp: Lamp, begin: Callable[[Callable[[], Hunt]], None], attempt: Callable):
        self._lamp, self._begin, self._attempt = lamp, begin, attempt
        self.number = widgets.BoundedIntText(
            value=1, min=0, max=SEEDS - 1, description="hunt number", style=LABEL, layout=widgets.Layout(width="270px")
        )
        self.live = widgets.Checkbox(
            value=False, description="live measurements allowed", indent=False, layout=widgets.Layout(width="auto")
        )
        self.code = widgets.Text(
            description="teacher's code",
            placeholder="such as 7KQ4-9XN",
            style=LABEL,
            layout=widgets.Layout(width="390px"),
        )
        self.fault, self.new_code = choice("hide this fault", "520px"), sliders.words()
        new = sliders.button("New hunt", "Begins this number's hunt", self.new)
        opened = widgets.HBox([self.code, sliders.button("Open the code", "Begins the code's hunt", self.open_code)])
        make = sliders.button("Make a code", "Writes a code for the class; it does not show the fault", self.make_code)
        place = widgets.VBox([opened, self.live, widgets.HBox([self.fault, make]), self.new_code])
        place.layout.display = "none"
        self.more = widgets.Checkbox(value=False, description="codes of a class, and live measurements", indent=False)
        self.more.observe(lambda change: setattr(place.layout, "display", None if change["new"] else "none"), "value")
        super().__init__([widgets.HBox([self.number, new, self.more]), place])

    def show(self, hunt: Hunt) -> None:
        """Show which hunt has begun, and offer its lamp's faults; the number of a code's hunt could tell its fault."""
        self._lamp = hunt.lamp
        self.live.value = hunt.live
        if not hunt.coded:
            self.number.value = hunt.seed
        self.fault.options = [(_AT_RANDOM, ""), *hunt.suspects()]

    def by_number(self, lamp: Lamp, fault: tuple | None = None) -> Hunt:
        """The hunt of the number in the box, for a lamp.

        Parameters
        ----------
        fault
            Its name, as in `Hunt.suspects`; drawn by the number where it is not given.
        """
        return Hunt(lamp, self.number.value, fault, live=self.live.value)

    def new(self) -> None:
        """Begin the hunt of the number in the box."""
        self._begin(lambda: self.by_number(self._lamp))

    def open_code(self) -> None:
        """Begin the hunt that a code stands for."""
        self._begin(lambda: Hunt.from_code(self._lamp, self.code.value))

    def make_code(self) -> None:
        """Write the code of a hunt, its fault chosen or drawn; the hunt on the panel goes on."""
        hunt = self._attempt(lambda: self.by_number(self._lamp, self.fault.value or None))
        if hunt is not None:
            words = f"Code for a class, with the {self._lamp.name}: "
            self.new_code.value = tag("div", words, tag("b", hunt.code), css="dropper-words", role="status")


def choice(name: str, width: str = "620px") -> widgets.Dropdown:
    """A list to choose from, empty at first."""
    return widgets.Dropdown(description=name, options=[("–", "")], style=LABEL, layout=widgets.Layout(width=width))
