"""Lamp box: a lamp is chosen from the lamp files or the learner's own, opened from disk, or typed off its board."""

import importlib
import weakref
from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...bench.own_lamp import choice as lamp_choice
from ...bench.own_lamp.place import FOLDER
from ...bench.own_lamp.storage import own_lamps
from ...circuit.excerpt import label
from ...circuit.html import tag
from ...circuit.lamp import Lamp
from ...circuit.lampfile import LampFileError, decode
from .markup import Html
from .sliders import button

_OWN = ""  # in the place of a file's name: the lamp that has none beside the notebook
_boxes = weakref.WeakSet()  # those of this notebook, which follow one another


def first_lamp(path: Path | str) -> tuple[Lamp, str, str]:
    """The lamp that a panel begins with: the one that was chosen last, else that of a file.

    Returns
    -------
    (Lamp, str, str)
        The lamp; its file's name as `LampBox` takes it; what is to be said of that, "" for nothing.
    """
    path = Path(path)
    folder = lamp_choice.own_folder(path.parent)
    last = lamp_choice.chosen(folder) if folder else None
    if last is None or last == path:
        return Lamp.from_toml(path), path.name, ""
    try:
        lamp = Lamp.from_toml(last)
    except LampFileError as error:
        lamp = Lamp.from_toml(path)
        return lamp, path.name, f"The lamp that was chosen cannot be had ({error}). This is the {label(lamp.name, 80)}."
    page = path.stem.replace("_", " ")
    return (
        lamp,
        _key(last, path.parent),
        f"{_CHOSEN} Where the page's text has numbers of the {page}, they are that one's.",
    )


_CHOSEN = "The lamp that you chose last."


