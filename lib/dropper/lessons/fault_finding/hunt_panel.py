"""Hunt panel: a hidden fault: buy readings one at a time, name the part, and see how the best way would have gone."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...bench import diagnosis
from ...circuit.html import items, joined, tag
from ...circuit.lamp import Lamp, replace_at
from ..kit import faulty_circuit, sliders
from ..kit.css import STYLE
from ..kit.goals import GoalList
from ..kit.lamp_box import LampBox, first_lamp
from ..kit.markup import Html
from ..kit.picture_panel import PicturePanel
from ..kit.prediction import Prediction
from ..kit.record import record
from . import hunt_figure, hunt_view
from .goals import GOALS
from .hunt_box import HuntBox, choice
from .hunt_view import Fault, View
from .odds_list import others_folded

_NOW = "Now see for yourself: buy readings, and name the part."


class Hunt(PicturePanel):
    """A lamp with a hidden fault, to be found with few and safe measurements.

    Parameters
    ----------
    path
        The lamp file; the files beside it are offered too.
    seed
        Number of the first hunt, 0 to 99999; at random unless given.
    fault
        Fixes the fault of the first hunt.
    code
        A teacher's code, in place of the two.
    ask
        Ask for a prediction before anything is measured.

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
    drawing : Html
        The lamp's circuit; the broken part is marked once the hunt is over.
    odds_box : widgets.VBox
        The odds as bars, and below them those of the causes that have none.
    others : Html
        The latter.
    prediction : Prediction or None
        Judged once a part has been named.
    goal_list : GoalList
    """

    picture, lesson, goals = hunt_figure, hunt_view, GOALS
    causes: Mapping[str, str] = {
        "diode": "A short diode is the more common of the two. That says where to look first; it finds nothing.",
        "groups": "They would show just this. So would one short diode.",
        "again": "The meter is right about both, and what it shows is the same.",
    }

    def __init__(
        self,
        path: str | Path,
        seed: int | None = None,
        fault: Fault | None = None,
        code: str | None = None,
        ask: bool = True,
    ):
        super().__init__()
        path, self._judged, self.prediction = Path(path), False, None
        lamp, file, note = first_lamp(path)
        lamp = replace_at(lamp, "mains.harmonics", {})
        if file != path.name:
            try:
                hunt_view.new_hunt(lamp, seed, fault, code)
            except (ValueError, ArithmeticError) as error:
                note = f"The {lamp.name} cannot be hunted in ({error})."
                lamp, file = replace_at(Lamp.from_toml(path), "mains.harmonics", {}), path.name
        self.lamp_box = LampBox(path.parent, file, self.set_lamp, self.complain, note=note)
        self.hunt_box = HuntBox(lamp, self._begin, self.attempt)
        self.measurement, self.suspect = choice("measurement"), choice("part at fault")
        self.price, self.result, self.table = (sliders.words() for _ in range(3))
        self.drawing, self.others, self.goal_list = Html(), Html(), GoalList(self.goals)
        self.odds_box = widgets.VBox([self.picture_box, self.others])
        self.odds = widgets.Checkbox(
            value=False,
            description="show the odds (help, costs points)",
            indent=False,
            layout=widgets.Layout(width="auto"),
        )
        self.odds.observe(lambda _: self.refresh(), "value")
        self.measurement.observe(lambda _: self._write_price(), "value")
        self._buttons = (
            sliders.button("Measure", "Takes this measurement", self.measure),
            sliders.button("Name the part", "Says that this is the fault", self.name_part),
            sliders.button("Hint", "Says what to measure next; costs points", self.hint),
            sliders.button("Give up", "Shows the fault", self.give_up),
        )
        self._begin(lambda: hunt_view.new_hunt(lamp, seed, fault, code))
        question = self.question() if ask else None
        if question:
            self.prediction = Prediction(*question, self._go_on, self.causes, self.hunt.lamp.name)
            self._disable(True)
        self.children = self._rows()
        self.add_class("dropper-hunt")

    def _rows(self):
        measure, name, hint, give_up = self._buttons
        left = widgets.VBox([self.table, self.sentence])
        right = widgets.VBox([self.drawing, self.odds_box])
        columns = widgets.Box([left, right])
        for box, css in ((columns, "columns"), (left, "left"), (right, "right")):
            box.add_class(f"dropper-{css}")
        return [
            Html(STYLE),
            self.lamp_box,
            self.complaint,
            *([self.prediction] if self.prediction else []),
            widgets.HBox([self.measurement, measure]),
            self.price,
            widgets.HBox([self.suspect, name, hint, give_up, self.odds]),
            self.result,
            columns,
            self.goal_list,
            self.hunt_box,
            self.save_box,
            sliders.words(joined(hunt_view.CAUTION)),
        ]

    @property
    def hunt(self) -> diagnosis.Hunt:
        """The hunt that goes on."""
        return self.setting

    def set_lamp(self, lamp: Lamp) -> None:
        """Begin the hunt of the number in the box with another lamp."""
        before = self.hunt.lamp
        self._begin(lambda: self.hunt_box.by_number(replace_at(lamp, "mains.harmonics", {})))
        if self.hunt.lamp == before:
            return
        self.goal_list.clear()
        question = self.question() if self.prediction else None
        if question:
            self._judged = False
            self.prediction.ask(*question, self.hunt.lamp.name)
            if self.prediction.answered:
                self.prediction.tell(_NOW)
        elif self.prediction:
            self._judged = True
            self.prediction.withdraw("The question is not about this lamp.")

    # what is asked

    def question(self) -> tuple[str, dict[str, str]] | None:
        """Which of two faults that look alike at the plug it is, and the answers by key; None where there are none."""
        return hunt_view.question_of(self.hunt.lamp)

    def verdict(self) -> tuple[str, str]:
        """The key of the answer that holds, and what the meter shows with each of the two."""
        return hunt_view.verdict_of(self.hunt.lamp)

    def _go_on(self):
        self._disable(False)
        self.prediction.tell(_NOW)
        record("hunt", self.prediction)

    def _judge(self):
        """Once a part has been named or shown: say what has come of the prediction."""
        if self.prediction and self.prediction.answered and not self._judged:
            self._judged = True
            right, outcome = self.verdict()
            self.prediction.judge(right, outcome)
            record("hunt", self.prediction, right)

    def _disable(self, asleep):
        for control in (self.measurement, self.suspect, self.odds, *self._buttons):
            control.disabled = asleep
        self.goal_list.layout.display = "none" if asleep else ""

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
            self._judge()

    def hint(self) -> None:
        """Say what to measure next."""
        if not self.hunt.over:
            self._write_result(self.hunt.hint())

    def give_up(self) -> None:
        """Show the fault."""
        if not self.hunt.over:
            self._write_result(self.hunt.give_up().words)
            self.refresh()
            self._judge()

    # what is shown

    def view_of(self, setting: diagnosis.Hunt) -> View:
        return hunt_view.view_of(setting, self.odds.value)

    def show(self, view: Any) -> None:
        left = [] if self.hunt.over else [(act.words, act.key) for act in self.hunt.choices()]
        self.measurement.options = [("–", ""), *left]
        self._write_price()
        super().show(view)

    def draw(self) -> None:
        for box in (self.odds_box, self.save_box):
            box.layout.display = None if self.view.bars else "none"
        super().draw()
        self.drawing.value = faulty_circuit.draw(self.hunt.lamp, self.view.fault, self.view.now)
        self.others.value = others_folded(self.view.bars)

    def write(self) -> None:
        super().write()
        rows = items(
            joined(tag("b", f"{act}:"), f" {reading} ", tag("i", f"({danger})"))
            for act, reading, danger in self.view.rows
        )
        self.table.value = rows and tag("div", tag("b", "Measured so far"), tag("ol", rows), css="dropper-words")
        self.goal_list.check(self.view, None, None)

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
        head, dot, more = text.partition(". ")
        said = joined(tag("b", f"{head}{dot}"), more)
        self.result.value = tag("div", said, css="dropper-words said outcome", role="status") if text else ""
