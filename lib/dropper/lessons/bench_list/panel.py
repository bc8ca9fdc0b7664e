"""Bench-list panel: the check-list of a lamp, a box for every step, and a page for the printer."""

from pathlib import Path

import ipywidgets as widgets

from ...bench.checklist import WHO, checklist
from ...circuit.html import tag
from ...circuit.lamp import Lamp
from ..kit import sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox, first_lamp
from ..kit.markup import Html
from ..kit.sheet_box import FOLDER, link


class BenchList(widgets.VBox):
    """What to do with a lamp on the bench, step by step.

    Parameters
    ----------
    path
        The lamp file.

    Attributes
    ----------
    lamp, checklist
        The lamp and what is to be done with it.
    ticks : list of bool
        Whether each step of the whole list is done.
    lamp_box : LampBox
    stage_choice : widgets.Dropdown
    step_list : widgets.VBox
        The steps of the stage that is chosen.
    sentence, complaint, message : Html
        How far it is; what was wrong; where the page was written.
    """

    def __init__(self, path: str | Path):
        self._path = Path(path)
        self.complaint, self.sentence = Html(), Html()
        self.step_list = widgets.VBox()
        self.stage_choice = widgets.Dropdown(description="Stage", style={"description_width": "150px"})
        self.stage_choice.observe(lambda _: self._show_stage(), "value")
        self.message = Html()
        tip = "Writes this list as a page beside the notebook"
        write = sliders.button("Write it for the printer", tip, self.write)
        lamp, file, note = first_lamp(path)
        self.lamp_box = LampBox(self._path.parent, file, self.set_lamp, self.complain, note=note)
        super().__init__(
            [
                Html(STYLE),
                self.lamp_box,
                self.complaint,
                self.sentence,
                self.stage_choice,
                self.step_list,
                widgets.HBox([write]),
                self.message,
            ]
        )
        self.add_class("dropper-fit")
        self.set_lamp(lamp)

    def set_lamp(self, lamp: Lamp) -> None:
        """Put a lamp's list here, nothing ticked."""
        bench_list = checklist(lamp)  # a ValueError leaves what was there
        self.lamp, self.checklist = lamp, bench_list
        self.ticks = [False] * len(bench_list.steps)
        self.stage_choice.options = [(f"{n}. {stage.title}", n - 1) for n, stage in enumerate(bench_list.stages, 1)]
        self.stage_choice.value = 0
        self._show_stage()
        self.complain("")
        self._write_sentence()

    def complain(self, text: str) -> None:
        """Say what was wrong; nothing else changes."""
        self.complaint.value = tag("div", text, css="dropper-words wrong", role="alert") if text else ""

    def write(self) -> None:
        """Write the list as a page into the folder of sheets, and say where it is."""
        from ... import sheet

        folder = self._path.parent.parent / FOLDER
        try:
            folder.mkdir(exist_ok=True)
            page = sheet.bench_page(self.checklist)
            where = page.write(folder / f"{sheet.file_name(self.lamp.name)}_bench_list.html")
        except (OSError, ValueError) as error:
            self.complain(str(error))
            return
        self.complain("")
        written = "Written: ", link(where, page.html), ". Print it from a tab of its own."
        self.message.value = tag("div", *written, css="dropper-words", role="status")

    def _show_stage(self):
        """Show the steps of the stage that is chosen; only those have boxes, for a page of many is slow to open."""
        if self.stage_choice.value is None:
            return
        stage = self.checklist.stages[self.stage_choice.value]
        caution = tag("div", f"⚠ {stage.caution}", css="dropper-words") if stage.caution else ""
        before = self.step_list.children
        self.step_list.children = [Html(caution), *(self._line(step) for step in stage.steps)]
        for line in before:
            line.close()

    def _line(self, step):
        place = self.checklist.steps.index(step)
        tick = widgets.Checkbox(value=self.ticks[place], indent=False, description=f"{place + 1}. {step.key}")
        tick.observe(lambda change: self.tick(place, change.new), "value")
        expect = tag("div", tag("b", "Expect:"), f" {step.expect}") if step.expect else ""
        stop = tag("div", tag("b", "Stop:"), f" {step.stop}") if step.stop else ""
        why = tag("details", tag("summary", "Why"), step.why)
        text = Html(tag("div", step.do, expect, stop, why, css="dropper-words"))
        line = widgets.HBox([tick, text])
        line.add_class("dropper-step")
        return line

    def tick(self, place: int, done: bool) -> None:
        """Tick a step, or take the tick away.

        Parameters
        ----------
        place
            Of the step in the whole list, from 0.
        """
        self.ticks[place] = done
        self._write_sentence()

    def _write_sentence(self):
        ticks = self.ticks
        stage, step, too_early = self.checklist.next_step(ticks)
        text = f"{sum(ticks)} of {len(ticks)} done. "
        if step is None:
            text += "Nothing is left. The lamp counts as live whenever it is plugged in."
        else:
            text += f"Next: “{step.key}”, under “{stage.title}”."
            if too_early:
                text += f" You ticked “{too_early.key}” before it: go back; the order is what protects."
            elif not any(ticks):
                text += f" {WHO}"
        self.sentence.value = tag("div", text, css="dropper-words said", role="status")
