"""Parts box: the parts of a design below the panel, why each is there, what to mind, and designs side by side."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import ipywidgets as widgets

from ...circuit.html import tag
from ...design import Design
from ...results import explain
from ..kit import sliders
from ..kit.markup import Html, HtmlMath
from . import parts_list

if TYPE_CHECKING:
    from ...design import Infeasible

_NONE = ("none", "")


class PartsBox(widgets.VBox):
    """What is written of a design, as wide as the page.

    Attributes
    ----------
    parts, notes, kept_designs : Html
        A line for each part, what to mind of them, and designs that were kept, side by side. The notes are for the
        panel to place.
    part_choice : widgets.Dropdown
        The part that is asked about.
    part_reason : HtmlMath
        Why it is that one.
    """

    def __init__(self):
        self._answer = self._last = None
        self.parts, self.notes, self.kept_designs = Html(), Html(), Html()
        for table in (self.parts, self.kept_designs):
            table.add_class("dropper-wide")
        self.part_choice = widgets.Dropdown(
            options=[_NONE],
            description="Why this part?",
            style={"description_width": "110px"},
            layout=widgets.Layout(width="420px"),
        )
        self.part_choice.observe(lambda _: self._explain(), "value")
        self.part_reason = HtmlMath()
        self.others = Html()
        self.others.add_class("dropper-wide")
        beside = sliders.button("Compare with other circuits", "Half wave, two strings, plain resistor", self.compare)
        super().__init__([self.parts, self.part_choice, self.part_reason, beside, self.others, self.kept_designs])

    def compare(self) -> None:
        """The design beside other circuits for its LEDs."""
        self.others.value = parts_list.other_circuits(self._last) if self._last else ""

    def write(self, answer: Design | Infeasible | None, kept: Sequence[Design]) -> None:
        """Write what there is; while another design is worked out, the last one stays and says so.

        Parameters
        ----------
        answer
            None while it is worked out.
        kept
            The designs to show side by side.
        """
        if answer is not self._answer:
            self.others.value = ""
        self._answer = answer
        self.kept_designs.value = parts_list.comparison(kept)
        if answer is not None:
            self._last = answer if isinstance(answer, Design) else None
            self._offer(self._last.parts if self._last else ())
        self.notes.value = parts_list.notes(self._last, answer is not None) if self._last else ""
        self.parts.value = parts_list.parts(self._last, answer is not None) if self._last else ""
        self._explain()

    def _offer(self, parts):
        """The parts that can be asked about; the choice stays where it still stands."""
        options = (_NONE, *((f"{part.symbol}, {part.name}", part.part) for part in parts))
        if self.part_choice.options != options:
            key = self.part_choice.value
            self.part_choice.options = options
            self.part_choice.value = key if key in dict(options).values() else ""

    def _explain(self):
        reason = ""
        if self.part_choice.value and isinstance(self._answer, Design):
            part = self._answer.of(self.part_choice.value)
            reason = tag("div", tag("p", part.sentence), explain.in_html(part.reading), css="dropper-words")
        self.part_reason.value = reason
