"""What every panel has: sliders, a picture, readings, a sentence, a ghost, and explanations."""

from html import escape

import ipywidgets as widgets

from ...circuit.lamp import replace_at, value_at
from ...results import explain
from . import readout, sliders
from .css import STYLE
from .deferred import Deferred
from .prediction import Prediction

GLANCE = 0.015  # s: when the words follow the curves
PICTURE = "680px"  # so wide that nothing scrolls sideways at 1280 pixels, scroll bars of 17 pixels counted


class Panel(widgets.VBox):
    """A setting that sliders change, and what is seen of it.

    A panel derives from it and says: `picture`, a module of `figures` (backdrop, scales,
    overlay, ghost, sentence); `make_sliders`, `view_of`, `readings`; and, to have a prediction asked,
    `question` and `verdict`.

    Parameters
    ----------
    own : Lamp or another frozen dataclass
        The setting to start from and to come back to.
    ask
        Ask for a prediction before the sliders wake.
    """

    picture = None
    decisive = ()  # the paths of sliders that have to be moved before the prediction is judged

    def __init__(self, own, ask: bool = True):
        self._busy, self._kept, self._moved, self._judged = True, None, set(), False
        self._later = Deferred()
        self._curves, self._ghost = widgets.HTML(), widgets.HTML()
        self._table, self._said = widgets.HTML(), widgets.HTML()
        self._wrong, self._explained = widgets.HTML(), widgets.HTMLMath()
        self._explained.add_class("dropper-explained")
        self._knobs = widgets.VBox()
        self._why = widgets.Dropdown(
            description="Why this number?", style={"description_width": "150px"}, layout=widgets.Layout(width="420px")
        )
        self._why.observe(lambda _: self._explain(), "value")
        layers = [widgets.HTML(self.picture.backdrop()), self._ghost, self._curves]
        for layer in layers:
            layer.layout = widgets.Layout(grid_area="1 / 1", width="100%", margin="0")
        self._stack = widgets.GridBox(layers, layout=widgets.Layout(width=PICTURE))
        self._buttons = widgets.HBox(
            [
                sliders.button("Keep this one", "Keeps these curves as a grey ghost to compare with", self.keep),
                sliders.button("Forget it", "Takes the ghost away", self.forget),
                sliders.button("Reset", "Puts every slider back to where it was", self.reset),
            ]
        )
        self.own = self.setting = self.asked = own  # asked: the setting that the question is about
        asked = self.question() if ask else None
        self.prediction = Prediction(*asked, self._wake) if asked else None
        by_hand = widgets.VBox([self._knobs, self._buttons])
        left = widgets.VBox([by_hand, self._table], layout=widgets.Layout(width="416px"))
        columns = widgets.HBox([left, widgets.VBox(self.pictured(), layout=widgets.Layout(width=PICTURE))])
        for part, name in ((columns, "columns"), (by_hand, "by-hand"), (self._stack, "stack"), (self._table, "read")):
            part.add_class(f"dropper-{name}")
        rows = [widgets.HTML(STYLE), *self.head(), self._wrong]
        rows += [self.prediction] if self.prediction else []
        super().__init__([*rows, *self.asides(), columns, self._why, self._explained])
        self.add_class("dropper-stand")
        self.put(own)
        if self.prediction:
            self._sleep(True)

    # what a panel says of itself

    def make_sliders(self, own):
        """Sliders by the path of what each changes."""
        raise NotImplementedError

    def view_of(self, setting):
        """What is seen of a setting; ValueError where it cannot be."""
        raise NotImplementedError

    def changed(self, path: str, value):
        """The setting with what a slider stands for put in; ValueError where it cannot be."""
        return replace_at(self.setting, path, sliders.in_lamp(path, value))

    def readings(self, view):
        """The numbers beside the picture, as `Reading`."""
        raise NotImplementedError

    def words(self, view) -> str:
        """The picture in a sentence or a few."""
        return self.picture.sentence(view)

    def question(self):
        """The question and its answers by key, or None."""

    def verdict(self):
        """What has come of the prediction: the key of the answer that holds, "" for none, and a sentence."""

    def can_judge(self) -> bool:
        """Whether a learner has moved what the question is about, so that the prediction can be judged."""
        return bool(self.decisive) and set(self.decisive) <= self._moved

    def head(self) -> list:
        """Widgets above the question."""
        return []

    def asides(self) -> list:
        """Widgets between the question and the sliders."""
        return []

    def pictured(self) -> list:
        """Widgets of the right-hand side: the picture and its sentence."""
        return [self._stack, self._said]

    # what a learner does

    def put(self, own) -> None:
        """Put another setting on the panel; sliders and ghost start from it."""
        view = self.view_of(own)  # a ValueError leaves everything as it was
        asleep = bool(self._knobs.children) and self._knobs.children[0].disabled
        self.own = self.setting = own
        self._busy = True
        self._sliders = self.make_sliders(own)
        for path, slider in self._sliders.items():
            slider.disabled = asleep
            slider.observe(lambda change, path=path: self._move(path, change.new), "value")
        self._knobs.children = list(self._sliders.values())
        self._kept = None
        self._busy = False
        self._show(view)

    def complain(self, text: str) -> None:
        """Say what was wrong; nothing else changes."""
        self._wrong.value = f'<div class="dropper-words wrong" role="alert">{escape(text)}</div>' if text else ""

    def keep(self) -> None:
        """Keep the present curves as a ghost and compare with them from now on."""
        self._kept = self.view
        self._update()

    def forget(self) -> None:
        """Take the ghost away."""
        self._kept = None
        self._update()

    def reset(self) -> None:
        """Put every slider back to where it was."""
        self._busy = True
        for path, slider in self._sliders.items():
            slider.value = sliders.on_slider(path, value_at(self.own, path))
        self._busy = False
        self.setting = self.own
        self._update()

    def _sleep(self, asleep):
        for control in (*self._sliders.values(), *self._buttons.children):
            control.disabled = asleep

    def _wake(self):
        self._sleep(False)

    def _move(self, path, value):
        if self._busy:
            return
        try:
            setting = self.changed(path, value)
            view = self.view_of(setting)
        except (ValueError, ArithmeticError) as error:
            self.complain(str(error))
            return
        self._moved.add(path)
        self.setting = setting
        self._show(view)

    def _update(self):
        self._show(self.view_of(self.setting))

    def _show(self, view):
        self.view = view
        both = [view] + ([self._kept] if self._kept else [])
        scale = self.picture.scales(*both)
        self._words = self.words(view)
        self._curves.value = self.picture.overlay(view, scale, self._words)
        if self._kept is None:
            self._ghost.value = ""
        elif (self._kept, scale) != getattr(self, "_ghosted", None):
            self._ghost.value = self.picture.ghost(self._kept, scale)
        self._ghosted = (self._kept, scale)
        self.complain("")
        self._later.soon("words", GLANCE, self._tell)
        if self.prediction and not self._judged and self.can_judge():
            self._judged = True
            self.prediction.judge(*self.verdict())

    def _tell(self):
        readings = self.readings(self.view)
        self._table.value = self.table(readings)
        self._said.value = f'<div class="dropper-words said" role="status">{escape(self._words)}</div>' + self.after()
        self._offer(readings)
        if self._why.value:
            self._explain()

    def table(self, readings) -> str:
        """The numbers beside the picture, as HTML."""
        return readout.plain(readings, self.readings(self._kept) if self._kept else None)

    def after(self) -> str:
        """HTML below the sentence."""
        return ""

    def _offer(self, readings):
        """The readings that can be asked about; the choice stays where it still stands."""
        choices = (("nothing yet", ""), *((reading.name, reading.key) for reading in readings))
        if self._why.options != choices:
            chosen = self._why.value
            self._why.options = choices
            self._why.value = chosen if chosen in dict(choices).values() else ""

    def _explain(self):
        chosen = [reading for reading in self.readings(self.view) if reading.key == self._why.value]
        self._explained.value = explain.in_html(chosen[0]) if chosen else ""
