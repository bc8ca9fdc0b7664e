"""First-power panel: a filament lamp in series, and the faults that make it glow."""

from collections.abc import Mapping

import ipywidgets as widgets

from ...bench.checklist.series_lamp import HIGHEST_HOT, WATTS
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ..kit import sliders as controls
from ..kit.lamp_panel import LampPanel
from . import figure
from . import view as first_power
from .goals import GOALS
from .view import LampInSeries

_BRIGHT = ("yellow", "bright")  # what "bright" means in the question


class FirstPower(LampPanel):
    """A lamp in series with a filament lamp; see `LampPanel`."""

    picture, lesson = figure, first_power
    glows = True
    decisive = ("fault",)
    observed = "current"
    goals = GOALS
    causes: Mapping[str, str] = {
        "bright": "A short behind the dropper is not a short of the mains: the dropper still stands in the line.",
        "dull": "A filament needs many times that current to be seen to glow.",
        "dark": "Here it does: this filament glows at the current that the dropper lets through.",
    }

    def setting_for(self, lamp: Lamp) -> LampInSeries:
        return first_power.LampInSeries.of(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        what = "smoothing capacitor is short" if self.question_setting.lamp.smoothing else "bridge shorts its output"
        return (
            f"The {self.initial.lamp.name}'s {what}. At first power, does the filament lamp in series glow?",
            {"bright": "yes, bright: a short is a short", "dull": "yes, but dull", "dark": "no: nothing is seen of it"},
        )

    def verdict(self) -> tuple[str, str]:
        view = first_power.view_of(first_power.with_short(self.question_setting))
        if view.now.glows:
            right = "bright" if view.now.glow in _BRIGHT else "dull"
            return right, f"{view.now.sentence} The dropper limits it; a stronger filament lamp would never show it."
        return "dark", (
            f"{view.now.sentence} The dropper limits the current into a short as it does into the string:"
            f" {show(view.whole.state.line_current_rms, 'A')} with the lamp whole. This filament shows what bridges"
            " the dropper, and little else."
        )

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.fault == first_power.with_short(self.question_setting).fault

    def make_sliders(self, setting: LampInSeries) -> dict[str, widgets.Widget]:
        fault = widgets.Dropdown(
            options=[(words, controls.on_slider("fault", fault)) for words, fault in first_power.choices(setting.lamp)],
            value=controls.on_slider("fault", setting.fault),
            description="fault",
            style={"description_width": "150px"},
        )
        marked = setting.filament.voltage
        watts = {power for power in WATTS if marked**2 / power <= HIGHEST_HOT} | {setting.filament.power}
        power = widgets.SelectionSlider(
            options=[(show(power, "W"), power) for power in sorted(watts)],
            value=setting.filament.power,
            description="filament lamp",
            style={"description_width": "150px"},
        )
        sliders = controls.of_lamp(setting.lamp, "mains.voltage", "dropper", within="lamp.")
        return {"fault": fault, "filament.power": power, **sliders}
