"""The bench panel: one lamp, six sliders, its picture, its readings, its heat and its circuit."""

from html import escape
from pathlib import Path

import ipywidgets as widgets

from ...bench.meter import PlugInMeter
from ...circuit import schematic
from ...circuit.lamp import Lamp
from ...circuit.parts import BY_KEY, fitted, value_of
from ...results import compare, explain
from ...solver.steady import SteadyState, steady_state
from ..kit import readout, sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox
from ..kit.panel import Panel
from . import figure as picture

POINTS = 512
REST = 0.1  # s: when the drawing follows the curves


class Bench(Panel):
    """A lamp on the bench, predicted live.

    Parameters
    ----------
    path
        The lamp file to start with; the files beside it are offered too.
    meter
        Whose digits to show.
    ask
        Ask for a prediction before the sliders wake.
    """

    picture = picture
    decisive = ("dropper", "series_resistor")

    def __init__(self, path: str | Path, meter: PlugInMeter | None = None, ask: bool = True):
        self._path = Path(path)
        self.meter = meter or PlugInMeter()
        self._circuit = widgets.HTML()
        self._pointer = widgets.Dropdown(
            options=[("nothing", "")],
            description="Point at",
            style={"description_width": "150px"},
            layout=widgets.Layout(width="390px"),
        )
        self._pointer.observe(lambda _: self._draw_circuit(), "value")
        super().__init__(Lamp.from_toml(path), ask)

    @property
    def lamp(self) -> Lamp:
        """The lamp as the sliders have it."""
        return self.setting

    @property
    def result(self) -> SteadyState:
        """Its steady state."""
        return self.view

    def circuit(self):
        """The drawn circuit, which follows the sliders, with its parts to point at."""
        return widgets.VBox([widgets.HTML(STYLE), self._pointer, self._circuit])

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            "What sets the brightness of this lamp: the resistor or the capacitor?",
            {"resistor": "the series resistor", "capacitor": "the dropper capacitor", "both": "both alike"},
        )

    def verdict(self) -> tuple[str, ...]:
        return compare.what_sets_the_brightness(self.asked)

    def head(self) -> list[LampBox]:
        return [LampBox(self._path.parent, self._path.name, self.put, self.complain)]

    def make_sliders(self, own: Lamp):
        parts = [(f"{part.name} {part.symbol}", part.key) for part in fitted(own)]
        self._pointer.options = [("nothing", ""), *parts]
        return sliders.of_lamp(
            own, "mains.voltage", "mains.frequency", "dropper", "smoothing", "string.in_series", "series_resistor"
        )

    def view_of(self, setting: Lamp) -> SteadyState:
        return steady_state(setting, POINTS)

    def words(self, view: SteadyState) -> str:
        return picture.sentence(self.setting, view)

    def readings(self, view: SteadyState) -> tuple:
        return ()

    def table(self, readings: tuple) -> str:
        return readout.metered(self.lamp, self.result, self._kept, self.meter)

    def after(self) -> str:
        return picture.heat_bars(self.result.heat)

    def _show(self, view):
        super()._show(view)
        self._later.soon("circuit", REST, self._draw_circuit)

    def _offer(self, readings):
        warm = [part for part in fitted(self.lamp) if explain.warms(part.key)]
        choices = (
            ("nothing yet", ""),
            *((words, key) for key, words in explain.QUESTIONS.items()),
            *((f"heat of the {part.name}", part.key) for part in warm),
        )
        if self._why.options != choices:
            self._why.options = choices

    def _explain(self):
        key, told = self._why.value, ""
        if key and self.result.dark:
            told = "<p>The string stays dark, and the formula is for one that lights.</p>"
        elif key:
            read = explain.reading if key in explain.QUESTIONS else explain.heat_reading
            try:
                told = explain.in_html(read(key, self.lamp, self.result))
            except ValueError as error:
                told = f"<p>The formula has nothing to say here: {escape(str(error))}.</p>"
        self._explained.value = told

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
