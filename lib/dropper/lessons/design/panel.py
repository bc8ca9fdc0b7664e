"""Design panel: wishes on sliders, the lamp that meets them, its parts and their reasons."""

from html import escape
from pathlib import Path

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...components.kinds import LEDS
from ...design import Brief, Design, Infeasible
from ...design.alternatives import half_the_flicker
from ...results import explain
from ...standards import SUPPLIES
from ..kit import sliders
from ..kit.panel import Panel
from ..kit.sheet_box import SheetBox
from . import figure, parts_list
from . import view as lesson
from .brief_box import BriefBox

REST = 0.7  # s: when the parts follow the sliders
_MOST_KEPT = 4
_FLICKER = (5.0, 10.0, 15.0, 20.0, 30.0, 50.0)
_LABEL = {"description_width": "150px"}


class Designer(Panel):
    """Wishes, and the lamp that meets them.

    Parameters
    ----------
    path
        The file with the brief to start from.
    ask
        Ask for a prediction before the sliders wake.
    """

    picture = figure
    decisive = ("flicker",)

    def __init__(self, path: str | Path, ask: bool = True):
        self._rests_on, self._beside = None, []
        self.opened = None  # the lamp of a sheet that was opened
        self._box = BriefBox(path, self.put, self._rename, self.complain)
        self._nearest = sliders.button(
            "Take the nearest that can be met", "Gives up wishes one by one until a lamp meets them", self.take_nearest
        )
        self._nearest.layout.display = "none"
        self._given_up = sliders.words()
        self._part = widgets.Dropdown(
            options=[("none", "")], description="Why this part?", style=_LABEL, layout=widgets.Layout(width="420px")
        )
        self._part.observe(lambda _: self._tell_part(), "value")
        self._part_told = widgets.HTMLMath()
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
        """The lamp that is shown: the design's, or while there is none that of the closed forms."""
        return self.view.lamp

    def sheet(self) -> SheetBox:
        """A box that writes the sheet of the design that is shown; one that it opens comes back with its wishes."""
        return SheetBox(self._designed, self._open, asked=lambda: {"design": self.design})

    def _open(self, lamp, brief):
        """Keep the lamp of a sheet that was opened; the wishes that it was designed to come back onto the sliders."""
        self.opened = lamp
        if brief is None:
            return
        made = lesson.design_view(brief)
        if made.lamp != lamp:
            raise ValueError(
                f"{brief.name}: from the wishes of this sheet the workbook now designs another lamp, so the sheet comes"
                " from another version. The sheet's own lamp was opened, and the sliders were left as they were."
            )
        self.start_from(brief)
        self._box.leave()

    def _designed(self):
        if self.design is None:
            raise ValueError("No lamp meets these wishes yet, so there is no sheet to write")
        return self.design.lamp

    def header(self) -> list[BriefBox]:
        return [self._box]

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The light of the {self.initial.name} may waver by {self.initial.flicker_limit:.3g} %. Half of that is wanted."
            " What has to be twice as large?",
            {"smoothing": "the smoothing capacitor", "dropper": "the dropper", "resistor": "the resistor in the line"},
        )

    def verdict(self) -> tuple[str, str]:
        wide, before, narrow, after = half_the_flicker(self.question_setting)
        taken = [show(value, "F") if value == value else "more than can be had" for value in (before, after)]
        return "smoothing" if after > 1.5 * before else "", (
            f"At most {wide:.3g} % takes {taken[0]} of smoothing, {narrow:.3g} % takes {taken[1]}: the string's dynamic"
            " resistance is small, so the current is smoothed by the reactance of the capacitor alone, and half the"
            " flicker takes about twice the capacitor, to the next preferred value."
        )

    def make_sliders(self, setting: Brief) -> dict[str, widgets.Widget]:
        places = [(supply.place, supply.place) for supply in SUPPLIES]
        if not self.initial.place:
            places.insert(0, ("mains of the brief", ""))
        names = [kind.name for kind in LEDS]
        kinds = [(name, name) for name in dict.fromkeys([*names, setting.led, self.initial.led])]
        words = [("no effect", "no effect"), ("low risk", "low risk")]  # of IEEE 1789
        depths = sorted({*_FLICKER, *([setting.flicker] if isinstance(setting.flicker, float) else [])} - {100.0})
        words += [(f"{depth:.3g} %", depth) for depth in depths] + [("any", 100.0)]
        return {
            "place": _listed("mains", places, setting.place),
            "led": _listed("kind of LED", kinds, setting.led),
            "in_series": sliders.linear("LEDs in series", setting.in_series, "", 1, 100, 1),
            "in_parallel": sliders.linear("LEDs side by side", setting.in_parallel, "", 1, 6, 1),
            "current": sliders.stepped("string current", setting.current, "A", 2e-3, 0.3, 24),
            "flicker": widgets.SelectionSlider(
                options=words,
                value=setting.flicker,
                description="flicker at most",
                style=_LABEL,
                layout=widgets.Layout(width=sliders.WIDTH),
            ),
        }

    def picture_column(self) -> list:
        return [self.picture_box, self._nearest, self._given_up, self.sentence, self._part, self._part_told]

    def take_nearest(self) -> None:
        """Put the nearest brief that can be met on the sliders, and say what was given up."""
        brief, told = lesson.nearest_brief(self.setting)
        if brief is None:
            told += ("No change of one wish after another helps.",)
        else:
            self._put_on(brief)
        items = "".join(f"<li>{escape(each)}</li>" for each in told)
        self._given_up.value = f'<div class="dropper-words" role="status"><ul>{items}</ul></div>'

    def keep(self) -> None:
        """Keep the curves as a ghost, and the design beside the others."""
        if self.design is not None:
            self._beside = [*self._beside, self.design][-_MOST_KEPT:]
        super().keep()

    def refresh(self):
        """The same view once more: what is worked out stays so."""
        self.show(self.view)

    def forget(self) -> None:
        """Take the ghost and the designs beside away."""
        self._beside = []
        super().forget()

    def start_from(self, setting: Brief) -> None:
        """Put another brief on the panel; sliders and ghost start from it."""
        super().start_from(setting)
        self._box.show(setting.name)
        self._given_up.value = ""

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
        initial, kept = self.initial, self.kept_view
        self.start_from(brief)
        self.initial, self.kept_view = initial, kept
        self.show(self.view)

    def changed(self, path: str, value: float | str) -> Brief:
        self._given_up.value = ""
        return lesson.with_wish(self.setting, path, value, self.initial)

    def show(self, view):
        super().show(view)
        if view.answer is None:
            self._rests_on = view.setting
            self.deferred.call_later("design", REST, self._work_out)

    def _work_out(self):
        """The design, once the sliders rest."""
        if self._rests_on is not self.setting:
            self._rests_on = self.setting
            self.deferred.call_later("design", REST, self._work_out)
        elif self.view.answer is None:
            super().show(lesson.design_view(self.setting))

    def write_now(self):
        super().write_now()
        answer = self.view.answer
        helped = isinstance(answer, Infeasible) and answer.nearest is not None
        self._nearest.layout.display = "" if helped else "none"
        if helped:
            self._given_up.value = ""
        if answer is None:  # the design follows; what was asked about stays asked
            self._tell_part()
            return
        parts = answer.parts if isinstance(answer, Design) else ()
        options = (("none", ""), *((f"{part.symbol}, {part.name}", part.part) for part in parts))
        if self._part.options != options:
            chosen = self._part.value
            self._part.options = options
            self._part.value = chosen if chosen in dict(options).values() else ""
        self._tell_part()

    def _offer(self, readings):
        if self.view.answer is not None:
            super()._offer(readings)

    def _tell_part(self):
        told = ""
        if self._part.value and self.design is not None:
            part = self.design.of(self._part.value)
            worked = explain.in_html(part.reading)
            told = f'<div class="dropper-words"><p>{escape(part.sentence)}</p>{worked}</div>'
        self._part_told.value = told

    def details(self) -> str:
        if isinstance(self.view.answer, Design):
            return parts_list.whole(self.view.answer) + parts_list.beside(self._beside)
        return parts_list.beside(self._beside)


def _listed(name, options, value):
    return widgets.Dropdown(
        description=name, options=options, value=value, style=_LABEL, layout=widgets.Layout(width=sliders.WIDTH)
    )
