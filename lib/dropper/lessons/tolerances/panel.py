"""Tolerances panel: what weighs most, how far many lamps stray, and how many of them will do."""

from collections.abc import Mapping
from pathlib import Path

import ipywidgets as widgets

from ...circuit.html import tag
from ...circuit.lamp import Lamp
from ...circuit.numerals import grouped
from ..kit import sliders
from ..kit.interrupt import interruptible
from ..kit.lamp_panel import LampPanel
from . import figure
from . import view as tolerances
from .goals import GOALS

_PAUSE = 0.004  # s between two pieces of a count: what the page sends gets its turn
_GLANCE = 0.03  # s: when many lamps follow the few that a move shows at once


class Tolerances(LampPanel):
    """Parts off their values, and what that does to many lamps; see `LampPanel`.

    Attributes
    ----------
    counting : Counting or None
        The count that goes on.
    count_button, stop_button : widgets.Button
    progress : Html
        How far the count is.
    """

    picture, lesson, goals = figure, tolerances, GOALS
    decisive = ("limit",)
    causes: Mapping[str, str] = {
        "all": "Each part does little, but their errors meet in one lamp. And the mains counts more than once: the"
        " string keeps its volts, so all of a rise goes to the rest.",
        "most": "Errors partly cancel, but not enough here.",
        "few": "They add up in full only if all go the same way, and that is rare.",
    }

    def __init__(self, path: str | Path | Lamp, ask: bool = True):
        self.counting = None
        words = f"Count {grouped(tolerances.MANY)} lamps"
        self.count_button = sliders.button(
            words, "Solves them a thousand at a time; a move of a slider begins it by itself", self.count
        )
        self.stop_button = sliders.button("Stop", "Stops the count and keeps what there is", self.stop)
        self.stop_button.disabled = True
        self.progress = sliders.words()
        super().__init__(path, ask)

    def picture_column(self) -> list[widgets.Widget]:
        return [self.picture_box, widgets.HBox([self.count_button, self.stop_button, self.progress]), self.sentence]

    def view_of(self, setting: tolerances.Tolerances) -> tolerances.View:
        """What a setting shows: of the lamps counted already, where they are those of the setting too."""
        sample = getattr(getattr(self, "view", None), "sample", None)
        same = sample is not None and sample.lamp == setting.lamp and sample.spread == setting.spread
        return tolerances.view_of(setting, sample if same else None)

    def setting_for(self, lamp: Lamp) -> tolerances.Tolerances:
        return tolerances.setting_for(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        setting, limit = self.question_setting, tolerances.QUESTION_LIMIT
        return (
            f"The mains keeps its limits, the dropper its ±{setting.dropper:g} %, every LED its ±{setting.led:g} %. Of"
            f" a hundred lamps like the {setting.lamp.name}, how many give the designed current within {limit:g} %? Put"
            f" the current allowed to ±{limit:g} % to see.",
            {
                "all": "95 or more: no part is off by much more",
                "most": "60 to 95: errors seldom all go one way",
                "few": "fewer than 60: the errors add up",
            },
        )

    def verdict(self) -> tuple[str, str]:
        setting = self.question_setting
        within = tolerances.share_within(setting, tolerances.QUESTION_LIMIT)
        if within != within:
            return "", "This lamp is dark as designed: there is nothing to keep to."
        ends = tolerances.view_of(setting).ends
        return "all" if within >= 95 else "most" if within >= 60 else "few", (
            f"About {within:.0f} of a hundred. At the worst, with everything at its bad end, the current is"
            f" {100 * (1 - ends.least / ends.nominal):.3g} % low or {100 * (ends.greatest / ends.nominal - 1):.3g} %"
            " high, but that is rare: by chance the errors add by their squares, and the largest rules."
        )

    def make_sliders(self, setting: tolerances.Tolerances) -> dict[str, widgets.Widget]:
        place = widgets.Dropdown(
            options=[(name, name) for name in tolerances.PLACES],
            value=setting.place,
            description="mains of",
            style={"description_width": "150px"},
        )
        return {
            "place": place,
            "dropper": sliders.linear("dropper, ±", setting.dropper, "%", 0.0, 20.0, 1.0),
            "led": sliders.linear("LED voltage, ±", setting.led, "%", 0.0, 20.0, 1.0),
            "years": sliders.linear("years in use", setting.years, "", 0.0, 20.0, 1.0),
            "limit": sliders.linear("current allowed, ±", setting.limit, "%", 2.0, 40.0, 1.0),
        }

    def count(self) -> None:
        """Begin to count many lamps; the page stays awake between the pieces."""
        self._begin(_PAUSE)

    def _begin(self, pause):
        self.counting = tolerances.counting(self.setting)
        self._enable_count(True)
        self.deferred.call_later("count", pause, self._solve_piece)

    def stop(self) -> None:
        """Stop the count; the lamps solved so far stay in the picture."""
        if self.counting is not None:
            counting, self.counting = self.counting, None
            self._enable_count(False)
            done, wanted = grouped(counting.done), grouped(counting.wanted)
            self._write_progress(f"Stopped after {done} of {wanted} lamps; they are kept.")

    def _solve_piece(self):
        """One piece of the count; an interrupt of the kernel meanwhile stops it as the button does."""
        counting = self.counting
        if counting is None:
            return
        try:
            with interruptible():
                counting.step()
                self._show_count(counting)
        except KeyboardInterrupt:
            self._show_count(counting)
            self.stop()
            return
        self._write_progress(f"{grouped(counting.done)} of {grouped(counting.wanted)} lamps.")
        if counting.finished:
            self.counting = None
            self._enable_count(False)
        else:
            self.deferred.call_later("count", _PAUSE, self._solve_piece)

    def _show_count(self, counting):
        super().show(tolerances.view_of(self.setting, counting.sample()))

    def show(self, view: tolerances.View) -> None:
        """Show a setting; other lamps than those of the count end it, and on a page their count begins at once."""
        counting = self.counting
        if counting is not None and counting.spread == view.sample.spread and counting.lamp == view.sample.lamp:
            super().show(view)
            return
        self.counting = None
        self._enable_count(False)
        self._write_progress("")
        super().show(view)
        if self.deferred.waits and self._moved and view.sample.wanted < tolerances.MANY:
            self._begin(_GLANCE)

    def _enable_count(self, running):
        self.count_button.disabled, self.stop_button.disabled = running, not running

    def _write_progress(self, text):
        self.progress.value = tag("div", text, css="dropper-words", role="status") if text else ""

    def _disable(self, asleep):
        super()._disable(asleep)
        self.count_button.disabled = asleep
