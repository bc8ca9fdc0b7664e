"""Measured box: one figure that a plug-in meter showed, inside or outside the ± of its prediction."""

from collections.abc import Callable

import ipywidgets as widgets

from ...circuit.fields import spec_of
from ...circuit.html import tag
from ...circuit.lamp import Readings
from ...circuit.values import unbroken
from ...design.uncertainty import ErrorBudget, judge
from ..kit import sliders
from ..kit.typed_value import typed_value

# What a meter in the socket shows of a closed lamp: name, reading, field of `Readings`, unit.
_METERED = {
    "line current": ("line_current_rms", "current", "A"),
    "power": ("real_power", "power", "W"),
    "apparent power": ("apparent_power", "apparent_power", "VA"),
    "power factor": ("power_factor", "power_factor", ""),
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
        key, field, unit = _METERED[self.choice.value]
        try:
            spec = spec_of(Readings.__dataclass_fields__[field])
            measured = typed_value(self.choice.value, self.field.value, unit, spec)
            bars = self._budget().bars
            if not bars:
                raise ValueError("The predicted lamp stays dark: there is no reading to compare with")
            words = judge(bars[key], measured).words
        except (ValueError, ArithmeticError) as error:
            self.verdict.value = tag("div", str(error), css="dropper-words wrong", role="alert")
            return
        self.verdict.value = tag("p", unbroken(words), css="dropper-words", role="status")
