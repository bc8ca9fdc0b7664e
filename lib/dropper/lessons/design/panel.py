"""The panel on designing: wishes on sliders, the lamp that meets them, its parts and their reasons."""

from html import escape
from pathlib import Path

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...components.kinds import LEDS
from ...design import Brief, Design, Infeasible
from ...design.alternatives import half_the_flicker
from ...results import explain
from ...results.reading import Reading
from ...standards import SUPPLIES
from ..kit import sliders
from ..kit.panel import Panel
from ..kit.sheet_box import SheetBox
from . import figure, parts_list
from . import view as lesson
from .brief_box import BriefBox
from .view import View

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
        made = lesson.worked_out(brief)
        if made.lamp != lamp:
            raise ValueError(
                f"{brief.name}: from the wishes of this sheet the workbook now designs another lamp, so the sheet comes"
                " from another version. The sheet's own lamp was opened, and the sliders were left as they were."
            )
        self.put(brief)
        self._box.leave()

    def _designed(self):
        if self.design is None:
            raise ValueError("No lamp meets these wishes yet, so there is no sheet to write")
        return self.design.lamp

    def head(self) -> list[BriefBox]:
        return [self._box]

    def question(self) -> tuple[str, dict[str, str]]:
        return (
            f"The light of the {self.own.name} may waver by {self.own.flicker_limit:.3g} %. Half of that is wanted."
            " What has to be twice as large?",
            {"smoothing": "the smoothing capacitor", "dropper": "the dropper", "resistor": "the resistor in the line"},
        )

    def verdict(self) -> tuple[str, ...]:
        wide, before, narrow, after = half_the_flicker(self.asked)
        taken = [show(value, "F") if value == value else "more than can be had" for value in (before, after)]
        return "smoothing" if after > 1.5 * before else "", (
            f"At most {wide:.3g} % takes {taken[0]} of smoothing, {narrow:.3g} % takes {taken[1]}: the string's dynamic"
            " resistance is small, so the current is smoothed by the reactance of the capacitor alone, and half the"
            " flicker takes about twice the capacitor, to the next preferred value."
        )

    def make_sliders(self, own: Brief) -> dict:
        places = [(supply.place, supply.place) for supply in SUPPLIES]
        if not self.own.place:
            places.insert(0, ("mains of the brief", ""))
        names = [kind.name for kind in LEDS]
        kinds = [(name, name) for name in dict.fromkeys([*names, own.led, self.own.led])]
        words = [("no effect", "no effect"), ("low risk", "low risk")]  # of IEEE 1789
        depths = sorted({*_FLICKER, *([own.flicker] if isinstance(own.flicker, float) else [])} - {100.0})
        words += [(f"{depth:.3g} %", depth) for depth in depths] + [("any", 100.0)]
        return {
            "place": _listed("mains", places, own.place),
            "led": _listed("kind of LED", kinds, own.led),
            "in_series": sliders.linear("LEDs in series", own.in_series, "", 1, 100, 1),
            "in_parallel": sliders.linear("LEDs side by side", own.in_parallel, "", 1, 6, 1),
            "current": sliders.stepped("string current", own.current, "A", 2e-3, 0.3, 24),
            "flicker": widgets.SelectionSlider(
                options=words,
                value=own.flicker,
                description="flicker at most",
                style=_LABEL,
                layout=widgets.Layout(width=sliders.WIDTH),
            ),
        }

    def view_of(self, setting: Brief) -> View:
        return lesson.view_of(setting)

    def readings(self, view: View) -> tuple[Reading, ...]:
        return view.readings

    def pictured(self) -> list:
        return [self._stack, self._nearest, self._given_up, self._said, self._part, self._part_told]

    def take_nearest(self) -> None:
        """Put the nearest brief that can be met on the sliders, and say what was given up."""
        brief, told = lesson.met(self.setting)
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

    def _update(self):
        """The same view once more: what is worked out stays so."""
        self._show(self.view)

    def forget(self) -> None:
        """Take the ghost and the designs beside away."""
        self._beside = []
        super().forget()

    def put(self, own: Brief) -> None:
        """Put another brief on the panel; sliders and ghost start from it."""
        super().put(own)
        self._box.show(own.name)
        self._given_up.value = ""

    def _rename(self, name):
        try:
            view = lesson.renamed(self.view, name)
        except ValueError as error:
            self.complain(f"Name of the lamp: {str(error).removeprefix('Brief.name: ')}.")
            return
        self.setting, self.own = view.setting, self.own.but(name=name)
        self._show(view)

    def reset(self) -> None:
        """Put every slider back to where it was."""
        self._put_on(self.own)

    def _put_on(self, brief):
        """Another brief on the sliders; what was kept, and where to come back to, stay."""
        own, kept = self.own, self._kept
        self.put(brief)
        self.own, self._kept = own, kept
        self._show(self.view)

    def changed(self, path: str, value: float | str) -> Brief:
        self._given_up.value = ""
        return lesson.changed(self.setting, path, value, self.own)

    def _show(self, view):
        super()._show(view)
        if view.answer is None:
            self._rests_on = view.setting
            self._later.soon("design", REST, self._work_out)

    def _work_out(self):
        """The design, once the sliders rest."""
        if self._rests_on is not self.setting:
            self._rests_on = self.setting
            self._later.soon("design", REST, self._work_out)
        elif self.view.answer is None:
            super()._show(lesson.worked_out(self.setting))

    def _tell(self):
        super()._tell()
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

    def after(self) -> str:
        if isinstance(self.view.answer, Design):
            return parts_list.whole(self.view.answer) + parts_list.beside(self._beside)
        return parts_list.beside(self._beside)


def _listed(name, options, value):
    return widgets.Dropdown(
        description=name, options=options, value=value, style=_LABEL, layout=widgets.Layout(width=sliders.WIDTH)
    )
