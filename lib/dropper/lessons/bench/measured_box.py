"""Measured box: one figure that a plug-in meter showed, inside or outside the ± of its prediction."""

from collections.abc import Callable

import ipywidgets as widgets

from ...circuit.fields import Spec
from ...circuit.html import tag
from ...circuit.values import unbroken
from ...design.uncertainty import ErrorBudget, judge
from ..kit import sliders
from ..kit.typed_value import typed_value

# What a meter in the socket shows of a closed lamp, then what is read inside it: name, reading, unit, what it may be.
_METERED = {
    "line current": ("line_current_rms", "A", Spec("A", 0, 10)),
    "power": ("real_power", "W", Spec("W", 0, 1000)),
    "apparent power": ("apparent_power", "VA", Spec("VA", 0, 1000)),
    "power factor": ("power_factor", "", Spec("", 0, 1)),
    "string current, mean": ("string_current_mean", "A", Spec("A", 0, 10)),
    "percent flicker": ("percent_flicker", "%", Spec("%", 0, 100)),
    "bus voltage, mean": ("bus_voltage_mean", "V", Spec("V", 0, 2000)),
    "bus ripple, p–p": ("bus_ripple", "V", Spec("V", 0, 2000)),
}


class MeasuredBox(widgets.VBox):
    """A field for what was measured, and its verdict.

    Parameters
    ----------
    budget
        Gives the ± of the lamp that is predicted, when called with nothing.

    Attributes
    ----------
    choice : widgets.Dropdown
        Which reading it is.
    field : widgets.Text
        What the meter showed, as people write it.
    verdict : Html
    """

    def __init__(self, budget: Callable[[], ErrorBudget]):
        self._budget = budget
        style = {"description_width": "150px"}
        self.choice = widgets.Dropdown(
            options=list(_METERED), description="Measured", style=style, layout=widgets.Layout(width="300px")
        )
        self.field = widgets.Text(
            placeholder="22 mA",
            description="as read",
            style={"description_width": "70px"},
            layout=widgets.Layout(width="190px"),
        )
        self.field.continuous_update = False
        self.verdict = sliders.words()
        button = sliders.button("Inside or outside?", "Is it within the ± of the prediction?", self.judge)
        super().__init__([widgets.HBox([self.choice, self.field, button]), self.verdict])

    def judge(self) -> None:
        """Judge what was typed, against the lamp on the sliders and its mains."""
        key, unit, spec = _METERED[self.choice.value]
        try:
            measured = typed_value(self.choice.value, self.field.value, unit, spec)
            bars = self._budget().bars
            if not bars:
                raise ValueError("The predicted lamp stays dark: there is no reading to compare with")
            words = judge(bars[key], measured).words
        except (ValueError, ArithmeticError) as error:
            self.verdict.value = tag("div", str(error), css="dropper-words wrong", role="alert")
            return
        self.verdict.value = tag("p", unbroken(words), css="dropper-words", role="status")
