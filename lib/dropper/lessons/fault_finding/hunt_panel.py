"""Hunt panel: a hidden fault: buy readings one at a time, name the part, and see how the best way would have gone."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...bench import diagnosis
from ...circuit.html import items, joined, tag
from ...circuit.lamp import Lamp, replace_at
from ..kit import sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox
from ..kit.markup import Html
from ..kit.picture_panel import PicturePanel
from . import hunt_figure, hunt_view
from .hunt_box import HuntBox, choice
from .hunt_view import Fault, View


class Hunt(PicturePanel):
    """A lamp with a hidden fault, to be found with few and safe measurements.

    Parameters
    ----------
    path
        The lamp file; the files beside it are offered too.
    seed
        Number of the first hunt, 0 to 99999; by lot unless given.
    fault
        Fixes the fault of the first hunt.
    code
        A teacher's code, in place of the two.

    Attributes
    ----------
    lamp_box : LampBox
    hunt_box : HuntBox
        Which hunt it is, and codes for a class.
    measurement, suspect : widgets.Dropdown
        What to measure, and what to name.
    odds : widgets.Checkbox
        Whether the odds are shown.
    price, result, table : Html
        What the measurement costs; what came of a name or a hint; what was measured so far.
    """

    picture, lesson = hunt_figure, hunt_view

    def __init__(self, path: str | Path, seed: int | None = None, fault: Fault | None = None, code: str | None = None):
        super().__init__()
        path = Path(path)
        lamp = replace_at(Lamp.from_toml(path), "mains.harmonics", {})
        self.lamp_box = LampBox(path.parent, path.name, self.set_lamp, self.complain)
        self.hunt_box = HuntBox(lamp, self._begin, self.attempt)
        self.measurement, self.suspect = choice("measurement"), choice("part at fault")
        self.price, self.result, self.table = (sliders.words() for _ in range(3))
        self.odds = widgets.Checkbox(
            value=False,
            description="show the odds (help, costs points)",
            indent=False,
            layout=widgets.Layout(width="auto"),
        )
        self.odds.observe(lambda _: self.refresh(), "value")
        self.measurement.observe(lambda _: self._write_price(), "value")
        hint = sliders.button("Hint", "Says what to measure next; costs points", self.hint)
        give_up = sliders.button("Give up", "Shows the fault", self.give_up)
        self.children = [
            Html(STYLE),
            self.lamp_box,
            self.complaint,
            sliders.words(joined(hunt_view.CAUTION)),
            self.hunt_box,
            widgets.HBox([self.measurement, sliders.button("Measure", "Takes this measurement", self.measure)]),
            self.price,
            widgets.HBox(
                [self.suspect, sliders.button("Name the part", "Says that this is the fault", self.name_part)]
            ),
            widgets.HBox([hint, self.odds, give_up]),
            self.result,
            self.table,
            self.picture_box,
            self.save_box,
            self.sentence,
        ]
        self.add_class("dropper-hunt")
        self._begin(lambda: hunt_view.new_hunt(lamp, seed, fault, code))

    @property
    def hunt(self) -> diagnosis.Hunt:
        """The hunt that goes on."""
        return self.setting

    def set_lamp(self, lamp: Lamp) -> None:
        """Begin the hunt of the number in the box with another lamp."""
        self._begin(lambda: self.hunt_box.by_number(replace_at(lamp, "mains.harmonics", {})))

    # what a learner does

    def measure(self) -> None:
        """Take the measurement that is chosen."""
        if not self.measurement.value:
            self.complain("Choose a measurement first.")
        elif self.attempt(lambda: self.hunt.measure(self.measurement.value)) is not None:
            self.refresh()

    def name_part(self) -> None:
        """Name the chosen cause as the fault."""
        if not self.suspect.value:
            self.complain("Choose the part first.")
            return
        score = self.attempt(lambda: self.hunt.name_part(self.suspect.value))
        if score is not None:
            self.refresh()
            self._write_result(score.words)

    def hint(self) -> None:
        """Say what to measure next."""
        if not self.hunt.over:
            self._write_result(self.hunt.hint())

    def give_up(self) -> None:
        """Show the fault."""
        if not self.hunt.over:
            self._write_result(self.hunt.give_up().words)
            self.refresh()

    # what is shown

    def view_of(self, setting: diagnosis.Hunt) -> View:
        return hunt_view.view_of(setting, self.odds.value)

    def show(self, view: Any) -> None:
        left = [] if self.hunt.over else [(act.words, act.key) for act in self.hunt.choices()]
        self.measurement.options = [("–", ""), *left]
        self._write_price()
        super().show(view)

    def draw(self) -> None:
        for box in (self.picture_box, self.save_box):
            box.layout.display = None if self.view.bars else "none"
        super().draw()

    def write(self) -> None:
        super().write()
        rows = items(
            joined(tag("b", f"{act}:"), f" {reading} ", tag("i", f"({danger})"))
            for act, reading, danger in self.view.rows
        )
        self.table.value = rows and tag("div", tag("b", "Measured so far"), tag("ol", rows), css="dropper-words")

    def _begin(self, make: Callable[[], diagnosis.Hunt]):
        hunt = self.attempt(make)
        if hunt is None:
            return
        self.setting = hunt
        self.hunt_box.show(hunt)
        self.suspect.options = [("–", ""), *hunt.suspects()]
        self.suspect.value = ""
        self.odds.value = False
        self._write_result("")
        self.refresh()

    def _write_price(self):
        act = diagnosis.MEASUREMENTS.get(self.measurement.value)
        danger = act.danger[0].upper() + act.danger[1:] if act else ""
        self.price.value = tag("div", f"Cost {act.cost:g}. {danger}.", css="dropper-words") if act else ""

    def _write_result(self, text):
        self.result.value = tag("div", text, css="dropper-words question", role="status") if text else ""
