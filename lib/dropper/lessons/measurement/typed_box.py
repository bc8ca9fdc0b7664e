"""Readings typed by hand: do they agree with one another, and with the prediction?"""

from collections.abc import Callable
from html import escape

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show
from ..kit import sliders
from . import view


class TypedBox(widgets.VBox):
    """Fields for what a plug-in meter and a voltmeter showed, and their verdict.

    `lamp()` gives the lamp to predict.
    """

    def __init__(self, lamp: Callable):
        self._lamp = lamp
        self._fields = {
            key: widgets.Text(
                description=words, style={"description_width": "100px"}, layout=widgets.Layout(width="200px")
            )
            for key, words, _ in view.TYPED
        }
        self._fields["bus_voltage"].description = "dc volts"
        self._said = sliders.words()
        judge = sliders.button("Judge these readings", "Do they agree with one another and the prediction?", self.judge)
        super().__init__(
            [
                sliders.words("<b>Readings typed by hand</b>, as a plug-in meter and a voltmeter showed them"),
                widgets.HBox([*self._fields.values()]),
                widgets.HBox([judge]),
                self._said,
            ]
        )
        self.put(lamp())

    def put(self, lamp: Lamp) -> None:
        """Fill the fields with a lamp file's own readings."""
        for key, _, unit in view.TYPED:
            value = getattr(lamp.readings, key)
            self._fields[key].value = "" if value is None else show(value, unit, 4)
        self._said.value = ""

    def judge(self) -> None:
        """Judge what was typed."""
        try:
            _, said, rows = view.compare_readings(self._lamp(), {key: each.value for key, each in self._fields.items()})
        except ValueError as error:
            self._said.value = f'<div class="dropper-words wrong" role="alert">{escape(str(error))}</div>'
            return
        body = "".join(
            f'<tr><th scope="row">{escape(name)}</th><td>{escape(read)}</td><td>{escape(band)}</td>'
            f'<td class="now">{escape(verdict)}</td></tr>'
            for name, read, band, verdict in rows
        )
        heads = "".join(f'<th scope="col">{text}</th>' for text in ("reading", "read", "should be in", "so it is"))
        self._said.value = (
            f'<p class="dropper-words" role="status">{escape(said)}</p><table class="dropper-table"><caption>Read, and'
            " what the lamp on the sliders should show on these volts</caption>"
            f"<thead><tr>{heads}</tr></thead><tbody>{body}</tbody></table>"
        )
