"""LED-curve panel: measured points of an LED, the curve through them, and a kind to compare with."""

from collections.abc import Mapping
from pathlib import Path

import ipywidgets as widgets

from ...bench import led_fit
from ...bench.led_fit.result import LedFit
from ...circuit.html import joined, tag
from ...circuit.values import show
from ...components.kinds import LEDS
from ..kit import sliders
from ..kit.panel import Panel
from ..kit.paste_box import PasteBox
from . import figure
from . import view as own_led

_HOW = joined(
    "A row for each measurement, with headings that name the units: ",
    tag("b", "voltage (V), current (mA)"),
    ". Comma, semicolon or tab between them; decimal comma or point. Measure on a low dc voltage through a resistor,"
    " briefly at the greater currents; never on a lamp that is plugged in.",
)


class LedCurve(Panel):
    """An LED fitted to points that were measured on it.

    Parameters
    ----------
    path_to_csv
        The table to start with; the panel takes another one pasted in, or from the learner's disk.
    ask
        Ask for a prediction before the sliders wake.

    Attributes
    ----------
    paste_box : PasteBox
    """

    picture, lesson = figure, own_led
    decisive, observed = ("current",), "forward_voltage"
    causes: Mapping[str, str] = {
        "tenth": "So it is in a resistor. A junction needs nearly all of its volts before any current flows.",
        "half": "Even that is far too low: at half of its volts hardly any current flows.",
    }

    def __init__(self, path_to_csv: str | Path = "lamps/bench_led.csv", ask: bool = True):
        text = Path(path_to_csv).read_text(encoding="utf-8-sig")
        self.paste_box = PasteBox(text, _HOW, "Your points", self._take, self.complain)
        super().__init__(own_led.setting_for(led_fit.read_csv(Path(path_to_csv))), ask)

    @property
    def fit(self) -> LedFit:
        """The `LedFit` that is shown; `.led` goes into a lamp."""
        return self.view.fit

    def header(self) -> list[PasteBox]:
        return [self.paste_box]

    def _take(self, text):
        """Put pasted points on the panel; what is not theirs stays as it was set."""
        self.start_from(own_led.setting_for(led_fit.read_csv(f"{text}\n"), self.setting))

    def question(self) -> tuple[str, dict[str, str]]:
        volts, right, _ = own_led.decade_volts(self.question_setting)
        current = self.question_setting.current
        return (
            f"At {show(current, 'A')} this LED drops {show(volts, 'V')}. What does it drop at a tenth of that"
            f" current, {show(current / 10, 'A')}?",
            {
                "tenth": f"{show(volts / 10, 'V')}: a tenth",
                "half": f"{show(volts / 2, 'V')}: about half",
                "right": f"{show(right, 'V')}: hardly less",
            },
        )

    def verdict(self) -> tuple[str, str]:
        volts, right, step = own_led.decade_volts(self.question_setting)
        return "right", (
            f"At a tenth of the current it still drops {show(right, 'V')} of {show(volts, 'V')}. The junction's voltage"
            f" goes with the logarithm of the current: {show(step, 'V')} for each tenfold step, wherever it begins."
            " Only the series resistance goes in proportion."
        )

    def make_sliders(self, setting: own_led.OwnLed) -> dict[str, widgets.Widget]:
        most, many = own_led.greatest_current(setting.measured), own_led.most_junctions(setting.measured)
        kind = widgets.Dropdown(
            options=[(kind.name, kind.name) for kind in LEDS],
            value=setting.kind,
            description="kind to compare with",
            style={"description_width": "150px"},
        )
        return {
            "current": sliders.stepped("current to read at", setting.current, "A", own_led.LEAST, most),
            "junction_temperature": sliders.linear(
                "junction temperature", setting.junction_temperature, "°C", -20.0, 120.0, 5.0
            ),
            "junctions": sliders.linear("junctions in series", setting.junctions, "", 1, many, 1),
            "kind": kind,
        }
