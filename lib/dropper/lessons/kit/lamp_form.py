"""Lamp form: a lamp typed off its board, part by part; read back in words, drawn, saved, renamed, copied, deleted."""

from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...bench import own_lamp
from ...bench.own_lamp import ROWS, OwnLampError, read_board, texts_of
from ...bench.own_lamp.log import LONGEST
from ...circuit import schematic
from ...circuit.html import joined, tag
from ...circuit.lamp import Lamp
from ...components.kinds import LEDS
from .css import STYLE
from .lamp_life import LampLife
from .markup import Html
from .sliders import button

_LABEL = {"description_width": "150px"}
_NEW = ""


class LampForm(widgets.VBox):
    """The form, the lamps that were saved, and the life of the one that is open.

    Parameters
    ----------
    folder
        Where the learner's lamps are kept.
    then
        Called with the file of a lamp that was saved or opened; with None where one is gone.
    table_folder
        Where a table of points measured on an LED is looked for.

    Attributes
    ----------
    name : widgets.Text
    fields : dict of str to widget
        By the keys of `own_lamp.ROWS`.
    answers : dict of str to Html
        What is said back beside each.
    saved : widgets.Dropdown
        The learner's lamps.
    drawing, message : Html
    life : LampLife
    path : Path or None
        The file of the lamp that is open; None for a new one.
    """

    def __init__(self, folder: Path, then: Callable[[Path | None], None], table_folder: Path | str = "lamps"):
        self._folder, self._then, self._tables = Path(folder), then, table_folder
        self.path, self._base, self._steps, self._busy = None, None, [], False
        self.drawing, self.message = Html(), Html()
        self.name = _text("Name", "hall lamp")
        self.fields = {row.key: _field(row) for row in ROWS}
        self.answers = {row.key: Html() for row in ROWS}
        self.saved = widgets.Dropdown(description="My lamps", style=_LABEL)
        self.life = LampLife(self._folder, self._say)
        for field in (self.name, *self.fields.values()):
            field.observe(lambda _: self.read(), "value")
        self.saved.observe(self._open, "value")
        rows = [widgets.HBox([self.fields[row.key], self.answers[row.key]]) for row in ROWS]
        for row in rows:
            row.add_class("dropper-board-row")
        actions = widgets.HBox(
            [
                button("Save", "Writes the lamp's file and puts the lamp on every panel", self.save),
                button("Copy", "The same parts as a new lamp: give it a name, then Save", self.copy),
                button("Delete", "Takes the lamp off the list; Undo brings it back", self.delete),
                button("Undo", "Takes the last save, copy or delete back", self.undo),
            ]
        )
        left, right = widgets.VBox([self.name, *rows, actions, self.message]), widgets.VBox([self.drawing])
        columns = widgets.Box([left, right])
        for box, css in ((columns, "form"), (right, "form-drawing")):
            box.add_class(f"dropper-{css}")
        super().__init__([Html(STYLE), self.saved, columns, self.life])
        self.add_class("dropper-fit")
        self._list()
        self.read()

    @property
    def lamp(self) -> Lamp | None:
        """The lamp as it is typed; None while something is wrong or missing that has to be known."""
        return self.board.lamp

    def read(self) -> None:
        """Read every field, say it back, and draw the circuit as far as it is known."""
        if self._busy:
            return
        texts = {key: field.value for key, field in self.fields.items()}
        name = self.name.value.strip() or "my lamp"
        try:
            self.board = read_board(texts, name, self._base, self._tables)
        except ValueError as error:  # the name, or parts that do not go together
            self._say(str(error), wrong=True)
            return
        for key, answer in self.answers.items():
            wrong = self.board.wrong.get(key)
            css = "dropper-words wrong" if wrong else "dropper-words"
            answer.value = tag("div", wrong or self.board.words.get(key, ""), css=css, role="status")
        self.drawing.value = schematic.draw(self.board.sketch, captions=dict(self.board.captions))
        self._say("")

    def save(self) -> None:
        """Write the lamp's file and have every panel show it; what cannot be saved is said, and nothing is lost."""
        if not self.name.value.strip():
            self._say("name: give the lamp a name first, such as hall lamp", wrong=True)
            return
        board = self.board
        if board.lamp is None:
            rest = [*(row.name for row in ROWS if row.key in board.wrong), *board.missing]
            self._say(f"Not saved: {', '.join(dict.fromkeys(rest))} to be put right first.", wrong=True)
            return
        new = self.path is None
        typed = "; ".join(f"{row.name} {self.fields[row.key].value}" for row in ROWS if self.fields[row.key].value)
        if self._do(lambda: own_lamp.save(board.lamp, self.path, self._folder), filled=True) and new:
            self.life.add("note", f"Typed off its board: {typed}"[:LONGEST])

    def copy(self) -> None:
        """Have the same parts as a new lamp, which is not saved as yet."""
        self.path = self._base = None
        self.name.value = f"{self.name.value.strip() or 'my lamp'}, copy"
        self._list()
        self.life.show(None, "")
        self._say("A copy, not saved as yet: give it a name of its own, then Save.")

    def delete(self) -> None:
        """Take the lamp that is open off the list; what was typed stays in the fields."""
        if self.path is None:
            self._say("Delete: no saved lamp is open; choose one under My lamps.", wrong=True)
            return
        self._do(lambda: own_lamp.delete(self.path))

    def undo(self) -> None:
        """Take the last step back; with none in this notebook, bring back what was deleted last."""
        if self._steps:
            step = self._steps.pop()
            self._do(step.undo, keep=False)
        elif place := own_lamp.last_deleted(self._folder):
            self._do(lambda: own_lamp.restore(place))
        else:
            self._say("Undo: nothing was saved or deleted.")

    def take_from(self, path: Path) -> None:
        """Fill the fields from a lamp's file."""
        try:
            lamp = Lamp.from_toml(path)
        except ValueError as error:
            self._say(str(error), wrong=True)
            return
        self._busy, self.path, self._base = True, path, lamp
        self.name.value = lamp.name
        for key, text in texts_of(lamp).items():
            self.fields[key].value = text
        self._busy = False
        self.read()
        self.life.show(path, lamp.name)

    def _do(self, action, keep=True, filled=False):
        """Take a step with the files; whether it could be taken."""
        try:
            step = action()
        except (OwnLampError, OSError) as error:
            self._say(str(error), wrong=True)
            return False
        if keep:
            self._steps.append(step)
        self.path = step.path
        if filled:
            self._base = self.lamp
            self.life.show(step.path, self.lamp.name)
        elif step.path is not None:
            self.take_from(step.path)
        else:
            self._base = None
            self.life.show(None, "")
        self._list()
        self._say(f"{step.words}.")
        self._then(step.path)
        return True

    def _list(self):
        self._busy = True
        files = own_lamp.own_lamps(self._folder)
        self.saved.options = [("a new one", _NEW), *((path.stem.replace("_", " "), str(path)) for path in files)]
        self.saved.value = str(self.path) if self.path in files else _NEW
        self._busy = False

    def _open(self, change):
        if self._busy:
            return
        if change.new:
            self.take_from(Path(change.new))
            self._then(self.path)
        else:
            self._busy, self.path, self._base = True, None, None
            for field in (self.name, *self.fields.values()):
                field.value = ""
            self._busy = False
            self.read()
            self.life.show(None, "")

    def _say(self, text, wrong=False):
        role = "alert" if wrong else "status"
        css = "dropper-words wrong" if wrong else "dropper-words"
        self.message.value = tag("div", joined(text), css=css, role=role) if text else ""


def _text(name, example):
    field = widgets.Text(description=name, placeholder=example, style=_LABEL)
    field.continuous_update = False
    return field


def _field(row):
    if row.key != "led":
        return _text(row.name, row.example)
    kinds = [kind.name for kind in LEDS]
    field = widgets.Combobox(
        options=kinds, description=row.name, placeholder=row.example, ensure_option=False, style=_LABEL
    )
    field.continuous_update = False
    return field
