"""Fault-finding panel: readings of a lamp are typed in, and every cause of a fault gets its odds."""

from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...bench.diagnosis.evidence import WORDS
from ...circuit.html import items, joined, tag
from ...circuit.lamp import Lamp, replace_at
from ..kit import sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox, first_lamp
from ..kit.markup import Html
from ..kit.picture_panel import PicturePanel
from . import figure, view
from .odds_list import others_folded
from .view import Case

_LABEL = {"description_width": "150px"}
_WIDTH = "100%"


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
        Whether live measurements may be proposed, and their fields are shown.
    live_box : widgets.VBox
        These fields.
    others : Html
        The odds of the causes that have no bar.
    reasons : Html
        What speaks for and against each cause.
    """

    picture, lesson = figure, view

    def __init__(self, path: str | Path):
        super().__init__()
        path, self._busy = Path(path), False
        lamp, file, note = first_lamp(path)
        self.lamp_box = LampBox(path.parent, file, self.set_lamp, self.complain, note=note)
        self.fields = {key: _number(name, example) for key, name, example in view.NUMBERS}
        self.fields |= {key: _choice(name, WORDS[key]) for key, name in view.CHOICES}
        self.live = widgets.Checkbox(value=False, description="live readings too", indent=False)
        self.others, self.reasons = Html(), sliders.words()
        for key, control in (*self.fields.items(), ("live", self.live)):
            control.observe(lambda change, key=key: self.move(key, change.new), "value")
        take = sliders.button("Take the bench readings", "Fills in what the lamp file has", self.take)
        clear = sliders.button("Clear", "Empties every field", self.clear)
        groups = [
            widgets.VBox([sliders.words(tag("b", title)), *(self.fields[key] for key in keys)])
            for title, keys in view.grouped(self.fields)
        ]
        for group in groups:
            group.add_class("dropper-even")
        self.live_box = groups.pop()
        left = widgets.VBox([*groups, self.live, self.live_box, widgets.HBox([take, clear])])
        right = widgets.VBox([self.sentence, self.picture_box, self.others, self.reasons, self.save_box])
        columns = widgets.Box([left, right])
        for box, css in ((columns, "columns"), (left, "left"), (right, "right")):
            box.add_class(f"dropper-{css}")
        warned = sliders.words(joined(view.CAUTION))
        self.children = [Html(STYLE), self.lamp_box, warned, self.complaint, self.progress, columns]
        self.add_class("dropper-finding")
        try:
            self.set_lamp(lamp)
        except (ValueError, ArithmeticError) as error:
            if file == path.name:
                raise
            self.lamp_box.follow(path)
            self.complain(f"The {lamp.name} cannot be shown here ({error}). This is the {self.lamp.name}.")

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
        typed = any(control.value for control in self.live_box.children[1:])
        self.live_box.layout.display = None if self.live.value or typed else "none"
        self.others.value = others_folded(self.view.bars)
        causes = items(joined(tag("b", f"{chance}: {cause}."), f" {why}") for cause, chance, why in self.view.causes)
        fold = tag("details", tag("summary", "What speaks for and against each cause"), tag("ol", causes))
        self.reasons.value = tag("div", fold, css="dropper-words") if self.view.count else ""


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
