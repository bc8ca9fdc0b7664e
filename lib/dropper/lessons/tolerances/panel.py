"""Tolerances panel: what weighs most, how far many lamps stray, and how many of them will do."""

import signal
import threading
from html import escape

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import grouped
from ..kit import sliders
from ..kit.lamp_panel import LampPanel
from . import figure
from . import view as tolerances

_PAUSE = 0.004  # s between two pieces of a count: what the page sends gets its turn


class Tolerances(LampPanel):
    """Parts off their values, and what that does to many lamps; see `LampPanel`."""

    picture, lesson = figure, tolerances
    decisive = ("limit",)

    def __init__(self, path: str, ask: bool = True):
        self._counting = None
        many = _many(tolerances.MANY)
        self._count = sliders.button(f"Count {many} lamps", "Solves them a thousand at a time", self.count)
        self._halt = sliders.button("Stop", "Stops the count and keeps what there is", self.stop)
        self._halt.disabled = True
        self._progress = sliders.words()
        super().__init__(path, ask)

    def picture_column(self) -> list:
        return [self.picture_box, widgets.HBox([self._count, self._halt, self._progress]), self.sentence]

    def setting_for(self, lamp: Lamp) -> tolerances.Tolerances:
        return tolerances.setting_for(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The mains keeps its band, the dropper its ±{self.initial.dropper:g} %, every LED its"
            f" ±{self.initial.led:g} %. Of a hundred lamps like the {self.initial.lamp.name}, how many give the designed"
            f" current within {tolerances.QUESTION_LIMIT:g} %? Set the current allowed to ±{tolerances.QUESTION_LIMIT:g} % to see.",
            {
                "all": "95 or more: no part is off by much more",
                "most": "60 to 95: errors seldom all go one way",
                "few": "fewer than 60: the errors add up",
            },
        )

    def verdict(self) -> tuple[str, str]:
        asked = self.question_setting
        within = tolerances.share_within(asked, tolerances.QUESTION_LIMIT)
        if within != within:
            return "", "This lamp is dark as designed: there is nothing to keep to."
        ends = tolerances.view_of(asked).ends
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
            layout=widgets.Layout(width=sliders.WIDTH),
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
        self._counting = tolerances.counting(self.setting)
        self._buttons_while(True)
        self.deferred.call_later("count", _PAUSE, self._on)

    def stop(self) -> None:
        """Stop the count; the lamps solved so far stay in the picture."""
        if self._counting is not None:
            counted, self._counting = self._counting, None
            self._buttons_while(False)
            self._tell_count(f"Stopped after {_many(counted.done)} of {_many(counted.wanted)} lamps; they are kept.")

    def _on(self):
        """One piece of the count; an interrupt of the kernel while it runs is heard like the button."""
        counting = self._counting
        if counting is None:
            return
        main = threading.current_thread() is threading.main_thread()
        before = signal.signal(signal.SIGINT, signal.default_int_handler) if main else None
        try:
            counting.step()
            super().show(tolerances.view_of(self.setting, counting.sample()))
        except KeyboardInterrupt:
            super().show(tolerances.view_of(self.setting, counting.sample()))
            self.stop()
            return
        finally:
            if main:
                signal.signal(signal.SIGINT, before)
        self._tell_count(f"{_many(counting.done)} of {_many(counting.wanted)} lamps.")
        if counting.finished:
            self._counting = None
            self._buttons_while(False)
        else:
            self.deferred.call_later("count", _PAUSE, self._on)

    def show(self, view):
        """Another setting ends a count: its lamps are not those of the new one."""
        if self._counting is not None:
            self._counting = None
            self._buttons_while(False)
        self._tell_count("")
        super().show(view)

    def _buttons_while(self, running):
        self._count.disabled, self._halt.disabled = running, not running

    def _tell_count(self, text):
        self._progress.value = f'<div class="dropper-words" role="status">{escape(text)}</div>' if text else ""

    def _disable(self, asleep):
        super()._disable(asleep)
        self._count.disabled = asleep


def _many(count):
    """A count of lamps with its thousands apart."""
    return grouped(count)
