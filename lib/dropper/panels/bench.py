"""The bench panel: one lamp, six sliders, its picture, its readings, its words."""

from html import escape
from pathlib import Path

import ipywidgets as widgets

from .. import compare, explain, schematic
from ..figures import bench as picture
from ..lamp import Lamp, replace_at
from ..meter import PlugInMeter
from ..parts import BY_KEY, fitted, value_of
from ..steady import steady_state
from . import controls, readout
from .lampbox import LampBox
from .later import Later
from .page import STYLE
from .predict import Prediction

POINTS = 512
GLANCE, REST = 0.015, 0.1  # s: when the words and when the drawing follow the curves
QUESTION = "What sets the brightness of this lamp: the resistor or the capacitor?"
ANSWERS = {
    "resistor": "the series resistor",
    "capacitor": "the dropper capacitor",
    "both": "both alike",
}


class Bench(widgets.VBox):
    """A lamp on the bench, predicted live.

    Parameters
    ----------
    path : str or Path
        The lamp file to start with; the files beside it are offered too.
    meter : PlugInMeter, optional
        Whose digits to show.
    ask : bool
        Ask for a prediction before the sliders wake.
    """

    def __init__(self, path, meter=None, ask=True):
        path = Path(path)
        self.meter = meter or PlugInMeter()
        self._busy, self._kept, self._moved = True, None, set()
        self._curves, self._ghost = widgets.HTML(), widgets.HTML()
        self._table, self._said = widgets.HTML(), widgets.HTML()
        self._wrong = widgets.HTML()
        self._circuit, self._later = widgets.HTML(), Later()
        self._explained = widgets.HTMLMath()
        self._build_choices()
        self._knobs = widgets.VBox()
        self.prediction = Prediction(QUESTION, ANSWERS, self._wake) if ask else None
        layer = {"grid_area": "1 / 1", "width": "100%", "margin": "0"}
        layers = [widgets.HTML(picture.backdrop()), self._ghost, self._curves]
        for piece in layers:
            piece.layout = widgets.Layout(**layer)
        stack = widgets.GridBox(layers, layout=widgets.Layout(width="690px"))
        buttons = widgets.HBox(
            [
                controls.button("Keep this one", "Keeps these curves as a grey ghost to compare with", self.keep),
                controls.button("Forget it", "Takes the ghost away", self.forget),
                controls.button("Reset", "Puts every slider back to the lamp's own values", self.reset),
            ]
        )
        self._awake = [buttons]
        left = widgets.VBox([self._knobs, buttons, self._table], layout=widgets.Layout(width="416px"))
        right = widgets.VBox([stack, self._said], layout=widgets.Layout(width="690px"))
        rows = [widgets.HTML(STYLE), LampBox(path.parent, path.name, self.put, self.complain), self._wrong]
        if self.prediction:
            rows.append(self.prediction)
        rows += [widgets.HBox([left, right]), self._why, self._explained]
        super().__init__(rows)
        self.put(Lamp.from_toml(path))
        if ask:
            self._sleep(True)

    def circuit(self):
        """The drawn circuit, which follows the sliders, with its parts to point at."""
        return widgets.VBox([widgets.HTML(STYLE), self._pointer, self._circuit])

    def put(self, lamp):
        """Put another lamp on the bench; sliders and readings start from its values."""
        asleep = bool(self._knobs.children) and self._knobs.children[0].disabled
        self.own, self.lamp = lamp, lamp
        self._busy = True
        self._sliders = {
            "mains.voltage": controls.linear("mains voltage", lamp.mains.voltage, "V", 90.0, 264.0, 1.0),
            "mains.frequency": controls.linear("mains frequency", lamp.mains.frequency, "Hz", 45.0, 65.0, 1.0),
            "dropper": controls.stepped("dropper C1", lamp.dropper, "F", 68e-9, 4.7e-6),
            "smoothing": controls.stepped("smoothing C2", lamp.smoothing, "F", 1e-6, 100e-6, 6, zero=True),
            "string.in_series": controls.linear("LEDs in series", lamp.string.in_series, "", 1, 100, 1),
            "series_resistor": controls.stepped(
                "series resistor R4", lamp.series_resistor, "Ω", 10, 1000, 6, zero=True
            ),
        }
        for path, slider in self._sliders.items():
            slider.disabled = asleep
            slider.observe(lambda change, path=path: self._move(path, change.new), "value")
        self._knobs.children = list(self._sliders.values())
        parts = [(f"{part.name} {part.symbol}", part.key) for part in fitted(lamp)]
        self._pointer.options = [("nothing", ""), *parts]
        self._kept, self._ghost.value = None, ""
        self._busy = False
        self._update()

    def complain(self, text):
        """Say what was wrong; nothing else changes."""
        self._wrong.value = f'<div class="dropper-words wrong" role="alert">{escape(text)}</div>' if text else ""

    def keep(self):
        """Keep the present curves as a ghost and compare with them from now on."""
        self._kept = self.result
        self._update()

    def forget(self):
        """Take the ghost away."""
        self._kept = None
        self._update()

    def reset(self):
        """Put every slider back to the lamp's own values."""
        self._busy = True
        for path, slider in self._sliders.items():
            value = self.own
            for step in path.split("."):
                value = getattr(value, step)
            slider.value = value
        self._busy = False
        self.lamp = self.own
        self._update()

    def _build_choices(self):
        style, wide = {"description_width": "150px"}, widgets.Layout(width="390px")
        self._pointer = widgets.Dropdown(
            options=[("nothing", "")], description="Point at", style=style, layout=wide
        )
        self._pointer.observe(lambda _: self._draw_circuit(), "value")
        choices = [("nothing yet", "")] + [(words, key) for key, words in explain.QUESTIONS.items()]
        self._why = widgets.Dropdown(options=choices, description="Why this number?", style=style, layout=wide)
        self._why.observe(lambda _: self._explain(), "value")

    def _sleep(self, asleep):
        for slider in self._sliders.values():
            slider.disabled = asleep
        for row in self._awake:
            for control in row.children:
                control.disabled = asleep

    def _wake(self):
        self._sleep(False)

    def _move(self, path, value):
        if self._busy:
            return
        try:
            self.lamp = replace_at(self.lamp, path, value)
        except ValueError as error:
            self.complain(str(error))
            return
        self._moved.add(path)
        self._update()

    def _update(self):
        self.result = steady_state(self.lamp, POINTS)
        both = [self.result] + ([self._kept] if self._kept else [])
        scale = picture.scales(*both)
        self._words = picture.sentence(self.lamp, self.result)
        self._curves.value = picture.overlay(self.result, scale, self._words)
        if self._kept is None:
            self._ghost.value = ""
        elif (self._kept, scale) != getattr(self, "_ghosted", None):
            self._ghost.value = picture.ghost(self._kept, scale)
        self._ghosted = (self._kept, scale)
        self.complain("")
        self._later.soon("words", GLANCE, self._tell)
        self._later.soon("circuit", REST, self._draw_circuit)
        if self._why.value:
            self._explain()
        if self.prediction and {"dropper", "series_resistor"} <= self._moved:
            self.prediction.tell(compare.what_sets_the_brightness(self.own)[1])

    def _tell(self):
        self._table.value = readout.table(self.lamp, self.result, self._kept, self.meter)
        said = f'<div class="dropper-words said" role="status">{escape(self._words)}</div>'
        self._said.value = said + picture.heat_bars(self.result.heat)

    def _draw_circuit(self):
        marked = self._pointer.value
        shown = [BY_KEY[marked]] if marked in BY_KEY else fitted(self.lamp)
        items = "".join(
            f"<li><b>{escape(part.name)} {escape(part.symbol)}</b>, "
            f"{escape(value_of(self.lamp, part.key) or 'none')}: {escape(part.job)}. {escape(part.care)}</li>"
            for part in shown
        )
        drawn = schematic.draw(self.lamp, marked)
        self._circuit.value = f'{drawn}<ul class="dropper-words dropper-parts">{items}</ul>'

    def _explain(self):
        key = self._why.value
        self._explained.value = explain.in_html(key, self.lamp, self.result) if key else ""