class LampBox(widgets.VBox):
    """The lamp files beside the notebook, the learner's own, and one from the learner's disk.

    What is chosen here is on every panel until another is chosen.

    Parameters
    ----------
    file
        The name of the file whose lamp is on the bench; None for a lamp without one.
    then
        Called with a lamp that could be read.
    complain
        Called with what was wrong with one that could not, or that cannot be shown; the lamp on the bench stays.
    own
        A lamp that comes from no file beside the notebook: it stands first in the list.
    note
        What is to be said of the lamp, from `first_lamp`.

    Attributes
    ----------
    choice : widgets.Dropdown
    upload : widgets.FileUpload
    type_own : widgets.Button
        Opens and closes the form for a lamp of one's own, in place.
    form : LampForm or None
        That form, once it was asked for.
    """

    def __init__(
        self,
        folder: Path,
        file: str | None,
        then: Callable[[Lamp], None],
        complain: Callable[[str], None],
        own: Lamp | None = None,
        note: str = "",
    ):
        self._folder, self._then, self._complain = Path(folder), then, complain
        self._mine = lamp_choice.own_folder(self._folder)
        self._own, self._files, self.form = own, self._listed(), None
        names = [name for _, name in self._files]
        self.choice = widgets.Dropdown(
            options=self._options(),
            value=file if file in names else _OWN if own else None,
            description="Lamp on the bench",
            style={"description_width": "150px"},
        )
        self.upload = widgets.FileUpload(
            accept=".toml", multiple=False, description="Open a lamp file", layout=widgets.Layout(width="auto")
        )
        self.type_own = button("My own lamp …", "Type a lamp off its board, part by part", self.toggle_form)
        self._file = self.choice.value  # of the lamp on the bench; None where none is named
        self.choice.observe(self._choose, "value")
        self.upload.observe(self._open, "value")
        self._note, self._place = Html(), widgets.VBox()
        row = widgets.HBox([self.choice, self.upload, *([self.type_own] if self._mine else [])])
        super().__init__([row])
        if note:
            self._say(note)
        _boxes.add(self)

    @property
    def keeps_choice(self) -> bool:
        """Whether the panel stands in the notebook's own folder, so that the choice is kept there."""
        return self._mine is not None

    def toggle_form(self) -> None:
        """Open the form for a lamp of one's own below the list, or close it."""
        if self.form is None:
            form = importlib.import_module(".lamp_form", __package__)  # loaded when it is first wanted
            self.form = form.LampForm(self._mine, lambda path: put_on(path, self._mine))
        self._place.children = () if self._place.children else (self.form,)
        self.type_own.description = "Close the form" if self._place.children else "My own lamp …"
        self._arrange()

    def list_anew(self) -> None:
        """List the files that there are by now; the lamp on the bench stays."""
        files = self._listed()
        if files != self._files:
            gone = self._file not in (None, _OWN, *(name for _, name in files))
            kept = [entry for entry in self._files if gone and entry[1] == self._file]
            self._files = [*files, *kept]
            self._relist()

    def follow(self, path: Path) -> None:
        """Take over the lamp of a file that was chosen elsewhere in the notebook."""
        key = _key(path, self._folder)
        if key in (name for _, name in self._files):
            self._take(lambda: Lamp.from_toml(self._path(key)), key)

    def _listed(self):
        names = sorted(path.name for path in self._folder.glob("*.toml"))
        files = [(name.removesuffix(".toml").replace("_", " "), name) for name in names]
        mine = own_lamps(self._mine) if self._mine else []
        return [*files, *((f"mine: {path.stem.replace('_', ' ')}", _key(path, self._folder)) for path in mine)]

    def _path(self, key):
        return Path(key) if "/" in key else self._folder / key

    def _options(self):
        return [(self._own.name or "a lamp without a name", _OWN), *self._files] if self._own else self._files

    def _relist(self):
        file, self._file = self._file, None
        self.choice.unobserve(self._choose, "value")
        self.choice.options = self._options()
        self.choice.value = self._file = file
        self.choice.observe(self._choose, "value")

    def _choose(self, change):
        if change.new not in (None, self._file):
            own = self._own
            self._take(lambda: Lamp.from_toml(self._path(change.new)) if change.new else own, change.new)
            if self._file == change.new:
                self._share(change.new)

    def _share(self, key):
        if not (self._mine and key):
            return
        put_on(self._path(key), self._mine, self)

    def _open(self, change):
        if change.new:
            file = change.new[0]
            self._take(lambda: Lamp.from_toml_text(decode(file["content"], file["name"]), file["name"]), _OWN)
            self.upload.value = ()

    def _take(self, read, file):
        try:
            lamp = read()
            self._then(lamp)
            self._file = file
            self._say("")
            if file == _OWN and lamp is not self._own:
                self._own = lamp
                self.choice.options = self._options()
        except (ValueError, ArithmeticError) as error:  # what cannot be read, and what a panel cannot show
            self._complain(str(error))
        self.choice.value = self._file  # where it was, if the lamp on the bench stayed

    def _say(self, text):
        self._note.value = tag("div", text, css="dropper-words", role="status") if text else ""
        self._arrange()

    def _arrange(self):
        note = [self._note] if self._note.value else []
        self.children = [self.children[0], *note, *([self._place] if self._place.children else [])]


def put_on(path: Path | None, mine: Path, source: LampBox | None = None) -> None:
    """Have every panel of the notebook show the lamp of a file, and list the files that there are by now.

    Parameters
    ----------
    path
        The file; None where a lamp is gone, and only the lists are made anew.
    mine
        Where the learner's lamps, and the choice, are kept.
    source
        The box where it was chosen, which shows it already.
    """
    if path is not None:
        lamp_choice.choose(path, mine)
    for box in [box for box in _boxes if box.keeps_choice]:
        box.list_anew()
        if path is not None and box is not source:
            box.follow(path)


def _key(path, folder):
    """What a lamp file is called in the list: its name, or its folder and name where it is the learner's own."""
    path = Path(path)
    return path.as_posix() if path.parent.name == FOLDER.name and Path(folder).name != FOLDER.name else path.name
