"""Markings panel: bands by their names, which of them are not sure, and what the resistor can be."""

from collections.abc import Mapping, Sequence
from typing import Any

import ipywidgets as widgets

from ...circuit.html import items, tag
from ...circuit.lamp import replace_at
from ...components.marks.colours import COLOURS
from ..kit.table_panel import TablePanel, choice, field
from . import figure as picture
from . import view as markings
from .goals import GOALS
from .view import Bands

_SURE, _BAND = "130px", "52px"


class Markings(TablePanel):
    """A resistor's bands, both ways of reading them, and what doubtful ones could be.

    Parameters
    ----------
    bands
        The colours to start with, from left to right.
    ask
        Ask for a prediction before the lists wake.
    """

    picture, lesson, goals = picture, markings, GOALS
    decisive = ("first",)
    causes: Mapping[str, str] = {
        "orange": "A value that nobody sells is seldom on a board. With gold, ±5 %, only the numbers of E24 are made.",
        "either": "By the colours alone they are. But only one of the two numbers is sold, which says more.",
    }
    field_names = (("measured", "ohmmeter reads"),)

    def __init__(self, bands: Sequence[str] = ("orange", "violet", "brown", "gold"), ask: bool = True):
        colours = dict(zip(markings.PLACES, bands, strict=False))
        super().__init__(markings.Bands(count=len(bands), **colours), ask)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            "Four bands: the first is red or orange, in this light nobody can say; then violet, brown, gold. Which"
            " resistor is it, as far as one can tell without a meter? Put the first band to both colours.",
            {
                "red": "270 Ω: the first band is red.",
                "orange": "370 Ω: the first band is orange.",
                "either": "Nobody can tell: both are as likely.",
            },
        )

    def verdict(self) -> tuple[str, str]:
        return "red", markings.verdict()

    def make_sliders(self, setting: Bands) -> dict[str, widgets.Widget]:
        options = [(colour.called, name) for name, colour in COLOURS.items()]
        sliders = {
            "wanted": field("bands for", setting.wanted or "", "4.7 kΩ, or 499R 1 %"),
            "count": choice("bands", [(str(count), count) for count in markings.COUNTS], setting.count),
        }
        for place, name in enumerate(markings.PLACES, start=1):
            sliders[name] = choice(f"band {place}", options, getattr(setting, name))
            sliders[name].style.description_width = _BAND
            sliders[f"unsure{place}"] = widgets.Checkbox(
                description=f"not sure of {place}",
                value=getattr(setting, f"unsure{place}"),
                indent=False,
                tooltip=f"Band {place} may be another colour",
                layout=widgets.Layout(width=_SURE),
            )
        sights = [(words, key) for key, words in markings.SIGHTS.items()]
        sliders["sight"] = choice("colours alike for", sights, setting.sight)
        sliders["measured"] = field("ohmmeter reads", setting.measured or "", "268 Ω")
        return sliders

    def start_from(self, setting: Bands) -> None:
        super().start_from(setting)
        rows = [
            widgets.HBox([self.sliders[name], self.sliders[f"unsure{place}"]])
            for place, name in enumerate(markings.PLACES, start=1)
        ]
        head = self.sliders["wanted"], self.sliders["count"]
        self.slider_box.children = [*head, *rows, self.sliders["sight"], self.sliders["measured"]]
        self._fit_rows()

    def controls(self) -> list[widgets.Widget]:
        hidden = markings.PLACES[self.setting.count :]
        unsure = [f"unsure{place}" for place in range(self.setting.count + 1, len(markings.PLACES) + 1)]
        return [control for path, control in self.sliders.items() if path not in (*hidden, *unsure)]

    def details(self) -> str:
        view = self.view
        if len(view.candidates) < 2:
            return ""
        head = "These bands could be" if view.fit_count is None else "These fit what was measured"
        if view.fit_count == 0:
            head = "None of these fits what was measured"
        rows = items(candidate.words for candidate in view.candidates)
        more = (view.fit_count or view.count) - len(view.candidates)
        rest = tag("p", f"{more} more stand behind these: make sure of some bands, or measure.") if more else ""
        return tag("div", tag("b", head), tag("ol", rows), rest, css="dropper-words")

    def move(self, path: str, value: Any) -> None:
        if self._busy:
            return
        if path == "wanted" and not value:
            self._path = path
            self.complain("")
            self._path = None
            return
        super().move(path, value)
        if path not in ("wanted", "sight", "measured") and self.setting.wanted:
            self._follow(replace_at(self.setting, "wanted", None))  # these are no longer that value's bands
            self.complain("")

    def changed(self, path: str, value: Any) -> Bands:
        if path == "wanted":
            return markings.with_bands_for(self.setting, value)
        return super().changed(path, value)

    def accept(self, path: str, setting: Bands) -> None:
        super().accept("first" if path == "wanted" else path, setting)
        if path == "wanted":
            self._follow(setting)

    def _follow(self, setting):
        """Take a setting over and let the lists and fields follow."""
        self._complaints.clear()
        self._set_sliders(setting)

    def show(self, view: Any) -> None:
        super().show(view)
        self._fit_rows()

    def _fit_rows(self):
        """Hide the rows of bands that there are not."""
        rows = [row for row in self.slider_box.children if isinstance(row, widgets.HBox)]
        for place, row in enumerate(rows, start=1):
            row.layout.display = "" if place <= self.setting.count else "none"
