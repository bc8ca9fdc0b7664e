"""Type what stands on a part, and what the meter read: what it can mean, and whether it keeps its tolerance."""

from html import escape

import ipywidgets as widgets

from ..kit.css import STYLE
from ..kit.part_drawing import SIZE, draw
from ..kit.table_panel import TablePanel, choice, field
from . import board
from . import figure as picture
from . import view as prints
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

    picture, lesson = picture, prints
    decisive = ("measured",)
    called = (("marking", "on the part"), ("measured", "meter reads"))

    def __init__(self, text: str = "474K 275V~ X2", measured: str = "", ask: bool = True):
        super().__init__(prints.Print(text=text, measured=measured or None), ask)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            "A film capacitor is marked 474K. A meter good for ±4 % and 5 digits reads 430 nF. Is the capacitor within"
            " its tolerance?",
            {"within": "yes, within", "outside": "no, outside", "cannot tell": "this meter cannot tell"},
        )

    def verdict(self) -> tuple[str, ...]:
        judged = prints.view_of(prints.Print(text="474K", measured="430 nF")).judged
        return judged.word, f"For 430 nF: {judged.word}. {judged.sentence}"

    def make_sliders(self, own: Print) -> dict:
        view = prints.view_of(own)
        sliders = {
            "text": field("on the part", own.text, "474K 250V"),
            "taken": choice("take it as", _meanings(view), prints.name_of(view.taken)),
            "measured": field("meter reads", own.measured or "", "430 nF"),
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
        kept = self._kept
        self.put(self.own)
        self._kept = kept
        self._update()

    def _move(self, path, value):
        super()._move(path, value)
        for other in [each for each in self._refused if each != path]:
            super()._move(other, self._sliders[other].value)  # with another part it may do

    def _typical(self, view, name):
        percent, counts = prints.meter_for(view.setting, view.taken.unit)
        return percent if name == "percent" else counts

    def _show(self, view):
        super()._show(view)
        busy, self._busy = self._busy, True  # what follows the print moves without being moved
        taken, options, name = self._sliders["taken"], _meanings(view), prints.name_of(view.taken)
        if taken.options != options:
            taken.options = options
        if taken.value != name:
            taken.value = name
        for path in ("percent", "counts"):
            self._sliders[path].value = self._typical(view, path)
        self._busy = busy


def _meanings(view):
    return tuple((prints.name_of(each), prints.name_of(each)) for each in view.meanings)


class WhichWay(widgets.VBox):
    """Which part is which, and which way round it goes: a drawn part and words, one part at a time."""

    def __init__(self):
        self._choice = choice("part", [(shape.name, key) for key, shape in board.SHAPES.items()], "electrolytic")
        self._choice.observe(lambda _: self._put(), "value")
        self._drawn = widgets.HTML()
        super().__init__([widgets.HTML(STYLE), self._choice, self._drawn])
        self._put()

    def _put(self):
        shape = board.SHAPES[self._choice.value]
        label = escape(shape.words, quote=True)
        drawn = (
            f'<svg role="img" aria-label="{label}" viewBox="0 0 {SIZE[0]} {SIZE[1]}" width="288" height="276"'
            f' style="background:#fff;flex-shrink:0">{draw(shape.key)}</svg>'
        )
        rows = "".join(f"<p>{escape(text)}</p>" for text in (shape.looks, shape.way, shape.sure, board.SOURCE))
        self._drawn.value = (
            f'<div class="dropper-words" role="status" style="display:flex;gap:20px;max-width:900px">{drawn}<div>'
            f"<b>{escape(shape.name)}</b>{rows}</div></div>"
        )
