"""Lamp life: the log of one lamp, with its readings, and the picture of its board. All of it stays on this machine."""

import base64
import datetime
from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...bench import own_lamp
from ...bench.own_lamp import KINDS
from ...circuit.fields import spec_of
from ...circuit.html import table, tag
from ...circuit.lamp import Readings
from ...circuit.values import show, unbroken
from .markup import Html
from .sliders import button
from .typed_value import typed_value

_LABEL = {"description_width": "150px"}
# What is typed of a reading: its field, its name and its example.
_READ = (
    ("voltage", "mains volts", "230 V", "V"),
    ("current", "line current", "22 mA", "A"),
    ("power", "power", "1.3 W", "W"),
    ("power_factor", "power factor", "0.27", ""),
    ("bus_voltage", "bus voltage", "67 V", "V"),
)


class LampLife(widgets.VBox):
    """The log and the picture of the lamp that is open.

    Parameters
    ----------
    folder
        Where the learner's lamps are kept.
    say
        Called with what was wrong, and `wrong=True`; or with what was done.

    Attributes
    ----------
    date, note : widgets.Text
    kind : widgets.Dropdown
    readings : dict of str to widgets.Text
    upload : widgets.FileUpload
    lines, picture : Html
    """

    def __init__(self, folder: Path, say: Callable[..., None]):
        self._folder, self._tell, self._path, self._name = folder, say, None, ""
        self.date = widgets.Text(value=datetime.date.today().isoformat(), description="Date", style=_LABEL)
        self.kind = widgets.Dropdown(options=KINDS, value="measured", description="What", style=_LABEL)
        self.note = widgets.Text(description="Note", placeholder="cold, after ten minutes …", style=_LABEL)
        self.readings = {
            key: widgets.Text(description=name, placeholder=example, style=_LABEL) for key, name, example, _ in _READ
        }
        self.upload = widgets.FileUpload(
            accept=".png,.jpg,.jpeg", description="Picture of its board", layout=widgets.Layout(width="auto")
        )
        self.upload.observe(self._take_picture, "value")
        self.lines, self.picture = Html(), Html()
        add = button("Add to the log", "Keeps this with its date, beside the lamp", self.add_typed)
        super().__init__()
        self._parts = [
            self.lines,
            widgets.HBox([self.date, self.kind]),
            widgets.HBox(list(self.readings.values())),
            self.note,
            widgets.HBox([add, self.upload]),
            self.picture,
        ]
        self.layout.display = "none"

    def show(self, path: Path | None, name: str) -> None:
        """Show the life of a lamp; nothing where no saved lamp is open."""
        self._path, self._name = path, name
        self.layout.display = "none" if path is None else ""
        self.children = [] if path is None else self._parts
        if path is not None:
            self._write()

    def add(self, kind: str, text: str, readings: Readings | None = None, date: str | None = None) -> bool:
        """Add a line to the log; whether it could be written."""
        try:
            own_lamp.log_entry(self._name, kind, text, readings, date, self._folder)
        except ValueError as error:
            self._tell(str(error), wrong=True)
            return False
        self._write()
        return True

    def add_typed(self) -> None:
        """Add what was typed; it stays in the fields where it will not do."""
        try:
            read = {
                key: typed_value(name, self.readings[key].value, unit, spec_of(Readings.__dataclass_fields__[key]))
                for key, name, _, unit in _READ
                if self.readings[key].value.strip()
            }
            readings = Readings(**read)
        except ValueError as error:
            self._tell(str(error), wrong=True)
            return
        if self.add(self.kind.value, self.note.value.strip(), readings, self.date.value.strip()):
            self._tell(f"Added to the log of {self._name}.")
            for field in (self.note, *self.readings.values()):
                field.value = ""

    def _write(self):
        log = own_lamp.read_log(self._name, self._folder)
        rows = [(entry.date, entry.kind, _read(entry.readings), entry.text) for entry in log.entries]
        heading = f"Log of {self._name}" if rows else f"Log of {self._name}: nothing yet"
        found = table(heading, ("date", "what", "readings", "note"), rows) if rows else tag("b", heading)
        damage = tag("div", log.damage, css="dropper-words wrong", role="alert") if log.damage else ""
        self.lines.value = tag("div", damage, found, css="dropper-words dropper-log")
        self._show_picture()

    def _take_picture(self, change):
        if change.new:
            try:
                own_lamp.keep_picture(self._path, change.new[0]["content"])
            except (ValueError, OSError) as error:
                self._tell(str(error), wrong=True)
            else:
                self._tell("The picture lies beside the lamp's file. It stays on this machine.")
            self.upload.value = ()
            self._show_picture()

    def _show_picture(self):
        picture = own_lamp.picture_of(self._path)
        if picture is None:
            self.picture.value = ""
            return
        kind = "png" if picture.suffix == ".png" else "jpeg"
        data = base64.b64encode(picture.read_bytes()).decode()
        self.picture.value = tag(
            "img", alt=f"Board of {self._name}", src=f"data:image/{kind};base64,{data}", css="dropper-board-picture"
        )


def _read(readings):
    """Readings in a line."""
    units = {"apparent_power": "VA"} | {key: unit for key, _, _, unit in _READ}
    found = [(getattr(readings, key), unit) for key, unit in units.items()]
    return unbroken(
        ", ".join(show(value, unit) if unit else f"{value:g}" for value, unit in found if value is not None)
    )
