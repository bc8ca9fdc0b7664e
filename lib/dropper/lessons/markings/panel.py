"""The panel on bands: pick each by its name, say which are not sure, and see what the resistor can be."""

from collections.abc import Sequence
from html import escape

import ipywidgets as widgets

from ...circuit.lamp import replace_at, value_at
from ...components.marks.colours import COLOURS
from ..kit import sliders as controls
from ..kit.table_panel import TablePanel, choice, field
from . import figure as picture
from . import view as markings
from .view import Bands

_SURE = "130px"


class Markings(TablePanel):
    """A resistor's bands, both ways of reading them, and what doubtful ones could be.

    Parameters
    ----------
    bands
        The colours to start with, from left to right.
    ask
        Ask for a prediction before the lists wake.
    """

    picture, lesson = picture, markings
    decisive = ("first",)
    called = (("measured", "ohmmeter reads"),)

    def __init__(self, bands: Sequence[str] = ("orange", "violet", "brown", "gold"), ask: bool = True):
        named = dict(zip(markings.PLACES, bands, strict=False))
        super().__init__(markings.Bands(count=len(bands), **named), ask)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            "Four bands: the first is red or orange, this lamp does not say which; then violet, brown, gold. Which"
            " resistor is it, as far as one can tell without a meter?",
            {
                "red": "270 Ω: the first band is red",
                "orange": "370 Ω: the first band is orange",
                "either": "both are as likely",
            },
        )

    def verdict(self) -> tuple[str, ...]:
        return "red", markings.verdict()

    def make_sliders(self, own: Bands) -> dict:
        options = [(colour.called, name) for name, colour in COLOURS.items()]
        sliders = {
            "wanted": field("bands for", own.wanted or "", "4.7 kΩ, or 499R 1 %"),
            "count": choice("bands", [(str(count), count) for count in markings.COUNTS], own.count, "250px"),
        }
        for place, name in enumerate(markings.PLACES, start=1):
            sliders[name] = choice(f"band {place}", options, getattr(own, name), "250px")
            sliders[f"unsure{place}"] = widgets.Checkbox(
                description=f"not sure of {place}",
                value=getattr(own, f"unsure{place}"),
                indent=False,
                tooltip=f"Band {place} may be another colour",
                layout=widgets.Layout(width=_SURE),
            )
        sights = [(words, key) for key, words in markings.SIGHTS.items()]
        sliders["sight"] = choice("colours alike for", sights, own.sight)
        sliders["measured"] = field("ohmmeter reads", own.measured or "", "268 Ω")
        return sliders

    def put(self, own: Bands) -> None:
        super().put(own)
        rows = [
            widgets.HBox([self._sliders[name], self._sliders[f"unsure{place}"]])
            for place, name in enumerate(markings.PLACES, start=1)
        ]
        head = self._sliders["wanted"], self._sliders["count"]
        self._knobs.children = [*head, *rows, self._sliders["sight"], self._sliders["measured"]]
        self._fit_rows()

    def after(self) -> str:
        view = self.view
        if len(view.listed) < 2:
            return ""
        head = "These bands could be" if view.fitting is None else "These fit what was measured"
        if view.fitting == 0:
            head = "None of these fits what was measured"
        rows = "".join(f"<li>{escape(each.words)}</li>" for each in view.listed)
        more = (view.fitting or view.count) - len(view.listed)
        rest = f"<p>{more} more stand behind these: make sure of some bands, or measure.</p>" if more else ""
        return f'<div class="dropper-words"><b>{head}</b><ol>{rows}</ol>{rest}</div>'

    def _move(self, path, value):
        if self._busy:
            return
        if path == "wanted":
            self._moving = path
            self._write(value)
            self._moving = None
            return
        super()._move(path, value)
        if path not in ("sight", "measured") and self.setting.wanted:
            self._set(replace_at(self.setting, "wanted", None))  # these are no longer that value's bands
            self.complain("")

    def _write(self, text):
        """Put the bands of a value on the panel."""
        if not text:
            self.complain("")
            return
        try:
            setting = markings.with_bands_for(self.setting, text)
        except ValueError as error:
            self.complain(str(error))
            return
        self._moved.add("first")
        self._set(setting)
        self._show(self.view_of(setting))

    def _set(self, setting):
        """Take a setting over and let the lists and fields follow."""
        self._refused.clear()
        self._busy = True
        for path, slider in self._sliders.items():
            slider.value = controls.on_slider(path, value_at(setting, path))
        self._busy = False
        self.setting = setting

    def _show(self, view):
        super()._show(view)
        self._fit_rows()

    def _fit_rows(self):
        """Hide the rows of bands that there are not."""
        rows = [row for row in self._knobs.children if isinstance(row, widgets.HBox)]
        for place, row in enumerate(rows, start=1):
            row.layout.display = "" if place <= self.setting.count else "none"
