"""Design panel: wishes on sliders, the lamp that meets them, its parts and their reasons."""

from collections.abc import Mapping
from pathlib import Path

import ipywidgets as widgets

from ...circuit.html import items, tag
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...components.kinds import LEDS
from ...design import Brief, Design, Infeasible
from ...design.alternatives import half_the_flicker
from ...design.wishes import with_groups
from ...standards import SUPPLIES
from ..kit import sliders
from ..kit.panel import Panel
from ..kit.sheet_box import SheetBox
from . import figure
from . import view as lesson
from .brief_box import BriefBox, files_of
from .goals import GOALS
from .parts_box import PartsBox
from .wishes_box import LABEL, WishesBox, listed

REST = 0.7  # s: when the parts follow the sliders
_MOST_KEPT = 4
_FLICKER = (5.0, 10.0, 15.0, 20.0, 30.0, 50.0)


class Designer(Panel):
    """Wishes, and the lamp that meets them.

    Parameters
    ----------
    path
        The file with the brief to start from.
    ask
        Ask for a prediction before the sliders wake.

    Attributes
    ----------
    brief_box : BriefBox
    wishes_box : WishesBox
    nearest_button : widgets.Button
    concessions : Html
        The wishes that were given up for the nearest brief.
    parts_box : PartsBox
        The parts, why each is there, and what to mind of them.
    opened : Lamp or None
        The lamp of a sheet that was opened.
    """

    picture, lesson, goals = figure, lesson, GOALS
    decisive = ("flicker",)
    covered = True
    causes: Mapping[str, str] = {
        "dropper": "The dropper sets how much charge comes with each half cycle. It comes in pulses, whatever the size;"
        " what fills the gaps between them stands behind the bridge.",
        "resistor": "It stands in the line, before the bridge. A few tens of ohms cannot feed the LEDs in the gap"
        " between two pulses; a capacitor across them can.",
    }

    def __init__(self, path: str | Path, ask: bool = True):
        self._pending, self._kept_designs = None, []
        self.opened = None
        self.brief_box = BriefBox(path, self.start_from, self._rename, self.complain, self._files)
        self.wishes_box = WishesBox(self._wish, self.complain)
        self.nearest_button = sliders.button(
            "Take the nearest that can be met", "Gives up wishes one by one until a lamp meets them", self.take_nearest
        )
        self.nearest_button.layout.display = "none"
        self.concessions = sliders.words()
        self.parts_box = PartsBox()
        super().__init__(Brief.from_toml(Path(path)), ask)

    @property
    def brief(self) -> Brief:
        """The brief as the sliders have it."""
        return self.setting

    @property
    def design(self) -> Design | None:
        """The design that meets it; None where none does, or it is not worked out yet."""
        return self.view.answer if isinstance(self.view.answer, Design) else None

    @property
    def lamp(self) -> Lamp:
        """The lamp that is shown: the design's, or while there is none that of the formulas."""
        return self.view.lamp

    def sheet(self) -> SheetBox:
        """A box that writes the sheet of the design that is shown; one that it opens comes back with its wishes."""
        return SheetBox(self._design_lamp, self._open, options=lambda: {"design": self.design})

    def _open(self, lamp, brief):
        """Keep the lamp of a sheet that was opened; the wishes that it was designed to come back onto the sliders."""
        self.opened = lamp
        if brief is None:
            return
        view = lesson.design_view(brief)
        if view.lamp != lamp:
            raise ValueError(
                f"{brief.name}: from the wishes of this sheet the workbook now designs another lamp, so the sheet comes"
                " from another version. The sheet's own lamp was opened, and the sliders were left as they were."
            )
        self.start_from(brief)
        self.brief_box.leave()

    def _design_lamp(self):
        if self.design is None:
            raise ValueError("No lamp meets these wishes yet, so there is no sheet to write")
        return self.design.lamp

    def header(self) -> list[widgets.Widget]:
        return [self.brief_box]

    def _disable(self, asleep):
        super()._disable(asleep)
        self.wishes_box.layout.display = "none" if asleep else ""

    def _wish(self, changes):
        """Wishes as they were typed; a number of LEDs that is no longer left open is what it was settled to."""
        if "in_series" in changes and changes["in_series"] is None:
            changes = changes | {"in_series": self.lamp.string.in_series}
        self._put_on(self.setting.but(**changes))

    def _files(self):
        return files_of(self.setting, self.design)

    def question(self) -> tuple[str, dict[str, str]]:
        brief = self.question_setting
        return (
            f"The {brief.name} may have {brief.flicker_limit:.3g} % of flicker. Half of that is wanted. Which part has"
            " to be about twice as large?",
            {
                "smoothing": "the smoothing capacitor",
                "dropper": "the dropper: it is what holds the current",
                "resistor": "the resistor in the line: it calms the current",
            },
        )

    def verdict(self) -> tuple[str, str]:
        wide, before, narrow, after = half_the_flicker(self.question_setting)
        taken = [show(value, "F") if value == value else "more than can be had" for value in (before, after)]
        return "smoothing" if after > 1.5 * before else "", (
            f"At most {wide:.3g} % takes {taken[0]} of smoothing, {narrow:.3g} % takes {taken[1]}. The LEDs"
            " hold their volts nearly still, so even a small ripple of volts moves their current much. Half the flicker"
            " takes about twice the capacitor, to the next preferred value."
        )

    def make_sliders(self, setting: Brief) -> dict[str, widgets.Widget]:
        places = [(supply.place, supply.place) for supply in SUPPLIES]
        if not (self.initial.place and setting.place):
            places.insert(0, ("mains of the brief", ""))
        names = [kind.name for kind in LEDS]
        kinds = [(name, name) for name in dict.fromkeys([*names, setting.led, self.initial.led])]
        words = [("no effect", "no effect"), ("low risk", "low risk")]  # of IEEE 1789
        depths = sorted({*_FLICKER, *([setting.flicker] if isinstance(setting.flicker, float) else [])} - {100.0})
        words += [(f"{depth:.3g} %", depth) for depth in depths] + [("any", 100.0)]
        return {
            "place": listed("mains", places, setting.place),
            "led": listed("kind of LED", kinds, setting.led),
            "in_series": sliders.linear("LEDs in series", with_groups(setting).in_series, "", 1, 100, 1),
            "in_parallel": sliders.linear("LEDs side by side", setting.in_parallel, "", 1, 6, 1),
            "current": sliders.stepped("string current", setting.current, "A", 2e-3, 0.3, 24),
            "flicker": widgets.SelectionSlider(
                options=words, value=setting.flicker, description="flicker at most", style=LABEL
            ),
        }

    def picture_column(self) -> list[widgets.Widget]:
        return [self.picture_box, self.nearest_button, self.concessions, self.sentence, self.parts_box.notes]

    def _rows(self):
        return [*super()._rows(), self.parts_box]

    def take_nearest(self) -> None:
        """Put the nearest brief that can be met on the sliders, and say what was given up."""
        brief, changes = lesson.nearest_brief(self.setting)
        if brief is None:
            changes += ("No change of one wish after another helps.",)
        else:
            self._put_on(brief)
        self.concessions.value = tag("div", tag("ul", items(changes)), css="dropper-words", role="status")

    def keep(self) -> None:
        """Keep the curves as a ghost, and the design beside the others."""
        if self.design is not None:
            self._kept_designs = [*self._kept_designs, self.design][-_MOST_KEPT:]
        super().keep()

    def refresh(self) -> None:
        """The same view once more: what is worked out stays so."""
        self.show(self.view)

    def forget(self) -> None:
        """Take the ghost and the designs beside away."""
        self._kept_designs = []
        super().forget()

    def start_from(self, setting: Brief) -> None:
        """Put another brief on the panel; sliders and ghost start from it."""
        super().start_from(setting)
        self.brief_box.show(setting.name)
        self.wishes_box.show(setting)
        self.slider_box.children = [*self.sliders.values(), self.wishes_box]
        self.concessions.value = ""

    def _rename(self, name):
        try:
            view = lesson.with_name(self.view, name)
        except ValueError as error:
            self.complain(f"Name of the lamp: {str(error).removeprefix('Brief.name: ')}.")
            return
        self.setting, self.initial = view.setting, self.initial.but(name=name)
        self.show(view)

    def reset(self) -> None:
        """Put every slider back to where it was."""
        self._put_on(self.initial)

    def _put_on(self, brief):
        """Another brief on the sliders; what was kept, and where to come back to, stay."""
        initial, kept_view = self.initial, self.kept_view
        self._keeps_question = True
        try:
            self.start_from(brief)
        finally:
            self._keeps_question = False
        self.initial, self.kept_view = initial, kept_view
        self.show(self.view)

    def changed(self, path: str, value: float | str) -> Brief:
        self.concessions.value = ""
        return lesson.with_wish(self.setting, path, value, self.initial)

    def show(self, view: lesson.View) -> None:
        super().show(view)
        if view.answer is None:
            self._pending = view.setting
            self.deferred.call_later("design", REST, self._work_out)

    def _work_out(self):
        """The design, once the sliders rest."""
        if self._pending != self.setting:
            self._pending = self.setting
            self.deferred.call_later("design", REST, self._work_out)
        elif self.view.answer is None:
            with self.progress.watching():
                view = lesson.design_view(self.setting)
            super().show(view)

    def write_now(self) -> None:
        super().write_now()
        answer = self.view.answer
        self.parts_box.write(answer, self._kept_designs)
        can_help = isinstance(answer, Infeasible) and answer.nearest is not None
        self.nearest_button.layout.display = "" if can_help else "none"
        if can_help:
            self.concessions.value = ""

    def lamp_of_readings(self) -> Lamp:
        return self.view.lamp
