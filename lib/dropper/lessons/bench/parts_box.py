"""Parts box: sliders that are folded until they are asked for, and a field for values between their steps."""

from collections.abc import Callable

import ipywidgets as widgets

from ...circuit.fields import Spec
from ...circuit.lamp import Lamp, value_at
from ...circuit.part import spec_at
from ..kit import sliders
from ..kit.typed_value import typed_value

_LABEL = {"description_width": "150px"}


class PartsBox(widgets.VBox):
    """A button for more sliders, and a typed value for any of them.

    Parameters
    ----------
    more
        Called when the fold is opened or closed.
    take
        Called with a slider's path and a value that was typed.
    complain
        Called with what was wrong with it.

    Attributes
    ----------
    opened : bool
    choice : widgets.Dropdown
        Which slider the typed value is for.
    field : widgets.Text
    fold : widgets.Button
    """

    def __init__(self, more: Callable[[], None], take: Callable[[str, object], None], complain: Callable[[str], None]):
        self._more, self._take, self._complain, self._lamp, self.opened = more, take, complain, None, False
        self.fold = sliders.button(
            "All parts, typed values", "More sliders, and values between their steps", self.toggle
        )
        self.choice = widgets.Dropdown(description="Part", style=_LABEL)
        self.field = widgets.Text(description="Value", placeholder="331 nF", style=_LABEL)
        self.field.continuous_update = False
        self.field.observe(lambda change: change.new.strip() and self.take(), "value")
        super().__init__([self.fold])

    def toggle(self) -> None:
        """Open the fold, or close it; what stands on the sliders stays."""
        self.opened = not self.opened
        self.fold.description = "Fewer parts" if self.opened else "All parts, typed values"
        self.children = [self.fold, self.choice, self.field] if self.opened else [self.fold]
        self._more()

    def offer(self, lamp: Lamp, names: dict[str, str]) -> None:
        """Have a value of any of these sliders be typed.

        Parameters
        ----------
        names
            Names of the sliders, by their paths.
        """
        self._lamp, chosen = lamp, self.choice.value
        self.choice.options = [(name, path) for path, name in names.items()]
        self.choice.value = chosen if chosen in names else next(iter(names), None)

    def take(self) -> None:
        """Put the typed value on its slider; what was typed stays where it will not do."""
        path = self.choice.value
        spec: Spec = spec_at(self._lamp, path)
        try:
            text = self.field.value.strip()
            none = text.casefold() == "none" and (spec.none or spec.zero or spec.low == 0)
            value = (None if spec.none else 0.0) if none else typed_value(self.choice.label, text, spec.unit, spec)
            self._take(path, type(value_at(self._lamp, path))(value) if spec.whole else value)
        except (ValueError, ArithmeticError) as error:
            self._complain(str(error))
