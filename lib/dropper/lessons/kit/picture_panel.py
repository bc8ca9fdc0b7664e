"""Picture panel: what every panel has: a setting, the picture of it in layers, the picture in words, complaints."""

import re
from collections.abc import Callable, Iterable
from types import ModuleType
from typing import Any

import ipywidgets as widgets

from ...circuit.html import tag
from ...circuit.values import unbroken
from .markup import Html
from .progress_line import ProgressLine
from .room import Room, drawing_in
from .room_note import room_note
from .save_box import SaveBox
from .saved_picture import save


class PicturePanel(widgets.VBox):
    """A setting, and what is seen of it.

    A panel that derives from it names two modules of its room: `lesson`, the view (`view_of`), and `picture`, the
    figure (`backdrop`, `scales`, `overlay`, `sentence`). It places the widgets, and starts from a first setting.

    Attributes
    ----------
    setting
        A frozen dataclass that the widgets change.
    view
        What is computed of the setting: the view that is shown.
    words : str
        The picture in words.
    frame, ghost, curves : Html
        The layers of the picture, from the lowest up.
    picture_box : widgets.Box
        The layers one over the other.
    room : Room
        What the picture has of it on its page.
    room_note : widgets.Text
        Where the page's script writes that.
    save_box : SaveBox
        Makes a file of the picture.
    sentence, complaint : Html
        The words, and what was wrong with the last change.
    progress : ProgressLine
        How much is done of what takes longer than a blink.
    """

    lesson: ModuleType = None
    picture: ModuleType = None

    def __init__(self):
        self.setting = self.view = None
        self.words = ""
        self.curves, self.ghost = Html(), Html()
        self.sentence, self.complaint, self.progress = Html(), Html(), ProgressLine()
        self.room, self.frame = Room(), Html(self.picture.backdrop())
        self.room_note = room_note(self.take_room)
        self.picture_box = widgets.Box([self.frame, self.ghost, self.curves, self.room_note])
        self.picture_box.add_class("dropper-stack")
        self.save_box = SaveBox(self.title, self.picture_file)
        super().__init__()
        self.add_class("dropper-fit")

    def view_of(self, setting: Any) -> Any:
        """What is seen of a setting; ValueError where it cannot be."""
        with self.progress.watching():
            return self.lesson.view_of(setting)

    def start_from(self, setting: Any) -> None:
        """Put another setting on the panel; a ValueError leaves everything as it was."""
        view = self.view_of(setting)
        self.setting = setting
        self.room.let_go()
        self.show(view)

    def refresh(self) -> None:
        """Show the setting once more."""
        self.room.let_go()
        self.show(self.view_of(self.setting))

    def changed(self, path: str, value: Any) -> Any:
        """The setting with what a widget stands for in it; ValueError where it cannot be."""
        raise NotImplementedError

    def move(self, path: str, value: Any) -> None:
        """Change one thing of the setting, as its widget does, and show it; what was shown stays if it cannot be.

        Parameters
        ----------
        path
            The field of the setting.
        """

        def change():
            setting = self.changed(path, value)
            return setting, self.view_of(setting)

        result = self.attempt(change)
        if result is not None:
            setting, view = result
            self.accept(path, setting)
            self.show(view)

    def accept(self, path: str, setting: Any) -> None:
        """Take a setting over in which one thing has changed."""
        self.setting = setting

    def attempt(self, action: Callable[[], Any]) -> Any:
        """What `action()` returns; None where it raises a ValueError or an ArithmeticError, which is complained of."""
        try:
            result = action()
        except (ValueError, ArithmeticError) as error:
            self.complain(str(error))
            return None
        self.complain("")
        return result

    def complain(self, text: str) -> None:
        """Say what was wrong, or "" that nothing is; nothing else changes."""
        self.complaint.value = tag("div", text, css="dropper-words wrong", role="alert") if text else ""

    # what is saved

    def title(self) -> str:
        """What is shown: the lamp's name, where there is one, and the panel's."""
        panel = re.sub("(?<=[a-z])(?=[A-Z])", " ", type(self).__name__).lower()
        name = self.name()
        return f"{name}: {panel}" if name else panel

    def name(self) -> str:
        """The name of the lamp that is shown; "" where there is none."""
        return getattr(getattr(self.setting, "lamp", self.setting), "name", "")

    def controls(self) -> Iterable[widgets.Widget]:
        """The widgets that the setting comes from."""
        return ()

    def picture_file(self, kind: str) -> bytes:
        """The picture as it stands, with the values that it was drawn for, as a file.

        Parameters
        ----------
        kind
            "png", "svg" or "pdf".
        """
        scale = self.scale()
        with drawing_in(None):  # as it is drawn, whatever room it has on the page
            curves = self.curves.value and self.picture.overlay(self.view, scale, self.words)
            ghost = self.ghost.value and self.picture.ghost(self.compared()[-1], scale)
            layers = self.picture.backdrop(), ghost, curves
        values = [f"{control.description} {_set_to(control)}" for control in self.controls() if _set_to(control)]
        values += ["grey, dashed: kept before"] if ghost else []
        return save(layers, self.picture.PICTURE.size, self.title(), unbroken("; ".join(values)), self.words, kind)

    # what is shown

    def show(self, view: Any) -> None:
        """Show a view of the setting."""
        self.save_box.clear()
        self.view, self.words = view, self.picture.sentence(view)
        self.draw()
        self.complain("")
        self.write()

    def take_room(self, width: int, first: int | None) -> None:
        """Arrange the picture for the room that it has on its page, in pixels (see `Room`)."""
        if (width, first) == (self.room.width, self.room.first):
            return
        self.room.width, self.room.first = width, first
        with drawing_in(self.room):
            self.frame.value = self.picture.backdrop()
        if self.view is not None:
            self.draw()

    def compared(self) -> list[Any]:
        """The views that are drawn over each other."""
        return [self.view]

    def scale(self) -> Any:
        """The scale that the views are drawn with; it stays while it serves."""
        with self.room.keeping_scales():
            return self.picture.scales(*self.compared())

    def draw(self) -> None:
        """Draw all that moves, with the scale that holds it."""
        with drawing_in(self.room):
            self.draw_layers(self.scale())

    def draw_layers(self, scale: Any) -> None:
        """Draw the view's curves.

        Parameters
        ----------
        scale
            From `scale`.
        """
        self.curves.value = self.picture.overlay(self.view, scale, self.words)

    def write(self) -> None:
        """Write what is to be read beside the curves."""
        self.sentence.value = self.sentence_html()

    def sentence_html(self) -> str:
        """The words as HTML."""
        return tag("div", unbroken(self.words), css="dropper-words said", role="status")


def _set_to(control):
    """What a widget is set to, as it is read there; "" for nothing."""
    if isinstance(control, widgets.Checkbox):
        return "yes" if control.value else "no"
    if hasattr(control, "options"):
        option = control.options[control.index] if control.index is not None else ""
        return str(option[0] if isinstance(option, tuple) else option)
    return str(control.value)
