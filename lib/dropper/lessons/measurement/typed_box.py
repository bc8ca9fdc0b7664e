"""Typed box: readings typed by hand: do they agree with one another, and with the prediction?"""

from collections.abc import Callable

import ipywidgets as widgets

from ...circuit.html import joined, table, tag
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ..kit import sliders
from . import view

_HEAD = joined(tag("b", "Readings typed by hand"), ", as a plug-in meter and a voltmeter showed them")


class TypedBox(widgets.VBox):
    """Fields for what a plug-in meter and a voltmeter showed, and their verdict.

    Parameters
    ----------
    lamp
        Gives the lamp to predict, when called with nothing.

    Attributes
    ----------
    fields : dict of str to widgets.Text
    verdict : Html
    """

    def __init__(self, lamp: Callable[[], Lamp]):
        self._lamp = lamp
        self.fields = {
            key: widgets.Text(
                description=words, style={"description_width": "100px"}, layout=widgets.Layout(width="200px")
            )
            for key, words, _ in view.TYPED
        }
        self.fields["bus_voltage"].description = "dc volts"
        self.verdict = sliders.words()
        judge = sliders.button("Judge these readings", "Do they agree with one another and the prediction?", self.judge)
        super().__init__(
            [sliders.words(_HEAD), widgets.HBox([*self.fields.values()]), widgets.HBox([judge]), self.verdict]
        )
        self.fill(lamp())

    def fill(self, lamp: Lamp) -> None:
        """Fill the fields with a lamp file's own readings."""
        for key, _, unit in view.TYPED:
            value = getattr(lamp.readings, key)
            self.fields[key].value = "" if value is None else show(value, unit, 4)
        self.verdict.value = ""

    def judge(self) -> None:
        """Judge what was typed."""
        try:
            texts = {key: field.value for key, field in self.fields.items()}
            _, sentence, rows = view.compare_readings(self._lamp(), texts)
        except ValueError as error:
            self.verdict.value = tag("div", str(error), css="dropper-words wrong", role="alert")
            return
        caption = "Read, and what the lamp on the sliders should show on these volts"
        heads = ("reading", "read", "should be in", "so it is")
        self.verdict.value = joined(
            tag("p", sentence, css="dropper-words", role="status"),
            table(caption, heads, rows, css="dropper-table", cells={3: 'class="now"'}),
        )
