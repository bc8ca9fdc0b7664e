"""Own readings of a lamp, and what they say of its fault."""

from html import escape
from pathlib import Path

import ipywidgets as widgets

from ...bench.diagnosis.evidence import WORDS
from ...circuit.lamp import Lamp, replace_at
from ..kit import sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox
from . import figure
from . import view as lesson

_LABEL = {"description_width": "170px"}
_WIDTH, _PICTURE = "390px", "780px"


class FaultFinding(widgets.VBox):
    """Readings are typed in, and every cause gets its odds.

    Parameters
    ----------
    path
        The lamp file as it is when healthy; the files beside it are offered too.
    """

    def __init__(self, path: str | Path):
        self._path, self._busy = Path(path), False
        self._wrong, self._said, self._told = (sliders.words() for _ in range(3))
        self._curves = widgets.HTML()
        layers = [widgets.HTML(figure.backdrop()), self._curves]
        for layer in layers:
            layer.layout = widgets.Layout(grid_area="1 / 1", width="100%", margin="0")
        self._fields = {
            field: widgets.Text(
                description=name,
                placeholder=f"such as {example}",
                continuous_update=False,
                style=_LABEL,
                layout=widgets.Layout(width=_WIDTH),
            )
            for field, name, example in lesson.NUMBERS
        } | {
            field: widgets.Dropdown(
                description=name,
                options=[("not looked at", ""), *((words, key) for key, words in WORDS[field].items())],
                style=_LABEL,
                layout=widgets.Layout(width=_WIDTH),
            )
            for field, name in lesson.CHOICES
        }
        self._live = widgets.Checkbox(value=False, description="propose live measurements too", indent=False)
        for control in (*self._fields.values(), self._live):
            control.observe(lambda _: self._update(), "value")
        half = (len(self._fields) + 1) // 2
        columns = list(self._fields.values())
        super().__init__(
            [
                widgets.HTML(STYLE),
                LampBox(self._path.parent, self._path.name, self._put_lamp, self.complain),
                sliders.words(escape(lesson.CAUTION)),
                self._wrong,
                widgets.HBox([widgets.VBox(columns[:half]), widgets.VBox(columns[half:])]),
                widgets.HBox(
                    [
                        sliders.button("Take the bench readings", "Fills in what the lamp file has", self.take),
                        sliders.button("Clear", "Empties every field", self.clear),
                        self._live,
                    ]
                ),
                self._said,
                widgets.GridBox(layers, layout=widgets.Layout(width=_PICTURE)),
                self._told,
            ]
        )
        self.add_class("dropper-finding")
        self._put_lamp(Lamp.from_toml(path))

    def take(self) -> None:
        """Fill in the bench readings of the lamp file."""
        texts = lesson.typed(self.lamp.readings)
        if not texts:
            return self.complain(f"The file of the {self.lamp.name} has no bench readings.")
        return self._fill(texts)

    def clear(self) -> None:
        """Empty every field."""
        self._fill({})

    def complain(self, text: str) -> None:
        """Say what was wrong; nothing else changes."""
        self._wrong.value = f'<div class="dropper-words wrong" role="alert">{escape(text)}</div>' if text else ""

    def _fill(self, texts):
        self._busy = True
        for field, control in self._fields.items():
            control.value = texts.get(field, "")
        self._busy = False
        self._update()

    def _put_lamp(self, lamp):
        sine = replace_at(lamp, "mains.harmonics", {})
        self._show(sine, lesson.view_of(sine, lesson.read(self._texts()), self._live.value))

    def _texts(self):
        return {field: control.value for field, control in self._fields.items()}

    def _update(self):
        if self._busy:
            return
        try:
            view = lesson.view_of(self.lamp, lesson.read(self._texts()), self._live.value)
        except (ValueError, ArithmeticError) as error:
            self.complain(str(error))
            return
        self._show(self.lamp, view)

    def _show(self, lamp, view):
        self.lamp, self.view = lamp, view
        words = figure.sentence(view)
        self._curves.value = figure.overlay(view.bars, words, figure.BEFORE)
        self._said.value = f'<div class="dropper-words said" role="status">{escape(words)}</div>'
        rows = "".join(
            f"<li><b>{escape(chance)}: {escape(cause)}.</b> {escape(why)}</li>" for cause, chance, why in view.causes
        )
        head = "<b>What speaks for and against</b>"
        self._told.value = f'<div class="dropper-words">{head}<ol>{rows}</ol></div>' if view.taken else ""
        self.complain("")
