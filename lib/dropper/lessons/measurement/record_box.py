"""Record box: a recording of the learner's own: its file or text, which column is what, what the probes divide by."""

import os
from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from ...bench import table, waveform
from ...bench.waveform.channel import Channel
from ...bench.waveform.recording import Recording
from ...circuit.excerpt import excerpt, label
from ...circuit.html import tag
from ...circuit.parsing import parse
from ...circuit.values import show
from ..kit import sliders
from .record_fields import box, checked, name_of, seconds, share

LARGEST = 20_000_000  # bytes that go through the page; longer files are opened by their path
ENDINGS = (".csv", ".txt", ".tsv")  # of tables
FACTORS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0)
NOT = "not recorded"
_LABEL = "112px"


class RecordBox(widgets.VBox):
    """A CSV file by its path, from the learner's disk or pasted, and fields for what its columns are.

    What the columns of a file are is remembered for as long as the page is open. What was typed and chosen stays.

    Parameters
    ----------
    folder
        Where a path that leads nowhere else begins.
    channels
        What the columns of the file at `path` are.
    then
        Called with a recording.
    complain
        Called with what was wrong, where reading or measuring raises a ValueError.

    Attributes
    ----------
    fields : widgets.VBox
        All of the following, hidden until they are asked for.
    shown_file : Html
        Which recording is on the panel.
    fold_button : widgets.Button
    path, interval, in_step : widgets.Text
    upload : widgets.FileUpload
    pasted_text : widgets.Textarea
    time_column : widgets.Dropdown
    rows : dict of str to dict of str to widget
        By channel: `column`, `factor`, `accuracy`, `inverted`, and of the current `shunt` and `volts_per_ampere`.
    """

    def __init__(self, folder: Path, path: Path, channels: dict[str, Channel], then: Callable, complain: Callable):
        self._folder, self._then, self._complain, self._table = Path(folder), then, complain, None
        self._channels_of, self._open_path = {}, None
        self.path = box(widgets.Text, "CSV file", "390px", _LABEL, value=str(path))
        open_file = sliders.button("Open", "Reads the file at this path", self.take_file)
        self.upload = widgets.FileUpload(
            accept=",".join(ENDINGS), multiple=False, description="From my disk", layout=widgets.Layout(width="auto")
        )
        self.upload.observe(self._take_upload, "value")
        self.pasted_text = widgets.Textarea(
            description="or pasted",
            placeholder="the table, headings and all",
            style={"description_width": "66px"},
            layout=widgets.Layout(width="330px", height="34px"),
        )
        self.pasted_text.add_class("dropper-paste")
        paste = sliders.button("Use the pasted", "Reads the pasted table", self.take_pasted)
        self.time_column = box(widgets.Dropdown, "time", "270px", _LABEL, options=[NOT])
        self.interval = box(widgets.Text, "or seconds between samples", "290px", placeholder="25 µs")
        self.in_step = box(widgets.Text, "in step within", "236px", placeholder="half a sample")
        self.rows = {name: self._row(name) for name in waveform.NAMES}
        measure = sliders.button("Measure", "Measures with these columns and factors", self.use)
        top = widgets.HBox([self.path, open_file, self.upload, self.pasted_text, paste])
        rows = [widgets.HBox(list(row.values())) for row in self.rows.values()]
        self.fields = widgets.VBox([top, widgets.HBox([self.time_column, self.interval, self.in_step, measure]), *rows])
        self.shown_file = sliders.words()
        self.fold_button = sliders.button("", "Shows or hides the fields for a recording's file and columns", self.fold)
        super().__init__([widgets.HBox([self.shown_file, self.fold_button]), self.fields])
        self.add_class("dropper-record")
        self._start(channels)
        self.fold()

    def fold(self) -> None:
        """Hide the fields, so that one line is left; or show them again."""
        hidden = self.fields.layout.display != "none"
        self.fields.layout.display = "none" if hidden else ""
        self.fold_button.description = "A recording of your own" if hidden else "Hide the fields"

    def _row(self, name):
        words = waveform.NAMES[name]
        row = {
            "column": box(widgets.Dropdown, words, "270px", _LABEL, options=[NOT]),
            "factor": box(
                widgets.Dropdown, "probe", "130px", options=[(f"× {factor:g}", factor) for factor in FACTORS], value=1.0
            ),
            "accuracy": box(widgets.Text, "limit of error", "165px", value="3 %"),
            "inverted": widgets.Checkbox(
                description="turned round", indent=False, layout=widgets.Layout(width="126px")
            ),
        }
        if name == "line_current":
            row["shunt"] = box(widgets.Text, "across", "130px", placeholder="10 Ω")
            row["volts_per_ampere"] = box(widgets.Text, "or V/A of a probe", "190px", placeholder="0.1")
        return row

    def _start(self, channels):
        """Show the file that the panel begins with, and what its columns are."""
        self._list(table.read(self._csv_path()), channels)
        self._channels_of[name_of(self._table)] = channels
        self._open_path = self.path.value
        self._name(Path(self.path.value).name)

    def _name(self, source):
        self.shown_file.value = tag("div", f"Recording: {label(source)}", css="dropper-words")

    def _csv_path(self):
        path = Path(self.path.value.strip())
        return path if path.is_absolute() or os.path.exists(path) else self._folder / path

    def take_file(self) -> None:
        """Read the file at the path."""
        self._try(lambda: self._read(self._table_path()))

    def _table_path(self):
        """The path, if a table may be there; what other files hold is nobody's business here."""
        path = self._csv_path()
        if path.suffix.lower() not in ENDINGS:
            raise ValueError(f"CSV file: {excerpt(self.path.value)} does not end in {', '.join(ENDINGS)}")
        return path

    def take_pasted(self) -> None:
        """Read the pasted text."""
        self._try(lambda: self._read(f"{self.pasted_text.value}\n"))

    def use(self) -> None:
        """Measure with the columns and factors as they are chosen."""
        self._try(self._measure)

    def _take_upload(self, change):
        if change.new:
            file = change.new[0]
            self.upload.value = ()
            if len(file["content"]) > LARGEST:
                self._complain(
                    f"{label(file['name'])}: longer than {LARGEST // 10**6} MB; copy it beside the notebook and open it"
                    " by its path."
                )
            else:
                self._try(lambda: self._read(bytes(file["content"]), file["name"]))

    def _try(self, act):
        try:
            act()
        except ValueError as error:  # a TableError is one
            self._complain(str(error))

    def _read(self, source, name=None):
        source_table = table.read(source, name=name)
        guess = {
            key: waveform.Channel(column)
            for key, column in waveform.guess_columns(source_table).items()
            if key != "time"
        }
        if name_of(source_table) != name_of(self._table):
            self._list(source_table, self._channels_of.get(name_of(source_table), guess))
        self._table = source_table
        self._open_path = self.path.value if isinstance(source, Path) else None
        self._measure()

    def _list(self, source_table, channels):
        """Offer a table's columns, and choose among them."""
        self._table = source_table
        columns = [NOT, *source_table.columns]
        self.time_column.options = columns
        self.time_column.value = waveform.guess_columns(source_table).get("time", NOT)
        for name, row in self.rows.items():
            row["column"].options = columns
            channel = channels.get(name)
            row["column"].value = channel.column if channel else NOT
            if channel is None:
                continue
            row["factor"].value = channel.factor if channel.factor in FACTORS else 1.0
            row["accuracy"].value = f"{100 * channel.accuracy:g} %"
            row["inverted"].value = channel.inverted
            if "shunt" in row:
                row["shunt"].value = show(channel.shunt, "Ω") if channel.shunt else ""
                row["volts_per_ampere"].value = f"{channel.volts_per_ampere:g}" if channel.volts_per_ampere else ""

    def channel(self, name: str) -> Channel | None:
        """What was chosen for a channel, None where it was not recorded.

        Parameters
        ----------
        name
            One of `waveform.NAMES`.

        Raises
        ------
        ValueError
            For a field that cannot be read.
        """
        row = self.rows[name]
        if row["column"].value == NOT:
            return None
        words = waveform.NAMES[name]
        shunt, probe = (row[key].value.strip() if key in row else "" for key in ("shunt", "volts_per_ampere"))
        return waveform.Channel(
            row["column"].value,
            factor=row["factor"].value,
            shunt=checked("shunt", parse(shunt, "Ω", f"{words}, across"), f"{words}, across") if shunt else None,
            volts_per_ampere=checked("volts_per_ampere", parse(probe, "", f"{words}, V/A"), f"{words}, V/A")
            if probe
            else None,
            inverted=row["inverted"].value,
            accuracy=share(row["accuracy"].value, f"{words}, limit of error"),
        )

    def recording(self) -> Recording | None:
        """The recording as it is chosen; ValueError where it cannot be had."""
        interval = self.interval.value.strip()
        if bool(interval) == (self.time_column.value != NOT):
            raise ValueError("time: either its column, or the seconds between samples; one of the two, not both")
        time = seconds(interval, "seconds between samples") if interval else self.time_column.value
        in_step = self.in_step.value.strip()
        return waveform.load(
            self._table,
            time=time,
            in_step=seconds(in_step, "in step within") if in_step else None,
            **{name: self.channel(name) for name in self.rows},
        )

    def _measure(self):
        recording = self.recording()
        self._then(recording)
        self._channels_of[name_of(self._table)] = recording.channels
        self.path.value = self._open_path or ""
        self.path.placeholder = recording.source
        self._name(Path(recording.source).name)
