"""Part-check panel: what stands on a part and what the meter read: what it means, and whether it is in tolerance."""

from collections.abc import Mapping
from typing import Any

import ipywidgets as widgets

from ...circuit.html import Markup, tag
from ..kit.css import STYLE
from ..kit.markup import Html
from ..kit.part_drawing import SIZE, draw
from ..kit.table_panel import TablePanel, choice, field
from . import board
from . import figure as picture
from . import view as prints
from .goals import GOALS
from .view import Print


class PartCheck(TablePanel):
    """A print as typed, every meaning of it, and measured against marked.

    Parameters
    ----------
    text
        The print to start with.
    measured
        What the meter read, "" for nothing yet: so a prediction is not given away.
    ask
        Ask for a prediction before the fields wake.
    """

    picture, lesson, goals = picture, prints, GOALS
    decisive = ("measured",)
    causes: Mapping[str, str] = {
        "within": "The reading is above the least that the mark allows. But the meter may be off as well, and its true"
        " value may lie below.",
        "outside": "It is far from 470 nF, and still the mark allows that much.",
    }
    field_names = (("marking", "on the part"), ("measured", "meter reads"))

    def __init__(self, text: str = "474K 275V~ X2", measured: str = "", ask: bool = True):
        super().__init__(prints.Print(text=text, measured=measured or None), ask)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            "A film capacitor is marked 474K: 470 nF ±10 %. A meter good for ±4 % and 5 digits reads 430 nF. Is the"
            " capacitor within its tolerance? Type 430 nF to see.",
            {"within": "Yes, within.", "outside": "No, outside.", "cannot tell": "This meter cannot tell."},
        )

    def verdict(self) -> tuple[str, str]:
        judgement = prints.view_of(prints.Print(text="474K", measured="430 nF")).judgement
        return judgement.word, f"For 430 nF: {judgement.word}. {judgement.sentence}"

    def make_sliders(self, setting: Print) -> dict[str, widgets.Widget]:
        view = prints.view_of(setting)
        sliders = {
            "text": field("on the part", setting.text, "474K 250V"),
            "meaning": choice("take it as", _meanings(view), prints.name_of(view.meaning)),
            "measured": field("meter reads", setting.measured or "", "430 nF"),
        }
        for name, words, step in (("percent", "meter, ± %", 0.1), ("counts", "meter, ± digits", 1.0)):
            sliders[name] = widgets.BoundedFloatText(
                description=words,
                value=self._typical(view, name),
                min=0,
                max=50,
                step=step,
                style={"description_width": "110px"},
                layout=widgets.Layout(width="220px"),
            )
        return sliders

    def reset(self) -> None:
        kept_view = self.kept_view
        self.start_from(self.initial)
        self.kept_view = kept_view
        self.refresh()

    def move(self, path: str, value: Any) -> None:
        super().move(path, value)
        for other in [key for key in self._complaints if key != path]:
            super().move(other, self.sliders[other].value)  # with another part it may do

    def _typical(self, view, name):
        percent, counts = prints.meter_for(view.setting, view.meaning.unit)
        return percent if name == "percent" else counts

    def show(self, view: Any) -> None:
        super().show(view)
        busy, self._busy = self._busy, True  # what follows the print moves without being moved
        choices, options, name = self.sliders["meaning"], _meanings(view), prints.name_of(view.meaning)
        if choices.options != options:
            choices.options = options
        if choices.value != name:
            choices.value = name
        for path in ("percent", "counts"):
            self.sliders[path].value = self._typical(view, path)
        self._busy = busy


def _meanings(view):
    names = [prints.name_of(meaning) for meaning in view.meanings]
    return tuple(zip(names, names, strict=True))


class WhichWay(widgets.VBox):
    """Which part is which, and which way round it goes: a drawn part and words, one part at a time.

    Attributes
    ----------
    choice : widgets.Dropdown
        The part.
    drawing : Html
    """

    def __init__(self):
        self.choice = choice("part", [(shape.name, key) for key, shape in board.SHAPES.items()], "electrolytic")
        self.choice.observe(lambda _: self._draw(), "value")
        self.drawing = Html()
        super().__init__([Html(STYLE), self.choice, self.drawing])
        self._draw()

    def _draw(self):
        shape = board.SHAPES[self.choice.value]
        drawing = tag(
            "svg",
            Markup(draw(shape.key)),
            role="img",
            aria_label=shape.words,
            viewBox=f"0 0 {SIZE[0]} {SIZE[1]}",
            width="288",
            height="276",
            style="flex-shrink:0",
        )
        texts = [tag("p", text) for text in (shape.looks, shape.way, shape.sure, board.SOURCE)]
        self.drawing.value = tag(
            "div",
            drawing,
            tag("div", tag("b", shape.name), *texts),
            css="dropper-words",
            role="status",
            style="display:flex;gap:20px;max-width:900px",
        )
