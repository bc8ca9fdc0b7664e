"""Bench panel: one lamp, six sliders, its picture, its readings, its heat and its circuit."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...bench.meter import PlugInMeter
from ...circuit import schematic
from ...circuit.html import items, joined, tag
from ...circuit.lamp import Lamp, value_at
from ...circuit.parts import BY_KEY, fitted_parts, value_of
from ...design.uncertainty import error_budget
from ...results.reading import Reading
from ..kit import readout, sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox, first_lamp
from ..kit.markup import Html
from ..kit.panel import Panel
from . import figure, view
from .goals import GOALS
from .measured_box import MeasuredBox
from .parts_box import PartsBox
from .view import View

_FIRST = ("mains.voltage", "mains.frequency", "dropper", "smoothing", "string.in_series", "series_resistor")
_MORE = ("inrush_resistor", "bleeder", "smoothing_bleeder", "string.led.forward_voltage", "string.in_parallel")
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

    Attributes
    ----------
    lamp_box : LampBox
    part_choice : widgets.Dropdown
        The part of the circuit to point at.
    drawing : Html
        The circuit, and its parts in words.
    parts_box : PartsBox
        Opens the sliders of the other parts, and takes values that are typed.
    measured_box : MeasuredBox
        Judges a figure that was read off the lamp.
    """

    picture, lesson, goals = figure, view, GOALS
    glows = True
    decisive = ("dropper", "series_resistor")
    causes: Mapping[str, str] = {
        "resistor": "All the current of the LEDs has to come through the dropper first. It takes a hundred times the"
        " resistor to do less than twice the capacitance does.",
        "both": "A hundredfold change of the one does less than a twofold change of the other.",
    }

    def __init__(self, path: str | Path, meter: PlugInMeter | None = None, ask: bool = True):
        path, self.meter = Path(path), meter or PlugInMeter()
        lamp, file, note = first_lamp(path)
        self.lamp_box = LampBox(path.parent, file, self.start_from, self.complain, note=note)
        self.drawing = Html()
        self.part_choice = widgets.Dropdown(
            options=[("nothing", "")], description="Point at", style={"description_width": "150px"}
        )
        self.part_choice.observe(lambda _: self.draw_circuit(), "value")
        self.parts_box = PartsBox(self.place_sliders, self.take_typed, self.complain)
        super().__init__(lamp, ask)
        self.measured_box = MeasuredBox(lambda: error_budget(self.lamp, self.meter))
        self.children = [*self.children, self.measured_box]

    @property
    def lamp(self) -> Lamp:
        """The lamp as the sliders have it."""
        return self.setting

    def circuit(self) -> widgets.VBox:
        """The drawn circuit, which follows the sliders, with its parts to point at."""
        box = widgets.VBox([Html(STYLE), self.part_choice, self.drawing])
        box.add_class("dropper-fit")
        return box

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"What sets the brightness of the {self.question_setting.name}: the resistor or the capacitor?",
            {"resistor": "the series resistor", "capacitor": "the dropper capacitor", "both": "both alike"},
        )

    def verdict(self) -> tuple[str, str]:
        return view.what_sets_the_brightness(self.question_setting)

    def header(self) -> list[LampBox]:
        return [self.lamp_box]

    def make_sliders(self, setting: Lamp) -> dict[str, widgets.Widget]:
        parts = [(f"{part.name} {part.symbol}", part.key) for part in fitted_parts(setting)]
        self.part_choice.options = [("nothing", ""), *parts]
        made = sliders.of_lamp(setting, *_FIRST, *(_MORE if self.parts_box.opened else ()))
        self.parts_box.offer(setting, {path: slider.description for path, slider in made.items()})
        return made

    def place_sliders(self) -> None:
        super().place_sliders()
        self.slider_box.children = [*self.slider_box.children, self.parts_box]
        for path, slider in self.sliders.items():
            self._admit(slider, path, value_at(self.initial, path))

    def _admit(self, slider, path, value):
        busy, self._busy = self._busy, True
        kept = slider.value
        sliders.admit(slider, path, value)
        slider.value, self._busy = kept, busy

    def take_typed(self, path: str, value: Any) -> None:
        """Put a value that was typed on its slider, between the steps or beyond them."""
        if self.sliders[path].disabled:
            raise ValueError("Answer the question first, or skip it; then values can be typed")
        self._admit(self.sliders[path], path, value)
        self.sliders[path].value = sliders.on_slider(path, value)

    def view_of(self, setting: Lamp) -> View:
        return view.view_of(setting, self.meter)

    def readings_table(self) -> str:
        ghost = self.kept_view and self.kept_view.lines
        explained = {reading.key for reading in self.view.readings}
        return readout.metered(
            self.view.lines, ghost, self.view.agreement, self.error_bars, self.derivations, explained
        )

    def lamp_of_readings(self) -> Lamp:
        return self.view.lamp

    def details(self) -> str:
        warm = {reading.key for reading in self.view.readings} & set(self.view.result.heat)
        return figure.heat_bars(
            self.view.result.heat,
            opened={key: key == self.explained for key in warm},
            excess={reading.key: reading.excess for reading in self.view.readings},
        )

    def explain(self, reading: Reading) -> str:
        if self.view.result.dark:
            return tag("p", "The string stays dark, and the formula is for one that lights.")
        return super().explain(reading)

    def show(self, view: Any) -> None:
        super().show(view)
        self.deferred.call_later("circuit", REST, self.draw_circuit)

    def draw_circuit(self) -> None:
        """Draw the lamp's circuit, and say what its parts do: the one that is pointed at, or all."""
        key = self.part_choice.value
        parts = [BY_KEY[key]] if key in BY_KEY else fitted_parts(self.lamp)
        jobs = items(
            joined(
                tag("b", f"{part.name} {part.symbol}"),
                f", {value_of(self.lamp, part.key) or 'none'}: {part.job}. {part.care}",
            )
            for part in parts
        )
        circuit = schematic.draw(self.lamp, key)
        self.drawing.value = joined(circuit, tag("ul", jobs, css="dropper-words dropper-parts"))
