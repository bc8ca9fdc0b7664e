"""Fault-finding panel: readings of a lamp are typed in, and every cause of a fault gets its odds."""

from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...bench.diagnosis.evidence import WORDS
from ...circuit.html import items, joined, tag
from ...circuit.lamp import Lamp, replace_at
from ..kit import sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox
from ..kit.markup import Html
from ..kit.picture_panel import PicturePanel
from . import figure, view
from .view import Case

_LABEL = {"description_width": "170px"}
_WIDTH = "390px"


class FaultFinding(PicturePanel):
    """Readings of one's own, and what they say of a lamp's fault.

    Parameters
    ----------
    path
        The lamp file as it is when healthy; the files beside it are offered too.

    Attributes
    ----------
    lamp_box : LampBox
    fields : dict of str to widget
        By field of `bench.diagnosis.Evidence`.
    live : widgets.Checkbox
        Whether live measurements may be proposed.
    reasons : Html
        What speaks for and against each cause.
    """

    picture, lesson = figure, view

    def __init__(self, path: str | Path):
        super().__init__()
        path, self._busy = Path(path), False
        self.lamp_box = LampBox(path.parent, path.name, self.set_lamp, self.complain)
        self.fields = {key: _number(name, example) for key, name, example in view.NUMBERS}
        self.fields |= {key: _choice(name, WORDS[key]) for key, name in view.CHOICES}
        self.live = widgets.Checkbox(value=False, description="propose live measurements too", indent=False)
        self.reasons = sliders.words()
        for key, control in (*self.fields.items(), ("live", self.live)):
            control.observe(lambda change, key=key: self.move(key, change.new), "value")
        half = (len(self.fields) + 1) // 2
        columns = list(self.fields.values())
        take = sliders.button("Take the bench readings", "Fills in what the lamp file has", self.take)
        clear = sliders.button("Clear", "Empties every field", self.clear)
        self.children = [
            Html(STYLE),
            self.lamp_box,
            sliders.words(joined(view.CAUTION)),
            self.complaint,
            self.progress,
            widgets.HBox([widgets.VBox(columns[:half]), widgets.VBox(columns[half:])]),
            widgets.HBox([take, clear, self.live]),
            self.sentence,
            self.picture_box,
            self.save_box,
            self.reasons,
        ]
        self.add_class("dropper-finding")
        self.set_lamp(Lamp.from_toml(path))

    @property
    def lamp(self) -> Lamp:
        """The lamp as it is when healthy."""
        return self.setting.lamp

    def set_lamp(self, lamp: Lamp) -> None:
        """Put another lamp on the panel; what was typed stays."""
        self.start_from(self._case(replace_at(lamp, "mains.harmonics", {})))

    def take(self) -> None:
        """Fill in the bench readings of the lamp file."""
        texts = view.texts_of(self.lamp.readings)
        if texts:
            self._fill(texts)
        else:
            self.complain(f"The file of the {self.lamp.name} has no bench readings.")

    def clear(self) -> None:
        """Empty every field."""
        self._fill({})

    def move(self, path: str, value: Any) -> None:
        if not self._busy:
            super().move(path, value)

    def changed(self, path: str, value: Any) -> Case:
        """The lamp with all that is typed: a field that cannot be read is told until it is mended."""
        return self._case(self.lamp)

    def controls(self) -> list[widgets.Widget]:
        return [control for control in self.fields.values() if control.value]

    def _case(self, lamp):
        return Case(lamp, {key: control.value for key, control in self.fields.items()}, self.live.value)

    def _fill(self, texts):
        self._busy = True
        for key, control in self.fields.items():
            control.value = texts.get(key, "")
        self._busy = False
        self.move("texts", texts)

    def write(self) -> None:
        super().write()
        causes = items(joined(tag("b", f"{chance}: {cause}."), f" {why}") for cause, chance, why in self.view.causes)
        reasons = tag("div", tag("b", "What speaks for and against"), tag("ol", causes), css="dropper-words")
        self.reasons.value = reasons if self.view.count else ""


def _number(name, example):
    return widgets.Text(
        description=name,
        placeholder=f"such as {example}",
        continuous_update=False,
        style=_LABEL,
        layout=widgets.Layout(width=_WIDTH),
    )


def _choice(name, words):
    return widgets.Dropdown(
        description=name,
        options=[("not looked at", ""), *((text, key) for key, text in words.items())],
        style=_LABEL,
        layout=widgets.Layout(width=_WIDTH),
    )
