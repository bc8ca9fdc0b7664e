"""The panel on an LED of one's own: measured points, the curve through them, and a kind to compare with."""

from pathlib import Path

import ipywidgets as widgets

from ...bench import led_fit
from ...bench.led_fit.result import LedFit
from ...circuit.values import show
from ...components.kinds import LEDS
from ...results.reading import Reading
from ..kit import sliders
from ..kit.panel import Panel
from ..kit.paste_box import PasteBox
from . import figure
from . import view as own_led
from .view import View

_HOW = (
    "A row for each measurement, with headings that name the units: <b>voltage (V), current (mA)</b>. Comma, semicolon"
    " or tab between them; decimal comma or point. Measure on a low dc voltage through a resistor, briefly at the"
    " greater currents; never on a lamp that is plugged in."
)


class LedCurve(Panel):
    """An LED fitted to points that were measured on it.

    Parameters
    ----------
    path_to_csv
        The table to start with; the panel takes another one pasted in, or from the learner's disk.
    ask
        Ask for a prediction before the sliders wake.
    """

    picture = figure
    decisive = ("current",)

    def __init__(self, path_to_csv: str | Path = "lamps/bench_led.csv", ask: bool = True):
        self._table_text = Path(path_to_csv).read_text(encoding="utf-8-sig")
        super().__init__(own_led.start(led_fit.read_csv(Path(path_to_csv))), ask)

    @property
    def fit(self) -> LedFit:
        """The `LedFit` that is shown; `.led` goes into a lamp."""
        return self.view.fit

    def head(self) -> list[PasteBox]:
        return [PasteBox(self._table_text, _HOW, "Your points", self._take, self.complain)]

    def _take(self, text):
        """Put pasted points on the panel; what is not theirs stays as it was set."""
        self.put(own_led.start(led_fit.read_csv(f"{text}\n"), self.setting))

    def question(self) -> tuple[str, dict[str, str]]:
        volts, right, _ = own_led.tenth(self.own)
        return (
            f"At {show(self.own.current, 'A')} this LED drops {show(volts, 'V')}. What does it drop at a tenth of that"
            f" current, {show(self.own.current / 10, 'A')}?",
            {
                "tenth": f"{show(volts / 10, 'V')}: a tenth",
                "half": f"{show(volts / 2, 'V')}: about half",
                "right": f"{show(right, 'V')}: hardly less",
            },
        )

    def verdict(self) -> tuple[str, ...]:
        volts, right, step = own_led.tenth(self.asked)
        return "right", (
            f"At a tenth of the current it still drops {show(right, 'V')} of {show(volts, 'V')}. The junction's voltage"
            f" goes with the logarithm of the current: {show(step, 'V')} for each tenfold step, wherever it begins."
            " Only the series resistance goes in proportion."
        )

    def make_sliders(self, own: own_led.OwnLed) -> dict:
        most, many = own_led.greatest(own.measured), own_led.most_junctions(own.measured)
        compared = widgets.Dropdown(
            options=[(kind.name, kind.name) for kind in LEDS],
            value=own.compared,
            description="kind to compare with",
            style={"description_width": "150px"},
            layout=widgets.Layout(width=sliders.WIDTH),
        )
        return {
            "current": sliders.stepped("current to read at", own.current, "A", own_led.LEAST, most),
            "junction_temperature": sliders.linear(
                "junction temperature", own.junction_temperature, "°C", -20.0, 120.0, 5.0
            ),
            "junctions": sliders.linear("junctions in series", own.junctions, "", 1, many, 1),
            "compared": compared,
        }

    def view_of(self, setting: own_led.OwnLed) -> View:
        return own_led.view_of(setting)

    def readings(self, view: View) -> tuple[Reading, ...]:
        return view.readings
