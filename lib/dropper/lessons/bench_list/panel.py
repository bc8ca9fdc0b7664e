"""The bench check-list of a lamp: a box for every step, ticked in order, and a page for the printer."""

from html import escape
from pathlib import Path

import ipywidgets as widgets

from ...bench.checklist import WHO, checklist
from ...circuit.lamp import Lamp
from ..kit import sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox
from ..kit.sheet_box import FOLDER, link


class BenchList(widgets.VBox):
    """What to do with a lamp on the bench, step by step.

    Parameters
    ----------
    path
        The lamp file.
    """

    def __init__(self, path: str | Path):
        self._path = Path(path)
        self._wrong, self._told = widgets.HTML(), widgets.HTML()
        self._list = widgets.VBox()
        self._stage = widgets.Dropdown(
            description="Stage", style={"description_width": "150px"}, layout=widgets.Layout(width="520px")
        )
        self._stage.observe(lambda _: self._turn(), "value")
        self._written = widgets.HTML()
        tip = "Writes this list as a page beside the notebook"
        write = sliders.button("Write it for the printer", tip, self.write)
        box = LampBox(self._path.parent, self._path.name, self.put, self.complain)
        super().__init__(
            [
                widgets.HTML(STYLE),
                box,
                self._wrong,
                self._told,
                self._stage,
                self._list,
                widgets.HBox([write]),
                self._written,
            ]
        )
        self.put(Lamp.from_toml(path))

    def put(self, lamp: Lamp) -> None:
        """Put a lamp's list here, nothing ticked."""
        made = checklist(lamp)  # a ValueError leaves what was there
        self.lamp, self.checklist = lamp, made
        self._done = [False] * len(made.steps)
        self._stage.options = [(f"{n}. {stage.title}", n - 1) for n, stage in enumerate(made.stages, 1)]
        self._stage.value = 0
        self._turn()
        self.complain("")
        self._tell()

    def complain(self, text: str) -> None:
        """Say what was wrong; nothing else changes."""
        self._wrong.value = f'<div class="dropper-words wrong" role="alert">{escape(text)}</div>' if text else ""

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
        self._written.value = (
            f'<div class="dropper-words" role="status">Written: {link(where, page.html)}.'
            " Print it from a tab of its own.</div>"
        )

    def _turn(self):
        """Show the steps of the stage that is chosen; only those have boxes, for a page of many is slow to open."""
        if self._stage.value is None:
            return
        stage = self.checklist.stages[self._stage.value]
        caution = f'<div class="dropper-words">⚠ {escape(stage.caution)}</div>' if stage.caution else ""
        before = self._list.children
        self._list.children = [widgets.HTML(caution), *(self._line(step) for step in stage.steps)]
        for line in before:
            line.close()

    def _line(self, step):
        place = self.checklist.steps.index(step)
        tick = widgets.Checkbox(
            value=self._done[place],
            indent=False,
            description=f"{place + 1}. {step.key}",
            layout=widgets.Layout(width="190px"),
        )
        tick.observe(lambda change: self.tick(place, change.new), "value")
        expect = f"<div><b>Expect:</b> {escape(step.expect)}</div>" if step.expect else ""
        stop = f"<div><b>Stop:</b> {escape(step.stop)}</div>" if step.stop else ""
        text = widgets.HTML(
            f'<div class="dropper-words">{escape(step.do)}{expect}{stop}'
            f"<details><summary>Why</summary>{escape(step.why)}</details></div>",
            layout=widgets.Layout(width="880px"),
        )
        return widgets.HBox([tick, text])

    def tick(self, place: int, done: bool) -> None:
        """Tick a step, or take the tick away.

        Parameters
        ----------
        place
            Of the step in the whole list, from 0.
        """
        self._done[place] = done
        self._tell()

    def _tell(self):
        done = self._done
        stage, step, early = self.checklist.next_step(done)
        text = f"{sum(done)} of {len(done)} done. "
        if step is None:
            text += "Nothing is left. The lamp counts as live whenever it is plugged in."
        else:
            text += f"Next: “{step.key}”, under “{stage.title}”."
            if early:
                text += f" You ticked “{early.key}” before it: go back; the order is what protects."
            elif not any(done):
                text += f" {WHO}"
        self._told.value = f'<div class="dropper-words said" role="status">{escape(text)}</div>'
