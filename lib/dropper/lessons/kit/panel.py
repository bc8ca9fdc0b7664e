"""Panel: a picture that sliders change, with a ghost to compare with, asleep until its prediction is there."""

from typing import Any

import ipywidgets as widgets

from ...circuit.lamp import replace_at, value_at
from . import sliders
from .columns import rows_of
from .question_panel import GLANCE
from .readings_panel import ReadingsPanel


class Panel(ReadingsPanel):
    """A setting that sliders change, and what is seen of it.

    A panel that derives from it names its `lesson` and its `picture` (which has a `ghost` too), and says
    `make_sliders`; and, to have a prediction asked, what `QuestionPanel` asks for. Its views hold `readings`.

    Parameters
    ----------
    setting : Lamp or another frozen dataclass
        What to start from and to come back to.
    ask
        Ask for a prediction before the sliders wake.

    Attributes
    ----------
    buttons, slider_box : widgets.Box
    """

    def __init__(self, setting: Any, ask: bool = True):
        super().__init__(setting)
        self._busy = True
        self._ghost_drawn, self.slider_box = None, widgets.VBox()
        self.buttons = widgets.HBox(
            [
                sliders.button("Keep this one", "Keeps these curves as a grey ghost to compare with", self.keep),
                sliders.button("Forget it", "Takes the ghost away", self.forget),
                sliders.button("Reset", "Puts every slider back to where it was", self.reset),
            ]
        )
        if ask:
            self.ask()
        self.children = self._rows()
        self.add_class("dropper-panel")
        self.start_from(setting)
        if self.prediction:
            self._disable(True)

    def _rows(self):
        return rows_of(self, self.slider_box, self.buttons)

    # what a panel says of itself

    def make_sliders(self, setting: Any) -> dict[str, widgets.Widget]:
        """Sliders that stand where the setting has them, by the path of what each changes."""
        raise NotImplementedError

    def controls(self) -> list[widgets.Widget]:
        return list(self.sliders.values())

    def changed(self, path: str, value: Any) -> Any:
        """The setting with what a slider stands for put in; ValueError where it cannot be."""
        return replace_at(self.setting, path, sliders.in_lamp(path, value))

    def header(self) -> list[widgets.Widget]:
        """Widgets above the question."""
        return []

    def asides(self) -> list[widgets.Widget]:
        """Widgets between the question and the sliders."""
        return []

    def picture_column(self) -> list[widgets.Widget]:
        """Widgets of the right-hand side: the picture and its sentence."""
        return [self.picture_box, self.sentence]

    # what a learner does

    def start_from(self, setting: Any) -> None:
        """Put another setting on the panel; sliders and ghost start from it."""
        view = self.view_of(setting)  # a ValueError leaves everything as it was
        another = self.is_another(setting)
        self.initial = self.setting = setting
        self.place_sliders()
        self.kept_view = None
        self.room.let_go()
        if another:
            self.ask_about(setting, view)
        self.show(view)

    def place_sliders(self) -> None:
        """Make the sliders anew, where the setting has them; they sleep if those before did."""
        asleep = bool(self.slider_box.children) and self.slider_box.children[0].disabled
        self._busy = True
        self.sliders = self.make_sliders(self.setting)
        for path, slider in self.sliders.items():
            slider.disabled = asleep
            slider.observe(lambda change, path=path: self.move(path, change.new), "value")
        self.slider_box.children = list(self.sliders.values())
        self._busy = False

    def keep(self) -> None:
        """Keep the present curves as a ghost and compare with them from now on."""
        self.kept_view = self.view
        self.refresh()
        self.say("Kept to compare.")

    def forget(self) -> None:
        """Take the ghost away."""
        self.kept_view = None
        self.refresh()
        self.say("Nothing is kept.")

    def reset(self) -> None:
        """Put every slider back to where it was."""
        self._set_sliders(self.initial)
        self.refresh()

    def move(self, path: str, value: Any) -> None:
        if not self._busy:
            super().move(path, value)

    def _set_sliders(self, setting):
        """Take a setting over and let the sliders follow, without a move."""
        self._busy = True
        for path, slider in self.sliders.items():
            slider.value = sliders.on_slider(path, value_at(setting, path))
        self._busy = False
        self.setting = setting

    def _disable(self, asleep):
        for control in (*self.sliders.values(), *self.buttons.children):
            control.disabled = asleep
        for box in (self.curves, self.ghost) if self.covered else ():
            box.layout.visibility = "hidden" if asleep else "visible"
        waiting = [self.goal_list, *((self.table, self.glow_box, self.save_box) if self.covered else ())]
        for box in filter(None, waiting):
            box.layout.display = "none" if asleep else ""
        if self.covered:
            self.deferred.call_later("words", GLANCE, self.write_now)

    def wake(self) -> None:
        self._disable(False)

    # what is shown

    def compared(self) -> list[Any]:
        return [self.view, self.kept_view] if self.kept_view else [self.view]

    def draw_layers(self, scale: Any) -> None:
        super().draw_layers(scale)
        reference = self.kept_view
        drawn = reference, scale, self.room.width, self.room.first
        if reference is None:
            self.ghost.value = ""
        elif drawn != self._ghost_drawn:
            self.ghost.value = self.picture.ghost(reference, scale)
        self._ghost_drawn = drawn
