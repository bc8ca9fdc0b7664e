"""The panel on bands: pick each by its name, say which are not sure, and see what the resistor can be."""

from html import escape

import ipywidgets as widgets

from ..figures import markings as picture
from ..lessons import markings
from ..marks.colours import COLOURS
from .told import Told, choice, field

_SURE = "110px"
_SIGNS = {"within": "✓ fits", "outside": "✗ does not fit", "cannot tell": "? may fit"}


class Markings(Told):
    """A resistor's bands, both ways of reading them, and what doubtful ones could be.

    Parameters
    ----------
    bands : sequence of str, optional
        The colours to start with, from left to right.
    ask : bool
        Ask for a prediction before the lists wake.
    """

    picture, lesson = picture, markings
    decisive = ("first",)

    def __init__(self, bands=("orange", "violet", "brown", "gold"), ask=True):
        named = dict(zip(markings.PLACES, bands, strict=False))
        super().__init__(markings.Bands(count=len(bands), **named), ask)

    def question(self):
        return (
            "Four bands: the first is red or orange, this lamp does not say which; then violet, brown, gold. Which"
            " resistor is it, as far as one can tell without a meter?",
            {
                "red": "270 Ω: the first band is red",
                "orange": "370 Ω: the first band is orange",
                "either": "both are as likely",
            },
        )

    def verdict(self):
        return markings.verdict()

    def knobs(self, own):
        options = [(colour.called, name) for name, colour in COLOURS.items()]
        sliders = {"count": choice("bands", [(str(count), count) for count in markings.COUNTS], own.count, "250px")}
        for place, name in enumerate(markings.PLACES, start=1):
            sliders[name] = choice(f"band {place}", options, getattr(own, name), "250px")
            sliders[f"unsure{place}"] = widgets.Checkbox(
                description="not sure", value=getattr(own, f"unsure{place}"), indent=False,
                tooltip=f"Band {place} may be another colour", layout=widgets.Layout(width=_SURE),
            )  # fmt: skip
        sights = [(words, key) for key, words in markings.SIGHTS.items()]
        sliders["sight"] = choice("colours alike for", sights, own.sight)
        sliders["measured"] = field("ohmmeter reads", own.measured or "", "268 Ω")
        return sliders

    def put(self, own):
        super().put(own)
        rows = [
            widgets.HBox([self._sliders[name], self._sliders[f"unsure{place}"]])
            for place, name in enumerate(markings.PLACES, start=1)
        ]
        self._knobs.children = [self._sliders["count"], *rows, self._sliders["sight"], self._sliders["measured"]]
        self._fit_rows()

    def after(self):
        view = self.view
        if len(view.listed) < 2:
            return ""
        rows = []
        for place, each in enumerate(view.listed):
            fit = f" <b>{_SIGNS[view.fits[place].word]}</b>" if view.fits else ""
            rows.append(f"<li>{escape(each.words)}{fit}</li>")
        more = view.count - len(view.listed)
        rest = f"<p>{more} more stand behind these: make sure of some bands, or measure.</p>" if more else ""
        return f'<div class="dropper-words"><b>These bands could be</b><ol>{"".join(rows)}</ol>{rest}</div>'

    def _show(self, view):
        super()._show(view)
        self._fit_rows()

    def _fit_rows(self):
        """Hide the rows of bands that there are not."""
        rows = [row for row in self._knobs.children if isinstance(row, widgets.HBox)]
        for place, row in enumerate(rows, start=1):
            row.layout.display = "" if place <= self.setting.count else "none"
